"""A course turned into text, ready to become a site.

Pages make it; the site room reads it. It holds text only, so that a site can be built, compared
and tested without the course that it came from.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["NavEntry", "RenderedSite"]


@dataclass(frozen=True)
class NavEntry:
    """One row of the navigation column.

    Attributes:
        title: the words of the row, number included ("6 How RF makes a lesion").
        page: path of the page below the docs folder ("modules/how-rf-makes-a-lesion.md").
    """

    title: str
    page: str


@dataclass(frozen=True)
class RenderedSite:
    """Everything the site is made of, apart from its style sheets, fonts and scripts.

    Attributes:
        pages: docs path ("modules/a.md") to Markdown with its front matter.
        blocks: key to finished HTML. A paragraph `tv-block:KEY`, alone on its line in a page, is
            replaced with it after the Markdown has been converted.
        data: site path ("assets/data/course.js") to the text of a data script.
        nav: rows of the navigation column, in order.
        title: name of the course, shown in the title of each page.
        subject: a few words beside the wordmark.
        edition: name of the content version, shown at the foot of each page.
        digest: SHA-256 of the content as hexadecimal text; part of the build's own digest.
    """

    pages: Mapping[str, str]
    blocks: Mapping[str, str]
    data: Mapping[str, str]
    nav: tuple[NavEntry, ...]
    title: str
    subject: str
    edition: str
    digest: str
