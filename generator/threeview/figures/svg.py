"""SVG as text: elements, numbers to a tenth of a pixel, smooth paths."""

from __future__ import annotations

import math
from html import escape
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = [
    "SIZE",
    "circle",
    "diamond",
    "document",
    "element",
    "group",
    "line",
    "path",
    "polygon",
    "rectangle",
    "smooth",
    "text",
]

SIZE = 15  # px of every label, in a drawing that a phone shows at its own size

Point = tuple[float, float]


def number(value: float) -> str:
    """Return a coordinate to a tenth of a pixel, as short as it goes."""
    shown = f"{value:.1f}".removesuffix(".0")
    return "0" if shown == "-0" else shown


def element(name: str, attributes: dict[str, str | float], content: str = "") -> str:
    """Return one element; numbers are shortened, texts escaped, `content` is taken as it is."""
    parts = [
        f'{key}="{number(value) if isinstance(value, int | float) else escape(value)}"'
        for key, value in attributes.items()
    ]
    start = " ".join((name, *parts))
    return f"<{start}>{content}</{name}>" if content else f"<{start}/>"


def document(width: float, height: float, name: str, content: str) -> str:
    """Return a whole drawing with its name for readers who do not see it."""
    attributes: dict[str, str | float] = {
        "xmlns": "http://www.w3.org/2000/svg",
        "class": "tv-plot",
        "viewBox": f"0 0 {number(width)} {number(height)}",
        "role": "img",
        "aria-label": name,
        "font-size": SIZE,
    }
    return element("svg", attributes, content)


def group(css: str, *content: str) -> str:
    """Return elements under one class."""
    return element("g", {"class": css}, "".join(content))


def path(css: str, d: str) -> str:
    """Return a path."""
    return element("path", {"class": css, "d": d})


def line(css: str, start: Point, end: Point) -> str:
    """Return a straight line."""
    return path(css, f"M{_pair(start)}L{_pair(end)}")


def rectangle(css: str, left: float, top: float, right: float, bottom: float) -> str:
    """Return an upright rectangle."""
    box: dict[str, str | float] = {"class": css, "x": left, "y": top}
    return element("rect", {**box, "width": right - left, "height": bottom - top})


def circle(css: str, centre: Point, radius: float) -> str:
    """Return a circle."""
    return element("circle", {"class": css, "cx": centre[0], "cy": centre[1], "r": radius})


def text(css: str, at: Point, words: str, anchor: str = "start") -> str:
    """Return a line of text whose baseline starts, centres or ends at `at`."""
    attributes: dict[str, str | float] = {"class": css, "x": at[0], "y": at[1]}
    if anchor != "start":
        attributes["text-anchor"] = anchor
    return element("text", attributes, escape(words, quote=False))


def diamond(centre: Point, half: float = 5) -> str:
    """Return the mark of a computed number: an open diamond."""
    x, y = centre
    corners = [(x, y - half), (x + half, y), (x, y + half), (x - half, y)]
    return path("m-computed point", polygon(corners))


def polygon(points: Sequence[Point]) -> str:
    """Return path data of straight edges, closed."""
    return "M" + "L".join(_pair(p) for p in points) + "Z"


def smooth(points: Sequence[Point], *, closed: bool = False) -> str:
    """Return path data of cubics through all points.

    Tangents are chord-weighted differences of the neighbours, so uneven spacing makes no bulges;
    a closed path is closed by a straight line.
    """
    tangents = _tangents(points)
    parts = [f"M{_pair(points[0])}"]
    at = _tenths(points[0])
    for a, b, ta, tb in zip(points, points[1:], tangents, tangents[1:], strict=False):
        third = math.dist(a, b) / 3
        first = (a[0] + third * ta[0], a[1] + third * ta[1])
        second = (b[0] - third * tb[0], b[1] - third * tb[1])
        parts.append("c" + _steps(at, (first, second, b)))
        at = _tenths(b)
    return "".join(parts) + ("Z" if closed else "")


def _tenths(point: Point) -> tuple[int, int]:
    """Return a point in whole tenths of a pixel."""
    return round(point[0] * 10), round(point[1] * 10)


def _steps(at: tuple[int, int], points: Sequence[Point]) -> str:
    """Return points relative to `at`, itself rounded, so that rounding never adds up.

    Relative steps are short, and the shortest way to write them halves the weight of a drawing.
    """
    shown = ""
    for point in points:
        x, y = _tenths(point)
        for tenths in (x - at[0], y - at[1]):
            step = number(tenths / 10)
            step = step.replace("0.", ".", 1) if step.lstrip("-").startswith("0.") else step
            shown += step if not shown or step.startswith("-") else f" {step}"
    return shown


def _tangents(points: Sequence[Point]) -> list[Point]:
    """Return dp/ds at each point, s being chord length."""
    chords = [
        ((b[0] - a[0]) / d, (b[1] - a[1]) / d, d)
        for a, b in pairwise(points)
        for d in (max(math.dist(a, b), 1e-9),)
    ]
    inner = [
        tuple((p[k] * q[2] + q[k] * p[2]) / (p[2] + q[2]) for k in (0, 1))
        for p, q in pairwise(chords)
    ]
    first, last = chords[0], chords[-1]
    return [(first[0], first[1]), *((t[0], t[1]) for t in inner), (last[0], last[1])]


def _pair(point: Point) -> str:
    return f"{number(point[0])} {number(point[1])}"
