"""Short course texts (stems, captions, cautions, definitions) as finished HTML.

Values link to their row on the Evidence page; only module prose has a margin for source notes.
"""

from __future__ import annotations

import html
from typing import TYPE_CHECKING

from markdown import Markdown
from markupsafe import Markup

from threeview.course.prose import sandbox
from threeview.evidence import show_value

if TYPE_CHECKING:
    from threeview.computed import Answers
    from threeview.course import Course

__all__ = ["InlineText", "computed_link", "term_link", "value_link"]


def _weak(basis: str) -> str:
    return "" if basis == "published" else " tv-v--weak"


def value_link(course: Course, name: str, words: str | None, href: str, mark: str = "") -> str:
    """Return a ledger value as a link to its source; `mark` is the note's letter."""
    value = course.ledger.values[name]
    shown = html.escape(words or show_value(value))
    letter = f"<sup>{mark}</sup>" if mark else ""
    wraps = " tv-v--words" if words or (value.unit is None and value.category) else ""
    return f'<a class="tv-v{_weak(value.basis)}{wraps}" href="{href}">{shown}{letter}</a>'


def computed_link(shown: str, href: str | None, mark: str = "", words: str = "") -> str:
    """Return a computed value; without a note to link to, its conditions are its title."""
    letter = f"<sup>{mark}</sup>" if mark else ""
    if href is None:
        title = html.escape(f"Computed here: {words}", quote=True)
        return f'<span class="tv-v tv-v--computed" title="{title}">{html.escape(shown)}</span>'
    return f'<a class="tv-v tv-v--computed" href="{href}">{html.escape(shown)}{letter}</a>'


def term_link(course: Course, name: str, words: str | None, root: str) -> str:
    """Return a glossary term as a link to its definition."""
    shown = html.escape(words or course.glossary[name].term)
    return f'<a class="tv-term" href="{root}glossary.html#{name}">{shown}</a>'


class InlineText:
    """Renders short texts for a page.

    Args:
        course: for values, terms and sources.
        answers: for computed values.
        root: way from the page to the site's root, '' or '../'.
    """

    def __init__(self, course: Course, answers: Answers, root: str) -> None:
        self._course = course
        self._answers = answers
        self._root = root
        self._markdown = Markdown(output_format="html")

    def _value(self, name: str, words: str | None = None) -> str:
        return value_link(self._course, name, words, f"{self._root}evidence.html#{name}")

    def _computed(self, question: str, words: str | None = None, **parameters: object) -> str:
        asked = {key: str(text) for key, text in parameters.items()}
        answer = self._answers.answer(question, asked)
        return computed_link(words or show_value(answer.quantity), None, words=answer.words)

    def _cite(self, name: str) -> str:
        from threeview.evidence import Bibliography

        short = Bibliography([self._course.ledger.sources[name]]).short(name)
        return f'(<a href="{self._root}evidence.html#source-{name}">{html.escape(short)}</a>)'

    def _term(self, name: str, words: str | None = None) -> str:
        return term_link(self._course, name, words, self._root)

    def paragraphs(self, text: str) -> Markup:
        """Return a text as HTML paragraphs."""
        rendered = (
            sandbox()
            .from_string(text)
            .render(
                value=self._value,
                computed=self._computed,
                cite=self._cite,
                term=self._term,
                plain=lambda words: words,
            )
        )
        self._markdown.reset()
        return Markup(self._markdown.convert(rendered))  # noqa: S704 - check refused HTML in texts

    def line(self, text: str) -> Markup:
        """Return a text of one paragraph as HTML without the paragraph around it."""
        block = self.paragraphs(text)
        if block.count("<p>") == 1 and block.startswith("<p>"):
            return Markup(block.removeprefix("<p>").removesuffix("</p>"))  # noqa: S704 - as above
        return block
