"""The electrode's outline and the mesh that fits it."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.integrate import quad
from tests.lesion.parameters import needle

from threeview.lesion import Electrode, Numerics
from threeview.lesion import elements as el
from threeview.lesion.geometry import tip_surface
from threeview.lesion.mesh import needle_mesh, spaced

SHAPES = {
    "cone": needle(),
    "blunt": needle(tip_shape="blunt", taper_ratio=0.0),
    "bevel": needle(tip_shape="bevel", taper_ratio=2.0),
    "long bevel": needle(16, 5.0, tip_shape="bevel", taper_ratio=2.5),
    "short thick cone": needle(16, 4.0),
}


@pytest.mark.parametrize("electrode", SHAPES.values(), ids=SHAPES)
def test_mesh_has_no_folded_element(electrode: Electrode) -> None:
    """Every quadrature point has positive volume, for every tip shape."""
    mesh = needle_mesh(tip_surface(electrode), Numerics())
    assert el.elements(mesh, np.ones(len(mesh.quads), dtype=bool)).weights.min() > 0


@pytest.mark.parametrize(
    ("name", "share"),
    # Of the cylinder around the tapered end: a cone 1/3, nothing missing when blunt; a rod cut
    # by a plane keeps exactly 1/2.
    [("cone", 1 / 3), ("bevel", 1 / 2), ("long bevel", 1 / 2)],
)
def test_tapered_end_has_the_right_volume(name: str, share: float) -> None:
    """Metal elements sum to the exact volume of the body, so the mesh follows the taper."""
    electrode = SHAPES[name]
    surface = tip_surface(electrode)
    mesh = needle_mesh(surface, Numerics())
    volume = el.elements(mesh, mesh.metal).weights.sum()
    taper = electrode.taper_ratio * electrode.outer_diameter_mm * 1e-3
    disc = np.pi * surface.radius**2
    expected = disc * (share * taper + mesh.nodes[:, 1].max() - taper)
    assert_allclose(volume, expected, rtol=2e-3)


def test_bevel_keeps_the_area_of_the_cut_rod() -> None:
    """At every height the round body has the area of a circle cut by a straight line."""
    surface = tip_surface(needle(tip_shape="bevel", taper_ratio=2.0))
    a, length = surface.radius, 2 * 0.91e-3
    for share in (0.1, 0.25, 0.5, 0.8):
        cut = a * (1 - 2 * share)
        area = quad(lambda x: 2 * np.sqrt(a**2 - x**2), cut, a)[0]
        radius = np.interp(share * length, surface.corners[:, 1], surface.corners[:, 0])
        assert_allclose(np.pi * radius**2, area, rtol=2e-3)


@pytest.mark.parametrize("electrode", SHAPES.values(), ids=SHAPES)
def test_insulation_begins_at_the_active_length(electrode: Electrode) -> None:
    """The last bare node is as high above the distal end as the active tip is long."""
    mesh = needle_mesh(tip_surface(electrode), Numerics())
    assert_allclose(
        mesh.nodes[mesh.bare[-1]] * 1e3, [electrode.outer_diameter_mm / 2, electrode.tip_mm]
    )


def test_metal_and_tissue_share_nodes_only_where_bare() -> None:
    """On the bare tip metal and tissue share nodes; on the shaft each has its own."""
    mesh = needle_mesh(tip_surface(needle()), Numerics())
    metal, tissue = np.unique(mesh.quads[mesh.metal]), np.unique(mesh.quads[~mesh.metal])
    assert_allclose(np.intersect1d(metal, tissue), np.sort(mesh.bare))
    assert_allclose(mesh.nodes[mesh.shaft[:, 0]], mesh.nodes[mesh.shaft[:, 1]])


def test_spacing_is_fine_at_its_places_and_grows_between() -> None:
    """Points hit every place; spacing starts near the one asked for and grows steadily."""
    points = spaced([0.0, 1.0, 10.0], 0.05, 0.2, [True, True, False])
    steps = np.diff(points)
    assert {0.0, 1.0, 10.0} <= set(points.round(12))
    assert 0.03 < steps[0] < 0.08
    outwards = steps[points[:-1] >= 1.0]
    assert (np.diff(outwards) > 0).all()
    assert outwards[1:].max() / outwards[0] > 10
