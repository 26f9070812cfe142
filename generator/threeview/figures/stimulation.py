"""The field of a stimulating current against distance: one field, several distances."""

from __future__ import annotations

from typing import TYPE_CHECKING

from threeview.figures.figure import Figure, Table
from threeview.figures.lettering import spread, width
from threeview.figures.lines import (
    HEIGHT,
    Axis,
    Frame,
    Panel,
    Series,
    explore_panel,
    mark_at,
    panel_marks,
)
from threeview.figures.numbers import rounded, size
from threeview.figures.svg import document, line, text

if TYPE_CHECKING:
    from threeview.computed.figure_data.stimulation import FieldCurve, StimulationField

__all__ = ["stimulation_field"]

_WIDTH = 336
_GAP = 34  # px between panels: the distances of one field stand there
_NEAR, _FAR = 0.5, 20.0
_X_TICKS = (0.5, 1, 2, 5, 10, 20)
_Y_TICKS = (0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200)
_LOW_FREQUENCY = (
    "at the frequencies of stimulation muscle conducts less (from memory): every field would be "
    "larger by one factor, and the places of like field would not move"
)
_TITLES = {"side": "To the side of the bare tip, V/m", "ahead": "Ahead of the tip, V/m"}


def stimulation_field(data: StimulationField) -> Figure:
    """Draw the field to the side and ahead, and the distances at which it is the same."""
    panels = [_panel(data, direction) for direction in _TITLES]
    marks = []
    for index, panel in enumerate(panels):
        drawn, frame = panel_marks(panel, 8 + index * (HEIGHT + _GAP))
        marks += [drawn, _same(data, frame, tuple(_TITLES)[index])]
    sentence = _sentence(data)
    return Figure(
        svg=document(_WIDTH, 8 + 2 * (HEIGHT + _GAP), sentence, "".join(marks)),
        sentence=sentence,
        table=_table(data),
        key=(
            ("m-curve", f"field of 1\u00a0mA; both axes are logarithmic; {_LOW_FREQUENCY}"),
            ("m-level", f"one field, {_field(data.level)}, and the distances where it is met"),
        ),
        foot=(
            f"1\u00a0mA in {data.medium}",
            "conducting as at lesioning frequency",
        ),
        explore={"kind": "lines", "panels": [explore_panel(p) for p in panels]},
    )


def _panel(data: StimulationField, direction: str) -> Panel:
    curves = [curve for curve in data.curves if curve.direction == direction]
    fields = [field for curve in data.curves for field in curve.fields]
    low = max(tick for tick in _Y_TICKS if tick <= min(fields))
    high = min(tick for tick in _Y_TICKS if tick >= max(fields))
    ticks = tuple(tick for tick in _Y_TICKS if low <= tick <= high)
    series = tuple(
        Series(tuple(curve.electrode.split(", ")), curve.distances, curve.fields, index)
        for index, curve in enumerate(curves)
    )
    x = Axis("distance from the metal, mm", _NEAR, _FAR, _X_TICKS, log=True)
    y = Axis("field for 1\u00a0mA, V/m", low, high, ticks, log=True)
    return Panel(_TITLES[direction], x, y, series, data.level)


def _same(data: StimulationField, frame: Frame, direction: str) -> str:
    """Return dots where the curves meet the level, dropped to their distances below the axis."""
    found = sorted(c.same for c in data.curves if c.direction == direction and c.same is not None)
    xs = [frame.at(distance, data.level)[0] for distance in found]
    y = frame.bottom + 58
    places = spread(xs, width("00.0 ") + 4, 40, frame.right)
    marks = []
    for distance, x, place in zip(found, xs, places, strict=True):
        marks.append(line("m-leader", frame.at(distance, data.level), (x, frame.bottom)))
        marks.append(mark_at(frame, distance, data.level))
        marks.append(text("m-label", (place, y), rounded(distance), "middle"))
    return "".join((*marks, text("m-label", (_WIDTH - 6, y), f"at {_field(data.level)}", "end")))


def _field(level: float) -> str:
    return size(level, "V/m")


def _sentence(data: StimulationField) -> str:
    places = "; ".join(
        f"{curve.electrode}, {curve.words}: {_distance(curve)}" for curve in data.curves
    )
    return (
        f"The electric field of 1\u00a0mA falls with distance from the metal. The same field, "
        f"{_field(data.level)}, is met at different distances: {places}. One threshold can come "
        f"from a nerve at any of them."
    )


def _distance(curve: FieldCurve) -> str:
    if curve.same is not None:
        return size(curve.same)
    return f"nearer than {size(_NEAR)}" if curve.fields[0] < curve.fields[-1] else "not in range"


def _table(data: StimulationField) -> Table:
    shown = (1.0, 2.0, 5.0, 10.0)
    head = ("Field of 1\u00a0mA, V/m", *(size(d, decimals=0) for d in shown), _field(data.level))
    rows = tuple(
        (f"{c.electrode}, {c.words}", *(_at(c, d) for d in shown), f"at {_distance(c)}")
        for c in data.curves
    )
    return Table("Field by distance, and where it is the same", head, rows)


def _at(curve: FieldCurve, distance: float) -> str:
    nearest = min(range(len(curve.distances)), key=lambda k: abs(curve.distances[k] - distance))
    return rounded(curve.fields[nearest])
