"""The potential against exact solutions and against itself."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose
from tests.lesion.parameters import MUSCLE, needle
from tests.lesion.steady import ball, steady

from threeview.errors import ConvergenceError
from threeview.lesion import Numerics
from threeview.lesion.forms import conductivity
from threeview.lesion.geometry import tip_surface
from threeview.lesion.mesh import needle_mesh
from threeview.lesion.potential import Potential

RADIUS, WALL = 1e-3, 45e-3


def test_sphere_resistance_is_that_of_the_finite_ball() -> None:
    """Resistance between two spheres is (1/a - 1/b) / (4 pi sigma), within 0.5 %."""
    numerics = Numerics()
    mesh = ball(RADIUS, WALL, numerics.spacing_mm / 1e3, numerics.growth, 33)
    cold = replace(MUSCLE, conductivity_slope=0.0)
    found = steady(mesh, cold, 1.0, 37.0).resistance
    expected = (1 / RADIUS - 1 / WALL) / (4 * np.pi * cold.conductivity)
    assert_allclose(found, expected, rtol=0.005)


def test_sphere_potential_falls_with_distance() -> None:
    """Between two spheres V = (1/r - 1/b) / (1/a - 1/b), within 0.2 % of the applied voltage."""
    mesh = ball(RADIUS, WALL, 6e-5, 0.15, 33)
    cold = replace(MUSCLE, conductivity_slope=0.0)
    distance = np.hypot(*mesh.nodes.T)
    expected = (1 / distance - 1 / WALL) / (1 / RADIUS - 1 / WALL)
    assert_allclose(steady(mesh, cold, 1.0, 37.0).potential, expected, atol=0.002)


def test_heat_equals_voltage_times_current() -> None:
    """The Joule heat at 1 V sums to the current that leaves the bare metal."""
    mesh = needle_mesh(tip_surface(needle()), Numerics())
    potential = Potential(mesh, 1e-12, 100)
    warm = 37.0 + 40.0 * np.exp(-np.hypot(*mesh.nodes.T) / 3e-3)
    sigma = conductivity(MUSCLE, potential.parts.at_points(warm))
    potential.solve(sigma)
    current = (potential.parts.conduction(sigma) @ potential.field)[mesh.bare].sum()
    assert_allclose(potential.heat.sum(), current, rtol=1e-10)


def test_stale_factor_gives_the_potential_of_a_fresh_one() -> None:
    """A potential renewed for another conductivity equals one solved for it from the start."""
    mesh = needle_mesh(tip_surface(needle()), Numerics())
    place = np.hypot(*mesh.nodes.T)
    renewed = Potential(mesh, 1e-11, 100)
    renewed.solve(np.full_like(renewed.parts.weights, 0.44))
    later = 0.44 + 0.4 * np.exp(-renewed.parts.at_points(place) / 5e-3)
    renewed.solve(later)
    fresh = Potential(mesh, 1e-11, 100)
    fresh.solve(later)
    assert_allclose(renewed.field, fresh.field, atol=1e-9)


def test_unfinished_potential_is_not_handed_back() -> None:
    """Too few iterations raise an error that tells residual and count."""
    mesh = needle_mesh(tip_surface(needle()), Numerics())
    potential = Potential(mesh, 1e-12, 1)
    weights = potential.parts.weights
    potential.solve(np.full_like(weights, 0.44))
    with pytest.raises(ConvergenceError) as told:
        potential.solve(np.linspace(0.1, 3.0, weights.size).reshape(weights.shape))
    assert told.value.residual > 1e-12
    assert told.value.iterations == 1
