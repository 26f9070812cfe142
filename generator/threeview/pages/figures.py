"""A drawn figure as a block: plate, key, table, caption, and the way to explore it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from markupsafe import Markup

from threeview.computed import FIGURE_DATA
from threeview.figures import DRAWINGS
from threeview.pages.items import templates

if TYPE_CHECKING:
    from threeview.course.model import FigureSpec
    from threeview.figures import Figure
    from threeview.pages.context import PageContext

__all__ = ["draw", "explore_script", "figure_html"]


def draw(spec: FigureSpec, page: PageContext) -> Figure:
    """Return the drawing that a module asks for."""
    return DRAWINGS[spec.kind](
        FIGURE_DATA[spec.kind](page.answers, spec.parameters, page.course.ledger)
    )


def figure_html(figure: Figure, spec: FigureSpec, name: str, number: str, page: PageContext) -> str:
    """Return a figure as finished HTML.

    Args:
        figure: the drawing.
        spec: what the author wrote about it.
        name: unique name of the figure in the course, 'module.figure'.
        number: number shown in its caption, '1.2'.
        page: the page it stands on.
    """
    return (
        templates()
        .get_template("figure.html.j2")
        .render(
            figure=figure,
            svg=Markup(figure.svg),  # noqa: S704 - drawn by our own code, labels escaped there
            name=name,
            number=number,
            caption=page.inline.line(spec.caption),
        )
    )


def explore_script(figure: Figure, name: str) -> str | None:
    """Return the data script of the interactive figure, or None if there is none."""
    if figure.explore is None:
        return None
    data = json.dumps(figure.explore, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    register = "window.threeviewFigures=window.threeviewFigures||{};"
    return f'{register}window.threeviewFigures["{name}"]={data};\n'
