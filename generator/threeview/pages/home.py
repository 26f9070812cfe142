"""The first page: what the course is, for whom, in what order, and its limits."""

from __future__ import annotations

import html
from typing import TYPE_CHECKING

from threeview.pages.items import templates
from threeview.pages.page import Page, front_matter
from threeview.pages.reading import module_minutes

if TYPE_CHECKING:
    from threeview.course import Course

__all__ = ["home_page"]


def home_page(course: Course) -> Page:
    """Return the home page; its one filled button resumes where the learner was."""
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
        )
    )
    markdown = front_matter(html.unescape(course.meta.title), hide=("navigation",))
    return Page("index.md", markdown + "tv-block:home.all\n", {"home.all": block})
