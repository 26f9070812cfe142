"""Every authored text of a course with its place: what the prose rules run over."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from threeview.course.prose import Prose, parse_prose

if TYPE_CHECKING:
    from collections.abc import Iterator

    from threeview.course.course import Course
    from threeview.course.origin import Origin
    from threeview.course.yamlfile import Step
    from threeview.errors import Problem
    from threeview.quiz.item import Item

__all__ = ["Text", "course_texts"]

# Which functions a kind of text may use.
_ALL = frozenset({"value", "computed", "cite", "figure", "term", "caution", "item", "plain"})
_INLINE = frozenset({"value", "computed", "cite", "term", "plain"})
_NONE: frozenset[str] = frozenset()  # titles: words only


@dataclass(frozen=True)
class Text:
    """One authored text.

    Attributes:
        text: as written.
        origin: the thing it belongs to.
        path: the field within that thing.
        functions: text functions legal here.
        module: id of the module it is shown in; None outside modules.
        own: numbers it may show because a field beside it declares them.
        used_by: the page it appears on, for the ledger's 'where used'.
    """

    text: str
    origin: Origin
    path: tuple[Step, ...]
    functions: frozenset[str]
    module: str | None
    used_by: str
    own: tuple[str, ...] = ()

    @cached_property
    def prose(self) -> Prose:
        """The text, parsed once."""
        return parse_prose(self.text)

    def problem(
        self, found: str, expected: str, line: int = 1, nearest: str | None = None
    ) -> Problem:
        """Return a problem at `line` of this text, from 1."""
        return self.origin.problem(self.path, found, expected, nearest, line)


def course_texts(course: Course) -> Iterator[Text]:
    """Yield every text a reader can meet, in the order of the course."""
    yield from _module_texts(course)
    yield from _item_texts(course)
    for name in course.ledger.cautions:
        origin = course.origin("caution", name)
        text = course.ledger.cautions[name].text
        yield Text(text, origin, ("text",), _INLINE, None, f"caution {name}")
    for name, term in course.glossary.items():
        origin = course.origin("term", name)
        yield Text(term.term, origin, ("term",), _NONE, None, "glossary")
        yield Text(term.definition, origin, ("definition",), _INLINE, None, "glossary")
    for page in course.pages:
        origin = course.origin("page", page.id)
        yield Text(page.title, origin, ("title",), _NONE, None, page.id)
        yield Text(page.text, origin, ("text",), _ALL - {"item", "figure"}, None, page.id)
    origin = course.origin("course", "course")
    for field in ("title", "subject"):
        yield Text(getattr(course.meta, field), origin, (field,), _NONE, None, "home")
    for field in ("lead", "audience"):
        yield Text(
            getattr(course.meta, field), origin, (field,), frozenset({"plain"}), None, "home"
        )


def _module_texts(course: Course) -> Iterator[Text]:
    for module in course.modules:
        origin = course.origin("module", module.id)
        where = module.id
        yield Text(module.title, origin, ("title",), _NONE, where, where)
        yield Text(module.question, origin, ("question",), frozenset({"plain"}), where, where)
        for i, objective in enumerate(module.objectives):
            path = ("objectives", i, "text")
            yield Text(objective.text, origin, path, frozenset({"plain"}), where, where)
        for i, figure in enumerate(module.figures):
            yield Text(figure.caption, origin, ("figures", i, "caption"), _INLINE, where, where)
        for i, section in enumerate(module.sections):
            yield Text(section.title, origin, ("sections", i, "title"), _NONE, where, where)
            yield Text(section.text, origin, ("sections", i, "text"), _ALL, where, where)


def _item_texts(course: Course) -> Iterator[Text]:
    for bank, item in course.items():
        origin = course.origin(f"item:{bank}", item.id)
        for path, text, own in _texts_of(item):
            yield Text(text, origin, path, _INLINE, bank, f"{bank}/{item.id}", own)


def _texts_of(item: Item) -> Iterator[tuple[tuple[Step, ...], str, tuple[str, ...]]]:
    from threeview.evidence import show_value

    yield ("stem",), item.stem, ()
    yield ("rationale",), item.rationale, ()
    if item.feedback_wrong:
        yield ("feedback_wrong",), item.feedback_wrong, ()
    for i, option in enumerate(item.options):
        own = (show_value(option.quantity),) if option.quantity else ()
        yield ("options", i, "text"), option.text, own
        yield ("options", i, "feedback"), option.feedback, own
