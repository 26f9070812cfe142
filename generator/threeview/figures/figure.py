"""What a drawn figure is, whatever it shows."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

__all__ = ["DRAWINGS", "Figure", "Table"]


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


DRAWINGS: dict[str, Callable[[Any], Figure]] = {}
