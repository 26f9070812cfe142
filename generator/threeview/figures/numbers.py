"""Numbers as figures print them: rounded once, half up, with a true minus sign."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

from threeview.evidence import show_number

__all__ = ["rounded", "size"]


def rounded(value: float, decimals: int = 1) -> str:
    """Return `value` with so many decimals."""
    unit = Decimal(1).scaleb(-decimals)
    # Adding zero turns a rounded -0.0 into 0.0.
    return show_number(Decimal(repr(value)).quantize(unit, ROUND_HALF_UP) + 0)


def size(value: float, unit: str = "mm", decimals: int = 1) -> str:
    """Return `value` tied to its unit."""
    return f"{rounded(value, decimals)}\u00a0{unit}"
