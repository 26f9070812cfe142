"""One lesion through the axis of its electrode."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from threeview.figures.figure import Figure, Table
from threeview.figures.lettering import width
from threeview.figures.needle import (
    Plane,
    boundary_marks,
    grid,
    needle_marks,
    nerve_mark,
    outline,
    shade,
)
from threeview.figures.numbers import rounded, size
from threeview.figures.plate import (
    dimension_marks,
    dimensions,
    leader,
    point_at,
    scale_bar,
    temperature_labels,
)
from threeview.figures.svg import document, text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from threeview.computed.figure_data.cross_section import (
        Boundary,
        CrossSection,
        Nerve,
        Section,
    )
    from threeview.computed.figure_data.published import Published

__all__ = ["boundary_rows", "cross_section", "explore", "key", "not_reached", "size_sentence"]

WIDTH = 336
_LEFT = 54  # px: temperatures and their leaders
_RIGHT = 70  # px: names of boundaries and structures
_TALLEST = 420  # px for the body; a phone then shows it whole
_MOST_SCALE = 24  # px for each mm; beyond it small lesions would look like large ones
_SHAFT_MM = 1.2  # shaft shown above the outermost boundary
_TOP = 12
HEAD = ("Boundary, mm", "Width", "Length", "Beyond the tip")


def cross_section(data: CrossSection) -> Figure:
    """Draw one lesion with its isotherms, its damage boundary and what was measured beside it."""
    section = data.section
    plane = _plane(data)
    rows = dimensions(section, data.beside)
    below = plane.at(0, lowest(section))[1]
    marks, bottom = dimension_marks(rows, plane, below + 4)
    height = bottom + 14
    nerve = nerve_mark(plane, data.nerve) if data.nerve else ""
    content = (
        grid(plane, (0, 0, WIDTH, height)),
        boundary_marks(plane, section.boundaries),
        needle_marks(plane, section.needle),
        nerve,
        _left_labels(section, plane),
        _right_labels(data, plane),
        scale_bar(WIDTH - 8, plane),
        marks,
    )
    sentence = _sentence(data)
    return Figure(
        svg=document(WIDTH, height, sentence, "".join(content)),
        sentence=sentence,
        table=Table(
            "The same numbers", HEAD, (*boundary_rows(section), *_published_rows(data.beside))
        ),
        key=(*key((section,)), *_nerve_key(data.nerve), *_published_key(data.beside)),
        foot=section.foot,
        explore=explore((section,)),
    )


def lowest(section: Section) -> float:
    """Return z of the lowest thing drawn, mm."""
    return min(z for b in section.boundaries for _, z in (*b.curve, (0.0, 0.0)))


def highest(section: Section) -> float:
    """Return z of the highest boundary, mm."""
    tip = (0.0, section.needle.tip)
    return max(z for b in section.boundaries for _, z in (*b.curve, tip))


def widest(section: Section) -> float:
    """Return the largest r of any boundary, mm."""
    metal = (section.needle.diameter / 2, 0.0)
    return max(r for b in section.boundaries for r, _ in (*b.curve, metal))


def boundary_rows(section: Section, name: str = "") -> tuple[tuple[str, ...], ...]:
    """Return a row of sizes for each boundary; `name` tells sections apart."""
    return tuple((name + b.words, *_sizes(b)) for b in section.boundaries)


def key(sections: Sequence[Section]) -> tuple[tuple[str, str], ...]:
    """Return the legend of boundaries and electrode."""
    shown = [b for b in sections[0].boundaries if b.key.isdigit()]
    words = ", ".join(b.key for b in shown)
    edge = sections[0].edge.words
    bevel = any(s.needle.shape == "bevel" for s in sections)
    tip = "insulated shaft filled, bare tip open"
    return (
        (
            "m-iso",
            f"{words}\u00a0°C at the end of heating; the edge of the lesion is taken at {edge}",
        ),
        ("m-damage", "damage integral at 1, with constants of liver; none is known for nerve"),
        ("m-shaft", f"{tip}; the bevel is computed as a round body" if bevel else tip),
    )


def not_reached(section: Section) -> str:
    """Return a sentence about boundaries that no tissue reached; empty if all were."""
    missing = [
        b.words if b.key.isdigit() else "the damage threshold"
        for b in section.boundaries
        if not b.curve
    ]
    if not missing:
        return ""
    first = f"{', '.join(missing[:-1])} or " if missing[:-1] else ""
    return f" No tissue reached {first}{missing[-1]}."


def size_sentence(section: Section) -> str:
    """Return the size of the lesion in words."""
    edge = section.edge
    if not edge.curve:
        return f"the {edge.words} boundary is not reached"
    reach = (
        f"reaches {size(edge.distal)} beyond the tip"
        if edge.distal > 0
        else "does not reach beyond the tip"
    )
    return f"at {edge.words} it is {size(edge.width)} wide and {size(edge.length)} long and {reach}"


def explore(sections: Sequence[Section]) -> dict[str, Any]:
    """Return the data of the interactive figure; its shape is told in `figure`."""
    margin = 1.0
    top = max(map(highest, sections)) + margin
    return {
        "kind": "cross-section",
        "words": " | ".join(s.words for s in sections),
        "sections": [_explore_section(s, top) for s in sections],
        "extent_mm": {
            "r": round(max(map(widest, sections)) + margin, 1),
            "z": [round(min(map(lowest, sections)) - margin, 1), round(top, 1)],
        },
    }


def _explore_section(section: Section, top: float) -> dict[str, Any]:
    return {
        "words": section.words,
        "insulated_above_mm": section.needle.tip,
        "electrode": [[round(r, 3), round(z, 3)] for r, z in outline(section.needle, top)],
        "frames": [
            {
                "time_s": f.time,
                "contours": {name: list(map(list, c)) for name, c in f.curves.items()},
            }
            for f in section.frames
        ],
    }


def _plane(data: CrossSection) -> Plane:
    section = data.section
    axis = (_LEFT + WIDTH - _RIGHT) / 2
    half = widest(section)
    if data.nerve:
        half = max(half, data.nerve.offset + data.nerve.diameter / 2)
    measured = [row.width / 2 for row in dimensions(section, data.beside)]
    tall = highest(section) + _SHAFT_MM - lowest(section)
    fitting = min(
        _MOST_SCALE, (axis - _LEFT) / half, (axis - 8) / max(measured, default=1), _TALLEST / tall
    )
    scale = int(2 * fitting) / 2
    return Plane(axis, _TOP + (highest(section) + _SHAFT_MM) * scale, scale)


def _left_labels(section: Section, plane: Plane) -> str:
    marks = []
    for label in temperature_labels(section, plane):
        words = label.boundary.words
        end = 6 + width(words) + 3
        marks.append(leader((end, label.middle), label.dot))
        marks.append(text(f"m-label {shade(label.boundary)}", (6, label.middle + 5), words))
    return "".join(marks)


def _right_labels(data: CrossSection, plane: Plane) -> str:
    marks = []
    damage = next((b for b in data.section.boundaries if b.key == "damage" and b.curve), None)
    if damage:
        top, bottom = (plane.at(0, z)[1] for z in (damage.curve[-1][1], damage.curve[0][1]))
        dot = point_at(plane, damage, top + 0.22 * (bottom - top), 1)
        marks.append(_right_label("m-label", "damage", max(60, dot[1] - 12), dot))
    if data.nerve:
        at = data.nerve.offset + data.nerve.diameter / 2
        edge = plane.at(at, data.nerve.height)
        marks.append(_right_label("m-label nerve", "nerve", edge[1], edge))
    return "".join(marks)


def _right_label(css: str, words: str, middle: float, dot: tuple[float, float]) -> str:
    start = (WIDTH - 6 - width(words) - 3, middle)
    return leader(start, dot) + text(css, (WIDTH - 6, middle + 5), words, "end")


def _sizes(boundary: Boundary) -> tuple[str, str, str]:
    if not boundary.curve:
        return ("not reached", "not reached", "not reached")
    return rounded(boundary.width), rounded(boundary.length), rounded(boundary.distal)


def _published_rows(beside: Sequence[Published]) -> tuple[tuple[str, ...], ...]:
    return tuple((_capital(v.basis), v.shown, "not given", "not given") for v in beside)


def _published_key(beside: Sequence[Published]) -> tuple[tuple[str, str], ...]:
    return tuple(
        ("m-published", f"{v.statement} {_capital(v.conditions)}. {_capital(v.basis_words)}.")
        for v in beside
    )


def _nerve_key(nerve: Nerve | None) -> tuple[tuple[str, str], ...]:
    if nerve is None:
        return ()
    words = (
        f"a nerve cut across, {nerve.shown} thick, drawn at {size(nerve.diameter, decimals=0)}; "
        f"its distance from the axis, {size(nerve.offset)}, is a choice of this drawing"
    )
    return (("m-nerve", words),)


def _sentence(data: CrossSection) -> str:
    section = data.section
    nerve = ""
    if data.nerve:
        nerve = (
            f" A nerve {size(data.nerve.diameter, decimals=0)} across, {size(data.nerve.offset)} "
            f"from the axis, is {data.nerve.state} that boundary."
        )
    measured = "".join(f" {v.statement} {_capital(v.basis_words)}." for v in data.beside)
    return (
        f"Computed lesion in cross-section, {section.words}: {size_sentence(section)}."
        f"{not_reached(section)}{nerve}{measured}"
    )


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
