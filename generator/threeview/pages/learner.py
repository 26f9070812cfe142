"""The learner's own pages (quiz, logbook) and the data script that the browser reads."""

from __future__ import annotations

import html
from typing import TYPE_CHECKING

from threeview.course.keys import scorable
from threeview.pages.items import item_html, json_for_html
from threeview.pages.page import Page, front_matter
from threeview.pages.reading import module_minutes

if TYPE_CHECKING:
    from collections.abc import Iterable

    from threeview.course import Course
    from threeview.course.model import Module
    from threeview.pages.context import PageContext
    from threeview.quiz.item import Item

__all__ = ["course_script", "logbook_page", "quiz_page"]


def quiz_page(module: Module, page: PageContext) -> Page:
    """Return the quiz of one module: all items, readable without script."""
    items = page.course.banks[module.id]
    inner = "".join(item_html(module.id, item, page) for item in items)
    block = (
        f'<tv-quiz class="tv-quiz" data-bank="{module.id}" data-total="{len(items)}">'
        f'<header class="tv-quiz__head"><h1>{html.escape(module.title)}</h1>'
        f'<p class="tv-quiz__count">{len(items)} items</p></header>{inner}'
        f'<p class="tv-quiz__foot"><a href="../modules/{module.id}.html">Back to the module</a>'
        "</p></tv-quiz>"
    )
    key = f"quiz.{module.id}"
    markdown = front_matter(f"Quiz: {module.title}", searched=False) + f"tv-block:{key}\n"
    return Page(f"quizzes/{module.id}.md", markdown, {key: block})


def logbook_page(course: Course) -> Page:
    """Return the logbook: what it is, ready for the browser to fill in."""
    rows = "".join(
        f'<tr data-module="{module.id}"><th scope="row"><a href="modules/{module.id}.html">'
        f"{course.number(module.id)} {html.escape(module.title)}</a></th></tr>"
        for module in course.modules
    )
    block = (
        '<header class="tv-title"><h1>Logbook</h1></header>'
        '<tv-logbook class="tv-logbook"><p class="tv-lead">What you read and answered is kept in '
        "this browser, on this device, and nowhere else. From it this page works out, each time "
        "anew, what you have done and what is weak.</p>"
        '<noscript><p class="tv-logbook__off">This page needs JavaScript, which is off here: '
        "nothing can be saved or shown.</p></noscript>"
        f'<table class="tv-table"><caption>Modules of this course</caption><tbody>{rows}</tbody>'
        "</table></tv-logbook>"
        '<script src="assets/tv/logbook.js" defer></script>'
    )
    return Page(
        "logbook.md", front_matter("Logbook") + "tv-block:logbook.all\n", {"logbook.all": block}
    )


def course_script(page: PageContext, digest: str) -> str:
    """Return the data script that tells the browser what the course holds."""
    course = page.course
    modules = [
        {
            "id": module.id,
            "title": module.title,
            "number": course.number(module.id),
            "page": f"modules/{module.id}.html",
            "quiz": f"quizzes/{module.id}.html",
            "minutes": module_minutes(module),
            "sections": [section.id for section in module.sections],
            "objectives": [
                {"id": o.id, "text": str(page.inline.line(o.text))} for o in module.objectives
            ],
            "items": _scorable(module, course.banks[module.id], page),
            # apart, so that they score old records without being asked or counted today
            "retired": _scorable(module, course.retired[module.id], page),
        }
        for module in course.modules
    ]
    data = {
        "id": course.meta.id,
        "title": course.meta.title,
        "edition": course.meta.edition.isoformat(),
        "weak_below_percent": course.meta.weak_below_percent,
        "digest": digest,
        "modules": modules,
    }
    return f"window.threeviewCourse={json_for_html(data)};\n"


def _scorable(module: Module, items: Iterable[Item], page: PageContext) -> list[dict[str, object]]:
    return [scorable(module.id, item, page.course, page.answers) for item in items]
