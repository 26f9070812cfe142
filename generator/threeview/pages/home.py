"""The first page: what the course is, for whom, in what order, and its limits."""

from __future__ import annotations

from typing import TYPE_CHECKING

from threeview.pages.figures import draw
from threeview.pages.items import templates
from threeview.pages.page import Page, front_matter
from threeview.pages.reading import module_minutes

if TYPE_CHECKING:
    from threeview.figures import Figure
    from threeview.pages.context import PageContext

__all__ = ["home_page"]


def home_page(page: PageContext) -> Page:
    """Return the home page; its one filled button resumes where the learner was."""
    course = page.course
    modules = [
        (course.number(module.id), module, module_minutes(module), len(course.banks[module.id]))
        for module in course.modules
    ]
    block = (
        templates()
        .get_template("home.html.j2")
        .render(
            meta=course.meta,
            lead=" ".join(course.meta.lead.split()),
            modules=modules,
            values=len(course.ledger.values),
            sources=len(course.ledger.sources),
            picture=_picture(page),
        )
    )
    markdown = front_matter(course.meta.title, hide=("navigation",))
    return Page("index.md", markdown + "tv-block:home.all\n", {"home.all": block})


def _picture(page: PageContext) -> Figure | None:
    """Return the course's first computed lesion: the front page shows what it is about."""
    for module in page.course.modules:
        for spec in module.figures:
            if spec.kind == "cross-section":
                return draw(spec, page)
    return None
