"""Cross-sections: true to scale, and the table says what the drawing shows."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import pytest
from tests.figures.drawing import Drawing

from threeview.figures.numbers import rounded, size

if TYPE_CHECKING:
    from threeview.figures import Figure

SECTIONS = ["usual", "smallest", "largest", "cold", "not reached", "edge at 55", "damage edge"]
EVERY = pytest.mark.parametrize("name", SECTIONS)


def scale_of(drawing: Drawing) -> float:
    """Return px for each mm, from the 5 mm bar."""
    ((start, end),) = drawing.points("m-scale")
    return (end[0] - start[0]) / 5


@EVERY
def test_grid_is_in_millimetres(name: str, figures: dict[str, Figure]) -> None:
    """Lines of the grid are one millimetre apart by the scale bar, every fifth a strong one."""
    drawing = Drawing(figures[name].svg)
    upright = {
        css: sorted(
            float(x) for x in re.findall(r"M(\S+) \S+V", drawing.having(css)[0].attrib["d"])
        )
        for css in ("m-grid", "m-grid5")
    }
    every = sorted(upright["m-grid"] + upright["m-grid5"])
    steps = {round(b - a, 1) for a, b in pairwise(every)}
    assert all(step == pytest.approx(scale_of(drawing), abs=0.11) for step in steps)
    strong = upright["m-grid5"]
    assert strong[1] - strong[0] == pytest.approx(5 * scale_of(drawing), abs=0.11)


@EVERY
def test_electrode_is_to_scale(name: str, figures: dict[str, Figure], data: dict[str, Any]) -> None:
    """Bare tip and shaft have the electrode's diameter, and the tip its length."""
    drawing, needle = Drawing(figures[name].svg), data[name].section.needle
    scale = scale_of(drawing)
    ((*tip,), (*shaft,)) = drawing.points("m-tip")[0], drawing.points("m-shaft")[0]
    for outline in (tip, shaft):
        wide = max(x for x, _ in outline) - min(x for x, _ in outline)
        assert wide / scale == pytest.approx(needle.diameter, abs=0.02)
    tall = max(y for _, y in tip) - min(y for _, y in tip)
    assert tall / scale == pytest.approx(needle.tip, abs=0.02)
    assert max(y for _, y in shaft) == min(y for _, y in tip)


@EVERY
def test_outlines_are_to_scale(name: str, figures: dict[str, Figure], data: dict[str, Any]) -> None:
    """Each boundary drawn is as wide and as long as its sizes say, within a tenth of a mm."""
    drawing = Drawing(figures[name].svg)
    scale = scale_of(drawing)
    for boundary in data[name].section.boundaries:
        css = f"t{boundary.key}" if boundary.key.isdigit() else "m-damage"
        if css == "t55":
            continue  # has no colour of its own; see below
        curves = drawing.points(css)[:1]
        assert len(curves) == bool(boundary.curve)
        for curve in curves:
            x, y = zip(*curve, strict=True)
            assert (max(x) - min(x)) / scale == pytest.approx(boundary.width, abs=0.1)
            assert (max(y) - min(y)) / scale == pytest.approx(boundary.length, abs=0.1)


def test_an_isotherm_between_borrows_a_colour(figures: dict[str, Figure]) -> None:
    """55 °C has no colour of its own: line and label take that of 50 °C, and both are named."""
    drawing = Drawing(figures["edge at 55"].svg)
    assert len(drawing.points("t50")) == 2
    labels = [e.text for e in drawing.having("t50") if e.text]
    assert labels == ["50\u00a0°C", "55\u00a0°C"]


@EVERY
def test_dimensions_are_to_scale(name: str, figures: dict[str, Figure]) -> None:
    """Each dimension line is as long as the number above it says."""
    drawing = Drawing(figures[name].svg)
    lines = [c for css in ("m-dim", "m-published") for c in drawing.points(css) if len(c) == 2]
    numbers = [
        float(re.findall(r"\d+(?:\.\d+)?", box.words)[0 if "at" in box.words else -1])
        for box in drawing.labels()
        if re.search(r"mm at|damage at|mm, ", box.words) or box.words.endswith("mm at damage")
    ]
    long = [(end[0] - start[0]) / scale_of(drawing) for start, end in lines]
    assert sorted(long) == pytest.approx(sorted(numbers), abs=0.06)
    assert len(long) > 0 or name == "not reached"


