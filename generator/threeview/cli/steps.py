"""The steps from a course folder to a site, with progress on the slow ones."""

from __future__ import annotations

from typing import TYPE_CHECKING

from threeview.cli.options import load
from threeview.errors import ContentError

if TYPE_CHECKING:
    from pathlib import Path

    from threeview.site import SiteReport

__all__ = ["build_course"]


def build_course(folder: Path, out: Path | None) -> SiteReport:
    """Load, check, compute, render and build.

    Raises:
        ThreeviewError: the course has faults, or the site could not be built.
    """
    from rich.console import Console

    from threeview.course import check_course
    from threeview.pages import render_pages
    from threeview.site import build_site

    console = Console(stderr=True)
    with console.status("reading the course") as status:
        course, answers = load(folder)
        status.update("computing and checking (the first time takes longest)")
        report = check_course(course, answers)
        if report.problems:
            raise ContentError(report.problems)
        status.update("drawing pages and figures")
        rendered = render_pages(course, answers, report)
        status.update("building the site")
        return build_site(rendered, out or course.root / "build" / "site", root=course.root)
