"""Drawings of given results: SVG, the same numbers as a table, and a sentence for each.

Nothing is computed here. `DRAWINGS` has one function for each kind of figure, from the data that
`threeview.computed` gathers to a `Figure`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from threeview.figures.cross_section import cross_section
from threeview.figures.figure import Figure, Table
from threeview.figures.growth import growth
from threeview.figures.pair import pair
from threeview.figures.publication import model_against_publication
from threeview.figures.sizes import size_comparison
from threeview.figures.stimulation import stimulation_field

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["DRAWINGS", "Figure", "Table"]

DRAWINGS: dict[str, Callable[[Any], Figure]] = {
    "cross-section": cross_section,
    "growth": growth,
    "model-against-publication": model_against_publication,
    "pair": pair,
    "size-comparison": size_comparison,
    "stimulation-field": stimulation_field,
}
