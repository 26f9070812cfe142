"""Reads a drawn figure back: where its labels, curves and marks lie."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

from threeview.figures.lettering import width

if TYPE_CHECKING:
    from collections.abc import Iterator

SVG = "{http://www.w3.org/2000/svg}"
NUMBER = re.compile(r"-?(?:\d+\.?\d*|\.\d+)")
STEP = re.compile(r"([MLCcHVvZ])([^MLCcHVvZ]*)")
ASCENT, DESCENT = 11.0, 3.5  # of 15 px letters, above and below the baseline

Point = tuple[float, float]


@dataclass(frozen=True)
class Box:
    """The room of one label, px."""

    words: str
    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        """Return whether two boxes overlap."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def holds(self, point: Point) -> bool:
        """Return whether a point lies in the box."""
        return self.left < point[0] < self.right and self.top < point[1] < self.bottom


class Drawing:
    """A parsed figure."""

    def __init__(self, svg: str) -> None:
        self.root = ET.fromstring(svg)  # noqa: S314 - drawn by our own code
        self.width, self.height = (float(n) for n in self.root.attrib["viewBox"].split()[2:])

    def having(self, css: str) -> list[ET.Element]:
        """Return the elements that carry a class."""
        return [e for e in self.root.iter() if css in e.get("class", "").split()]

    def labels(self) -> list[Box]:
        """Return the room of every label."""
        return [_box(e) for e in self.root.iter(f"{SVG}text")]

    def label(self, words: str) -> Box:
        """Return the only label with these words."""
        (found,) = (box for box in self.labels() if box.words == words)
        return found

    def points(self, css: str) -> list[list[Point]]:
        """Return the paths of a class, curves flattened."""
        return [flat(e.attrib["d"]) for e in self.having(css) if e.tag == f"{SVG}path"]

    def everything(self) -> Iterator[Point]:
        """Yield points of every mark and the corners of every label."""
        for e in self.root.iter():
            if e.tag == f"{SVG}path":
                yield from flat(e.attrib["d"])
            elif e.tag == f"{SVG}circle":
                x, y, r = (float(e.attrib[k]) for k in ("cx", "cy", "r"))
                yield from ((x - r, y - r), (x + r, y + r))
            elif e.tag == f"{SVG}rect":
                x, y, w, h = (float(e.attrib[k]) for k in ("x", "y", "width", "height"))
                yield from ((x, y), (x + w, y + h))
        for box in self.labels():
            yield from ((box.left, box.top), (box.right, box.bottom))


def flat(d: str) -> list[Point]:
    """Return path data as points, each cubic in eight parts."""
    points: list[Point] = []
    for letter, rest in STEP.findall(d):
        numbers = [float(n) for n in NUMBER.findall(rest)]
        if letter in "ML":
            points += zip(numbers[::2], numbers[1::2], strict=True)
        elif letter == "H":
            points.append((numbers[0], points[-1][1]))
        elif letter == "V":
            points.append((points[-1][0], numbers[0]))
        elif letter == "v":
            points.append((points[-1][0], points[-1][1] + numbers[0]))
        elif letter == "C":
            ends = list(zip(numbers[::2], numbers[1::2], strict=True))
            points += _cubic(points[-1], *ends)
        elif letter == "c":
            x, y = points[-1]
            steps = zip(numbers[::2], numbers[1::2], strict=True)
            points += _cubic((x, y), *((x + dx, y + dy) for dx, dy in steps))
    return points


def _cubic(a: Point, b: Point, c: Point, d: Point) -> Iterator[Point]:
    for t in (k / 8 for k in range(1, 9)):
        weights = ((1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t * t, t**3)
        x, y = (sum(w * p[k] for w, p in zip(weights, (a, b, c, d), strict=True)) for k in (0, 1))
        yield x, y


def _box(e: ET.Element) -> Box:
    words = e.text or ""
    x, y, wide = float(e.attrib["x"]), float(e.attrib["y"]), width(words)
    left = x - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[e.get("text-anchor", "start")]
    return Box(words, left, y - ASCENT, left + wide, y + DESCENT)
