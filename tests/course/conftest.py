"""A small invented course that tests may break, and the room that answers its questions."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from tests.small_course import copy_small_course

from threeview.computed import Answers, Cache
from threeview.course import Course, check_course, load_course
from threeview.errors import ContentError, Problem

Edit = tuple[str, str, str]  # file, old text, new text


@pytest.fixture(scope="session")
def cache() -> Cache:
    """Lesions computed once for all tests of a session."""
    return Cache()


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """A fresh copy of the small course, with the shipped electrodes and tissues."""
    return copy_small_course(tmp_path)


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
