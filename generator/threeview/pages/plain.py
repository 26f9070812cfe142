"""Plain pages (limits, privacy, ...) and the glossary."""

from __future__ import annotations

import html
from typing import TYPE_CHECKING

from threeview.pages.frames import caution_frame
from threeview.pages.page import Page, front_matter
from threeview.pages.text import ProseText

if TYPE_CHECKING:
    from threeview.course.model import PlainPage
    from threeview.pages.context import PageContext

__all__ = ["glossary_page", "plain_page"]


def plain_page(plain: PlainPage, page: PageContext) -> Page:
    """Return one page of `content/pages/`."""

    def block(_function: str, name: str) -> str:
        return caution_frame(page.course.ledger.cautions[name], page)

    prose = ProseText(page, plain.id, block)
    body = prose.render(plain.text)
    markdown = (
        f'{front_matter(plain.title)}<div class="tv-prose" markdown>\n\n'
        f"# {html.escape(plain.title)}\n\n{body}\n\n</div>\n"
    )
    return Page(f"{plain.id}.md", markdown, prose.blocks)


def glossary_page(page: PageContext) -> Page:
    """Return the glossary in alphabetical order."""
    course = page.course
    rows = []
    for term in sorted(course.glossary.values(), key=lambda term: term.term.casefold()):
        see = ", ".join(
            f'<a href="#{name}">{html.escape(course.glossary[name].term)}</a>' for name in term.see
        )
        also = f" See {see}." if see else ""
        rows.append(
            f'<dt id="{term.id}">{html.escape(term.term)}</dt>'
            f"<dd>{page.inline.line(term.definition)}{also}</dd>"
        )
    block = f'<dl class="tv-glossary">{"".join(rows)}</dl>'
    markdown = (
        f'{front_matter("Glossary")}<div class="tv-prose" markdown>\n\n# Glossary\n\n'
        "tv-block:glossary.all\n\n</div>\n"
    )
    return Page("glossary.md", markdown, {"glossary.all": block})
