"""A module's page: title block, aims, prose with notes, figures, key values, references."""

from __future__ import annotations

import html
from typing import TYPE_CHECKING

from threeview.pages.figures import draw, explore_script, figure_html
from threeview.pages.frames import caution_frame, key_values, reference_list
from threeview.pages.items import item_html
from threeview.pages.page import Page, front_matter
from threeview.pages.reading import module_minutes
from threeview.pages.text import ProseText

if TYPE_CHECKING:
    from threeview.course import Course
    from threeview.course.model import Module
    from threeview.pages.context import PageContext

__all__ = ["module_page"]


class _Blocks:
    """Makes the blocks that a module's prose asks for."""

    def __init__(self, module: Module, page: PageContext) -> None:
        self._module, self._page = module, page
        self.data: dict[str, str] = {}

    def make(self, function: str, name: str) -> str:
        """Return the finished HTML of figure(), caution() or item()."""
        if function == "figure":
            return self._figure(name)
        if function == "caution":
            return caution_frame(self._page.course.ledger.cautions[name], self._page)
        item = next(i for i in self._page.course.banks[self._module.id] if i.id == name)
        inner = item_html(self._module.id, item, self._page)
        label = f"check-{name}"
        return (
            f'<section class="tv-frame tv-selfcheck" aria-labelledby="{label}">'
            f'<p class="tv-frame__label" id="{label}">Self-check</p>{inner}</section>'
        )

    def _figure(self, name: str) -> str:
        index, spec = next((i, f) for i, f in enumerate(self._module.figures, 1) if f.id == name)
        figure = draw(spec, self._page)
        full = f"{self._module.id}.{name}"
        script = explore_script(figure, full)
        if script:
            self.data[f"assets/data/figure-{full}.js"] = script
        number = f"{self._page.course.number(self._module.id)}.{index}"
        return figure_html(figure, spec, full, number, self._page)


def module_page(module: Module, page: PageContext) -> Page:
    """Return the page of one module."""
    course = page.course
    blocks = _Blocks(module, page)
    prose = ProseText(page, module.id, blocks.make)
    parts = [
        prose.place("title", _title(module, course)),
        prose.place("aims", _aims(module, page)),
    ]
    for section in module.sections:
        parts.append(f"## {html.escape(section.title)} {{ #{section.id} }}")
        parts.append(prose.render(section.text))
        parts.append(prose.place(f"read-{section.id}", _read_mark(module, section.id, course)))
    values = [course.ledger.values[name] for name in module.key_values]
    if values:
        parts.append("## What the numbers are { #key-values }")
        parts.append(prose.place("key-values", key_values(values, page)))
    parts.append("## Test yourself { #test }")
    parts.append(prose.place("test", _to_quiz(module, course)))
    cited = [*prose.cited, *(s for v in values for s in v.sources if s not in prose.cited)]
    if cited:
        parts.append("## Sources of this module { #sources }")
        listed = reference_list(dict.fromkeys(cited), page)
        parts.append(prose.place("sources", listed))
    body = "\n\n".join(parts)
    markdown = f'{front_matter(module.title)}<div class="tv-prose" markdown>\n\n{body}\n\n</div>\n'
    return Page(f"modules/{module.id}.md", markdown, prose.blocks, blocks.data)


def _read_mark(module: Module, section: str, course: Course) -> str:
    """Return the mark at a section's end that the browser watches to note it as read."""
    subject = f"{module.id}/{section}@{course.meta.edition}"
    return f'<span class="tv-read" data-read="{subject}" aria-hidden="true"></span>'


def _title(module: Module, course: Course) -> str:
    items = course.banks[module.id]
    critical = sum(item.critical for item in items)
    checked = f"{module.values_checked.day} {module.values_checked:%B %Y}"
    return (
        '<header class="tv-title tv-wide">'
        f'<p class="tv-title__over">Module {course.number(module.id)}</p>'
        f"<h1>{html.escape(module.title)}</h1>"
        f'<p class="tv-title__question">{html.escape(module.question)}</p>'
        '<ul class="tv-facts">'
        f"<li><b>{module_minutes(module)} min</b> to read</li>"
        f"<li><b>{len(items)}</b> items, <b>{critical}</b> critical</li>"
        f"<li>Values checked <b>{checked}</b></li></ul></header>"
    )


def _aims(module: Module, page: PageContext) -> str:
    rows = "".join(
        f"<li>{page.inline.line(objective.text)}</li>" for objective in module.objectives
    )
    return (
        '<div class="tv-aims"><p class="tv-aims__title">After this module you can</p>'
        f"<ol>{rows}</ol></div>"
    )


def _to_quiz(module: Module, course: Course) -> str:
    count = len(course.banks[module.id])
    return (
        f'<p class="tv-actions"><a class="tv-button tv-button--lead" '
        f'href="../quizzes/{module.id}.html">Take the quiz, {count} items</a></p>'
    )
