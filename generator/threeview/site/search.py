"""The search index: the words of the blocks go in, questions and drawings stay out."""

from __future__ import annotations

import json
import re
from html import escape
from html.parser import HTMLParser
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["block_text", "fill_index", "index_script"]

TOKEN = re.compile(r"(?:<p>)?\s*tv-block:(?P<key>[A-Za-z0-9._/-]+)\s*(?:</p>)?")
SILENT = frozenset({"tv-item", "tv-quiz", "svg", "script", "style", "table", "button", "select"})


def fill_index(index: str, blocks: Mapping[str, str]) -> str:
    """Return the search index with each placeholder replaced by the words of its block.

    Args:
        index: the JSON text the search plugin wrote.
        blocks: key to finished HTML.
    """
    read = json.loads(index)
    for document in read["docs"]:
        document["text"] = TOKEN.sub(
            lambda match: f" {escape(block_text(blocks[match['key']]), quote=False)} ",
            document["text"],
        ).strip()
    return json.dumps(read, separators=(",", ":"), ensure_ascii=False)


def index_script(index: str) -> str:
    """Return the index as a script, for pages opened from disk, where nothing can be fetched."""
    return f"var __index = {index}"


def block_text(html: str) -> str:
    """Return the readable words of a block.

    Quiz items are left out, so that a search cannot show a question or its key; so are drawings
    and number tables, which read as noise.
    """
    reader = _Reader()
    reader.feed(html)
    reader.close()
    return " ".join(" ".join(reader.words).split())


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self._silent: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        del attrs
        if tag in SILENT:
            self._silent.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if self._silent and self._silent[-1] == tag:
            self._silent.pop()

    def handle_data(self, data: str) -> None:
        if not self._silent:
            self.words.append(data)
