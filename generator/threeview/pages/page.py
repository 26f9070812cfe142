"""What every page is made of, and the front matter that begins it."""

from __future__ import annotations

import html
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import yaml

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["Page", "front_matter"]


@dataclass(frozen=True)
class Page:
    """One page: its docs path, Markdown, finished blocks and data scripts."""

    path: str
    markdown: str
    blocks: Mapping[str, str] = field(default_factory=dict)
    data: Mapping[str, str] = field(default_factory=dict)


def front_matter(title: str, *, hide: tuple[str, ...] = (), searched: bool = True) -> str:
    """Return the front matter of a page.

    Args:
        title: shown in the browser's tab and in the navigation.
        hide: parts of the shell to leave away ('navigation').
        searched: whether the search may find the page.
    """
    # the theme prints a title as it stands
    fields: dict[str, object] = {"title": html.escape(title, quote=False)}
    if hide:
        fields["hide"] = list(hide)
    if not searched:
        fields["search"] = {"exclude": True}
    return f"---\n{yaml.safe_dump(fields, sort_keys=False, allow_unicode=True)}---\n\n"
