"""The small invented course, rendered."""

from __future__ import annotations

import pytest
from tests.small_course import copy_small_course

from threeview.computed import Answers
from threeview.course import check_course, load_course
from threeview.pages import RenderedSite, render_pages


@pytest.fixture(scope="session")
def rendered(tmp_path_factory: pytest.TempPathFactory) -> RenderedSite:
    """Return the small course as text, ready to become a site."""
    root = copy_small_course(tmp_path_factory.mktemp("pages"))
    course = load_course(root)
    answers = Answers(course.bench)
    report = check_course(course, answers)
    assert report.problems == ()
    return render_pages(course, answers, report)
