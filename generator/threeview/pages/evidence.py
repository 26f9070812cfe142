"""The Evidence page: every value with its source, grade, disagreements, and where it is used."""

from __future__ import annotations

import html
from typing import TYPE_CHECKING

from threeview.pages.frames import big_number, reference_list
from threeview.pages.notes import basis_words, sentence, value_source
from threeview.pages.page import Page, front_matter

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from threeview.course import CheckReport, Course
    from threeview.evidence import ReferenceValue
    from threeview.evidence.bench import Property
    from threeview.pages.context import PageContext

__all__ = ["evidence_page"]


def evidence_page(page: PageContext, report: CheckReport) -> Page:
    """Return the page of all values, what the model assumes, and all sources."""
    course = page.course
    rows = _Rows(page, report)
    body = "".join(rows.topics())
    sources = reference_list(sorted(course.ledger.sources, key=page.book.short), page)
    block = (
        f"<h1>Evidence</h1>{_lead(course)}"
        f'<tv-evidence class="tv-evidence">{body}</tv-evidence>'
        f"{_assumptions(course)}{_counts(report)}"
        f'<h2 id="sources">Sources</h2>{sources}'
    )
    return Page(
        "evidence.md", front_matter("Evidence") + "tv-block:evidence.all\n", {"evidence.all": block}
    )


def _lead(course: Course) -> str:
    values = course.ledger.values.values()
    memory = sum(value.basis == "from memory" for value in values)
    practice = sum(value.basis == "common practice" for value in values)
    return (
        f'<p class="tv-lead">{len(values)} values that the pages and quiz keys rest on. '
        f"{practice} are common practice without a source and {memory} are from memory and not yet "
        "checked; neither kind decides a critical item. Abstracts, tables and excerpts were read, "
        "not whole papers, and each row says which. Where sources disagree, they stand together "
        "and are not averaged.</p>"
    )


class _Rows:
    """Rows of the ledger by topic, disagreements framed together."""

    def __init__(self, page: PageContext, report: CheckReport) -> None:
        self._page, self._course, self._report = page, page.course, report
        self._framed: set[str] = set()

    def topics(self) -> Iterator[str]:
        """Yield the HTML of each topic."""
        topics = self._course.ledger.topics
        for topic in dict.fromkeys(topics.values()):
            values = [self._course.ledger.values[n] for n, t in topics.items() if t == topic]
            title = topic.replace("-", " ")
            yield f'<h2 id="topic-{topic}">{title[0].upper()}{title[1:]}</h2>'
            yield from self._frames(values)
            alone = [value for value in values if value.id not in self._framed]
            if alone:
                yield f'<ul class="tv-refs">{"".join(map(self._row, alone))}</ul>'

    def _frames(self, values: Sequence[ReferenceValue]) -> Iterator[str]:
        for value in values:
            group = self._disagreement(value)
            if len(group) == 1 or value.id in self._framed:
                continue
            self._framed |= {member.id for member in group}
            label = f"disagree-{value.id}"
            yield (
                f'<section class="tv-frame tv-disagree" aria-labelledby="{label}">'
                f'<p class="tv-frame__label" id="{label}">These disagree</p>'
                f'<ul class="tv-refs">{"".join(map(self._row, group))}</ul></section>'
            )

    def _disagreement(self, value: ReferenceValue) -> list[ReferenceValue]:
        """Return all values linked to `value` by disagreements, itself first."""
        group, waiting = [], [value]
        while waiting:
            member = waiting.pop(0)
            if member not in group:
                group.append(member)
                waiting += self._course.ledger.conflicts(member)
        return group

    def _row(self, value: ReferenceValue) -> str:
        counts = f"{value.n} of {value.N}" if value.n is not None else None
        grade = f"Source's grade: {value.grade}" if value.grade else None
        funding = "Funding not stated" if value.funding == "not stated" else None
        asked = (value.guideline, value.conditions, value.population)
        small = (*asked, counts, grade, funding, value.note)
        conditions = " ".join(sentence(part) for part in small if part)
        shown = f' <span class="tv-refs__conditions">{conditions}</span>' if conditions else ""
        return (
            f'<li id="{value.id}"><span class="tv-refs__number">{big_number(value)}</span>'
            f'<span class="tv-refs__what">{html.escape(value.statement)}{shown}</span>'
            f'<span class="tv-refs__source">{value_source(value, self._page)} '
            f"{basis_words(value)} {self._used(value)}</span></li>"
        )

    def _used(self, value: ReferenceValue) -> str:
        links = []
        for place in self._report.used[value.id]:
            bank, _, item = place.partition("/")
            if item:
                links.append(f'<a href="quizzes/{bank}.html#item-{item}">{html.escape(item)}</a>')
            elif place in self._course.meta.modules:
                number = self._course.number(place)
                links.append(f'<a href="modules/{place}.html">module {number}</a>')
            else:
                links.append(html.escape(place))
        if not links:
            return '<span class="tv-refs__used">Listed for reference; used on no other page.</span>'
        return f'<span class="tv-refs__used"><b>Used in</b> {", ".join(links)}</span>'


_OF_TISSUE = (
    "conductivity",
    "conductivity_slope",
    "thermal_conductivity",
    "heat_capacity",
    "perfusion",
    "blood_heat_capacity",
)
_OF_DAMAGE = ("frequency_factor", "activation_energy")


def _assumptions(course: Course) -> str:
    """Return what the lesion model assumes, property by property."""
    bench = course.bench
    rows = [
        _property(f"outer diameter, {g.gauge} gauge", g.outer_diameter)
        for g in bench.electrodes.gauges
    ]
    rows += [_property(n.replace("_", " "), part) for n, part in bench.electrodes.parts.items()]
    rows += [
        _property(f"{tissue.id}: {name.replace('_', ' ')}", getattr(tissue, name))
        for tissue in bench.tissues.tissues
        for name in _OF_TISSUE
    ]
    rows += [
        _property(f"damage: {name.replace('_', ' ')}", getattr(law, name))
        for law in bench.tissues.damage
        for name in _OF_DAMAGE
    ]
    return (
        '<h2 id="assumptions">What the lesion model assumes</h2>'
        '<div class="tv-table-scroll" tabindex="0" role="group" aria-label="What the lesion model '
        'assumes"><table class="tv-table"><thead><tr><th scope="col">Property</th><th scope="col">'
        'Value</th><th scope="col">Basis</th></tr></thead><tbody>'
        f"{''.join(rows)}</tbody></table></div>"
    )


def _property(words: str, part: Property) -> str:
    from threeview.evidence import show_number
    from threeview.units import show_quantity

    number = float(part.value)
    shown = show_number(part.value) if 1e-4 <= abs(number) < 1e5 or not number else f"{number:.4g}"  # noqa: PLR2004 - beyond these a power of ten reads better
    return (
        f'<tr><th scope="row">{html.escape(words)}</th>'
        f"<td>{html.escape(show_quantity(shown, part.unit))}</td>"
        f"<td>{html.escape(part.basis)}: {html.escape(part.source)}</td></tr>"
    )


def _counts(report: CheckReport) -> str:
    rows = "".join(
        f'<tr><th scope="row">{name}</th><td>{count}</td></tr>'
        for name, count in report.counts.items()
    )
    return (
        '<h2 id="counts">What the course holds</h2>'
        f'<table class="tv-table"><tbody>{rows}</tbody></table>'
    )
