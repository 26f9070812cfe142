"""The shipped bench and ledger, and answers that share one cache."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from threeview.computed import Answers, Cache
from threeview.course import load_course

if TYPE_CHECKING:
    from threeview.course import Course
    from threeview.evidence import Ledger

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def course() -> Course:
    """Return the shipped course."""
    return load_course(ROOT)


@pytest.fixture(scope="session")
def answers(course: Course, tmp_path_factory: pytest.TempPathFactory) -> Answers:
    """Return answers from the engine, each lesion computed once in a run of the tests."""
    return Answers(course.bench, Cache(tmp_path_factory.mktemp("cache")))


@pytest.fixture(scope="session")
def ledger(course: Course) -> Ledger:
    """Return the shipped evidence."""
    return course.ledger
