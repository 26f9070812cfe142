"""A checked course and its results, turned into Markdown, finished blocks and data scripts.

`render_pages` is the only entry. Prose stays Markdown; what Markdown would misnest (figures, notes,
frames, items) is finished HTML that the site puts in afterwards.
"""

from threeview.pages.render import render_pages
from threeview.pages.rendered import NavEntry, RenderedSite

__all__ = ["NavEntry", "RenderedSite", "render_pages"]
