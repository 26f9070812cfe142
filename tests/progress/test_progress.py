"""Properties of progress, and its agreement with the browser's."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.record.draw import logs
from tests.vectors.browser_core import ask_browser_core
from tests.vectors.load import load_vectors

from threeview.progress import CourseOutline, Progress, reduce
from threeview.record import Event, merge

if TYPE_CHECKING:
    from random import Random

COURSE_JSON = load_vectors("progress")[0].case["course"]
COURSE = CourseOutline.model_validate(COURSE_JSON)
ITEMS = ("heat/one@1", "heat/two@1", "heat/three@1", "heat/four@1", "views/one@1", "views/one@2")
NOW = "2026-11-25T12:00:00Z"
BATCH = 200


def read_log(log: list[dict[str, Any]]) -> tuple[Event, ...]:
    """Return the events of a drawn log."""
    return tuple(Event.model_validate(event) for event in log)


def likely_logs() -> st.SearchStrategy[list[dict[str, Any]]]:
    """Draw logs whose answers are often right."""
    choice = st.sampled_from([["a"], ["b"], ["a", "b"], ["c"], []])

    def answer(pair: tuple[list[dict[str, Any]], list[list[str]]]) -> list[dict[str, Any]]:
        log, choices = pair
        for event, picks in zip(log, choices, strict=False):
            if event["kind"] == "answered":
                event["payload"]["response"] = {"choice": picks}
        return log

    return st.tuples(logs(ITEMS), st.lists(choice, min_size=8, max_size=8)).map(answer)


@given(likely_logs(), st.randoms(use_true_random=False))
def test_order_in_which_events_arrive_does_not_matter(
    log: list[dict[str, Any]], chance: Random
) -> None:
    """Progress depends on the set of events, not on the order of the list."""
    shuffled = list(log)
    chance.shuffle(shuffled)
    assert reduce(read_log(log), COURSE, NOW) == reduce(read_log(shuffled), COURSE, NOW)


@given(likely_logs(), st.integers(0, 8))
def test_two_devices_joined_are_one_device(log: list[dict[str, Any]], cut: int) -> None:
    """Progress of two halves joined is that of the whole."""
    events = read_log(log)
    joined = merge(events[:cut], events[cut // 2 :]).events
    assert reduce(joined, COURSE, NOW) == reduce(events, COURSE, NOW)


@given(likely_logs())
def test_counts_agree_with_each_other(log: list[dict[str, Any]]) -> None:
    """Points, items and objectives of a module add up."""
    result: Progress = reduce(read_log(log), COURSE, NOW)
    for module in result.modules:
        assert module.right <= module.answered <= module.items_total
        assert module.possible == 12 * module.answered
        assert module.earned == sum(objective.earned for objective in module.objectives)
        assert module.answered == sum(objective.answered for objective in module.objectives)
        assert len(module.critical_missed) <= module.answered - module.right


def test_now_must_be_a_moment() -> None:
    """A date without a time is no moment to judge by."""
    with pytest.raises(ValueError, match="does not match"):
        reduce((), COURSE, "2026-11-25")


def test_python_and_browser_reduce_alike() -> None:
    """Any log says the same in both languages."""
    drawn: list[list[dict[str, Any]]] = []

    @settings(max_examples=BATCH, database=None)
    @given(likely_logs())
    def collect(log: list[dict[str, Any]]) -> None:
        drawn.append(log)

    collect()
    answers = ask_browser_core("reduce", [[log, COURSE_JSON, NOW] for log in drawn])
    for log, there in zip(drawn, answers, strict=True):
        assert there == reduce(read_log(log), COURSE, NOW).model_dump(mode="json"), log
