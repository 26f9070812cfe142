"""Quiz items as finished HTML: complete without script, and scorable with it."""

from __future__ import annotations

import html
import json
from typing import TYPE_CHECKING

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from threeview.course.keys import evidence_values, scorable
from threeview.evidence import show_value
from threeview.quiz.item import ArguedEvidence, QuantityEvidence
from threeview.units import show_quantity

if TYPE_CHECKING:
    from threeview.evidence import ReferenceValue
    from threeview.pages.context import PageContext
    from threeview.quiz.item import Item

__all__ = ["item_html", "json_for_html", "templates"]

_ASK = {
    "single": "One best answer.",
    "multiple": "Choose all that apply.",
    "numeric": "Give a number; a comma or a point marks the decimals.",
}


def templates() -> Environment:
    """Return the templates of finished blocks, which escape what they are given."""
    return Environment(
        loader=PackageLoader("threeview.pages"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def json_for_html(data: object) -> Markup:
    """Return JSON that can stand inside a script element."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    return Markup(text.replace("<", "\\u003c"))  # noqa: S704 - '<' cannot close the element


def item_html(bank: str, item: Item, page: PageContext) -> str:
    """Return one item as the browser elements expect it."""
    letters = {option.id: option.id.upper() for option in item.options}
    units = []
    if item.numeric:
        units = [(unit, show_quantity("", unit).strip() or unit) for unit in item.numeric.units]
    return (
        templates()
        .get_template("item.html.j2")
        .render(
            bank=bank,
            item=item,
            stem=page.inline.paragraphs(item.stem),
            ask=_ASK[item.type],
            options=[
                (
                    option,
                    letters[option.id],
                    page.inline.line(option.text),
                    page.inline.line(option.feedback),
                )
                for option in item.options
            ],
            kind="radio" if item.type == "single" else "checkbox",
            units=units,
            keyed=_keyed(item, page),
            wrong=page.inline.line(item.feedback_wrong) if item.feedback_wrong else None,
            rationale=page.inline.paragraphs(item.rationale),
            rests=_rests(item, page),
            section=item.look_again,
            module=f"{page.root}modules/{bank}.html",
            data=json_for_html(scorable(bank, item, page.course, page.answers)),
        )
    )


def _keyed(item: Item, page: PageContext) -> str:
    if item.numeric is None:
        *most, last = (key.upper() for key in sorted(item.key))
        letters = f"{', '.join(most)} and {last}" if most else last
        return f"The keyed answer: {letters}."
    assert isinstance(item.evidence, QuantityEvidence)  # noqa: S101 - check proves it
    data = scorable("", item, page.course, page.answers)["numeric"]
    step = item.numeric.step
    low, high = data["low"] * step, data["high"] * step
    shown = f"{low:f}" if low == high else f"{low:f}–{high:f}"
    return f"Right answers: {show_quantity(shown, item.numeric.unit)}."


def _shown(value: ReferenceValue, item: Item) -> str:
    """Return a value as the key uses it: its words for a judgement, its number for a number."""
    if value.category and not isinstance(item.evidence, QuantityEvidence):
        return value.category
    return show_value(value)


def _rests(item: Item, page: PageContext) -> Markup:
    """Return what the key rests on, linked to the Evidence page."""
    parts = []
    for value in evidence_values(item, page.course):
        source = page.book.short(value.sources[0]) if value.sources else value.basis
        parts.append(
            f'<a href="{page.evidence(value.id)}">{html.escape(_shown(value, item))}</a> '
            f"({html.escape(source)})"
        )
    parts += [
        f'<a href="{page.evidence("source-" + name)}">{html.escape(page.book.short(name))}</a>'
        for name in item.sources
    ]
    evidence = item.evidence
    if isinstance(evidence, QuantityEvidence) and evidence.computed:
        parts.append("a value computed here")
    text = "Rests on " + "; ".join(parts) + "."
    if isinstance(evidence, ArguedEvidence):
        review = evidence.review
        text += f" A judgement, reviewed {review.date} by the {html.escape(review.by)}."
    return Markup(text)  # noqa: S704 - parts are escaped above
