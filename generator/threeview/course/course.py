"""The loaded course: frozen, whole, and able to say where each part was written."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from threeview.course.model import CourseMeta, Module, PlainPage, Release, Section, Term
    from threeview.course.origin import Origin
    from threeview.evidence import Ledger
    from threeview.evidence.bench import Bench
    from threeview.quiz.item import Item

__all__ = ["Course"]


@dataclass(frozen=True)
class Course:
    """Everything an author wrote, checked for form but not yet against each other.

    Attributes:
        root: the course folder.
        meta: `content/course.yaml`.
        modules: in the order of the course.
        banks: items by module id, in the author's order.
        retired: items of earlier versions, by module id.
        ledger: the evidence.
        bench: electrodes and tissues for the engine.
        glossary: terms by id.
        pages: plain pages in the order of the course.
        releases: closed editions, oldest first.
        origins: where each thing stands, by (kind, id).
    """

    root: Path
    meta: CourseMeta
    modules: tuple[Module, ...]
    banks: Mapping[str, tuple[Item, ...]]
    retired: Mapping[str, tuple[Item, ...]]
    ledger: Ledger
    bench: Bench
    glossary: Mapping[str, Term]
    pages: tuple[PlainPage, ...]
    releases: tuple[Release, ...]
    origins: Mapping[tuple[str, str], Origin] = field(repr=False, default_factory=dict)

    def number(self, module_id: str) -> int:
        """Return the place of a module in the course, from 1."""
        return self.meta.modules.index(module_id) + 1

    def origin(self, kind: str, name: str) -> Origin:
        """Return where a thing was written; `kind` is 'value', 'item', 'module', ..."""
        return self.origins[kind, name]

    def items(self) -> Iterator[tuple[str, Item]]:
        """Yield every current item with its bank's id."""
        for bank, items in self.banks.items():
            for item in items:
                yield bank, item

    def sections(self) -> Iterator[tuple[Module, int, Section]]:
        """Yield every section with its module and its place in it, from 0."""
        for module in self.modules:
            for index, section in enumerate(module.sections):
                yield module, index, section
