"""From a checked course to a `RenderedSite`: gathers every page, block and data script."""

from __future__ import annotations

import hashlib
import json
from html import escape
from typing import TYPE_CHECKING

from threeview.evidence import Bibliography
from threeview.pages.context import PageContext
from threeview.pages.evidence import evidence_page
from threeview.pages.home import home_page
from threeview.pages.learner import course_script, logbook_page, quiz_page
from threeview.pages.module import module_page
from threeview.pages.plain import glossary_page, plain_page
from threeview.pages.rendered import NavEntry, RenderedSite

if TYPE_CHECKING:
    from collections.abc import Mapping

    from threeview.computed import Answers
    from threeview.course import CheckReport, Course

__all__ = ["render_pages"]


def render_pages(course: Course, answers: Answers, report: CheckReport) -> RenderedSite:
    """Return the whole site as text.

    Args:
        course: a course that `check_course` found sound.
        answers: for computed values and figures.
        report: what that check found; the Evidence page shows where values are used.
    """
    book = Bibliography(course.ledger.sources.values())
    top = PageContext(course, answers, book)
    below = PageContext(course, answers, book, root="../")
    pages = [home_page(top)]
    for module in course.modules:
        pages += [module_page(module, below), quiz_page(module, below)]
    pages += [logbook_page(course), evidence_page(top, report), glossary_page(top)]
    pages += [plain_page(plain, top) for plain in course.pages]
    blocks = {key: text for page in pages for key, text in page.blocks.items()}
    data = {path: text for page in pages for path, text in page.data.items()}
    texts = {page.path: page.markdown for page in pages}
    digest = _digest(texts, blocks, data)
    data["assets/data/course.js"] = course_script(top, digest[:16])
    return RenderedSite(
        pages=texts,
        blocks=blocks,
        data=data,
        nav=_nav(course),
        title=course.meta.title,
        subject=course.meta.subject,
        edition=course.meta.edition.isoformat(),
        digest=digest,
    )


def _digest(*parts: Mapping[str, str]) -> str:
    text = json.dumps(parts, sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()


def _nav(course: Course) -> tuple[NavEntry, ...]:
    rows = [NavEntry("Start", "index.md")]
    rows += [
        NavEntry(f"{course.number(module.id)} {escape(module.title)}", f"modules/{module.id}.md")
        for module in course.modules
    ]
    rows.append(NavEntry("Logbook", "logbook.md"))
    rows.append(NavEntry("Evidence", "evidence.md"))
    rows.append(NavEntry("Glossary", "glossary.md"))
    rows += [NavEntry(escape(page.title), f"{page.id}.md") for page in course.pages]
    return tuple(rows)
