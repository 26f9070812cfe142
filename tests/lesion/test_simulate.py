"""A whole lesion: balances, invariances, convergence."""

from __future__ import annotations

import doctest
from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose
from tests.lesion.parameters import EX_VIVO, MUSCLE, lesion, needle, usual

import threeview.lesion
from threeview.lesion import Numerics
from threeview.lesion.control import Sensor
from threeview.lesion.geometry import tip_surface
from threeview.lesion.mesh import needle_mesh
from threeview.lesion.results import LesionResult

COARSE = Numerics(spacing_mm=0.12, growth=0.2)
SHAPES = [("cone", 1.0), ("blunt", 0.0), ("bevel", 2.0)]


def test_story_in_the_package_docstring_runs() -> None:
    """The package's docstring shows a lesion that really computes so."""
    assert doctest.testmod(threeview.lesion).attempted > 0
    assert doctest.testmod(threeview.lesion).failed == 0


@pytest.mark.parametrize("tissue", [MUSCLE, EX_VIVO], ids=["muscle", "ex vivo"])
def test_heat_given_is_stored_or_lost(tissue: threeview.lesion.Tissue) -> None:
    """Heat given equals heat stored plus heat lost to wall and blood, to 1e-8 of it."""
    assert lesion(usual(tissue=tissue), COARSE).energy_residual <= 1e-8


def test_sensor_reads_its_target() -> None:
    """The sensor rises evenly through the ramp and then stays on the set temperature."""
    trace = lesion(usual(), COARSE).trace
    target = 37.0 + 43.0 * np.minimum(1.0, 1.0 + trace.time_s / 10.0)
    assert_allclose(trace.sensor_c, target, atol=1e-8)
    assert trace.time_s[0] < 0
    assert_allclose(trace.time_s[-1], 120.0)


def test_conductivity_level_changes_power_but_not_the_lesion() -> None:
    """Better conduction leaves the lesion as it is (to 1e-6); resistance falls in proportion."""
    better = replace(MUSCLE, conductivity=1.7 * MUSCLE.conductivity)
    one, two = lesion(usual(), COARSE), lesion(usual(tissue=better), COARSE)
    for name in ("width_mm", "length_mm", "distal_mm", "volume_mm3", "peak_tissue_c"):
        assert_allclose(getattr(two, name), getattr(one, name), rtol=1e-6)
    assert_allclose(two.model_resistance_ohm, one.model_resistance_ohm / 1.7, rtol=1e-6)


def test_without_slope_the_rise_scales_with_the_set_temperature() -> None:
    """With constant conductivity (T - T0)/(Tset - T0) is one field: half rise at 50 or at 60."""
    constant = replace(MUSCLE, conductivity_slope=0.0)
    low = lesion(usual(tissue=constant, set_temperature_c=63.0), COARSE)
    high = lesion(usual(tissue=constant, set_temperature_c=83.0, criterion="isotherm 60"), COARSE)
    for name in ("width_mm", "length_mm", "distal_mm", "volume_mm3"):
        assert_allclose(getattr(high, name), getattr(low, name), rtol=1e-9)


def test_lengths_scale_with_the_root_of_time() -> None:
    """Without blood, all lengths by 1.5 and all times by 2.25 give the same lesion by 1.5."""
    s = 1.5
    small = needle(tip_mm=6.0)
    large = replace(
        small,
        outer_diameter_mm=s * small.outer_diameter_mm,
        tip_mm=s * small.tip_mm,
        sensor_depth_mm=s * small.sensor_depth_mm,
        insulation_resistance=s * small.insulation_resistance,
    )
    fine = Numerics(
        spacing_mm=0.12 * s,
        growth=0.2,
        domain_mm=45.0 * s,
        step_s=2.0 * s**2,
        voltage_least_s=s**2,
        voltage_most_s=4.0 * s**2,
        frame_s=10.0 * s**2,
    )
    grown = usual(electrode=large, tissue=EX_VIVO, time_s=40.0 * s**2, ramp_s=4.0 * s**2)
    plain = Numerics(spacing_mm=0.12, growth=0.2, step_s=2.0, voltage_most_s=4.0)
    base = usual(electrode=small, tissue=EX_VIVO, time_s=40.0, ramp_s=4.0)
    before, after = lesion(base, plain), lesion(grown, fine)
    assert_allclose(after.width_mm, s * before.width_mm, rtol=1e-6)
    assert_allclose(after.length_mm, s * before.length_mm, rtol=1e-6)
    assert_allclose(after.volume_mm3, s**3 * before.volume_mm3, rtol=1e-6)


