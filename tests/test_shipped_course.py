"""The course that ships: checked, complete, and honest about where the model disagrees."""

from __future__ import annotations

import math
from collections import Counter
from pathlib import Path

import pytest

from threeview.computed import Answers, Cache
from threeview.course import CheckReport, Course, check_course, load_course
from threeview.pages.reading import words_in

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def course() -> Course:
    """Return the shipped course."""
    return load_course(ROOT)


@pytest.fixture(scope="module")
def report(course: Course) -> CheckReport:
    """Return its check, with the cache that a build uses."""
    return check_course(course, Answers(course.bench, Cache(ROOT / "build" / "cache")))


def test_check_finds_no_problem(report: CheckReport) -> None:
    """`threeview check` on the shipped course is clean."""
    assert [str(problem) for problem in report.problems] == []


def test_each_module_is_complete(course: Course) -> None:
    """Objectives, 800 words or more, key values, a computed figure, a caution, 8 items or more."""
    for module in course.modules:
        assert len(module.objectives) >= 3, module.id
        assert sum(words_in(s.text) for s in module.sections) >= 800, module.id
        assert len(module.key_values) >= 3, module.id
        assert module.figures, module.id
        assert module.cautions, module.id
        assert len(course.banks[module.id]) >= 8, module.id


def test_each_bank_mixes_kinds(course: Course) -> None:
    """All three item types occur, critical items too, and few ask for recall."""
    items = [item for _, item in course.items()]
    assert {item.type for item in items} == {"single", "multiple", "numeric"}
    assert sum(item.critical for item in items) >= 3
    recall = sum(item.level == "recall" for item in items)
    assert recall <= len(items) / 3


def test_keys_give_nothing_away(course: Course) -> None:
    """Keyed options are neither the longest nor in one place more often than chance allows.

    The bound is the 99 % point of a binomial with the options' share, from the normal approximation
    with continuity correction.
    """
    singles = [item for _, item in course.items() if item.type == "single"]
    share = sum(1 / len(item.options) for item in singles) / len(singles)
    spread = math.sqrt(len(singles) * share * (1 - share))
    bound = len(singles) * share + 2.33 * spread + 0.5
    longest = sum(
        max(item.options, key=lambda option: len(option.text)).id == item.key[0] for item in singles
    )
    assert longest <= bound, f"the key is longest in {longest} of {len(singles)} (at most {bound})"
    places = Counter(item.key[0] for item in singles)
    assert max(places.values()) <= bound, places


def test_no_sentence_is_told_twice(course: Course) -> None:
    """No sentence of eight words or more stands in two places of the modules' prose."""
    seen: Counter[str] = Counter()
    for _, _, section in course.sections():
        for sentence in section.text.replace("\n", " ").split(". "):
            if len(sentence.split()) >= 8:
                seen[sentence.strip()] += 1
    assert [sentence for sentence, count in seen.items() if count > 1] == []


def test_memory_never_decides_a_critical_item(course: Course, report: CheckReport) -> None:
    """Values from memory or common practice stand under no critical key."""
    critical = {f"{bank}/{item.id}" for bank, item in course.items() if item.critical}
    for value in course.ledger.values.values():
        if value.basis != "published":
            assert not critical & set(report.used[value.id]), value.id


def test_every_module_names_who_decides(course: Course) -> None:
    """Local policy and licensed practice stand on each module's page."""
    for module in course.modules:
        text = " ".join(section.text.lower() for section in module.sections)
        assert "local policy" in text, module.id
