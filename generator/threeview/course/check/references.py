"""Rules between the parts: what is named exists, what exists is used, cautions stand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from threeview.course.keys import evidence_values
from threeview.errors import nearest

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Sequence

    from threeview.course.check.texts import Text
    from threeview.course.course import Course
    from threeview.course.origin import Origin
    from threeview.course.yamlfile import Step
    from threeview.errors import Problem

__all__ = ["check_cautions", "check_ledger", "check_modules", "check_sources", "usage"]


def _each_known(
    origin: Origin, path: tuple[Step, ...], names: Iterable[str], legal: Collection[str], kind: str
) -> Iterator[Problem]:
    for index, name in enumerate(names):
        if name not in legal:
            yield origin.problem(
                (*path, index),
                f"the unknown {kind} '{name}'",
                f"expected a {kind} of this course",
                nearest(name, legal),
            )


def check_modules(course: Course) -> Iterator[Problem]:
    """Yield unknown ids in modules, repeated ids within one, and objectives without items."""
    for module in course.modules:
        origin = course.origin("module", module.id)
        values, cautions = course.ledger.values, course.ledger.cautions
        yield from _each_known(origin, ("key_values",), module.key_values, values, "value")
        yield from _each_known(origin, ("cautions",), module.cautions, cautions, "caution")
        for field in ("objectives", "figures", "sections"):
            yield from _twice(origin, field, [part.id for part in getattr(module, field)])
        asked = {item.objective for item in course.banks.get(module.id, ())}
        for index, objective in enumerate(module.objectives):
            if objective.id not in asked:
                yield origin.problem(
                    ("objectives", index),
                    f"objective '{objective.id}' without an item",
                    f"expected at least one in quizzes/{module.id}.yaml",
                )


def _twice(origin: Origin, field: str, names: Sequence[str]) -> Iterator[Problem]:
    for index, name in enumerate(names):
        if name in names[:index]:
            yield origin.problem(
                (field, index), f"'{name}' a second time in {field}", "expected each id once"
            )


def check_ledger(course: Course) -> Iterator[Problem]:
    """Yield unknown ids in the ledger, and conflicts that only one side declares."""
    ledger = course.ledger
    for value in ledger.values.values():
        origin = course.origin("value", value.id)
        yield from _each_known(origin, ("sources",), value.sources, ledger.sources, "source")
        yield from _each_known(
            origin, ("conflicts_with",), value.conflicts_with, ledger.values, "value"
        )
        for index, name in enumerate(value.conflicts_with):
            other = ledger.values.get(name)
            if other is not None and value.id not in other.conflicts_with:
                yield origin.problem(
                    ("conflicts_with", index),
                    f"'{name}' does not conflict back",
                    f"expected '{value.id}' under its conflicts_with",
                )
    for caution in ledger.cautions.values():
        origin = course.origin("caution", caution.id)
        yield from _each_known(origin, ("values",), caution.values, ledger.values, "value")
        if not caution.values and not caution.basis:
            yield origin.problem(
                (),
                f"caution '{caution.id}' without evidence",
                "expected values, or basis: common practice",
            )
    for term in course.glossary.values():
        origin = course.origin("term", term.id)
        yield from _each_known(origin, ("see",), term.see, course.glossary, "term")


def check_sources(course: Course, texts: Sequence[Text]) -> Iterator[Problem]:
    """Yield sources that nothing rests on."""
    used = {name for value in course.ledger.values.values() for name in value.sources}
    used |= {call.arguments[0] for text in texts for call in text.prose.calls("cite")}
    used |= {name for _, item in course.items() for name in item.sources}
    for name in course.ledger.sources:
        if name not in used:
            yield course.origin("source", name).problem(
                ("id",),
                f"the source '{name}' is not cited",
                "expected a value, a text or an item that uses it; or take it out",
            )


def check_cautions(course: Course, texts: Sequence[Text]) -> Iterator[Problem]:
    """Yield pages that lack a caution they ask for, or have more than one stop."""
    shown: dict[str, set[str]] = {}
    for text in texts:
        for call in text.prose.calls("caution"):
            shown.setdefault(text.used_by, set()).add(call.arguments[0])
    pages = [("module", module.id, module.cautions) for module in course.modules]
    pages += [("page", page.id, page.cautions) for page in course.pages]
    for kind, name, wanted in pages:
        for index, caution in enumerate(wanted):
            if caution not in shown.get(name, set()):
                yield course.origin(kind, name).problem(
                    ("cautions", index),
                    f"the caution '{caution}' does not stand on this page",
                    f'expected {{{{ caution("{caution}") }}}} where it applies',
                )
        stops = [each for each in sorted(shown.get(name, ())) if _stops(each, course)]
        if len(stops) > 1:
            # A page full of stop frames teaches to look past them.
            yield course.origin(kind, name).problem(
                ("cautions",),
                f"{len(stops)} stop frames on one page ({', '.join(stops)})",
                "expected at most one; make the others cautions",
            )


def _stops(name: str, course: Course) -> bool:
    caution = course.ledger.cautions.get(name)
    return caution is not None and caution.kind == "stop"


def usage(course: Course, texts: Sequence[Text]) -> dict[str, tuple[str, ...]]:
    """Return, for each ledger value, the places that use it: pages and `bank/item`."""
    found: dict[str, dict[str, None]] = {name: {} for name in course.ledger.values}
    for name, place in _uses(course, texts):
        if name in found:
            found[name][place] = None
    return {name: tuple(places) for name, places in found.items()}


def _uses(course: Course, texts: Sequence[Text]) -> Iterator[tuple[str, str]]:
    for text in texts:
        for call in text.prose.calls("value"):
            yield call.arguments[0], text.used_by
    for module in course.modules:
        for name in module.key_values:
            yield name, module.id
    for bank, item in course.items():
        for value in evidence_values(item, course):
            yield value.id, f"{bank}/{item.id}"
    for caution in course.ledger.cautions.values():
        for name in caution.values:
            yield name, f"caution {caution.id}"
