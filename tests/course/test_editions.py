"""Closed editions: a released digest that changed is a problem with its line."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from threeview.course import load_course
from threeview.course.editions import close_edition, digests
from threeview.errors import BuildError, Problem

Problems = Callable[..., list[Problem]]


@pytest.fixture
def closed(small: Path) -> Path:
    """The small course with one edition closed."""
    text = close_edition(load_course(small), date(2026, 2, 1))
    (small / "content" / "editions.yaml").write_text(text, encoding="utf-8")
    return small


def test_an_unchanged_course_agrees_with_its_edition(closed: Path, problems: Problems) -> None:
    """Closing an edition changes nothing that check would see."""
    assert closed.is_dir()
    assert problems() == []


@pytest.mark.parametrize(
    ("file", "old", "new", "found"),
    [
        ("content/reference/sizes.yaml", "high: 6", "high: 7", "value 'width' changed"),
        ("quizzes/one.yaml", "Give the width.", "Give a width.", "item 'one/type-it@2'"),
        ("content/modules/01-one.yaml", "text: count to one", "text: count to two",
         "objective 'one/count' changed"),
        ("quizzes/one.yaml", "version: 2", "version: 3", "'one/type-it@2' (item) is gone"),
    ],
)  # fmt: skip
def test_a_released_thing_that_changed_is_refused(
    closed: Path, problems: Problems, file: str, old: str, new: str, found: str
) -> None:
    """Values, items and objectives of a closed edition cannot change unnoticed."""
    assert closed.is_dir()
    reported = problems((file, old, new))
    assert any(found in p.found for p in reported), [str(p) for p in reported]


def test_a_new_version_with_the_old_one_retired_passes(closed: Path, problems: Problems) -> None:
    """The way to change an item: a new version, and the old one kept for old records."""
    bank = (closed / "quizzes" / "one.yaml").read_text()
    old = "- id: type-it" + bank.split("- id: type-it")[1].split("- id: argue-it")[0]
    (closed / "quizzes" / "retired").mkdir()
    (closed / "quizzes" / "retired" / "one.yaml").write_text(old)
    assert problems(("quizzes/one.yaml", "version: 2", "version: 3")) == []


def test_dates_and_notes_are_no_change(closed: Path) -> None:
    """Reading a source again changes no digest."""
    before = digests(load_course(closed))
    path = closed / "content/reference/sizes.yaml"
    path.write_text(path.read_text().replace("as_of: 2026-01-31", "as_of: 2026-03-01"))
    assert digests(load_course(closed)) == before


def test_an_edition_cannot_be_closed_backwards(closed: Path) -> None:
    """Editions have later and later dates."""
    with pytest.raises(BuildError, match="later date"):
        close_edition(load_course(closed), date(2026, 2, 1))
