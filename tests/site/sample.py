"""An invented course with one page of each kind, for looking at and for tests of the site.

Nothing in it is a fact: every number is made up and the pages say so.
"""

from __future__ import annotations

import json
import re
from pathlib import Path

from threeview.pages.rendered import NavEntry, RenderedSite

__all__ = ["PAGES", "sample_site"]

HERE = Path(__file__).resolve().parent / "sample"
DATA = re.compile(r'class="tv-item__data">(.*?)</script>')
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
        data={"assets/data/course.js": _course(blocks)},
        nav=nav,
        title=TITLE,
        subject="Invented pages, no facts",
        edition="sample",
        digest="0" * 64,
    )


def _course(blocks: dict[str, str]) -> str:
    """Return the data script; its items are those that the blocks carry."""
    found = DATA.findall("".join(blocks.values()))
    modules = [_module(1, "before-you-start", []), _module(2, "how-rf-makes-a-lesion", found)]
    modules.append(_module(3, "sensory-and-motor-testing", []))
    course = {
        "id": "sample",
        "title": TITLE,
        "edition": "2026-11-25",
        "weak_below_percent": 75,
        "digest": "0" * 16,
        "modules": modules,
    }
    return f"window.threeviewCourse={json.dumps(course)};\n"


def _module(number: int, name: str, items: list[str]) -> dict[str, object]:
    return {
        "id": name,
        "title": name.replace("-", " ").capitalize(),
        "number": number,
        "page": f"modules/{name}.html",
        "quiz": f"quizzes/{name}.html",
        "minutes": 10,
        "sections": ["heat-arises-in-the-tissue"],
        "objectives": [{"id": "heat-source", "text": "say where the heat arises"}],
        "items": [json.loads(item) for item in items],
    }
