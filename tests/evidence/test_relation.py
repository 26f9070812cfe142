"""The rule behind quantity keys, in exact arithmetic across units."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from threeview.errors import SettingError
from threeview.evidence import Quantity, satisfies


def q(low: str | None, high: str | None = None, unit: str | None = "mm") -> Quantity:
    """Return a point (one number) or a range."""
    if high is None:
        return Quantity(value=low, unit=unit)
    return Quantity(low=low, high=high, unit=unit)


@pytest.mark.parametrize(
    ("option", "relation", "agrees"),
    [
        (q("5"), "within", True),
        (q("6"), "within", True),
        (q("6.0000001"), "within", False),
        (q("0.55", unit="cm"), "within", True),
        (q("4", "5"), "within", False),
        (q("4", "5"), "overlaps", True),
        (q("1", "4.999"), "overlaps", False),
        (q("5", "6"), "equals", True),
        (q("5"), "equals", False),
        (q("5"), "at least", True),
        (q("4.9"), "at least", False),
        (q("6"), "at most", True),
        (q("6.1"), "at most", False),
    ],
)
def test_relations_to_a_range(option: Quantity, relation: str, agrees: bool) -> None:  # noqa: FBT001
    """Each relation at and beside its boundary, against 5 to 6 mm."""
    assert satisfies(option, q("5", "6"), relation) is agrees  # type: ignore[arg-type]


def test_a_tolerance_widens_the_reference() -> None:
    """Absolute, in the reference's unit, at both ends."""
    assert satisfies(q("4.5"), q("5", "6"), "within", Decimal("0.5"))
    assert not satisfies(q("4.4"), q("5", "6"), "within", Decimal("0.5"))


def test_open_ends() -> None:
    """At most 0.5 V holds 0.3 V and not 0.6 V."""
    limit = Quantity(high="0.5", unit="V")
    assert satisfies(Quantity(value="300", unit="mV"), limit, "within")
    assert not satisfies(Quantity(value="0.6", unit="V"), limit, "within")


def test_units_that_measure_different_things() -> None:
    """A temperature is never within a length."""
    with pytest.raises(SettingError, match="cannot be converted"):
        satisfies(q("5", unit="°C"), q("5", "6"), "within")


NUMBERS = st.decimals("-1e6", "1e6", places=3, allow_nan=False)


@given(NUMBERS, NUMBERS, NUMBERS)
def test_within_is_between_the_ends(low: Decimal, high: Decimal, at: Decimal) -> None:
    """For points, 'within' is the order of the numbers and nothing else."""
    low, high = sorted((low, high))
    reference = Quantity(low=low, high=high, unit="mm")
    expected = low <= at <= high
    assert satisfies(Quantity(value=at, unit="mm"), reference, "within") is expected
    assert satisfies(Quantity(value=at / 10, unit="cm"), reference, "within") is expected
