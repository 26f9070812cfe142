"""Boundaries and their sizes, on made-up fields whose boundary is known."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.testing import assert_allclose
from tests.lesion.parameters import needle

from threeview.lesion import Numerics
from threeview.lesion.extents import boundary, measure
from threeview.lesion.geometry import tip_surface
from threeview.lesion.mesh import needle_mesh

MESH = needle_mesh(tip_surface(needle()), Numerics())
METAL = MESH.nodes[MESH.rays[:, 0]]
TIP = 0.010


def ellipsoid(radius: float, half: float, centre: float) -> np.ndarray:
    """Return minus the logarithm of the scaled distance: 0 on an ellipsoid, falls outwards."""
    r, z = MESH.nodes.T
    return -np.log(np.hypot(r / radius, (z - centre) / half) + 1e-12)


def test_ellipsoid_is_measured() -> None:
    """Width, length and reach of a known ellipsoid are right to 0.002 mm, its volume to 0.1 %."""
    radius, half, centre = 4e-3, 8e-3, 5.5e-3
    _, found = measure(boundary(MESH, ellipsoid(radius, half, centre), 0.0), TIP, METAL)
    assert_allclose(found.width_mm, 8.0, atol=0.002)
    assert_allclose(found.distal_mm, 2.5, atol=0.002)
    a = 0.455e-3
    top = centre + half * np.sqrt(1 - (a / radius) ** 2)  # tissue ends where the shaft stands
    assert_allclose(found.proximal_mm, top * 1e3 - 10.0, atol=0.002)
    assert_allclose(found.length_mm, top * 1e3 + 2.5, atol=0.002)
    cone, rod = np.pi * a**2 * 0.91e-3 / 3, np.pi * a**2 * (top - 0.91e-3)
    expected = 4 / 3 * np.pi * radius**2 * half - cone - rod
    cap = np.pi * (a**2) * (centre + half - top) / 2
    assert_allclose(found.volume_mm3, (expected - cap) * 1e9, rtol=0.001)


def test_contour_is_closed_and_on_the_boundary() -> None:
    """The contour returns to its first point and its outer part lies on the ellipsoid."""
    contour, _ = measure(boundary(MESH, ellipsoid(4e-3, 8e-3, 5.5e-3), 0.0), TIP, METAL)
    assert_allclose(contour[0], contour[-1])
    assert (contour[:, 0] >= 0).all()
    outer = contour[contour[:, 0] > 0.6]
    assert len(outer) > 50
    distance = np.hypot(outer[:, 0] / 4.0, (outer[:, 1] - 5.5) / 8.0)
    assert_allclose(distance, 1.0, atol=0.003)


def test_nothing_inside_gives_nothing() -> None:
    """A level that no node reaches has no contour and no size."""
    field = np.zeros(len(MESH.nodes))
    contour, found = measure(boundary(MESH, field, 1.0), TIP, METAL)
    assert contour.shape == (0, 2)
    assert found.width_mm == found.length_mm == found.volume_mm3 == 0.0


def test_lesion_behind_the_end_of_the_tip() -> None:
    """A boundary that leaves the tip's end free starts on the metal: negative distal reach."""
    radius, half, centre = 2e-3, 3e-3, 5.5e-3
    contour, found = measure(boundary(MESH, ellipsoid(radius, half, centre), 0.0), TIP, METAL)
    on_metal = half * np.sqrt(1 - (0.455 / 2) ** 2) * 1e3
    assert_allclose(found.distal_mm, -(5.5 - on_metal), atol=0.05)
    assert_allclose(found.width_mm, 4.0, atol=0.02)
    assert contour[:, 1].min() > 2.0
    assert_allclose(contour[0], contour[-1])


@pytest.mark.parametrize("level", [45.0, 50.0, 60.0, 80.0])
def test_boundary_is_found_between_nodes(level: float) -> None:
    """On a field that falls like a logarithm the boundary is exact to a thousandth."""
    r, z = MESH.nodes.T
    field = 90.0 - 20.0 * np.log(np.hypot(r, z - 5e-3) / 1e-3 + 1e-9)
    curve = boundary(MESH, field, level)
    expected = 1e-3 * np.exp((90.0 - level) / 20.0)
    beside = (curve[:, 1] > 0) & (curve[:, 1] < 0.01) & (curve[:, 0] > 0.6e-3)
    distance = np.hypot(curve[beside, 0], curve[beside, 1] - 5e-3)
    assert_allclose(distance, expected, rtol=1e-3)
