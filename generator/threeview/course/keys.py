"""Item keys and their evidence: what a key follows from, and the scorable form of an item.

The browser and the scorer get resolved keys from here; `check` proves with the same functions that
a key and its evidence agree.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from threeview.errors import SettingError
from threeview.evidence import Quantity, satisfies
from threeview.quiz.item import QuantityEvidence
from threeview.units import ratio

if TYPE_CHECKING:
    from threeview.computed import Answers
    from threeview.course.course import Course
    from threeview.evidence import ReferenceValue
    from threeview.quiz.item import Item

__all__ = ["accepted", "evidence_values", "option_agrees", "reference_quantity", "scorable"]


def evidence_values(item: Item, course: Course) -> tuple[ReferenceValue, ...]:
    """Return the ledger values that an item's key rests on; empty for computed keys."""
    evidence = item.evidence
    names: tuple[str, ...]
    if isinstance(evidence, QuantityEvidence):
        names = (evidence.reference,) if evidence.reference else ()
    elif evidence.kind == "category":
        names = (evidence.reference,)
    else:
        names = evidence.references
    return tuple(course.ledger.values[name] for name in names if name in course.ledger.values)


def reference_quantity(
    evidence: QuantityEvidence, course: Course, answers: Answers
) -> Quantity | ReferenceValue:
    """Return the number that a quantity key is judged against.

    Raises:
        SettingError: the computed question has impossible parameters.
        KeyError: the ledger has no such value.
    """
    if evidence.computed is not None:
        return answers.answer(evidence.computed.question, evidence.computed.parameters).quantity
    assert evidence.reference is not None  # noqa: S101 - the model demands one of the two
    return course.ledger.values[evidence.reference]


def option_agrees(option: Quantity, evidence: QuantityEvidence, reference: Quantity) -> bool:
    """Return whether an option's quantity stands in the declared relation to the reference."""
    return satisfies(option, reference, evidence.relation, evidence.tolerance)


@dataclass(frozen=True)
class Accepted:
    """The whole numbers of steps that a numeric item takes as right."""

    low: int
    high: int


def accepted(item: Item, reference: Quantity | ReferenceValue) -> Accepted:
    """Return the counts of steps that are right, both ends included.

    Without `accept` they follow from the evidence, widened by its tolerance; the ends are rounded
    half up like an answer, so an answer typed as the source prints it is right.

    Raises:
        SettingError: the reference is open at an end, or measures something else.
    """
    numeric = item.numeric
    if numeric is None or not isinstance(item.evidence, QuantityEvidence):
        raise SettingError(["a numeric item rests on quantity evidence"])
    if numeric.accept is not None:
        low, high = numeric.accept.low, numeric.accept.high
        factor = Fraction(1)
    else:
        ends = reference.interval
        if ends[0] is None or ends[1] is None:
            raise SettingError(["an open range has no numeric key: give 'accept'"])
        low, high = ends[0] - item.evidence.tolerance, ends[1] + item.evidence.tolerance
        factor = ratio(reference.unit, numeric.unit) if reference.unit else Fraction(1)
    step = Fraction(numeric.step)
    return Accepted(_count(Fraction(low) * factor / step), _count(Fraction(high) * factor / step))


def _count(steps: Fraction) -> int:
    """Round half up: the one rounding rule of the course."""
    return (2 * steps.numerator + steps.denominator) // (2 * steps.denominator)


def scorable(bank: str, item: Item, course: Course, answers: Answers) -> dict[str, Any]:
    """Return the item as both scorers read it (`docs/scoring.md`).

    Args:
        bank: id of the module it belongs to.
        item: the authored item.
        course: for ledger values.
        answers: for computed values.
    """
    built: dict[str, Any] = {
        "id": f"{bank}/{item.id}",
        "version": item.version,
        "type": item.type,
        "objective": item.objective,
        "critical": item.critical,
    }
    if item.numeric is None:
        built["options"] = [option.id for option in item.options]
        built["key"] = sorted(item.key)
        return built
    evidence = item.evidence
    if not isinstance(evidence, QuantityEvidence):
        raise SettingError(["a numeric item rests on quantity evidence"])
    counts = accepted(item, reference_quantity(evidence, course, answers))
    step = Fraction(Decimal(item.numeric.step))
    units = {unit: ratio(unit, item.numeric.unit) for unit in item.numeric.units}
    built["numeric"] = {
        "units": {unit: [f.numerator, f.denominator] for unit, f in units.items()},
        "step": [step.numerator, step.denominator],
        "low": counts.low,
        "high": counts.high,
    }
    return built
