"""The evidence ledger: every number a reader meets, with its source.

A `ReferenceValue` says what was published (or is common practice, or recalled), under which
conditions, and what it conflicts with. A `Ledger` holds them with their sources and cautions.
`satisfies` decides whether a quiz option agrees with a value; `show_value` writes one for a reader.
"""

from threeview.evidence.citation import Bibliography
from threeview.evidence.ledger import Ledger
from threeview.evidence.model import Caution, Frozen, Quantity, ReferenceValue, Source
from threeview.evidence.relation import satisfies
from threeview.evidence.show import show_number, show_value

__all__ = [
    "Bibliography",
    "Caution",
    "Frozen",
    "Ledger",
    "Quantity",
    "ReferenceValue",
    "Source",
    "satisfies",
    "show_number",
    "show_value",
]
