"""What holds for every figure: well formed, named, in its frame, labels clear of each other."""

from __future__ import annotations

import json
import re
from itertools import combinations
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from tests.figures.cases import CASES
from tests.figures.drawing import Drawing

from threeview.figures import DRAWINGS
from threeview.figures.pair import pair

if TYPE_CHECKING:
    from threeview.figures import Figure

CSS = Path(__file__).parents[2] / "site_assets" / "css" / "figures.css"
EVERY = pytest.mark.parametrize("name", CASES)


@EVERY
def test_figure_is_named(name: str, figures: dict[str, Figure]) -> None:
    """The drawing is an image whose name is the sentence for readers who do not see it."""
    figure = figures[name]
    root = Drawing(figure.svg).root
    assert root.get("role") == "img"
    assert root.get("aria-label") == figure.sentence
    assert figure.sentence.endswith(".")


@EVERY
def test_everything_lies_in_the_frame(name: str, figures: dict[str, Figure]) -> None:
    """No mark and no label leaves the view box; the lines of the shaft may end on its edge."""
    drawing = Drawing(figures[name].svg)
    assert drawing.width == 336
    for x, y in drawing.everything():
        assert 0 <= x <= drawing.width, (x, y)
        assert 0 <= y <= drawing.height, (x, y)


@EVERY
def test_labels_are_clear_of_each_other(name: str, figures: dict[str, Figure]) -> None:
    """No two labels overlap."""
    for one, other in combinations(Drawing(figures[name].svg).labels(), 2):
        assert not one.meets(other), (one, other)


@EVERY
def test_labels_are_clear_of_curves(name: str, figures: dict[str, Figure]) -> None:
    """No label lies on an isotherm, a damage boundary, a curve or a mark of a number."""
    drawing = Drawing(figures[name].svg)
    for box in drawing.labels():
        for css in ("m-iso", "m-damage", "m-computed", "m-published", "m-dim"):
            for curve in drawing.points(css):
                assert not any(map(box.holds, curve)), (box, css)


@EVERY
def test_colours_are_left_to_the_style_sheet(name: str, figures: dict[str, Figure]) -> None:
    """No element brings a colour or a style of its own, and every class is a known one."""
    known = set(re.findall(r"\.(m-[a-z0-9-]+|t\d\d)", CSS.read_text(encoding="utf-8")))
    for e in Drawing(figures[name].svg).root.iter():
        assert not {"fill", "stroke", "style", "id"} & e.attrib.keys()
        marks = {word for word in e.get("class", "").split() if word.startswith("m-")}
        assert marks <= known, marks - known


@EVERY
def test_table_is_square(name: str, figures: dict[str, Figure]) -> None:
    """Every row has a cell for each column, and none is empty."""
    table = figures[name].table
    assert table.rows
    for row in table.rows:
        assert len(row) == len(table.head)
        assert all(row)


@EVERY
def test_drawing_is_the_same_every_time(
    name: str, data: dict[str, Any], figures: dict[str, Figure]
) -> None:
    """Drawn again from the same data the figure is the same to the letter."""
    assert DRAWINGS[CASES[name][0]](data[name]) == figures[name]


@EVERY
def test_interactive_data_is_plain(name: str, figures: dict[str, Figure]) -> None:
    """The interactive figure's data go through JSON unchanged and stay small."""
    explore = figures[name].explore
    text = json.dumps(explore, allow_nan=False)
    assert json.loads(text) == explore
    assert len(text) < 60_000


@pytest.mark.parametrize("name", ["usual", "largest", "two sizes"])
def test_interactive_section_spans_its_extent(name: str, figures: dict[str, Figure]) -> None:
    """Every outline of every frame lies within the extent given for the axes."""
    explore: Any = figures[name].explore
    low, high = explore["extent_mm"]["z"]
    for section in explore["sections"]:
        for frame in section["frames"]:
            for outline in frame["contours"].values():
                for r, z in outline:
                    assert 0 <= r <= explore["extent_mm"]["r"]
                    assert low <= z <= high


def test_overlap_would_be_seen(data: dict[str, Any]) -> None:
    """The check of labels is able to fail: a label moved onto another is found."""
    svg = pair(data["two starts"]).svg
    moved = svg.replace('x="8" y="20">A<', 'x="168" y="34">A<')
    assert moved != svg
    boxes = Drawing(moved).labels()
    assert any(one.meets(other) for one, other in combinations(boxes, 2))
