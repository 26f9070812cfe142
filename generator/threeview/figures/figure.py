"""What a drawn figure is, whatever it shows.

The data of the interactive figure (`Figure.explore`) is plain JSON in one of two shapes. Lengths
are in mm, times in s; z is 0 at the distal end of the metal and rises up the shaft.

A cross-section, drawn on equal axes with z upwards::

    {"kind": "cross-section", "words": "18 G, 10 mm tip, ...",
     "sections": [{"words": "...", "insulated_above_mm": 10,
                   "electrode": [[r, z], ...],            # outline of the metal, both sides
                   "frames": [{"time_s": 0, "contours": {"45": [[r, z], ...], "damage": [...]}}]}],
     "extent_mm": {"r": 7.7, "z": [-4.8, 17.5]}}

A contour is one side, open, from its distal to its proximal end: draw it also with -r. An empty
list means that nothing is inside yet. A pair has two sections, each on axes of its own, both with
the extent given.

Lines::

    {"kind": "lines", "panels": [{"title": "...", "x": "time, s", "y": "width, mm",
                                  "x_scale": "linear", "y_scale": "log",
                                  "series": [{"name": "80 °C", "x": [...], "y": [...]}]}]}
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Mapping

LONGEST_NUMBER = 18  # characters; "1.5–2.5 mm (0.9–3)" is still a number

__all__ = ["Figure", "Table"]


@dataclass(frozen=True)
class Table:
    """The numbers of a figure as rows of text; the first column names the row.

    Attributes:
        caption: what the table lists.
        head: one word or symbol for each column.
        rows: cells, ready to print.
    """

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    @property
    def worded(self) -> tuple[bool, ...]:
        """Which columns hold sentences rather than numbers, and so are read from the left."""
        columns = zip(*self.rows, strict=True)
        return tuple(max(map(len, column)) > LONGEST_NUMBER for column in columns)


@dataclass(frozen=True)
class Figure:
    """A figure, complete without script.

    Attributes:
        svg: one `<svg>` element with `role="img"` and a name; classes as css/figures.css.
        sentence: what the figure shows, in one sentence, for readers who do not see it.
        table: the same numbers.
        key: rows of the legend: class of the mark, words.
        foot: settings in the plate's foot line, left and right.
        explore: data for the interactive figure, as JSON; None if there is none.
        layout: 'beside' puts the table beside a plate, 'below' under a wide chart.
    """

    svg: str
    sentence: str
    table: Table
    key: tuple[tuple[str, str], ...] = ()
    foot: tuple[str, str] = ("", "")
    explore: Mapping[str, Any] | None = None
    layout: str = "beside"
