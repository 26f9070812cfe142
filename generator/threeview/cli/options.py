"""Options that several commands share."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from threeview.computed import Answers
    from threeview.course import Course

__all__ = ["course_option", "load", "report_problems"]

course_option = click.option(
    "--course",
    "folder",
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    default=Path(),
    help="A folder of the course; the working folder if left out.",
)


def load(folder: Path) -> tuple[Course, Answers]:
    """Return the course that `folder` lies in, and the computed room with the course's cache.

    Raises:
        BuildError: no course there.
        ContentError: the course has faults of form.
    """
    from threeview.computed import Answers, Cache
    from threeview.course import find_course, load_course

    course = load_course(find_course(folder))
    return course, Answers(course.bench, Cache(course.root / "build" / "cache"))


def report_problems(count: int) -> str:
    """Return 'no problem', '1 problem' or 'n problems'."""
    return "no problem" if count == 0 else f"{count} problem{'s' * (count > 1)}"
