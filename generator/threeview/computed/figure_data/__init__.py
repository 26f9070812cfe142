"""What each kind of figure shows: `FIGURE_DATA` turns an author's parameters into its numbers.

The drawings (`threeview.figures`) are given these frozen values and compute nothing themselves.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from threeview.computed.figure_data.cross_section import cross_section, pair
from threeview.computed.figure_data.growth import growth
from threeview.computed.figure_data.publication import model_against_publication
from threeview.computed.figure_data.sizes import size_comparison
from threeview.computed.figure_data.stimulation import stimulation_field

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from threeview.computed.answers import Answers
    from threeview.evidence import Ledger

__all__ = ["FIGURE_DATA"]

FIGURE_DATA: dict[str, Callable[[Answers, Mapping[str, str | tuple[str, ...]], Ledger], Any]] = {
    "cross-section": cross_section,
    "pair": pair,
    "size-comparison": size_comparison,
    "model-against-publication": model_against_publication,
    "growth": growth,
    "stimulation-field": stimulation_field,
}
