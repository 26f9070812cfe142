"""The small invented course, rendered."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from threeview.computed import Answers
from threeview.course import check_course, load_course
from threeview.pages import RenderedSite, render_pages

SMALL = Path(__file__).parents[1] / "course" / "small"
SHIPPED = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def rendered(tmp_path_factory: pytest.TempPathFactory) -> RenderedSite:
    """Return the small course as text, ready to become a site."""
    root = tmp_path_factory.mktemp("pages") / "small"
    shutil.copytree(SMALL, root)
    for name in ("electrodes.yaml", "tissues.yaml"):
        shutil.copy(SHIPPED / "content/reference" / name, root / "content/reference")
    course = load_course(root)
    answers = Answers(course.bench)
    report = check_course(course, answers)
    assert report.problems == ()
    return render_pages(course, answers, report)
