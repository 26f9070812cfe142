"""Loading: all faults of form at once, each with file, line, what was found and expected."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from threeview.course import find_course, load_course
from threeview.errors import BuildError, Problem

Problems = Callable[..., list[Problem]]
ITEMS = "quizzes/one.yaml"
SIZES = "content/reference/sizes.yaml"


def test_a_sound_course_has_no_problem(problems: Problems) -> None:
    """The small course, untouched, passes every rule."""
    assert problems() == []


def test_numbers_keep_the_digits_of_their_author(small: Path) -> None:
    """5.0 stays 5.0: a reader sees what the source printed."""
    course = load_course(small)
    assert str(course.ledger.values["usual-width"].value) == "5.0"


@pytest.mark.parametrize(
    ("file", "old", "new", "line", "found", "near"),
    [
        (SIZES, "statement: Most", "statment: Most", 12, "the unknown field 'statment'",
         "statement"),
        (SIZES, "basis: common practice", "basis: comon practice", 16, "comon practice",
         "common practice"),
        (SIZES, "low: 5", "low: 05", 3, "low is '05'", None),
        (SIZES, "low: 5", "low: 5 mm", 3, "low is '5 mm'", None),
        (SIZES, "low: 5", "low: 7", 1, "the entry", None),
        (SIZES, "unit: mm", "unit: millimetre", 5, "unit is 'millimetre'", None),
        (SIZES, "as_of: 2026-01-31", "as_of: 12:30", 10, "as_of is '12:30'", None),
        (SIZES, "  read_as: abstract\n", "", 1, "the entry", None),
        (SIZES, "id: usual-width", "id: width", 11, "'width' a second time", None),
        (SIZES, "id: usual-width", "id: Usual Width", 11, "id is 'Usual Width'", None),
        (ITEMS, "type: single", "type: singel", 3, "type is 'singel'", "single"),
        (ITEMS, "critical: true", "critical: on", 6, "critical is 'on'", None),
        (ITEMS, "version: 1", "version: 010", 2, "version is '010'", None),
        (ITEMS, "key: [b]", "key: [z]", 1, "the entry", None),
        (ITEMS, "kind: quantity, ref", "kind: quantty, ref", 15, "'quantty'", "quantity"),
        (ITEMS, "  stem: Give the width.\n", "", 28, "no 'stem'", None),
        ("content/course.yaml", "- one", "- onne", 9, "no file for module 'onne'", "one"),
        ("content/modules/01-one.yaml", "id: one", "id: two", 1, "id is 'two'", None),
        ("content/reference/electrodes.yaml", "  ramp: {", "  rampe: {", 6, "limits is", None),
        ("content/reference/electrodes.yaml", "  sensor_depth:", "  depth:", 31, "parts is", None),
        ("content/reference/tissues.yaml", "  perfusion: {", "  flow: {", 4, "limits is", None),
        ("content/pages/limits.md", "title: Limits", "titel: Limits", 2, "'titel'", "title"),
    ],
)  # fmt: skip
def test_each_fault_of_form_is_told_with_its_line(
    problems: Problems, file: str, old: str, new: str, line: int, found: str, near: str | None
) -> None:
    """A broken field is reported where it stands, with the nearest legal spelling."""
    reported = problems((file, old, new))
    hits = [p for p in reported if p.file == file and p.line == line and found in p.found]
    assert hits, [str(p) for p in reported]
    if near:
        assert any(hit.nearest == near for hit in hits), [str(p) for p in hits]


def test_all_problems_come_at_once(problems: Problems) -> None:
    """Three faults in three files are three problems of one run."""
    reported = problems(
        (SIZES, "low: 5", "low: five"),
        (ITEMS, "type: single", "type: singel"),
        ("content/glossary.yaml", "term: tip", "tern: tip"),
    )
    assert {p.file for p in reported} >= {SIZES, ITEMS, "content/glossary.yaml"}


def test_files_that_belong_to_nothing_are_named(small: Path, problems: Problems) -> None:
    """A module, bank or page that the course does not list would silently be left out."""
    (small / "content/modules/02-two.yaml").write_text("id: two\n")
    (small / "quizzes/two.yaml").write_text("[]\n")
    (small / "content/pages/more.md").write_text("---\ntitle: x\n---\n")
    stray = {p.file for p in problems() if p.found == "a file that belongs to no page"}
    assert stray == {"content/modules/02-two.yaml", "quizzes/two.yaml", "content/pages/more.md"}


def test_a_missing_file_is_told_by_name(small: Path, problems: Problems) -> None:
    """No bank for a module is one clear problem."""
    (small / ITEMS).unlink()
    assert [str(p) for p in problems()] == [f"{ITEMS}: no such file; expected it here"]


def test_bytes_that_are_no_text_are_told(small: Path, problems: Problems) -> None:
    """A file saved in another encoding is named with the place of the first bad byte."""
    (small / ITEMS).write_bytes(b"- id: caf\xe9\n")
    assert "byte 9 is not UTF-8" in [p.found for p in problems()]


def test_the_course_is_found_from_below(small: Path) -> None:
    """Any folder inside a course will do."""
    assert find_course(small / "content" / "modules") == small


def test_no_course_says_where_it_looked(tmp_path: Path) -> None:
    """Outside a course the message says what was sought and what to do."""
    with pytest.raises(BuildError, match="--course"):
        find_course(tmp_path)
