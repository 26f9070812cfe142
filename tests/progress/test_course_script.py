"""The course data that pages load are what progress reads, old versions of items apart."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.small_course import copy_small_course

from threeview.computed import Answers
from threeview.course import check_course, load_course
from threeview.pages import render_pages
from threeview.progress import CourseOutline

if TYPE_CHECKING:
    from pathlib import Path


def test_retired_versions_are_kept_apart_from_what_is_asked(tmp_path: Path) -> None:
    """A retired version scores old records; it is neither asked nor counted today."""
    root = copy_small_course(tmp_path)
    bank = (root / "quizzes" / "one.yaml").read_text("utf-8")
    old = "- id: type-it" + bank.split("- id: type-it")[1].split("- id: argue-it")[0]
    (root / "quizzes" / "retired").mkdir()
    (root / "quizzes" / "retired" / "one.yaml").write_text(
        old.replace("version: 2", "version: 1"), "utf-8"
    )
    course = load_course(root)
    answers = Answers(course.bench)
    rendered = render_pages(course, answers, check_course(course, answers))
    script = rendered.data["assets/data/course.js"]
    text = script.removeprefix("window.threeviewCourse=").rstrip().removesuffix(";")
    module = CourseOutline.model_validate_json(text).modules[0]
    versions = [item.versioned for item in module.items]
    assert f"{module.id}/type-it@2" in versions
    assert len(versions) == len(course.banks[module.id])
    assert [item.versioned for item in module.retired] == [f"{module.id}/type-it@1"]