@EVERY
def test_table_says_what_is_drawn(
    name: str, figures: dict[str, Figure], data: dict[str, Any]
) -> None:
    """The table has every boundary with its width, length and reach, or says it was not reached."""
    rows = {row[0]: row[1:] for row in figures[name].table.rows}
    for b in data[name].section.boundaries:
        sizes = (rounded(b.width), rounded(b.length), rounded(b.distal))
        assert rows[b.words] == (sizes if b.curve else ("not reached",) * 3)


@EVERY
def test_every_temperature_is_named(
    name: str, figures: dict[str, Figure], data: dict[str, Any]
) -> None:
    """Each isotherm that was reached has its label once; the rest are told in the sentence."""
    words = [box.words for box in Drawing(figures[name].svg).labels()]
    for boundary in data[name].section.boundaries:
        if boundary.key.isdigit():
            assert words.count(boundary.words) == bool(boundary.curve)
        if not boundary.curve:
            assert boundary.words in figures[name].sentence


@pytest.mark.parametrize("name", ["usual", "largest", "not reached"])
def test_nerve_is_to_scale(name: str, figures: dict[str, Figure], data: dict[str, Any]) -> None:
    """The ring has the ledger's diameter, stands at the offset told, and holds three dots."""
    drawing, nerve = Drawing(figures[name].svg), data[name].nerve
    scale = scale_of(drawing)
    (group,) = [e for e in drawing.having("m-nerve") if len(e)]
    ring, *dots = group
    assert 2 * float(ring.attrib["r"]) / scale == pytest.approx(nerve.diameter, abs=0.02)
    axis = sum(x for x, _ in drawing.points("m-shaft")[0]) / 4
    assert (float(ring.attrib["cx"]) - axis) / scale == pytest.approx(nerve.offset, abs=0.02)
    assert len(dots) == 3
    assert size(nerve.offset) in figures[name].sentence
    assert f"is {nerve.state} that boundary" in figures[name].sentence


def test_bevel_is_drawn_as_a_bevel(figures: dict[str, Figure]) -> None:
    """The bevelled tip has its point at the edge of the rod, a cone has it on the axis."""
    for name, share in [("largest", 1.0), ("usual", 0.5)]:
        tip = Drawing(figures[name].svg).points("m-tip")[0]
        left, right = min(x for x, _ in tip), max(x for x, _ in tip)
        point = max(tip, key=lambda p: p[1])
        assert (point[0] - left) / (right - left) == pytest.approx(share, abs=0.01)
    assert "bevel" in " ".join(words for _, words in figures["largest"].key)


def test_what_was_measured_stands_beside(figures: dict[str, Figure], data: dict[str, Any]) -> None:
    """Each ledger value beside the lesion is in drawing, table and key with its basis."""
    figure = figures["largest"]
    labels = " ".join(box.words for box in Drawing(figure.svg).labels())
    cells = [cell for row in figure.table.rows for cell in row]
    told = " ".join(words for _, words in figure.key).lower()
    assert len(data["largest"].beside) == 2
    for value in data["largest"].beside:
        assert f"{value.shown}, {value.basis}" in labels
        assert value.shown in cells
        assert value.conditions.lower() in told
        assert value.basis_words.lower() in told


def test_pair_has_one_scale_and_one_tip_line(
    figures: dict[str, Figure], data: dict[str, Any]
) -> None:
    """Both electrodes of a pair are to the one scale bar, their distal ends at one height."""
    for name in ("two starts", "two sizes"):
        drawing = Drawing(figures[name].svg)
        tips = drawing.points("m-tip")
        assert max(y for _, y in tips[0]) == max(y for _, y in tips[1])
        for tip, section in zip(tips, (data[name].left, data[name].right), strict=True):
            wide = (max(x for x, _ in tip) - min(x for x, _ in tip)) / scale_of(drawing)
            assert wide == pytest.approx(section.needle.diameter, abs=0.02)


def test_pair_table_has_both(figures: dict[str, Figure], data: dict[str, Any]) -> None:
    """The table of a pair has the width of every boundary of both lesions."""
    rows = {row[0]: row[1] for row in figures["two starts"].table.rows}
    for letter, section in zip(
        "AB", (data["two starts"].left, data["two starts"].right), strict=True
    ):
        for boundary in section.boundaries:
            assert rows[f"{letter}, {boundary.words}"] == rounded(boundary.width)
