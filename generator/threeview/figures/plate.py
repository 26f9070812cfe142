"""What stands around a lesion on its plate: temperatures, names, scale bar, dimensions."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from threeview.figures.lettering import spread
from threeview.figures.numbers import size
from threeview.figures.svg import circle, line, path, text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from threeview.computed.figure_data.cross_section import Boundary, Section
    from threeview.computed.figure_data.published import Published
    from threeview.figures.needle import Plane

__all__ = [
    "Dimension",
    "Temperature",
    "dimension_marks",
    "dimensions",
    "leader",
    "point_at",
    "scale_bar",
    "temperature_labels",
]

Point = tuple[float, float]

_STEP = 30  # px between labels of temperatures
_BELOW = 14  # px from the middle of a label down to the dot of its leader
_BASELINE = 5  # px from the middle of a label down to its baseline
_BAR_MM = 5
_SHOULDER = 0.2  # of the height of a boundary
_ROW = 36  # px for each dimension


@dataclass(frozen=True)
class Temperature:
    """A label in the margin and the point of the isotherm it names."""

    boundary: Boundary
    middle: float
    dot: Point


@dataclass(frozen=True)
class Dimension:
    """A line below the body: how wide something is.

    Attributes:
        css: class of the line.
        words: above it.
        width: mm.
        inner: lower end of a range, mm; equal to `width` for a single number.
        dashed: whether it measures the outermost isotherm.
    """

    css: str
    words: str
    width: float
    inner: float
    dashed: bool = False


def point_at(plane: Plane, boundary: Boundary, y: float, side: int) -> Point:
    """Return where a boundary passes the height `y` px on one side, else its nearest point.

    Heights above the shoulder are lowered to it, where a leader does not run along the curve.
    """
    points = [plane.at(side * r, z) for r, z in boundary.curve]
    top, bottom = (f(y for _, y in points) for f in (min, max))
    y = max(y, top + _SHOULDER * (bottom - top))
    passes = [
        a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
        for a, b in pairwise(points)
        if (a[1] > y) != (b[1] > y)
    ]
    if passes:
        return max(passes, key=lambda x: side * x), y
    return min(points, key=lambda p: (abs(p[1] - y), -side * p[0]))


def temperature_labels(section: Section, plane: Plane) -> list[Temperature]:
    """Return the isotherms that were reached, coolest first, each with a place for its label."""
    reached = [b for b in section.boundaries if b.curve and b.key.isdigit()]
    middle = plane.at(0, section.needle.tip / 2)[1]
    wanted = [middle + _STEP * (k - (len(reached) - 1) / 2) for k in range(len(reached))]
    return [
        Temperature(boundary, at, point_at(plane, boundary, at + _BELOW, -1))
        for boundary, at in zip(reached, spread(wanted, _STEP, 60, 1e4), strict=True)
    ]


def leader(start: Point, dot: Point) -> str:
    """Return a thin line from a label to a dot on what it names."""
    return line("m-leader", start, dot) + circle("m-leader", dot, 2)


def scale_bar(right: float, plane: Plane) -> str:
    """Return a 5 mm bar that ends at x = `right`, with its length under it."""
    left = right - _BAR_MM * plane.scale
    words = text("m-label", (right, 34), f"{_BAR_MM}\u00a0mm", "end")
    return line("m-scale", (left, 14), (right, 14)) + words


def dimensions(section: Section, beside: Sequence[Published] = ()) -> list[Dimension]:
    """Return the widths to draw: the lesion's edge, the outermost isotherm, what was measured."""
    edge, outermost = section.edge, section.boundaries[0]
    found = [
        Dimension("m-dim", f"{size(b.width)} at {b.words}", b.width, b.width, dashed=b is not edge)
        for b in dict.fromkeys((edge, outermost))
        if b.curve
    ]
    for value in beside:
        ends = [end for end in (value.low, value.high) if end is not None]
        found.append(
            Dimension("m-published", f"{value.shown}, {value.basis}", max(ends), min(ends))
        )
    return found


def dimension_marks(rows: Sequence[Dimension], plane: Plane, top: float) -> tuple[str, float]:
    """Return the dimensions below y = `top`, and the y where they end."""
    marks = []
    for index, row in enumerate(rows):
        y = top + _ROW * (index + 1)
        marks.append(_dimension(row, plane, y))
        marks.append(text("m-label", (plane.axis, y - 10), row.words, "middle"))
    return "".join(marks), top + _ROW * len(rows)


def _dimension(row: Dimension, plane: Plane, y: float) -> str:
    left, right = (plane.axis + side * row.width / 2 * plane.scale for side in (-1, 1))
    css = f"{row.css} outer" if row.dashed else row.css
    body = line(css, (left, y), (right, y))
    ticks = f"M{left:.1f} {y - 5:.1f}v10M{right:.1f} {y - 5:.1f}v10"
    if row.inner < row.width:
        a, b = (plane.axis + side * row.inner / 2 * plane.scale for side in (-1, 1))
        ticks += f"M{a:.1f} {y - 3:.1f}v6M{b:.1f} {y - 3:.1f}v6"
    return body + path(row.css, ticks)
