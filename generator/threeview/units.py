"""The closed table of units that the course may use.

An author writes the symbol as it is shown. pint defines what the symbols mean, so conversions are
its arithmetic, not ours; the browser receives exact integer ratios exported from here.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from threeview.errors import SettingError, nearest

if TYPE_CHECKING:
    import pint

__all__ = ["SYMBOLS", "convertible", "ratio", "show_quantity"]

# symbol shown -> pint expression; None for units that convert to nothing else.
SYMBOLS: dict[str, str | None] = {
    "mm": "millimeter",
    "cm": "centimeter",
    "mm2": "millimeter**2",
    "mm3": "millimeter**3",
    "mm/d": "millimeter/day",
    "°C": None,  # an interval scale: never converted by a factor
    "K": "kelvin",
    "s": "second",
    "min": "minute",
    "h": "hour",
    "d": "day",
    "wk": "week",
    "mo": "month",
    "y": "year",
    "V": "volt",
    "mV": "millivolt",
    "mA": "milliampere",
    "V/m": "volt/meter",
    "Hz": "hertz",
    "kHz": "kilohertz",
    "Ω": "ohm",
    "W": "watt",
    "J": "joule",
    "%": "percent",
    "mL": "milliliter",
    "mL/min": "milliliter/minute",
    "mg": "milligram",
    "mg/mL": "milligram/milliliter",
    "mg/dL": "milligram/deciliter",
    "mSv": "millisievert",
    "µSv": "microsievert",
    "deg": "degree",
    "S/m": "siemens/meter",
    "W/(m·K)": "watt/(meter*kelvin)",
    "J/(m3·K)": "joule/(meter**3*kelvin)",
    "m2·K/W": "meter**2*kelvin/watt",
    "J/mol": "joule/mole",
    "1/s": "1/second",
    "1/K": "1/kelvin",
    "gauge": None,  # a wire number, not a length
    "ratio": "dimensionless",
    "count": "dimensionless",
    "points": None,
}


# Shown instead of the symbol.
_SHOWN = {
    "deg": "°",
    "ratio": "",
    "count": "",
    "mm2": "mm²",
    "mm3": "mm³",
    "J/(m3·K)": "J/(m³·K)",
    "m2·K/W": "m²·K/W",
    "gauge": "gauge",
}
_LONG = {
    "d": ("day", "days"),
    "wk": ("week", "weeks"),
    "mo": ("month", "months"),
    "y": ("year", "years"),
    "points": ("point", "points"),
}


@cache
def _registry() -> pint.UnitRegistry[float]:
    import pint

    return pint.UnitRegistry(cache_folder=None)


def _check(symbol: str) -> None:
    if symbol not in SYMBOLS:
        close = nearest(symbol, SYMBOLS)
        hint = f" (did you mean '{close}'?)" if close else ""
        raise SettingError([f"'{symbol}' is not a unit of this course{hint}"])


def convertible(symbol: str, other: str) -> bool:
    """Return whether a quantity in `symbol` can be turned into `other` by a factor.

    Raises:
        SettingError: a symbol is not in the table.
    """
    _check(symbol)
    _check(other)
    if symbol == other:
        return True
    left, right = SYMBOLS[symbol], SYMBOLS[other]
    if left is None or right is None:
        return False
    registry = _registry()
    return bool(registry.Unit(left).is_compatible_with(registry.Unit(right)))


def ratio(symbol: str, other: str) -> Fraction:
    """Return the exact factor that turns a number in `symbol` into a number in `other`.

    Raises:
        SettingError: a symbol is not in the table, or the two measure different things.
    """
    if not convertible(symbol, other):
        raise SettingError([f"'{symbol}' cannot be converted to '{other}'"])
    if symbol == other:
        return Fraction(1)
    registry = _registry()
    factor = registry.Quantity(1, SYMBOLS[symbol]).to(SYMBOLS[other]).magnitude
    # The factors of this table are short ratios; a float carries them closely enough to find
    # the exact one.
    return Fraction(factor).limit_denominator(1_000_000)


def show_quantity(number: str, symbol: str | None) -> str:
    """Return a number and its unit as a reader sees them, tied by a no-break space.

    Args:
        number: the number or range, already formatted.
        symbol: a symbol of the table, or None for a bare number.

    Raises:
        SettingError: the symbol is not in the table.
    """
    if symbol is None:
        return number
    _check(symbol)
    if symbol in _LONG:
        return f"{number}\u00a0{_LONG[symbol][0 if number == '1' else 1]}"
    shown = _SHOWN.get(symbol, symbol)
    if not shown:
        return number
    return f"{number}{shown}" if shown == "°" else f"{number}\u00a0{shown}"
