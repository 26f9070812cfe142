"""The check against a publication: the published range as a band, the model's numbers on it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from threeview.evidence import show_number
from threeview.figures.figure import Figure, Table
from threeview.figures.lettering import width
from threeview.figures.svg import diamond, document, line, rectangle, text

if TYPE_CHECKING:
    from threeview.computed.figure_data.publication import (
        Check,
        ModelAgainstPublication,
        Start,
    )

__all__ = ["model_against_publication", "verdict"]

_WIDTH = 336
_LEFT = 56  # px: start temperatures
_VERDICT = 88  # px: verdicts
_LANE = 24
_BLOCK = 104  # px from one title to the next
_FEW = 2  # labels beside marks; more would not stand apart


@dataclass(frozen=True)
class _Scale:
    """A scale from zero to the largest number of a check, which lies at x = `right`."""

    most: float
    right: float

    def __call__(self, value: float) -> float:
        return _LEFT + value / self.most * (self.right - _LEFT)


def model_against_publication(data: ModelAgainstPublication) -> Figure:
    """Draw every published effect as a band with the model's numbers, disagreements first."""
    blocks = [_block(check, 10 + _BLOCK * index) for index, check in enumerate(data.checks)]
    height = 10 + _BLOCK * len(blocks)
    sentence = "What the model computes against published ranges. " + " ".join(
        f"{check.words}, published {check.published.shown}: {_both(check)}."
        for check in data.checks
    )
    basis = ", ".join(dict.fromkeys(check.published.basis_words for check in data.checks))
    return Figure(
        svg=document(_WIDTH, height, sentence, "".join(blocks)),
        sentence=sentence,
        table=_table(data),
        key=(
            ("m-band", f"range in the source: {basis}"),
            ("m-computed", f"computed in {data.medium}, edge at {data.edge}"),
        ),
        foot=(
            "The source does not state its start temperature: both are shown.",
            "Nothing was tuned to fit.",
        ),
    )


def verdict(start: Start) -> str:
    """Return in words how the numbers from one start temperature lie to the published range."""
    if not start.outside:
        return "inside"
    sides = {point.verdict for point in start.outside}
    if len(start.outside) == len(start.points) and len(sides) == 1:
        return f"outside, {sides.pop()}"
    named = ", ".join(f"{point.words} {point.verdict}" for point in start.outside)
    return f"outside: {named}; the rest inside"


def _both(check: Check) -> str:
    return ", ".join(f"from {s.temperature}\u00a0°C {verdict(s)}" for s in check.starts)


def _block(check: Check, top: float) -> str:
    names = [width(_names(start, "above")) for start in check.starts]
    scale = _Scale(max(_numbers(check)), _WIDTH - _VERDICT - 12 - max(names))
    low, high = check.published.low or 0.0, check.published.high or scale.most
    under = top + 26 + _LANE * len(check.starts)
    marks = [
        text("m-label", (6, top + 14), check.words),
        rectangle("m-band", scale(low), top + 24, scale(high), under),
        *(line("m-published", (scale(x), top + 24), (scale(x), under)) for x in (low, high)),
        line("m-axis", (scale(0), under), (_WIDTH - _VERDICT, under)),
        _ends(check, scale, under + 17),
    ]
    marks += [
        _lane(start, scale, top + 26 + _LANE * (index + 0.5))
        for index, start in enumerate(check.starts)
    ]
    return "".join(marks)


def _numbers(check: Check) -> list[float]:
    found = [float(point.value) for start in check.starts for point in start.points]
    return [*found, check.published.high or 0.0]


def _ends(check: Check, scale: _Scale, y: float) -> str:
    """Return the axis' numbers: zero and, in the middle under the band, the range itself."""
    middle = (scale(check.published.low or 0.0) + scale(check.published.high or scale.most)) / 2
    words = check.published.shown
    most = _WIDTH - _VERDICT - width(words) / 2
    shown = text("m-label light", (min(middle, most), y), words, "middle")
    return text("m-label light", (scale(0), y), "0", "middle") + shown


def _lane(start: Start, scale: _Scale, y: float) -> str:
    inside = len(start.points) - len(start.outside)
    words = "inside" if not start.outside else "outside"
    if start.outside and inside:
        words = f"{inside} of {len(start.points)} inside"
    marks = [
        text("m-label light", (6, y + 5), f"{start.temperature}\u00a0°C"),
        *(diamond((scale(float(point.value)), y)) for point in start.points),
        text("m-label", (_WIDTH - 6, y + 5), words, "end"),
    ]
    marks += [_named(start, side, scale, y) for side in ("below", "above")]
    return "".join(marks)


def _names(start: Start, side: str) -> str:
    """Return the names of the points outside on one side, or the number of a lone point.

    Nothing where all lie outside, as the verdict says it, or where many do: they have no room.
    """
    points = [point for point in start.outside if point.verdict == side]
    if len(start.points) == 1:
        return "".join(show_number(point.value) for point in points)
    if len(points) > _FEW or len(start.outside) == len(start.points):
        return ""
    return ", ".join(point.words for point in points)


def _named(start: Start, side: str, scale: _Scale, y: float) -> str:
    words = _names(start, side)
    xs = [scale(float(p.value)) for p in start.outside if p.verdict == side]
    if not words:
        return ""
    if side == "above":
        return text("m-label", (max(xs) + 9, y + 5), words)
    if min(xs) - 9 - width(words) < _LEFT:
        return ""  # no room before the first mark
    return text("m-label", (min(xs) - 9, y + 5), words, "end")


def _table(data: ModelAgainstPublication) -> Table:
    starts = [start.temperature for start in data.checks[0].starts]
    head = ("Effect", "Published", *(f"From {start}\u00a0°C" for start in starts))
    rows = tuple(
        (
            check.words + check.order,
            check.published.shown,
            *(_cell(start) for start in check.starts),
        )
        for check in data.checks
    )
    return Table("The published range and every computed number, disagreements first", head, rows)


def _cell(start: Start) -> str:
    """Return the verdict, then every number by gauge; tips of one gauge in the check's order."""
    groups = groupby(start.points, key=lambda point: point.words.split(", ")[0])
    parts = [
        f"{gauge}:\u00a0" + ", ".join(show_number(point.value) for point in points)
        for gauge, points in groups
    ]
    words = verdict(start)
    return f"{words[0].upper()}{words[1:]}. {'; '.join(parts)}."
