"""The closed table of units, against pint itself."""

from __future__ import annotations

from fractions import Fraction

import pint
import pytest

from threeview.errors import SettingError
from threeview.units import SYMBOLS, convertible, ratio, show_quantity


@pytest.mark.parametrize("symbol", [s for s, meaning in SYMBOLS.items() if meaning])
def test_every_symbol_means_something_to_pint(symbol: str) -> None:
    """The reference library knows each expression of the table."""
    assert pint.UnitRegistry().Unit(SYMBOLS[symbol]) is not None


def test_ratios_are_exact() -> None:
    """Factors used in keys are exact fractions, not floats."""
    assert ratio("cm", "mm") == 10
    assert ratio("s", "min") == Fraction(1, 60)
    assert ratio("mV", "V") == Fraction(1, 1000)
    assert ratio("mm", "mm") == 1


def test_what_does_not_convert() -> None:
    """Temperatures have no factor, gauges are no lengths, unknown symbols are refused."""
    assert not convertible("°C", "K")
    assert not convertible("gauge", "mm")
    with pytest.raises(SettingError, match="did you mean 'mm'"):
        ratio("mmm", "cm")


def test_shown_units() -> None:
    """Number and unit are tied; degrees stand close; counts have no unit."""
    assert show_quantity("5", "mm3") == "5\u00a0mm³"
    assert show_quantity("20", "deg") == "20°"
    assert show_quantity("3", "count") == "3"
