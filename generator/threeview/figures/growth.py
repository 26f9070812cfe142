"""Width and reach of a lesion against time, at several set temperatures."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from threeview.figures.figure import Figure, Table
from threeview.figures.lines import HEIGHT, Axis, Panel, Series, explore_panel, panel_marks
from threeview.figures.numbers import rounded, size
from threeview.figures.svg import document

if TYPE_CHECKING:
    from threeview.computed.figure_data.growth import Course, Growth

__all__ = ["growth"]

_WIDTH = 336
_GAP = 12
_STEP = 30  # s between the times of axis and table, doubled while there would be too many
_MOST_TIMES = 6


def growth(data: Growth) -> Figure:
    """Draw two panels, width above reach, with a curve for each set temperature."""
    times = _times(data.courses[0].times)
    panels = (
        _panel(f"Width at {data.edge}, mm", "width, mm", [c.widths for c in data.courses], data),
        _panel("Reach beyond the tip, mm", "reach, mm", [c.distals for c in data.courses], data),
    )
    drawn = [panel_marks(p, 8 + index * (HEIGHT + _GAP))[0] for index, p in enumerate(panels)]
    sentence = _sentence(data)
    return Figure(
        svg=document(_WIDTH, 8 + 2 * HEIGHT + _GAP, sentence, "".join(drawn)),
        sentence=sentence,
        table=_table(data, times),
        foot=(data.electrode, data.surroundings),
        explore={"kind": "lines", "panels": [explore_panel(p) for p in panels]},
    )


def _times(times: tuple[float, ...]) -> tuple[float, ...]:
    """Return the times for axis and table: round ones, and the last."""
    step = _STEP
    while times[-1] / step > _MOST_TIMES:
        step *= 2
    return tuple(t for t in times if t and (t % step == 0 or t == times[-1]))


def _panel(title: str, words: str, sizes: list[tuple[float, ...]], data: Growth) -> Panel:
    last = data.courses[0].times[-1]
    lowest, highest = min(map(min, sizes)), max(map(max, sizes))
    step = next(s for s in (0.5, 1, 2, 5, 10, 20) if highest / s <= _MOST_TIMES)
    low = step * math.floor(min(lowest, 0) / step)
    high = max(step * math.ceil(highest / step), low + step)
    ticks = tuple(low + step * k for k in range(round((high - low) / step) + 1))
    series = tuple(
        Series((course.words,), course.times, numbers, index)
        for index, (course, numbers) in enumerate(zip(data.courses, sizes, strict=True))
    )
    x = Axis("time from set temperature, s", 0, last, (0, *_times(data.courses[0].times)))
    return Panel(title, x, Axis(words, low, high, ticks), series)


def _sentence(data: Growth) -> str:
    parts = [
        f"set to {course.words}, {size(course.widths[0])} wide when the sensor gets there and "
        f"{size(course.widths[-1])} after {rounded(course.times[-1], 0)}\u00a0s"
        for course in data.courses
    ]
    return (
        f"Growth of a computed lesion at the {data.edge} boundary, {data.electrode}, "
        f"{data.surroundings}: {'; '.join(parts)}."
    )


def _table(data: Growth, times: tuple[float, ...]) -> Table:
    head = ("Set, mm", *(f"{rounded(t, 0)}\u00a0s" for t in times))
    rows = [
        (f"{course.words}, {name}", *_cells(course, numbers, times))
        for name in ("width", "reach")
        for course in data.courses
        for numbers in (course.widths if name == "width" else course.distals,)
    ]
    return Table(f"Width and reach beyond the tip at {data.edge}", head, tuple(rows))


def _cells(course: Course, numbers: tuple[float, ...], times: tuple[float, ...]) -> tuple[str, ...]:
    by_time = dict(zip(course.times, numbers, strict=True))
    return tuple(rounded(by_time[time]) for time in times)
