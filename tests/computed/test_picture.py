"""A computed lesion as JSON: nothing lost that a drawing or a table needs."""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from threeview.computed.picture import boundary_key, field_picture, picture
from threeview.computed.settings import electrode as read_electrode
from threeview.computed.settings import medium, read_setting, read_size
from threeview.lesion import simulate

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from threeview.course import Course
    from threeview.lesion import LesionResult


@pytest.fixture(scope="module")
def result(course: Course) -> LesionResult:
    """Return a lesion of a blunt electrode, whose outlines have the sharpest bends."""
    parameters = {"electrode": "conventional-20g-5mm-blunt", "set": "80", "time": "35"}
    return simulate(read_setting(parameters, course.bench).case(course.bench))


@pytest.fixture(scope="module")
def shown(result: LesionResult) -> dict[str, Any]:
    """Return the same lesion as JSON that went through text."""
    found: dict[str, Any] = json.loads(json.dumps(picture(result), allow_nan=False))
    return found


def farthest(points: NDArray[np.float64], line: NDArray[np.float64]) -> float:
    """Return the greatest distance of points from a polyline."""
    start, along = line[:-1], np.diff(line, axis=0)
    length = np.maximum((along**2).sum(axis=1), 1e-18)
    share = np.clip(((points[:, None] - start) * along).sum(axis=2) / length, 0, 1)
    foot = start + share[..., None] * along
    return float(np.hypot(*(foot - points[:, None]).transpose(2, 0, 1)).min(axis=1).max())


def test_thinned_outlines_stay_on_the_computed_ones(
    result: LesionResult, shown: dict[str, Any]
) -> None:
    """Every point of every computed boundary lies within 0.02 mm of the outline kept for it."""
    for frame, drawn in zip(result.frames, shown["frames"], strict=True):
        for name, contour in frame.contours.items():
            outline = np.array(drawn["contours"][boundary_key(name)])
            if len(contour):
                assert farthest(contour[:-3], outline) < 0.02
            else:
                assert len(outline) == 0


def test_outlines_are_small(result: LesionResult, shown: dict[str, Any]) -> None:
    """Thinning keeps less than a quarter of the points, so a page stays small."""
    kept = sum(len(c) for c in shown["frames"][-1]["contours"].values())
    assert 20 < kept < sum(map(len, result.frames[-1].contours.values())) / 4


def test_sizes_are_those_of_the_result(result: LesionResult, shown: dict[str, Any]) -> None:
    """Sizes at the top, in the last frame and in the engine's result are one and the same."""
    extents = shown["frames"][-1]["extents"][boundary_key(result.criterion)]
    for name in ("width_mm", "length_mm", "distal_mm", "proximal_mm", "volume_mm3"):
        assert shown[name] == extents[name] == round(getattr(result, name), 3)


def test_an_outline_spans_its_sizes(shown: dict[str, Any]) -> None:
    """Width and length read off an outline are the sizes given for it."""
    for frame in shown["frames"]:
        for name, outline in frame["contours"].items():
            if outline:
                r, z = np.array(outline).T
                assert 2 * r.max() == pytest.approx(frame["extents"][name]["width_mm"], abs=0.03)
                assert np.ptp(z) == pytest.approx(frame["extents"][name]["length_mm"], abs=0.03)


def test_frames_end_with_the_heating(shown: dict[str, Any]) -> None:
    """Frames run from the set temperature to the end, the odd last interval included."""
    assert [f["time_s"] for f in shown["frames"]] == [0, 10, 20, 30, 35]


def test_traces_reach_the_set_temperature(shown: dict[str, Any]) -> None:
    """The sensor's trace ends at the set temperature and is as long as the clock's."""
    traces = shown["traces"]
    assert traces["sensor_c"][-1] == pytest.approx(80, abs=0.05)
    assert len({len(trace) for trace in traces.values()}) == 1


def test_no_negative_zero(shown: dict[str, Any]) -> None:
    """JSON has no -0.0, which other languages print otherwise."""
    assert "-0.0," not in json.dumps(shown).replace(" ", "")


def test_far_field_is_that_of_a_point(course: Course) -> None:
    """20 mm from a short tip the field is I / (4 pi sigma r^2), the textbook's point source."""
    faults: list[str] = []
    size = read_size("conventional-22g-4mm", course.bench, faults)
    assert size is not None
    body = read_electrode(size, course.bench)
    tissue = course.bench.tissues.tissues[0]
    line = field_picture(body, medium(tissue, tissue.perfusion.value))["side"]
    r = (line["distance_mm"][-1] + body.outer_diameter_mm / 2) / 1e3
    point = 1e-3 / (4 * math.pi * float(tissue.conductivity.value) * r**2)
    assert line["distance_mm"][-1] == 20
    assert line["field_v_per_m"][-1] == pytest.approx(point, rel=0.02)


def test_field_is_the_slope_of_the_potential(course: Course) -> None:
    """Between table points ahead of the tip the potential falls by the field's integral."""
    faults: list[str] = []
    size = read_size("conventional-18g-10mm", course.bench, faults)
    assert size is not None
    tissue = course.bench.tissues.tissues[0]
    shown = field_picture(
        read_electrode(size, course.bench), medium(tissue, tissue.perfusion.value)
    )
    d, e, v = (np.array(shown["ahead"][k]) for k in ("distance_mm", "field_v_per_m", "potential_v"))
    # Trapezium rule in the logarithm of distance, where E d is the slope and nearly straight.
    slope = e * d / 1e3
    fall = np.diff(np.log(d)) * (slope[1:] + slope[:-1]) / 2
    assert v[0] - v[-1] == pytest.approx(fall.sum(), rel=0.002)
    assert np.allclose(-np.diff(v), fall, rtol=0.02, atol=2e-5)
