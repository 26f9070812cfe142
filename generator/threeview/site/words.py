"""The readable words of a finished block, and the rows in it that can be linked to."""

from __future__ import annotations

from dataclasses import dataclass
from html.parser import HTMLParser

__all__ = ["Passage", "read_block"]

# Quiz items are left out, so that a search cannot show a question or its key; title blocks,
# drawings and number tables read as noise.
SILENT = frozenset({"button", "header", "script", "select", "style", "svg", "table"})
SILENT |= {"tv-item", "tv-quiz"}
TITLE_CLASS = "tv-refs__what"
AFTER_TITLE = "tv-refs__conditions"


@dataclass(frozen=True)
class Passage:
    """A row with an anchor: a term with its definition, or a value with its source."""

    anchor: str
    title: str
    text: str


def read_block(html: str) -> tuple[str, tuple[Passage, ...]]:
    """Return the words of a block outside its rows, and the rows.

    A row is a `dt` with an id (its title; the `dd` that follows is its text) or a `li` with an id
    (the words of its `tv-refs__what` are its title). A `li` without such words stays plain text.
    """
    reader = _Reader()
    reader.feed(html)
    reader.close()
    rows = [row for row in reader.rows if row.title]
    plain = [words for row in reader.rows if not row.title for words in row.text]
    passages = tuple(Passage(row.anchor, _join(row.title), _join(row.text)) for row in rows)
    return _join([*reader.words, *plain]), passages


def _join(words: list[str]) -> str:
    return " ".join(" ".join(words).split())


class _Row:
    def __init__(self, anchor: str) -> None:
        self.anchor = anchor
        self.title: list[str] = []
        self.text: list[str] = []


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self.rows: list[_Row] = []
        self._silent: list[str] = []
        self._sink = self.words

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = dict(attrs)
        classes = (named.get("class") or "").split()
        anchor = named.get("id")
        if tag in SILENT:
            self._silent.append(tag)
        elif tag in {"dt", "li"} and anchor:
            self.rows.append(_Row(anchor))
            self._sink = self.rows[-1].title if tag == "dt" else self.rows[-1].text
        elif TITLE_CLASS in classes and self.rows:
            self._sink = self.rows[-1].title
        elif (tag == "dd" or AFTER_TITLE in classes) and self.rows:
            self._sink = self.rows[-1].text

    def handle_endtag(self, tag: str) -> None:
        if self._silent and self._silent[-1] == tag:
            self._silent.pop()
        elif tag in {"dl", "ul", "ol"}:
            self._sink = self.words
        elif tag == "span" and self.rows and self._sink is self.rows[-1].title:
            self._sink = self.rows[-1].text

    def handle_data(self, data: str) -> None:
        if not self._silent:
            self._sink.append(data)
