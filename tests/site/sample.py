"""An invented course with one page of each kind, for looking at and for tests of the site.

Nothing in it is a fact: every number is made up and the pages say so.
"""

from __future__ import annotations

from pathlib import Path

from threeview.pages.rendered import NavEntry, RenderedSite

__all__ = ["PAGES", "sample_site"]

HERE = Path(__file__).resolve().parent / "sample"
TITLE = "Sample course"
PAGES = {
    "home": "index.html",
    "module": "modules/how-rf-makes-a-lesion.html",
    "quiz": "quizzes/how-rf-makes-a-lesion.html",
    "logbook": "logbook.html",
    "evidence": "evidence.html",
    "glossary": "glossary.html",
    "plain": "limits.html",
}


def sample_site() -> RenderedSite:
    """Return the invented course; its Markdown and blocks lie in `sample/`."""
    pages = {
        path.relative_to(HERE / "pages").as_posix(): path.read_text("utf-8")
        for path in sorted((HERE / "pages").rglob("*.md"))
    }
    blocks = {
        path.relative_to(HERE / "blocks").as_posix(): path.read_text("utf-8")
        for path in sorted((HERE / "blocks").rglob("*.*"))
    }
    nav = (
        NavEntry("Start", "index.md"),
        NavEntry("1 Before you start", "modules/before-you-start.md"),
        NavEntry("2 How RF makes a lesion", "modules/how-rf-makes-a-lesion.md"),
        NavEntry("3 Sensory and motor testing", "modules/sensory-and-motor-testing.md"),
    )
    return RenderedSite(
        pages=pages,
        blocks={key.rsplit(".", 1)[0]: html for key, html in blocks.items()},
        data={"assets/data/course.js": COURSE},
        nav=nav,
        title=TITLE,
        subject="Invented pages, no facts",
        edition="sample",
        digest="0" * 64,
    )


COURSE = 'window.threeviewCourse={"id":"sample","title":"Sample","edition":"x","modules":[]}\n'
