"""Progress: a pure function of (events, course, now), the twin of `core/progress.ts`.

The rules and their reasons are in `docs/scoring.md`; both languages run
`tests/vectors/progress.json`.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING, Literal

from threeview.quiz import Response, ScorableItem, Score, score
from threeview.record.event import Closed, Event, read_time

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from threeview.progress.outline import CourseOutline, ModuleOutline

__all__ = ["ModuleProgress", "ObjectiveProgress", "Progress", "reduce"]

State = Literal["not started", "reading", "in the quiz", "all items answered"]
AHEAD = timedelta(days=1)
"""How far a clock may run ahead before its events are set aside."""


class ObjectiveProgress(Closed):
    """What the latest answers say about one objective; points as in `threeview.quiz.Score`."""

    id: str
    answered: int
    earned: int
    possible: int
    weak: bool


class ModuleProgress(Closed):
    """What the log says about one module.

    Attributes:
        id: the module.
        sections_read: sections read at least once, in any edition.
        sections_total: sections it has.
        attempts: distinct attempts that answered at least one item.
        answered: items with an answer.
        items_total: items it asks today.
        right: items whose latest answer is right.
        earned: points of the latest answers.
        possible: points those answers could have earned.
        critical_missed: critical items whose latest answer is wrong, in the module's order.
        objectives: in the module's order.
        state: in words.
        last: time of the latest event, or None.
    """

    id: str
    sections_read: int
    sections_total: int
    attempts: int
    answered: int
    items_total: int
    right: int
    earned: int
    possible: int
    critical_missed: tuple[str, ...]
    objectives: tuple[ObjectiveProgress, ...]
    state: State
    last: str | None


class Progress(Closed):
    """What the log says about the course.

    Attributes:
        modules: in the course's order.
        ahead: events dated more than a day after now: a clock was wrong, so they do not count.
        unknown: answers and readings that name nothing of this course.
    """

    modules: tuple[ModuleProgress, ...]
    ahead: int
    unknown: int


@dataclass(frozen=True)
class _Result:
    """An item's latest answer, scored against the version it names."""

    item: ScorableItem
    score: Score

    @property
    def critical_miss(self) -> bool:
        return self.item.critical and not self.score.right


@dataclass(frozen=True)
class _ModuleEvents:
    """The events that name an item or a section of one module, in the order of the log."""

    items: dict[str, ScorableItem]
    answered: tuple[Event, ...]
    read: tuple[Event, ...]


def reduce(events: Iterable[Event], course: CourseOutline, now: str) -> Progress:
    """Reduce a log to what it says about each module.

    Args:
        events: in any order.
        course: what is asked today, and how old versions of items are scored.
        now: the moment in UTC, written as events write it (2026-11-25T10:00:00Z).

    Raises:
        ValueError: `now` is not written so.
    """
    limit = read_time(now) + AHEAD
    in_order = sorted(events, key=lambda event: (event.time, event.id))
    counted = [event for event in in_order if read_time(event.time) <= limit]
    mine = [event for event in counted if event.course == course.id]
    taken = [_take_events(mine, module) for module in course.modules]
    used = sum(len(part.answered) + len(part.read) for part in taken)
    return Progress(
        modules=tuple(
            _reduce_module(module, part, course.weak_below_percent)
            for module, part in zip(course.modules, taken, strict=True)
        ),
        ahead=len(in_order) - len(counted),
        unknown=sum(event.kind in {"answered", "read"} for event in counted) - used,
    )


def _take_events(events: Sequence[Event], module: ModuleOutline) -> _ModuleEvents:
    items = {item.versioned: item for item in (*module.items, *module.retired)}
    sections = {f"{module.id}/{section}" for section in module.sections}
    return _ModuleEvents(
        items=items,
        answered=tuple(e for e in events if e.kind == "answered" and e.subject in items),
        read=tuple(e for e in events if e.kind == "read" and e.bare_subject in sections),
    )


def _reduce_module(module: ModuleOutline, events: _ModuleEvents, weak_below: int) -> ModuleProgress:
    results = _latest_results(module, events)
    sections_read = len({event.bare_subject for event in events.read})
    earned, possible = _points(results)
    return ModuleProgress(
        id=module.id,
        sections_read=sections_read,
        sections_total=len(module.sections),
        attempts=len({event.payload["attempt"] for event in events.answered}),
        answered=len(results),
        items_total=len(module.items),
        right=sum(result.score.right for result in results),
        earned=earned,
        possible=possible,
        critical_missed=tuple(result.item.id for result in results if result.critical_miss),
        objectives=tuple(
            _reduce_objective(objective.id, results, weak_below) for objective in module.objectives
        ),
        state=_state(sections_read, len(results), len(module.items)),
        last=max((event.time for event in (*events.answered, *events.read)), default=None),
    )


def _latest_results(module: ModuleOutline, events: _ModuleEvents) -> tuple[_Result, ...]:
    """Return the latest answer of each item that the module still asks, in its order."""
    # Events come in order, so a later answer takes the place of an earlier one.
    latest = {event.bare_subject: event for event in events.answered}
    return tuple(
        _score_event(events.items, latest[item.id]) for item in module.items if item.id in latest
    )


def _score_event(items: dict[str, ScorableItem], event: Event) -> _Result:
    item = items[event.subject]
    response = Response.model_validate(event.payload["response"])
    return _Result(item, score(item, response))


def _reduce_objective(
    objective: str, results: Sequence[_Result], weak_below: int
) -> ObjectiveProgress:
    own = [result for result in results if result.item.objective == objective]
    earned, possible = _points(own)
    missed = any(result.critical_miss for result in own)
    return ObjectiveProgress(
        id=objective,
        answered=len(own),
        earned=earned,
        possible=possible,
        weak=earned * 100 < weak_below * possible or missed,
    )


def _points(results: Sequence[_Result]) -> tuple[int, int]:
    earned = sum(result.score.earned for result in results)
    return earned, sum(result.score.possible for result in results)


def _state(sections_read: int, answered: int, items_total: int) -> State:
    if answered:
        return "all items answered" if answered == items_total else "in the quiz"
    return "reading" if sections_read else "not started"
