"""Cautions, key values and references as finished HTML."""

from __future__ import annotations

import html
from typing import TYPE_CHECKING

from threeview.evidence import show_value
from threeview.pages.notes import basis_words, sentence, value_source

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from threeview.evidence import Bibliography, Caution, ReferenceValue
    from threeview.pages.context import PageContext

__all__ = ["big_number", "caution_frame", "key_values", "reference_list"]

_LABEL = {"caution": "Caution", "stop": "Stop and look"}


def caution_frame(caution: Caution, page: PageContext) -> str:
    """Return a caution with what it rests on and who decides."""
    values = [page.course.ledger.values[name] for name in caution.values]
    named = {_short(value, page.book): value.id for value in reversed(values)}  # each source once
    links = [
        f'<a href="{page.evidence(name)}">{html.escape(short)}</a>'
        for short, name in reversed(named.items())
    ]
    rests = "Rests on " + "; ".join(links) + "." if links else ""
    if caution.basis:
        rests += f" {html.escape(caution.basis[0].upper() + caution.basis[1:])}."
    label = f"{caution.kind}-{caution.id}"
    decides = (
        f'<a href="{page.root}limits.html">Local policy and the licensed clinician decide.</a>'
    )
    return (
        f'<div class="tv-frame tv-{caution.kind}" role="note" aria-labelledby="{label}">'
        f'<p class="tv-frame__label" id="{label}">{_LABEL[caution.kind]}</p>'
        f"{page.inline.paragraphs(caution.text)}"
        f'<p class="tv-frame__who">{rests.strip()} {decides}</p></div>'
    )


def _short(value: ReferenceValue, book: Bibliography) -> str:
    if value.basis != "published":
        return value.basis
    return book.short(value.sources[0])


def big_number(value: ReferenceValue) -> str:
    """Return a value for large type, its unit lighter; words stay words."""
    shown = show_value(value)
    number, gap, unit = shown.rpartition("\u00a0")
    if not gap or value.unit is None:
        return html.escape(shown)
    return f"{html.escape(number)} <small>{html.escape(unit)}</small>"


def key_values(values: Sequence[ReferenceValue], page: PageContext) -> str:
    """Return the key-value table of a module."""
    rows = []
    for value in values:
        conditions = "; ".join(part for part in (value.conditions, value.population) if part)
        shown = f' <span class="tv-keyvalues__conditions">{sentence(conditions)}</span>'
        rows.append(
            f'<li><span class="tv-keyvalues__number">{big_number(value)}</span>'
            f'<span class="tv-keyvalues__what">{html.escape(value.statement)}'
            f"{shown if conditions else ''}</span>"
            f'<span class="tv-keyvalues__source">{value_source(value, page)} '
            f'{basis_words(value)} <a href="{page.evidence(value.id)}">More</a></span></li>'
        )
    return f'<ul class="tv-keyvalues tv-wide">{"".join(rows)}</ul>'


def reference_list(names: Iterable[str], page: PageContext) -> str:
    """Return full references with their addresses, in one style."""
    rows = []
    for name in names:
        source = page.course.ledger.sources[name]
        address = ""
        if source.address:
            shown = (
                f"doi:{source.doi}"
                if source.doi
                else (f"PubMed {source.pmid}" if source.pmid else "official document")
            )
            address = f' <a href="{html.escape(source.address, quote=True)}">{shown}</a>'
        rows.append(f'<li id="source-{name}">{page.book.entry(name)}{address}</li>')
    return f'<ol class="tv-sources">{"".join(rows)}</ol>'
