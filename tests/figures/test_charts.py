"""Charts: marks lie where the numbers say, and the table repeats them."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

import pytest
from tests.figures.drawing import SVG, Drawing

from threeview.figures.numbers import rounded, size

if TYPE_CHECKING:
    from threeview.figures import Figure


def centre(diamond: list[tuple[float, float]]) -> tuple[float, float]:
    """Return the middle of a mark."""
    return diamond[0][0], diamond[1][1]


def test_computed_sizes_are_to_scale(figures: dict[str, Figure], data: dict[str, Any]) -> None:
    """Each diamond stands at its length on the scale whose 0 and 5 mm are labelled."""
    drawing = Drawing(figures["sizes"].svg)
    marks = [centre(d) for d in drawing.points("point")]
    ends = [c for c in drawing.points("m-computed") if len(c) == 2]
    zero, five = (sum((b.left, b.right)) / 2 for b in map(drawing.label, ("0", "5\u00a0mm")))
    assert len(marks) == len(data["sizes"].computed)
    for row, mark, line in zip(data["sizes"].computed, marks, ends, strict=True):
        assert (mark[0] - zero) / (five - zero) * 5 == pytest.approx(row.size, abs=0.02)
        assert line[0][0] == pytest.approx(zero, abs=0.1)
        assert line[1][0] == pytest.approx(mark[0], abs=0.1)


def test_published_sizes_are_to_scale(figures: dict[str, Figure], data: dict[str, Any]) -> None:
    """A range spans its two ends; a single number or a limit starts at zero."""
    drawing = Drawing(figures["sizes"].svg)
    lines = [c for c in drawing.points("m-published") if c[0][1] == c[1][1]]
    zero, five = (sum((b.left, b.right)) / 2 for b in map(drawing.label, ("0", "5\u00a0mm")))
    found = [tuple((x - zero) / (five - zero) * 5 for x, _ in line) for line in lines]
    expected = [
        (0 if row.low in (None, row.high) else row.low, row.high) for row in data["sizes"].published
    ]
    assert expected == [(0, 5), (10, 12), (8, 10), (0, 16)]  # the ledger's, as written there
    for pair, wanted in zip(found, expected, strict=True):
        assert pair == pytest.approx(wanted, abs=0.02)


def test_published_sizes_say_what_they_rest_on(
    figures: dict[str, Figure], data: dict[str, Any]
) -> None:
    """Statement, basis and conditions of each published row stand in drawing and table."""
    figure = figures["sizes"]
    drawn = plain(" ".join(box.words for box in Drawing(figure.svg).labels()))
    cells = plain(" ".join(cell for row in figure.table.rows for cell in row))
    for row in data["sizes"].published:
        for text in (row.statement, row.basis_words, row.conditions):
            assert plain(text) in drawn
            assert plain(text) in cells


def plain(text: str) -> str:
    """Return a text with plain spaces, in small letters."""
    return text.replace("\u00a0", " ").lower()


def test_growth_curves_pass_their_numbers(figures: dict[str, Figure], data: dict[str, Any]) -> None:
    """Read by the ticks of its axis, each curve ends at its last width or reach."""
    drawing = Drawing(figures["growth"].svg)
    curves = [c for c in drawing.points("m-computed") if len(c) > 10]
    courses = data["growth"].courses
    wanted = [c.widths[-1] for c in courses] + [c.distals[-1] for c in courses]
    axes = [_upright(drawing, first) for first in ("15", "4")]
    for index, (curve, number) in enumerate(zip(curves, wanted, strict=True)):
        zero, unit = axes[index // len(courses)]
        assert (zero - curve[-1][1]) / unit == pytest.approx(number, abs=0.05)


def _upright(drawing: Drawing, top: str) -> tuple[float, float]:
    """Return y of zero and px for each unit of the panel whose highest tick reads `top`."""
    labels = [e for e in drawing.root.iter(f"{SVG}text") if e.get("text-anchor") == "end"]
    index = next(k for k, e in enumerate(labels) if e.text == top)
    zero = next(e for e in reversed(labels[:index]) if e.text == "0")
    high, low = (float(e.attrib["y"]) for e in (labels[index], zero))
    return low - 5, (low - high) / float(top)


def test_growth_table_is_the_curves(figures: dict[str, Figure], data: dict[str, Any]) -> None:
    """Each cell is the width or reach at the time above it."""
    table = figures["growth"].table
    rows = {row[0]: row[1:] for row in table.rows}
    times = [float(head.split("\u00a0")[0]) for head in table.head[1:]]
    assert times == [30, 60, 90, 120, 150, 180]
    for course in data["growth"].courses:
        widths = dict(zip(course.times, course.widths, strict=True))
        reaches = dict(zip(course.times, course.distals, strict=True))
        assert rows[f"{course.words}, width"] == tuple(rounded(widths[t]) for t in times)
        assert rows[f"{course.words}, reach"] == tuple(rounded(reaches[t]) for t in times)


def test_curves_differ_without_colour(figures: dict[str, Figure]) -> None:
    """Curves of one panel have different dashes, so a grey copy reads."""
    for name, count in (("growth", 4), ("field", 3)):
        curves = [
            e.get("stroke-dasharray", "")
            for e in Drawing(figures[name].svg).having("m-computed")
            if "c" in e.attrib["d"]
        ]
        assert len(curves) == 2 * count
        assert len(set(curves[:count])) == count


def test_one_field_has_several_distances(figures: dict[str, Figure], data: dict[str, Any]) -> None:
    """Every curve's distance of the same field stands in drawing, table and sentence."""
    figure, shown = figures["field"], data["field"]
    words = [box.words for box in Drawing(figure.svg).labels()]
    for curve, row in zip(shown.curves, figure.table.rows, strict=True):
        assert rounded(curve.same) in words
        assert row[-1] == f"at {size(curve.same)}"
        assert f"{curve.words}: {size(curve.same)}" in figure.sentence
    assert "One threshold can come from a nerve at any of them" in figure.sentence


def test_numbers_are_rounded_half_up() -> None:
    """Rounding is by the decimal digits written, half up, and never gives a negative zero."""
    assert [rounded(x) for x in (0.25, 0.35, 2.05, -0.04, -1.25)] == [
        "0.3", "0.4", "2.1", "0.0", "−1.3",
    ]  # fmt: skip
    assert rounded(12.5, 0) == str(Decimal(13))
