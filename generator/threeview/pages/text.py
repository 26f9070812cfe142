"""Module prose: Markdown paragraphs, each followed by the source notes of its numbers."""

from __future__ import annotations

import html
import re
from typing import TYPE_CHECKING

from threeview.course.prose import BLOCKS, parse_prose, sandbox
from threeview.evidence import show_value
from threeview.pages.inline import computed_link, term_link, value_link
from threeview.pages.notes import computed_notes, letter, value_notes

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from threeview.evidence import ReferenceValue
    from threeview.pages.context import PageContext

__all__ = ["ProseText"]

_GAP = re.compile(r"\n[ \t]*\n")


class ProseText:
    """Renders the prose of one page and remembers what it used.

    Args:
        page: the page's context.
        name: short name of the page, unique among all; begins the keys of its blocks.
        block: makes the finished HTML of figure(), caution() and item() from (function, id).
    """

    def __init__(self, page: PageContext, name: str, block: Callable[[str, str], str]) -> None:
        self._page, self._name, self._block = page, name, block
        self._marks: dict[str, str] = {}
        self._values: list[tuple[str, ReferenceValue]] = []
        self._computeds: list[tuple[str, str]] = []
        self.blocks: dict[str, str] = {}
        self.cited: list[str] = []

    def render(self, text: str) -> str:
        """Return Markdown for `text`; its blocks and notes are added to `blocks`."""
        return "\n\n".join(part for chunk in _GAP.split(text) for part in self._chunk(chunk))

    def _chunk(self, chunk: str) -> Iterator[str]:
        if not chunk.strip():
            return
        calls = list(parse_prose(chunk).calls(*BLOCKS))
        if calls:
            call = calls[0]
            yield self.place(
                f"{call.name}-{call.arguments[0]}", self._block(call.name, call.arguments[0])
            )
            return
        self._values, self._computeds = [], []
        yield (
            sandbox()
            .from_string(chunk.rstrip())
            .render(
                value=self._value,
                computed=self._computed,
                cite=self._cite,
                term=self._term,
                plain=lambda words: words,
            )
        )
        fresh = [mark for mark, _ in (*self._values, *self._computeds)]
        if fresh:
            inner = value_notes(self._values, self._page) + computed_notes(self._computeds)
            aside = f'<aside class="tv-source" role="note">{inner}</aside>'
            yield self.place(f"note-{min(fresh, key=lambda mark: (len(mark), mark))}", aside)

    def place(self, name: str, block: str) -> str:
        """Register a finished block and return its placeholder paragraph."""
        key = f"{self._name}.{name}"
        while key in self.blocks:  # the same caution twice on a page stands twice
            key += "-again"
        self.blocks[key] = block
        return f"tv-block:{key}"

    def _mark(self, key: str) -> tuple[str, bool]:
        """Return the letter of a note, and whether this is its first use on the page."""
        fresh = key not in self._marks
        if fresh:
            self._marks[key] = letter(len(self._marks))
        return self._marks[key], fresh

    def _value(self, name: str, words: str | None = None) -> str:
        value = self._page.course.ledger.values[name]
        self._use(*value.sources)
        mark, fresh = self._mark(f"value {name}")
        if fresh:
            self._values.append((mark, value))
        return value_link(self._page.course, name, words, f"#note-{mark}", mark)

    def _computed(self, question: str, words: str | None = None, **parameters: object) -> str:
        asked = {key: str(text) for key, text in parameters.items()}
        answer = self._page.answers.answer(question, asked)
        mark, fresh = self._mark(f"computed {answer.words}")
        if fresh:
            self._computeds.append((mark, answer.words))
        return computed_link(words or show_value(answer.quantity), f"#note-{mark}", mark)

    def _cite(self, name: str) -> str:
        self._use(name)
        short = html.escape(self._page.book.short(name))
        return f'(<a href="#source-{name}">{short}</a>)'

    def _term(self, name: str, words: str | None = None) -> str:
        return term_link(self._page.course, name, words, self._page.root)

    def _use(self, *sources: str) -> None:
        self.cited += [name for name in sources if name not in self.cited]
