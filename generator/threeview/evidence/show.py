"""Numbers as a reader sees them: en dashes, true minus signs, units that never part."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from threeview.units import show_quantity

if TYPE_CHECKING:
    from threeview.evidence.model import Quantity, ReferenceValue

__all__ = ["show_number", "show_value"]

_THOUSANDS = Decimal(10_000)


def show_number(number: Decimal) -> str:
    """Return `number` with the digits its author gave, grouped from 10 000 up."""
    text = f"{number:f}"
    sign = "−" if text.startswith("-") else ""
    whole, point, rest = text.lstrip("+-").partition(".")
    if abs(number) >= _THOUSANDS:
        whole = f"{int(whole):,}".replace(",", "\u202f")
    return sign + whole + point + rest


def _range(low: Decimal | None, high: Decimal | None) -> str:
    if low is not None and high is not None:
        joint = " to " if low < 0 else "–"
        return show_number(low) if low == high else f"{show_number(low)}{joint}{show_number(high)}"
    if low is not None:
        return f"≥\u202f{show_number(low)}"
    if high is not None:
        return f"≤\u202f{show_number(high)}"
    raise ValueError("a quantity without numbers cannot be shown")


_COMPARATORS = {
    "at most": "≤\u202f",
    "at least": "≥\u202f",
    "below": "<\u202f",
    "above": ">\u202f",
    "about": "about ",
}


def show_value(quantity: Quantity | ReferenceValue) -> str:
    """Return a quantity with its unit, or the words of a named result.

    A point with an interval around it shows the point first: `5.8 % (4.6–7.0 %)` would repeat the
    unit, so the interval stands in brackets without it.
    """
    comparator = getattr(quantity, "comparator", None)
    category = getattr(quantity, "category", None)
    low, high, value = quantity.low, quantity.high, quantity.value
    if value is None and low is None and high is None:
        return str(category)
    if value is None:
        number = _range(low, high)
        return _COMPARATORS["about"] * (comparator == "about") + show_quantity(
            number, quantity.unit
        )
    shown = show_quantity(show_number(value), quantity.unit)
    if comparator:
        return _COMPARATORS[comparator] + shown
    if low is not None and high is not None and not low == high == value:
        return f"{shown} ({_range(low, high)})"
    return shown
