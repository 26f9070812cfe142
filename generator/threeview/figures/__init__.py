"""Drawings of given results: SVG, the same numbers as a table, and a sentence for each.

Nothing is computed here. `DRAWINGS` has one function for each kind of figure, from the data that
`threeview.computed` gathers to a `Figure`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from threeview.figures.cross_section import cross_section
from threeview.figures.figure import Figure, Table

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["DRAWINGS", "Figure", "Table"]

DRAWINGS: dict[str, Callable[[Any], Figure]] = {
    "cross-section": cross_section,
}
