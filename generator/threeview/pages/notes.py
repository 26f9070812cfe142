"""Source notes: what stands in the margin beside a number."""

from __future__ import annotations

import html
from dataclasses import dataclass
from typing import TYPE_CHECKING

from threeview.computed.cache import engine_version

if TYPE_CHECKING:
    from threeview.evidence import ReferenceValue
    from threeview.pages.context import PageContext

__all__ = [
    "Note",
    "basis_words",
    "computed_note",
    "letter",
    "sentence",
    "value_note",
    "value_source",
]

_FUNDING = {
    "industry": "Industry-funded.",
    "public": "Publicly funded.",
    "none declared": "No funding declared.",
    "not stated": "Funding not stated.",
}
_BASIS_CLASS = {
    "published": "published",
    "common practice": "practice",
    "from memory": "memory",
}


@dataclass(frozen=True)
class Note:
    """One source note: its letter and its finished HTML."""

    mark: str
    html: str


def letter(index: int) -> str:
    """Return a, b, ... z, aa, ab, ... for 0, 1, ..."""
    first, last = divmod(index, 26)
    return (letter(first - 1) if first else "") + chr(ord("a") + last)


def basis_words(value: ReferenceValue) -> str:
    """Return the basis as a reader sees it, with its mark."""
    words = {
        "published": f"published, {value.read_as} read",
        "common practice": "common practice, no source",
        "from memory": "from memory, not yet checked",
    }[value.basis]
    kind = _BASIS_CLASS[value.basis]
    return f'<span class="tv-basis tv-basis--{kind}">{words}</span>'


def value_source(value: ReferenceValue, page: PageContext) -> str:
    """Return where a value comes from: short sources and funding, linked to the full reference."""
    parts = [
        f'<a href="{page.evidence(f"source-{source.id}")}">'
        f"{html.escape(page.book.short(source.id))}</a>"
        for source in page.course.ledger.sources_of(value)
    ]
    text = "; ".join(parts)
    if text:
        text += "."
    if value.funding:
        text += f" {_FUNDING[value.funding]}"
    return text.strip()


def sentence(text: str | None) -> str:
    """Return an author's phrase as an escaped sentence: a capital first, a stop last."""
    if not text:
        return ""
    shown = html.escape(text[0].upper() + text[1:])
    return shown if shown.endswith((".", "…")) else shown + "."


def value_note(mark: str, value: ReferenceValue, page: PageContext) -> Note:
    """Return the note of a ledger value: source, conditions, counts, basis, disagreement."""
    counts = f"{value.n} of {value.N}." if value.n is not None else ""
    disputed = ""
    if value.conflicts_with:
        disputed = f'<a href="{page.evidence(value.id)}">Disputed</a>: others say otherwise.'
    parts = (
        value_source(value, page),
        sentence(value.conditions),
        sentence(value.population),
        counts,
        disputed,
        basis_words(value),
    )
    body = " ".join(part for part in parts if part)
    return Note(mark, f'<p id="note-{mark}"><b>{mark}</b> {body}</p>')


def computed_note(mark: str, words: str) -> Note:
    """Return the note of a computed value: the conditions it was computed under."""
    engine = f"computed, engine {engine_version()[:6]}"
    basis = f'<span class="tv-basis tv-basis--computed">{engine}</span>'
    body = f"Computed here: {sentence(words)} {basis}"
    return Note(mark, f'<p id="note-{mark}"><b>{mark}</b> {body}</p>')
