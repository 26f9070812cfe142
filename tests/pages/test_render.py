"""What a rendered course says, page by page."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser
from pathlib import Path

from tests.small_course import copy_small_course

from threeview.computed import Answers
from threeview.course import check_course, load_course
from threeview.pages import RenderedSite, render_pages

VOID = {"input", "img", "br", "hr", "meta", "link", "path", "circle", "rect", "line", "ellipse",
        "use", "polyline", "polygon"}  # fmt: skip


class Balance(HTMLParser):
    """Checks that every element is closed in order."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.faults: list[str] = []

    def handle_starttag(self, tag: str, attrs: object) -> None:  # noqa: ARG002 - the parser's form
        """Remember what has to be closed."""
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: object) -> None:
        """Self-closed: nothing to remember."""

    def handle_endtag(self, tag: str) -> None:
        """Expect the element opened last."""
        if tag in VOID:
            return
        if not self.open or self.open.pop() != tag:
            self.faults.append(tag)


def test_every_block_is_well_formed(rendered: RenderedSite) -> None:
    """A block with an unclosed element would swallow the rest of its page."""
    for key, block in rendered.blocks.items():
        parser = Balance()
        parser.feed(block)
        assert parser.faults == [], key
        assert parser.open == [], key


def test_each_placeholder_has_its_block(rendered: RenderedSite) -> None:
    """Pages and blocks fit: none missing, none left over."""
    text = "\n".join(rendered.pages.values())
    named = re.findall(r"^tv-block:(\S+)$", text, re.MULTILINE)
    assert sorted(named) == sorted(rendered.blocks)
    assert len(named) == len(set(named))


def test_a_number_links_to_the_note_below_its_paragraph(rendered: RenderedSite) -> None:
    """The value carries a letter; the note with that letter follows with source and basis."""
    page = rendered.pages["modules/one.md"]
    assert '<a class="tv-v" href="#note-a">5–6\u00a0mm<sup>a</sup></a> wide' in page
    assert page.index('href="#note-a"') < page.index("tv-block:one.note-a")
    note = rendered.blocks["one.note-a"]
    assert "J Invented, 2001" in note
    assert "published, abstract read" in note


def test_a_computed_number_says_how(rendered: RenderedSite) -> None:
    """A computed value is marked as such, and its note gives the conditions."""
    page = rendered.pages["modules/one.md"]
    assert 'class="tv-v tv-v--computed"' in page
    note = next(b for k, b in rendered.blocks.items() if "Computed here" in b and "note" in k)
    assert "start 37\u00a0°C" in note
    assert "tv-basis--computed" in note


def test_an_item_is_whole_without_script(rendered: RenderedSite) -> None:
    """Stem, options, answer, feedback, rationale and source stand in the HTML."""
    quiz = rendered.blocks["quiz.one"]
    wanted = ("How wide was the invented lesion?", "5.5 mm", "The keyed answer: B.",
                  "Too narrow.", "The paper says", "Rests on", "Critical",
                  "Right answers: 5.0–6.0\u00a0mm.",
              "reviewed 2026-01-31 by the nobody yet")  # fmt: skip
    for words in wanted:
        assert words in quiz, words
    assert quiz.count("<tv-item ") == 4


def test_the_scorable_data_of_an_item(rendered: RenderedSite) -> None:
    """The browser gets exactly what both scorers read."""
    quiz = rendered.blocks["quiz.one"]
    scripts = re.findall(r'class="tv-item__data">(.*?)</script>', quiz)
    data = {item["id"]: item for item in map(json.loads, scripts)}
    assert data["one/how-wide"]["key"] == ["b"]
    assert data["one/type-it"]["numeric"] == {
        "units": {"mm": [1, 1], "cm": [10, 1]},
        "step": [1, 10],
        "low": 50,
        "high": 60,
    }
    assert data["one/type-it"]["version"] == 2


def test_evidence_lists_every_value_with_its_use(rendered: RenderedSite) -> None:
    """Each value has a row with basis, source, and the pages and items that use it."""
    page = rendered.blocks["evidence.all"]
    for name in ("width", "usual-width", "verdict"):
        assert f'<li id="{name}">' in page
    row = page.split('<li id="width">')[1].split("</li>")[0]
    assert "module 1" in row
    assert "how-wide" in row
    assert "common practice, no source" in page
    assert 'id="source-paper"' in page
    assert "What the lesion model assumes" in page


def test_course_data_for_the_browser(rendered: RenderedSite) -> None:
    """The data script names modules, sections, objectives and items."""
    script = rendered.data["assets/data/course.js"]
    data = json.loads(script.removeprefix("window.threeviewCourse=").rstrip(";\n"))
    assert data["id"] == "small"
    assert data["modules"][0]["sections"] == ["first"]
    assert [item["id"] for item in data["modules"][0]["items"]] == [
        "one/how-wide", "one/how-sure", "one/type-it", "one/argue-it"]  # fmt: skip


def test_a_caution_names_who_decides(rendered: RenderedSite) -> None:
    """Frames say what they rest on and that local policy decides."""
    frame = rendered.blocks["one.caution-careful"]
    assert "Rests on" in frame
    assert "Local policy and the licensed clinician decide." in frame


def test_quizzes_stay_out_of_the_search(rendered: RenderedSite) -> None:
    """The quiz page asks the search to leave it out."""
    assert "exclude: true" in rendered.pages["quizzes/one.md"]


def test_the_same_course_gives_the_same_digest(rendered: RenderedSite) -> None:
    """The digest is SHA-256 over what is said, without a clock in it."""
    assert re.fullmatch(r"[0-9a-f]{64}", rendered.digest)


HOSTILE = "<script>alert(1)</script> [x](javascript:alert(2)) &amp; <b>"


def test_titles_and_fields_cannot_carry_html(tmp_path: Path) -> None:
    """Check refuses HTML in titles, and even unchecked it would be printed as words."""
    root = copy_small_course(tmp_path)
    places = {
        "content/modules/01-one.yaml": "title: First",
        "content/pages/limits.md": "title: Limits",
        "content/reference/sources.yaml": "title: An invented paper",
        "content/reference/sizes.yaml": "conditions: invented",
        "content/glossary.yaml": "term: tip",
        "content/course.yaml": "subject: Invented",
    }
    for file, line in places.items():
        path = root / file
        field = line.split(":")[0]
        hostile = f"{field}: '{HOSTILE}'"
        path.write_text(
            path.read_text(encoding="utf-8").replace(line, hostile, 1), encoding="utf-8"
        )
    course = load_course(root)
    answers = Answers(course.bench)
    report = check_course(course, answers)
    refused = {problem.file for problem in report.problems}
    assert refused == set(places) - {
        "content/reference/sources.yaml",  # titles of papers and conditions are no Markdown
        "content/reference/sizes.yaml",
    }
    rendered = render_pages(course, answers, report)
    for path, text in {**rendered.pages, **rendered.blocks}.items():
        assert "<script>alert" not in text, path
