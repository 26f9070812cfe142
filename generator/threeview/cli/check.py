"""`threeview check`: everything that must hold before a page is built."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click

from threeview.cli.options import course_option, load, report_problems

if TYPE_CHECKING:
    from pathlib import Path


@click.command()
@course_option
def check(folder: Path) -> None:
    """Check a course; print every problem with file, line and column."""
    from threeview.course import check_course
    from threeview.errors import ContentError

    try:
        course, answers = load(folder)
    except ContentError as error:
        # Faults of form hide the others: say so, or an author thinks these are all.
        for problem in error.problems:
            click.echo(str(problem))
        count = report_problems(len(error.problems))
        click.echo(f"{count} of form; the parts are compared once these are mended")
        sys.exit(1)
    report = check_course(course, answers)
    for problem in report.problems:
        click.echo(str(problem))
    counts = ", ".join(f"{count} {name}" for name, count in report.counts.items())
    click.echo(f"{report_problems(len(report.problems))}; {counts}")
    sys.exit(1 if report.problems else 0)
