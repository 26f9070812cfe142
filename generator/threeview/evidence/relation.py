"""Whether a quiz option agrees with a reference: the rule behind every quantity key."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from threeview.units import ratio

if TYPE_CHECKING:
    from threeview.evidence.model import Quantity

__all__ = ["Relation", "satisfies"]

Relation = Literal["within", "equals", "overlaps", "at least", "at most"]

_Ends = tuple[Fraction | None, Fraction | None]


def _ends(quantity: Quantity, factor: Fraction) -> _Ends:
    low, high = quantity.interval
    return (
        None if low is None else Fraction(low) * factor,
        None if high is None else Fraction(high) * factor,
    )


def _not_below(left: Fraction | None, right: Fraction | None) -> bool:
    """Lower ends: is `left` at or above `right`? An open end lies below everything."""
    return right is None or (left is not None and left >= right)


def _not_above(left: Fraction | None, right: Fraction | None) -> bool:
    """Upper ends: is `left` at or below `right`? An open end lies above everything."""
    return right is None or (left is not None and left <= right)


def _meet(option: _Ends, reference: _Ends) -> bool:
    below = option[1] is not None and reference[0] is not None and option[1] < reference[0]
    above = option[0] is not None and reference[1] is not None and option[0] > reference[1]
    return not (below or above)


def satisfies(
    option: Quantity,
    reference: Quantity,
    relation: Relation,
    tolerance: Decimal = Decimal(0),
) -> bool:
    """Return whether `option` stands in `relation` to `reference`, in exact arithmetic.

    Args:
        option: the option's quantity, in any unit that converts to the reference's.
        reference: a ledger value or a computed value.
        relation: `within` (the option lies inside the reference), `equals` (both ends agree),
            `overlaps` (they share a point), `at least` / `at most` (the whole option lies on that
            side of the reference's nearer end).
        tolerance: absolute, in the reference's unit; widens the reference at both ends.

    Raises:
        SettingError: the units measure different things.
    """
    factor = Fraction(1)
    if option.unit is not None and reference.unit is not None:
        factor = ratio(option.unit, reference.unit)
    slack = Fraction(tolerance)
    ours = _ends(option, factor)
    low, high = _ends(reference, Fraction(1))
    wide = (None if low is None else low - slack, None if high is None else high + slack)
    match relation:
        case "within":
            return _not_below(ours[0], wide[0]) and _not_above(ours[1], wide[1])
        case "equals":
            pairs = zip(ours, (low, high), strict=True)
            return all(
                (a is None and b is None)
                or (a is not None and b is not None and abs(a - b) <= slack)
                for a, b in pairs
            )
        case "overlaps":
            return _meet(ours, wide)
        case "at least":
            return ours[0] is not None and _not_below(ours[0], wide[0])
        case "at most":
            return ours[1] is not None and _not_above(ours[1], wide[1])
