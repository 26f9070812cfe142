"""A small invented course that tests may break, and the room that answers its questions."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from threeview.computed import Answers, Cache
from threeview.course import Course, check_course, load_course
from threeview.errors import ContentError, Problem

SMALL = Path(__file__).parent / "small"
SHIPPED = Path(__file__).parents[2]

Edit = tuple[str, str, str]  # file, old text, new text


@pytest.fixture(scope="session")
def cache() -> Cache:
    """Lesions computed once for all tests of a session."""
    return Cache()


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """A fresh copy of the small course, with the shipped electrodes and tissues."""
    root = tmp_path / "small"
    shutil.copytree(SMALL, root)
    for name in ("electrodes.yaml", "tissues.yaml"):
        shutil.copy(SHIPPED / "content" / "reference" / name, root / "content" / "reference" / name)
    return root


@pytest.fixture
def problems(small: Path, cache: Cache) -> Callable[..., list[Problem]]:
    """Return a function that edits the small course and gives back all its problems."""

    def run(*edits: Edit) -> list[Problem]:
        for file, old, new in edits:
            path = small / file
            text = path.read_text(encoding="utf-8") if path.exists() else ""
            assert old in text, f"'{old}' does not stand in {file}"
            path.write_text(text.replace(old, new, 1) if old else new, encoding="utf-8")
        try:
            course = load_course(small)
        except ContentError as error:
            return list(error.problems)
        return list(check(course, cache).problems)

    return run


def check(course: Course, cache: Cache):  # noqa: ANN201 - a CheckReport
    """Check a course with the session's cache."""
    return check_course(course, Answers(course.bench, cache))
