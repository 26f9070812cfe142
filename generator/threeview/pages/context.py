"""What every page is rendered from."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from threeview.pages.inline import InlineText

if TYPE_CHECKING:
    from threeview.computed import Answers
    from threeview.course import Course
    from threeview.evidence import Bibliography

__all__ = ["PageContext"]


@dataclass(frozen=True)
class PageContext:
    """The course and its helpers as one page sees them.

    Attributes:
        course: a checked course.
        answers: for computed values and figures.
        book: the course's sources, in one style.
        root: way from the page to the site's root, '' or '../'.
    """

    course: Course
    answers: Answers
    book: Bibliography
    root: str = ""

    @cached_property
    def inline(self) -> InlineText:
        """Renders short texts for this page."""
        return InlineText(self.course, self.answers, self.root)

    def evidence(self, anchor: str) -> str:
        """Return the address of a row or source on the Evidence page."""
        return f"{self.root}evidence.html#{anchor}"
