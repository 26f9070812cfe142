"""Source notes: what stands in the margin beside a number."""

from __future__ import annotations

import html
from typing import TYPE_CHECKING

from threeview.computed.cache import engine_version

if TYPE_CHECKING:
    from collections.abc import Sequence

    from threeview.evidence import ReferenceValue
    from threeview.pages.context import PageContext

__all__ = [
    "basis_words",
    "computed_notes",
    "letter",
    "sentence",
    "value_notes",
    "value_source",
]

_FUNDING = {
    "industry": "Industry-funded.",
    "public": "Publicly funded.",
    "none declared": "No funding declared.",
    "not stated": "",  # the Evidence page says so; beside every number it would be noise
}
_BASIS_CLASS = {
    "published": "published",
    "common practice": "practice",
    "from memory": "memory",
}


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
        text += f" {_FUNDING[value.funding]}".rstrip()
    return text.strip()


def sentence(text: str | None) -> str:
    """Return an author's phrase as an escaped sentence: a capital first, a stop last."""
    if not text:
        return ""
    shown = html.escape(text[0].upper() + text[1:])
    return shown if shown.endswith((".", "…")) else shown + "."


def value_notes(marked: Sequence[tuple[str, ReferenceValue]], page: PageContext) -> str:
    """Return one note for each source that a paragraph's values come from.

    Args:
        marked: letters and values, in the order of the paragraph.
        page: the page they stand on.
    """
    groups: dict[object, list[tuple[str, ReferenceValue]]] = {}
    for mark, value in marked:
        alike = value.sources, value.basis, value.read_as, value.funding
        key = alike if value.sources else value.id  # unsourced values have nothing to share
        groups.setdefault(key, []).append((mark, value))
    return "".join(_value_note(group, page) for group in groups.values())


def _value_note(group: Sequence[tuple[str, ReferenceValue]], page: PageContext) -> str:
    """Return the note of values from one source: letters, source, conditions, basis.

    A letter leads to the value's row on the Evidence page. Conditions are printed for a value that
    has the note to itself; for several they stand in their sentences and in those rows.
    """
    value = group[0][1]
    letters = ", ".join(
        f'<b id="note-{mark}"><a href="{page.evidence(each.id)}">{mark}</a></b>'
        for mark, each in group
    )
    alone = len(group) == 1
    parts = (
        letters,
        value_source(value, page),
        sentence(value.conditions) if alone else "",
        "" if value.sources or value.conditions else sentence(value.statement),
        f"{value.n} of {value.N}." if alone and value.n is not None else "",
        "Disputed." if any(each.conflicts_with for _, each in group) else "",
        basis_words(value),
    )
    return f"<p>{' '.join(part for part in parts if part)}</p>"


def computed_notes(marked: Sequence[tuple[str, str]]) -> str:
    """Return one note for a paragraph's computed values.

    Args:
        marked: letters and conditions; of all but the first only what differs is printed.
    """
    if not marked:
        return ""
    first = marked[0][1].split(", ")
    rows = []
    for index, (mark, words) in enumerate(marked):
        new = [phrase for phrase in words.split(", ") if phrase not in first]
        shown = words if index == 0 else ", ".join(new) or "otherwise the same"
        rows.append(f'<b id="note-{mark}">{mark}</b> {sentence(shown)}')
    engine = f"computed, engine {engine_version()[:6]}"
    basis = f'<span class="tv-basis tv-basis--computed">{engine}</span>'
    return f"<p>Computed here. {' '.join(rows)} {basis}</p>"
