"""Curves against an axis, named at their ends."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from threeview.figures.lettering import spread, width
from threeview.figures.svg import circle, element, line, smooth, text

__all__ = ["HEIGHT", "Axis", "Frame", "Panel", "Series", "explore_panel", "mark_at", "panel_marks"]

_WIDTH = 336
_LEFT = 40  # px: numbers of the upright axis
_NAMES = 12  # px between the end of a curve and its name
_LINE = 18
_PLOT = 168
_TITLE = 26
HEIGHT = _TITLE + _PLOT + 48  # px of a panel with its axes
# Curves differ by their dashes, so a grey copy reads as well.
_DASHES = ("", "7 4", "2 4", "10 3 2 3")


@dataclass(frozen=True)
class Axis:
    """One axis.

    Attributes:
        words: what it measures, with the unit.
        low: first number; above zero on a logarithmic axis.
        high: last number.
        ticks: numbers shown.
        log: whether equal ratios take equal room.
    """

    words: str
    low: float
    high: float
    ticks: tuple[float, ...]
    log: bool = False

    def share(self, value: float) -> float:
        """Return where a value lies, 0 at the low and 1 at the high end."""
        if self.log:
            return math.log(value / self.low) / math.log(self.high / self.low)
        return (value - self.low) / (self.high - self.low)


@dataclass(frozen=True)
class Series:
    """One curve: its name, in lines of text, and its points; `dash` tells it from the others."""

    name: tuple[str, ...]
    x: tuple[float, ...]
    y: tuple[float, ...]
    dash: int


@dataclass(frozen=True)
class Panel:
    """Curves on one pair of axes; `level` draws a line across at one height."""

    title: str
    x: Axis
    y: Axis
    series: tuple[Series, ...]
    level: float | None = None


def explore_panel(panel: Panel) -> dict[str, Any]:
    """Return the panel as the interactive figure reads it; the shape is told in `figure`."""
    return {
        "title": panel.title,
        "x": panel.x.words,
        "y": panel.y.words,
        "x_scale": "log" if panel.x.log else "linear",
        "y_scale": "log" if panel.y.log else "linear",
        "series": [
            {"name": ", ".join(s.name), "x": list(s.x), "y": list(s.y)} for s in panel.series
        ],
    }


@dataclass(frozen=True)
class Frame:
    """Where the plot of a panel lies, px."""

    panel: Panel
    top: float

    @property
    def right(self) -> float:
        """Return x of the right end; the names of the curves stand beyond it."""
        widest = max(width(words) for series in self.panel.series for words in series.name)
        return _WIDTH - 6 - widest - _NAMES

    @property
    def bottom(self) -> float:
        """Return y of the lower end."""
        return self.top + _TITLE + _PLOT

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Return the point of a pair of values."""
        across = _LEFT + self.panel.x.share(x) * (self.right - _LEFT)
        return across, self.bottom - self.panel.y.share(y) * _PLOT


def panel_marks(panel: Panel, top: float) -> tuple[str, Frame]:
    """Return a panel below y = `top`, and where its plot lies."""
    frame = Frame(panel, top)
    level = []
    if panel.level is not None:
        level.append(
            line(
                "m-leader", frame.at(panel.x.low, panel.level), frame.at(panel.x.high, panel.level)
            )
        )
    content = (
        text("m-label", (6, top + 14), panel.title),
        *_axes(frame),
        *level,
        *(_curve(frame, series) for series in panel.series),
        *_names(frame),
    )
    return "".join(content), frame


def _axes(frame: Frame) -> list[str]:
    panel, marks = frame.panel, []
    for tick in panel.x.ticks:
        x, y = frame.at(tick, panel.y.low)
        marks.append(line("m-grid", (x, frame.bottom - _PLOT), (x, frame.bottom)))
        marks.append(text("m-label light", (x, y + 20), f"{tick:g}", "middle"))
    for tick in panel.y.ticks:
        x, y = frame.at(panel.x.low, tick)
        marks.append(line("m-grid", (x, y), (frame.right, y)))
        marks.append(text("m-label light", (x - 6, y + 5), f"{tick:g}", "end"))
    corner = frame.at(panel.x.low, panel.y.low)
    marks.append(line("m-axis", corner, (frame.right, corner[1])))
    marks.append(line("m-axis", corner, (corner[0], frame.bottom - _PLOT)))
    marks.append(text("m-label light", (frame.right, frame.bottom + 38), panel.x.words, "end"))
    return marks


def _curve(frame: Frame, series: Series) -> str:
    points = [frame.at(x, y) for x, y in zip(series.x, series.y, strict=True)]
    attributes: dict[str, str | float] = {"class": "m-computed", "d": smooth(points)}
    if _DASHES[series.dash]:
        attributes["stroke-dasharray"] = _DASHES[series.dash]
    return element("path", attributes)


def _names(frame: Frame) -> list[str]:
    ends = [(frame.at(s.x[-1], s.y[-1]), s) for s in frame.panel.series]
    ends.sort(key=lambda end: end[0][1])
    tall = max(len(series.name) for _, series in ends) * _LINE + 2
    first, last = frame.bottom - _PLOT + tall / 2 - 8, frame.bottom - tall / 2 + 8
    middles = spread([point[1] for point, _ in ends], tall, first, last)
    marks = []
    for middle, (point, series) in zip(middles, ends, strict=True):
        x = frame.right + _NAMES
        marks.append(line("m-leader", (point[0] + 1, point[1]), (x - 3, middle)))
        first_line = middle + 5 - _LINE * (len(series.name) - 1) / 2
        marks += [
            text("m-label", (x, first_line + _LINE * index), words)
            for index, words in enumerate(series.name)
        ]
    return marks


def mark_at(frame: Frame, x: float, y: float) -> str:
    """Return a dot on a curve."""
    return circle("m-leader", frame.at(x, y), 3.5)
