"""The check against a publication shows every disagreement, wherever it is shown."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from tests.figures.drawing import Drawing

from threeview.computed.figure_data.publication import (
    Check,
    ModelAgainstPublication,
    Point,
    Start,
)
from threeview.computed.figure_data.published import Published
from threeview.evidence import show_number
from threeview.figures.publication import model_against_publication, verdict

if TYPE_CHECKING:
    from threeview.figures import Figure


def check(words: str, low: float, high: float, rows: dict[int, list[float]]) -> Check:
    """Return a check on invented numbers, judged as they lie."""
    published = Published(
        words, f"{words}.", f"{low:g}–{high:g}\u00a0%", "%", low, high,
        about=False, basis="published", basis_words="published, abstract read",
        conditions="invented; start temperature not stated",
    )  # fmt: skip
    gauges = (22, 20, 18, 16)
    starts = tuple(
        Start(
            temperature,
            tuple(
                Point(
                    f"{gauge}\u00a0G",
                    Decimal(repr(value)),
                    "below" if value < low else "above" if value > high else "inside",
                )
                for gauge, value in zip(gauges, values, strict=False)
            ),
        )
        for temperature, values in rows.items()
    )
    return Check(words, published, "%", "", starts)


@pytest.fixture
def data() -> ModelAgainstPublication:
    """Return four invented checks with every kind of verdict."""
    return ModelAgainstPublication(
        (
            check("All below", 50, 60, {22: [41.5], 37: [32.5]}),
            check(
                "Some beyond", 10, 20, {22: [9.1, 12.2, 15.3, 18.4], 37: [8.6, 14.7, 20.1, 21.9]}
            ),
            check("All above", 1, 5, {22: [2.3, 2.6, 2.8, 3.1], 37: [6.1, 6.6, 7.2, 8.4]}),
            check(
                "All within", 11, 20, {22: [11.0, 13.0, 17.0, 20.0], 37: [12.9, 14.9, 16.9, 18.9]}
            ),
        ),
        medium="invented medium",
        edge="50\u00a0°C",
    )


def left_out(figure: Figure, data: ModelAgainstPublication) -> list[str]:
    """Return the disagreements that a reader of the table or the sentence would not learn of."""
    missing = []
    for shown in data.checks:
        row = next((row for row in figure.table.rows if row[0].startswith(shown.words)), None)
        for index, start in enumerate(shown.starts):
            cell = row[2 + index] if row else ""
            where = f"from {start.temperature}\u00a0°C {verdict(start)}"
            for point in start.outside:
                number = show_number(point.value)
                name = f"{shown.words}, {start.temperature}, {point.words}"
                if not re.search(rf"(?<![\d.]){re.escape(number)}(?!\d|\.\d)", cell):
                    missing.append(f"{name}: number")
                if not cell.startswith("Outside") or point.verdict not in cell:
                    missing.append(f"{name}: verdict")
                if where not in figure.sentence:
                    missing.append(f"{name}: sentence")
    return missing


def test_no_disagreement_is_left_out(data: ModelAgainstPublication) -> None:
    """Every number outside the published range is in table and sentence, called outside."""
    assert sum(c.disagreements for c in data.checks) == 10
    assert left_out(model_against_publication(data), data) == []


def test_a_left_out_disagreement_would_be_seen(data: ModelAgainstPublication) -> None:
    """The check is able to fail: without a row, a number or a verdict it names what is missing."""
    figure = model_against_publication(data)
    table = figure.table
    without_row = replace(figure, table=replace(table, rows=table.rows[1:]))
    assert left_out(without_row, data)
    for old, new in (("9.1", "9.9"), ("Outside", "Inside")):
        rows = tuple(tuple(cell.replace(old, new) for cell in row) for row in table.rows)
        assert left_out(replace(figure, table=replace(table, rows=rows)), data)
    silent = replace(figure, sentence="All is well.")
    assert len(left_out(silent, data)) == 10


def test_every_number_is_drawn_in_its_place(data: ModelAgainstPublication) -> None:
    """A mark lies inside the band exactly when its number lies in the published range."""
    drawing = Drawing(model_against_publication(data).svg)
    bands = [
        (float(e.attrib["x"]), float(e.attrib["x"]) + float(e.attrib["width"]))
        for e in drawing.having("m-band")
    ]
    marks = [(d[0][0], d[1][1]) for d in drawing.points("point")]
    points = [
        (number, point)
        for number, shown in enumerate(data.checks)
        for start in shown.starts
        for point in start.points
    ]
    for (x, _), (number, point) in zip(marks, points, strict=True):
        low, high = bands[number]
        side = "below" if x < low - 0.05 else "above" if x > high + 0.05 else "inside"
        assert side == point.verdict


def test_verdicts_stand_beside_their_marks(data: ModelAgainstPublication) -> None:
    """Each lane ends in its verdict in words, and a few points outside are named beside it."""
    drawing = Drawing(model_against_publication(data).svg)
    labels = drawing.labels()
    verdicts = [box.words for box in labels if box.words.endswith("side")]
    assert verdicts == [
        "outside", "outside", "3 of 4 inside", "1 of 4 inside",
        "inside", "outside", "inside", "inside",
    ]  # fmt: skip
    words = {box.words for box in labels}
    assert {"41.5", "32.5", "22\u00a0G", "18\u00a0G, 16\u00a0G"} <= words


def test_labels_stay_clear(data: ModelAgainstPublication) -> None:
    """No label leaves the plate, overlaps another or lies on a mark."""
    drawing = Drawing(model_against_publication(data).svg)
    labels = drawing.labels()
    for index, box in enumerate(labels):
        assert 0 <= box.left < box.right <= drawing.width
        assert not any(box.meets(other) for other in labels[index + 1 :])
        assert not any(box.holds(p) for mark in drawing.points("point") for p in mark)


def test_foot_says_what_is_unknown(data: ModelAgainstPublication) -> None:
    """The plate says that the start temperature is unknown and that nothing was tuned."""
    foot = " ".join(model_against_publication(data).foot)
    assert "does not state its start temperature" in foot
    assert "Nothing was tuned" in foot
