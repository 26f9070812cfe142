"""Two lesions beside each other, on one scale, with their tips at one height."""

from __future__ import annotations

from typing import TYPE_CHECKING

from threeview.figures.cross_section import (
    HEAD,
    WIDTH,
    boundary_rows,
    explore,
    highest,
    key,
    lowest,
    not_reached,
    size_sentence,
    widest,
)
from threeview.figures.figure import Figure, Table
from threeview.figures.lettering import spread, width
from threeview.figures.needle import Plane, boundary_marks, grid, needle_marks, shade
from threeview.figures.plate import dimension_marks, dimensions, leader, point_at, scale_bar
from threeview.figures.svg import document, text

if TYPE_CHECKING:
    from threeview.computed.figure_data.cross_section import Boundary, Pair, Section

__all__ = ["pair"]

_SIDE = 8  # px beside each body
_COLUMN = 64  # px between the bodies: temperatures and the scale bar
_TALLEST = 400
_MOST_SCALE = 20
_SHAFT_MM = 1.2
_TOP = 48  # px: letters and scale bar
_STEP = 30
_BELOW = 12


def pair(data: Pair) -> Figure:
    """Draw two lesions; the temperatures between them point to both."""
    sections = (data.left, data.right)
    planes = _planes(sections)
    bottom = planes[0].at(0, min(map(lowest, sections)))[1]
    ends = [
        dimension_marks(dimensions(s), p, bottom + 4) for s, p in zip(sections, planes, strict=True)
    ]
    height = max(end for _, end in ends) + 14
    content = [grid(planes[0], (0, 0, WIDTH, height))]
    for section, plane, (marks, _) in zip(sections, planes, ends, strict=True):
        content += [boundary_marks(plane, section.boundaries), needle_marks(plane, section.needle)]
        content.append(marks)
    content.append(text("m-label", (_SIDE, 20), "A"))
    content.append(text("m-label", (WIDTH - _SIDE, 20), "B", "end"))
    content.append(_temperatures(sections, planes))
    content.append(scale_bar(WIDTH / 2 + 2.5 * planes[0].scale, planes[0]))
    sentence = "Two computed lesions on one scale." + "".join(
        f" {letter}, {section.words}: {size_sentence(section)}.{not_reached(section)}"
        for letter, section in zip("AB", sections, strict=True)
    )
    return Figure(
        svg=document(WIDTH, height, sentence, "".join(content)),
        sentence=sentence,
        table=Table(
            "The same numbers",
            HEAD,
            (*boundary_rows(data.left, "A, "), *boundary_rows(data.right, "B, ")),
        ),
        key=key(sections),
        foot=_foot(data),
        explore=explore(sections),
    )


def _planes(sections: tuple[Section, Section]) -> tuple[Plane, Plane]:
    half = (WIDTH - _COLUMN - 2 * _SIDE) / 4
    top = max(map(highest, sections)) + _SHAFT_MM
    tall = top - min(map(lowest, sections))
    fitting = min(_MOST_SCALE, half / max(map(widest, sections)), _TALLEST / tall)
    scale = int(2 * fitting) / 2
    # The grid is one for both, so the axes stand a whole number of millimetres apart.
    apart = round((_COLUMN + 2 * half) / scale) * scale
    left, right = (WIDTH - apart) / 2, (WIDTH + apart) / 2
    tip = _TOP + top * scale
    return Plane(left, tip, scale), Plane(right, tip, scale)


def _temperatures(sections: tuple[Section, Section], planes: tuple[Plane, Plane]) -> str:
    keys = [b.key for b in sections[0].boundaries if b.key.isdigit()]
    found = {k: [next(b for b in s.boundaries if b.key == k) for s in sections] for k in keys}
    shown = [k for k in keys if any(b.curve for b in found[k])]
    middle = sum(p.at(0, s.needle.tip / 2)[1] for p, s in zip(planes, sections, strict=True)) / 2
    wanted = [middle + _STEP * (n - (len(shown) - 1) / 2) for n in range(len(shown))]
    marks = []
    for name, at in zip(shown, spread(wanted, _STEP, _TOP + 24, 1e4), strict=True):
        marks.append(_temperature(found[name], planes, at))
    return "".join(marks)


def _temperature(both: list[Boundary], planes: tuple[Plane, Plane], at: float) -> str:
    words = both[0].words
    half = width(words) / 2 + 3
    marks = []
    for side, boundary, plane in zip((1, -1), both, planes, strict=True):
        if boundary.curve:
            dot = point_at(plane, boundary, at + _BELOW, side)
            marks.append(leader((WIDTH / 2 - side * half, at), dot))
    label = text(f"m-label {shade(both[0])}", (WIDTH / 2, at + 5), words, "middle")
    return "".join((*marks, label))


def _foot(data: Pair) -> tuple[str, str]:
    left, right = data.left.foot, data.right.foot
    return f"A: {', '.join(left)}", f"B: {', '.join(right)}"
