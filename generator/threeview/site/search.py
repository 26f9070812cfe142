"""The search index: the words of the blocks go in, questions and drawings stay out."""

from __future__ import annotations

import json
import re
from html import escape
from typing import TYPE_CHECKING

from threeview.site.words import read_block

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from threeview.site.words import Passage

__all__ = ["fill_index", "index_script"]

TOKEN = re.compile(r"(?:<p>)?\s*tv-block:(?P<key>[A-Za-z0-9._/-]+)\s*(?:</p>)?")


def fill_index(index: str, blocks: Mapping[str, str]) -> str:
    """Return the search index with each placeholder replaced by the words of its block.

    A row that can be linked to (a value, a source, a term) becomes an entry of its own, so that a
    search leads to the row and not to the top of a long page.

    Args:
        index: the JSON text the search plugin wrote.
        blocks: key to finished HTML.
    """
    read = json.loads(index)
    filled = (entry for document in read["docs"] for entry in _fill(document, blocks))
    read["docs"] = list(_merge_titles(filled))
    return json.dumps(read, separators=(",", ":"), ensure_ascii=False)


def index_script(index: str) -> str:
    """Return the index as a script, for pages opened from disk, where nothing can be fetched."""
    return f"var __index = {index}"


def _fill(document: dict[str, str], blocks: Mapping[str, str]) -> Iterator[dict[str, str]]:
    rows: list[Passage] = []

    def replace(match: re.Match[str]) -> str:
        text, found = read_block(blocks[match["key"]])
        rows.extend(found)
        return f" {escape(text, quote=False)} "

    yield document | {"text": TOKEN.sub(replace, document["text"]).strip()}
    page = document["location"].partition("#")[0]
    for row in rows:
        yield {
            "location": f"{page}#{row.anchor}",
            "title": escape(row.title, quote=False),
            "text": escape(row.text, quote=False),
        }


def _merge_titles(documents: Iterator[dict[str, str]]) -> Iterator[dict[str, str]]:
    """Join a page's entry with that of its own heading, which the plugin lists apart."""
    held: dict[str, str] | None = None
    for document in documents:
        if held and not held["text"] and document["title"] == held["title"]:
            held = held | {"text": document["text"]}
            continue
        if held:
            yield held
        held = document
    if held:
        yield held
