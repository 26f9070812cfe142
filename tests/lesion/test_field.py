"""The field of a small current against exact solutions and against another solver."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.testing import assert_allclose
from tests.lesion.parameters import MUSCLE, needle, usual
from tests.lesion.scikit_fem_solver import Solver, Way

from threeview.lesion import Numerics, field_profile

DISTANCES = [0.25, 0.5, 1.0, 2.0, 3.0, 5.0, 10.0]
FINE = Numerics(spacing_mm=0.03, growth=0.08)


def test_far_field_is_that_of_a_line_source() -> None:
    """From 5 to 20 mm beside the middle, |E| is an even line source's within 5 %.

    A line of length L gives I / (4 pi sigma d sqrt(d^2 + L^2 / 4)) at distance d (textbook
    electrostatics); the real tip crowds current at its ends, which is what the 5 % are for.
    """
    electrode = needle(22, 4.0, tip_shape="blunt", taper_ratio=0.0)
    beside = np.array([5.0, 8.0, 12.0])
    far = replace(FINE, domain_mm=150.0)
    found = field_profile(electrode, MUSCLE, list(beside), temperature_c=37.0, numerics=far)
    d = (beside + 0.36) * 1e-3
    expected = 1e-3 / (4 * np.pi * MUSCLE.conductivity * d * np.sqrt(d**2 + 0.002**2))
    assert_allclose(found.sideways_v_per_m, expected, rtol=0.05)


def test_field_is_the_slope_of_the_potential() -> None:
    """Both lines' potentials fall by the integral of the field along them, within 0.5 %."""
    places = np.geomspace(0.3, 6.0, 200)
    found = field_profile(needle(), MUSCLE, list(places), temperature_c=37.0, numerics=FINE)
    for volts, field in (
        (found.sideways_v, found.sideways_v_per_m),
        (found.ahead_v, found.ahead_v_per_m),
    ):
        fall = np.trapezoid(field, places * 1e-3)
        assert_allclose(volts[0] - volts[-1], fall, rtol=0.005)


def test_field_agrees_with_scikit_fem() -> None:
    """Field and resistance agree with an independent solver, within 1.5 % and 0.5 %."""
    found = field_profile(needle(), MUSCLE, DISTANCES, temperature_c=37.0, numerics=FINE)
    solver = Solver(usual(), Way(0.03, 0.2, 2, 1.0, plain=False))
    volts, resistance = solver.unit_potential(37.0)
    away, step = np.array(DISTANCES) * 1e-3, 2e-5
    a = 0.91e-3 / 2
    here = np.full_like(away, 5e-3)

    def slope(r: np.ndarray, z: np.ndarray, dr: float, dz: float) -> np.ndarray:
        ahead = solver.sample(volts, r + dr, z + dz) - solver.sample(volts, r - dr, z - dz)
        return ahead / (2 * (dr + dz))

    sideways = np.hypot(slope(a + away, here, step, 0.0), slope(a + away, here, 0.0, step))
    onward = np.abs(slope(np.zeros_like(away), -away, 0.0, step))
    milliampere = 1e-3 * resistance
    assert_allclose(found.model_resistance_ohm, resistance, rtol=0.005)
    assert_allclose(found.sideways_v_per_m, sideways * milliampere, rtol=0.015)
    assert_allclose(found.ahead_v_per_m, onward * milliampere, rtol=0.015)


def test_better_conductor_has_less_field() -> None:
    """Twice the conductivity halves field, potential and resistance; warmth counts as slope."""
    doubled = replace(MUSCLE, conductivity=2 * MUSCLE.conductivity)
    one = field_profile(needle(), MUSCLE, DISTANCES, temperature_c=37.0)
    two = field_profile(needle(), doubled, DISTANCES, temperature_c=37.0)
    cool = field_profile(needle(), MUSCLE, DISTANCES, temperature_c=17.0)
    assert_allclose(two.sideways_v_per_m, one.sideways_v_per_m / 2, rtol=1e-9)
    assert_allclose(two.ahead_v, one.ahead_v / 2, rtol=1e-9)
    assert_allclose(cool.model_resistance_ohm, one.model_resistance_ohm / 0.7, rtol=1e-9)
