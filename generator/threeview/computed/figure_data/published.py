"""Ledger values as figures show them beside computed ones."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from threeview.evidence import Bibliography, show_value

if TYPE_CHECKING:
    from threeview.computed.figure_data.parameters import Parameters
    from threeview.evidence import Ledger, ReferenceValue

__all__ = ["Published", "published", "read_published"]


@dataclass(frozen=True)
class Published:
    """A ledger value beside a computed one.

    Attributes:
        id: in the ledger.
        statement: what it says, a sentence.
        shown: its number with the unit, as in the text.
        unit: of `low` and `high`.
        low: lower end, None when open.
        high: upper end, None when open; a point has both ends alike.
        about: whether the source itself calls the number approximate.
        basis: published, common practice or from memory.
        basis_words: the same, with what was read, where, and whether the industry paid for it.
        conditions: medium, start temperature and setting in words; says so where none are known.
    """

    id: str
    statement: str
    shown: str
    unit: str
    low: float | None
    high: float | None
    about: bool
    basis: str
    basis_words: str
    conditions: str


def published(value: ReferenceValue, ledger: Ledger) -> Published:
    """Return a ledger value as a figure shows it."""
    low, high = value.interval
    if value.comparator in {"at most", "below"}:
        low = None
    if value.comparator in {"at least", "above"}:
        high = None
    return Published(
        id=value.id,
        statement=value.statement,
        shown=show_value(value),
        unit=value.unit or "",
        low=None if low is None else float(low),
        high=None if high is None else float(high),
        about=value.comparator == "about",
        basis=value.basis,
        basis_words=_basis(value, ledger),
        conditions=_conditions(value),
    )


def read_published(
    parameters: Parameters, ledger: Ledger, name: str, most: int
) -> tuple[Published, ...]:
    """Return the lengths (mm) whose ledger ids the parameter `name` lists."""
    ids = parameters.several(name, 0, most)
    found = (parameters.value(ledger, value_id, "mm") for value_id in ids)
    return tuple(published(value, ledger) for value in found if value is not None)


def _conditions(value: ReferenceValue) -> str:
    """Return the conditions, with the one that moves a lesion most named where it is missing."""
    words = value.conditions or "conditions not stated"
    if "start" in words or "in vivo" in words:
        return words
    return f"{words}; start temperature not stated"


def _basis(value: ReferenceValue, ledger: Ledger) -> str:
    if value.basis == "published":
        sources = ledger.sources_of(value)
        book = Bibliography(sources)
        told = [book.short(source.id) for source in sources]
        if value.funding == "industry":
            told.append("industry-funded")
        return f"published, {value.read_as} read ({'; '.join(told)})"
    return {
        "common practice": "common practice, no source",
        "from memory": "from memory, not yet checked",
    }[value.basis]
