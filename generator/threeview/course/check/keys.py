"""Rules for items: the key agrees with its evidence, and rests on what it may rest on."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from threeview.course.keys import accepted, evidence_values, option_agrees, reference_quantity
from threeview.errors import SettingError, nearest
from threeview.evidence import show_value
from threeview.quiz.item import CategoryEvidence, QuantityEvidence
from threeview.units import convertible, ratio

if TYPE_CHECKING:
    from collections.abc import Iterator

    from threeview.computed import Answers
    from threeview.course.course import Course
    from threeview.course.origin import Origin
    from threeview.errors import Problem
    from threeview.evidence import Quantity, ReferenceValue
    from threeview.quiz.item import Item, NumericAnswer

__all__ = ["check_item"]


def check_item(bank: str, item: Item, course: Course, answers: Answers) -> Iterator[Problem]:
    """Yield the problems of one item."""
    origin = course.origin(f"item:{bank}", item.id)
    yield from _references(bank, item, course, origin)
    yield from _weight(item, course, origin)
    yield from _conflicts(item, course, origin)
    evidence = item.evidence
    if isinstance(evidence, QuantityEvidence):
        yield from _quantity_key(item, evidence, course, answers, origin)
    elif isinstance(evidence, CategoryEvidence):
        yield from _category_key(item, evidence, course, origin)
    elif item.type == "numeric":
        yield origin.problem(
            ("evidence",), "argued evidence under a number", "expected kind: quantity"
        )


def _references(bank: str, item: Item, course: Course, origin: Origin) -> Iterator[Problem]:
    module = next(module for module in course.modules if module.id == bank)
    objectives = [objective.id for objective in module.objectives]
    if item.objective not in objectives:
        yield origin.problem(
            ("objective",),
            f"the unknown objective '{item.objective}'",
            f"expected one of: {', '.join(objectives)}",
            nearest(item.objective, objectives),
        )
    sections = [section.id for section in module.sections]
    if item.look_again and item.look_again not in sections:
        yield origin.problem(
            ("look_again",),
            f"the unknown section '{item.look_again}'",
            f"expected one of: {', '.join(sections)}",
            nearest(item.look_again, sections),
        )
    for index, name in enumerate(item.sources):
        if name not in course.ledger.sources:
            yield origin.problem(
                ("sources", index),
                f"the unknown source '{name}'",
                "expected an id of sources.yaml",
                nearest(name, course.ledger.sources),
            )
    for path, name in _named(item):
        if name not in course.ledger.values:
            yield origin.problem(
                path,
                f"the unknown value '{name}'",
                "expected an id of the evidence ledger",
                nearest(name, course.ledger.values),
            )


def _named(item: Item) -> Iterator[tuple[tuple[str | int, ...], str]]:
    evidence = item.evidence
    if isinstance(evidence, QuantityEvidence):
        if evidence.reference:
            yield ("evidence", "reference"), evidence.reference
    elif isinstance(evidence, CategoryEvidence):
        yield ("evidence", "reference"), evidence.reference
    else:
        for index, name in enumerate(evidence.references):
            yield ("evidence", "references", index), name


def _weight(item: Item, course: Course, origin: Origin) -> Iterator[Problem]:
    """A critical item must rest on published values read beyond one web excerpt."""
    values = evidence_values(item, course)
    if not (item.sources or any(value.sources for value in values)) and not _computed(item):
        weak = all(value.basis != "published" for value in values)
        if not (values and weak):
            yield origin.problem(
                (),
                f"item '{item.id}' without a source",
                "expected sources, or evidence that has some",
            )
    if not item.critical:
        return
    if not any(value.firm for value in values):
        yield origin.problem(
            ("critical",),
            "a critical item without firm evidence",
            "expected a published value read in an abstract, table or full text",
        )
    for value in values:
        if value.basis != "published":
            yield origin.problem(
                ("critical",),
                f"a critical item on '{value.id}' ({value.basis})",
                "expected published values only",
            )
        elif item.evidence.kind != "argued" and not value.firm:
            yield origin.problem(
                ("critical",),
                f"a critical item on '{value.id}', a web excerpt",
                "expected a value read in an abstract, table or full text",
            )


def _computed(item: Item) -> bool:
    return isinstance(item.evidence, QuantityEvidence) and item.evidence.computed is not None


def _conflicts(item: Item, course: Course, origin: Origin) -> Iterator[Problem]:
    """A key on a disputed value must say in the stem whose value it asks for."""
    if item.evidence.kind == "argued":
        return
    for value in evidence_values(item, course):
        if not value.conflicts_with:
            continue
        name = value.guideline or ""
        if not name or name.casefold() not in item.stem.casefold():
            others = ", ".join(value.conflicts_with)
            expected = (
                f"expected '{name}' in the stem"
                if name
                else ("expected 'guideline' on that value, and its words in the stem")
            )
            yield origin.problem(("stem",), f"'{value.id}' is disputed (by {others})", expected)


def _quantity_key(
    item: Item, evidence: QuantityEvidence, course: Course, answers: Answers, origin: Origin
) -> Iterator[Problem]:
    try:
        reference = reference_quantity(evidence, course, answers)
    except KeyError:
        return  # reported as an unknown value
    except SettingError as error:
        for fault in error.faults:
            yield origin.problem(("evidence", "computed"), fault, "expected a legal question")
        return
    if reference.value is None and reference.low is None and reference.high is None:
        yield origin.problem(
            ("evidence",),
            "quantity evidence on a value without a number",
            "expected kind: category",
        )
    elif item.numeric is None:
        yield from _option_keys(item, evidence, reference, origin)
    else:
        yield from _numeric_key(item, reference, origin)


def _option_keys(
    item: Item, evidence: QuantityEvidence, reference: Quantity, origin: Origin
) -> Iterator[Problem]:
    shown = show_value(reference)
    for index, option in enumerate(item.options):
        path = ("options", index)
        if option.quantity is None:
            yield origin.problem(
                path,
                f"option '{option.id}' without a quantity",
                "expected one beside its text, as the evidence is a number",
            )
            continue
        unit, wanted = option.quantity.unit, reference.unit
        if (unit is None) != (wanted is None) or (unit and not convertible(unit, wanted or unit)):
            yield origin.problem(
                (*path, "quantity"),
                f"a quantity in {unit or 'no unit'}",
                f"expected one that converts to {wanted or 'a bare number'}",
            )
            continue
        agrees = option_agrees(option.quantity, evidence, reference)
        if agrees and option.id not in item.key:
            yield origin.problem(
                path,
                f"option '{option.id}' is {evidence.relation} {shown}",
                "expected it under 'key', or a distractor that is not",
            )
        if not agrees and option.id in item.key:
            yield origin.problem(
                path,
                f"keyed option '{option.id}' is not {evidence.relation} {shown}",
                "expected a key that the evidence supports",
            )


def _numeric_key(
    item: Item, reference: Quantity | ReferenceValue, origin: Origin
) -> Iterator[Problem]:
    numeric = item.numeric
    assert numeric is not None  # noqa: S101 - asked for by the caller
    yield from _offered_units(numeric, origin)
    if reference.unit and not convertible(reference.unit, numeric.unit):
        yield origin.problem(
            ("numeric", "unit"),
            f"a key in {numeric.unit}",
            f"expected a unit that converts to {reference.unit}",
        )
        return
    try:
        accepted(item, reference)
    except SettingError as error:
        yield origin.problem(("numeric",), error.faults[0], "expected a closed range")
        return
    if numeric.accept is None:
        return
    factor = ratio(reference.unit, numeric.unit) if reference.unit else Fraction(1)
    ends = [Fraction(end) * factor for end in reference.interval if end is not None]
    low, high = Fraction(numeric.accept.low), Fraction(numeric.accept.high)
    if any(not low <= end <= high for end in ends):
        yield origin.problem(
            ("numeric", "accept"),
            f"accepted answers leave out {show_value(reference)}",
            "expected a range that holds the evidence",
        )


def _offered_units(numeric: NumericAnswer, origin: Origin) -> Iterator[Problem]:
    for index, unit in enumerate(numeric.units):
        if not convertible(unit, numeric.unit):
            yield origin.problem(
                ("numeric", "units", index),
                f"'{unit}' under {numeric.unit}",
                "expected a unit that converts to the key's",
            )
    if numeric.unit not in numeric.units:
        yield origin.problem(
            ("numeric", "units"),
            f"no '{numeric.unit}' among the units",
            "expected the key's unit to be offered",
        )


def _category_key(
    item: Item, evidence: CategoryEvidence, course: Course, origin: Origin
) -> Iterator[Problem]:
    value = course.ledger.values.get(evidence.reference)
    if value is None:
        return
    if value.category is None:
        yield origin.problem(
            ("evidence", "reference"), f"'{value.id}' has no category", "expected kind: quantity"
        )
        return
    for index, option in enumerate(item.options):
        named = option.category == value.category
        if named and option.id not in item.key:
            yield origin.problem(
                ("options", index),
                f"option '{option.id}' names '{value.category}'",
                "expected it under 'key'",
            )
        if not named and option.id in item.key:
            words = option.category or "nothing"
            yield origin.problem(
                ("options", index),
                f"keyed option '{option.id}' names '{words}'",
                f"expected category: {value.category}",
                nearest(words, [value.category]),
            )
    if item.type == "numeric":
        yield origin.problem(
            ("evidence",), "a named result under a number", "expected kind: quantity"
        )
