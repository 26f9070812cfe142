"""Figures drawn from the engine's lesions and the shipped evidence."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from tests.figures.cases import CASES

from threeview.computed import FIGURE_DATA, Answers, Cache
from threeview.course import load_course
from threeview.figures import DRAWINGS, Figure

if TYPE_CHECKING:
    from threeview.course import Course

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def course() -> Course:
    """Return the shipped course."""
    return load_course(ROOT)


@pytest.fixture(scope="session")
def data(course: Course, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """Return what each case shows."""
    answers = Answers(course.bench, Cache(tmp_path_factory.mktemp("cache")))
    return {
        name: FIGURE_DATA[kind](answers, given, course.ledger)
        for name, (kind, given) in CASES.items()
    }


@pytest.fixture(scope="session")
def figures(data: dict[str, Any]) -> dict[str, Figure]:
    """Return each case drawn."""
    return {name: DRAWINGS[kind](data[name]) for name, (kind, _) in CASES.items()}