def ladder(**changes: object) -> list[LesionResult]:
    """Return one lesion on three meshes, each twice as fine as the one before."""
    meshes = [Numerics(spacing_mm=h, growth=2 * h, frame_s=120.0) for h in (0.16, 0.08, 0.04)]
    return [lesion(usual(**changes), numerics) for numerics in meshes]


@pytest.mark.parametrize(("shape", "taper"), SHAPES, ids=[s for s, _ in SHAPES])
def test_width_converges(shape: str, taper: float) -> None:
    """Width converges by order 1.3 or more over three meshes.

    The default mesh keeps width within 0.3 % and distal reach within 1.5 % of the Richardson
    limit.
    """
    electrode = needle(tip_shape=shape, taper_ratio=taper)
    runs = ladder(electrode=electrode)
    widths = [run.width_mm for run in runs]
    ratio = (widths[0] - widths[1]) / (widths[1] - widths[2])
    assert np.log2(abs(ratio)) >= 1.3, widths
    default = lesion(usual(electrode=electrode))
    for name, tolerance in (("width_mm", 0.003), ("distal_mm", 0.015)):
        coarse, fine = getattr(runs[-2], name), getattr(runs[-1], name)
        limit = fine + (fine - coarse) / 3  # second order
        assert_allclose(getattr(default, name), limit, rtol=tolerance)


def test_time_step_is_not_the_limit() -> None:
    """A step ten times shorter changes width by less than 0.05 %."""
    short = Numerics(step_s=0.25, voltage_share=0.0, voltage_least_s=1.0)
    assert_allclose(lesion(usual()).width_mm, lesion(usual(), short).width_mm, rtol=5e-4)


def test_bigger_domain_changes_nothing_that_matters() -> None:
    """A wall nearly twice as far changes width by less than 0.1 %."""
    far = Numerics(domain_mm=80.0)
    assert_allclose(lesion(usual()).width_mm, lesion(usual(), far).width_mm, rtol=1e-3)


def test_frames_stand_at_every_interval_and_the_end() -> None:
    """Frames run from the end of the ramp in steps of ten seconds, the last at the end."""
    result = lesion(usual(time_s=25.0), COARSE)
    assert [frame.time_s for frame in result.frames] == [0.0, 10.0, 20.0, 25.0]
    assert result.frames[-1].extents["isotherm 50"].width_mm == result.width_mm


def test_hotter_isotherms_lie_inside_cooler_ones() -> None:
    """In the last frame each contour encloses the hotter one, and all grow with time."""
    frames = lesion(usual(), COARSE).frames
    widths = [frames[-1].extents[f"isotherm {t}"].width_mm for t in (80, 60, 55, 50, 45)]
    assert widths == sorted(widths)
    damage = [frame.extents["damage"].width_mm for frame in frames]
    assert damage == sorted(damage)
    assert damage[-1] > 5.0


def test_damage_lies_where_the_closed_form_puts_it() -> None:
    """Damage holds all that spent 14.2 s at 55 °C and nothing that stayed below 45 °C.

    Those are the law's times at constant temperature, 277 s at 45 °C being longer than the run;
    so the boundary lies outside the 55 °C isotherm of 20 s before and inside the last 45 °C one.
    """
    frames = {frame.time_s: frame for frame in lesion(usual(), COARSE).frames}
    before, last = frames[100.0].extents, frames[120.0].extents
    assert before["isotherm 55"].width_mm < last["damage"].width_mm < last["isotherm 45"].width_mm
    assert before["isotherm 55"].distal_mm < last["damage"].distal_mm


def test_sensor_stands_at_its_depth() -> None:
    """On a rise that grows with height the sensor reads the rise at its own depth."""
    for depth in (0.2, 0.5, 3.0):
        case = usual(electrode=needle(sensor_depth_mm=depth))
        mesh = needle_mesh(tip_surface(case.electrode), COARSE)
        everywhere = np.arange(len(mesh.nodes))
        sensor = Sensor(mesh, everywhere, case)
        assert_allclose(sensor.read(mesh.nodes[:, 1] * 1e3), 37.0 + depth)


def test_more_blood_makes_a_smaller_lesion() -> None:
    """Perfusion from none to brisk shrinks the lesion steadily."""
    flows = (0.0, 0.0008, 0.003, 0.005)
    widths = [
        lesion(usual(tissue=replace(MUSCLE, perfusion_per_s=w)), COARSE).width_mm for w in flows
    ]
    assert widths == sorted(widths, reverse=True)
    assert widths[0] / widths[-1] > 1.1


def test_solver_is_loaded_only_when_asked_for() -> None:
    """An unknown name is refused, a known one is the function itself."""
    assert threeview.lesion.simulate.__module__ == "threeview.lesion.run"
    with pytest.raises(AttributeError, match="no attribute 'simulat'"):
        _ = threeview.lesion.simulat
