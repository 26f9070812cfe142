"""Steady fields from the engine's own parts, for comparison with exact solutions."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.sparse.linalg import spsolve
from tests.lesion.parameters import needle

from threeview.lesion import Electrode, Tissue
from threeview.lesion.forms import conductivity
from threeview.lesion.heat import Heat
from threeview.lesion.mesh import Mesh, ray_mesh, spaced
from threeview.lesion.potential import Potential


@dataclass(frozen=True)
class Steady:
    """(n,) potential for 1 V, (n,) rise for the voltage applied in K, resistance in ohm."""

    potential: np.ndarray
    rise: np.ndarray
    resistance: float


def steady(
    mesh: Mesh, tissue: Tissue, volts: float, start_c: float, electrode: Electrode | None = None
) -> Steady:
    """Return the balance of Joule heat and loss, with conductivity at the temperature reached."""
    potential = Potential(mesh, 1e-11, 500)
    heat = Heat(mesh, tissue, electrode or needle())
    rise = np.zeros(len(mesh.nodes))
    for _ in range(60):
        sigma = conductivity(tissue, potential.parts.at_points(start_c + rise))
        potential.solve(sigma)
        q = potential.heat
        before = rise.copy()
        rise[heat.free] = spsolve(heat.stiffness.tocsc(), volts**2 * q[heat.free])
        if np.abs(rise - before).max() < 1e-9:
            return Steady(potential.field, rise, 1.0 / float(q.sum()))
    raise AssertionError("the steady state was not reached")


def ball(radius: float, wall: float, spacing: float, growth: float, rays: int) -> Mesh:
    """Return the tissue between a sphere and a far sphere; lengths in m."""
    angle = np.linspace(-np.pi / 2, np.pi / 2, rays)
    directions = np.column_stack([np.cos(angle), np.sin(angle)])
    directions[[0, -1], 0] = 0.0
    distances = spaced([0.0, wall - radius], spacing, growth, [True, False])
    return ray_mesh(radius * directions, directions, distances)


def slab(radius: float, depth: float, rays: int, steps: int) -> Mesh:
    """Return a disc of tissue whose wall is its lower face; lengths in m."""
    across = np.linspace(0.0, radius, rays)
    feet = np.column_stack([across, np.zeros(rays)])
    down = np.column_stack([np.zeros(rays), -np.ones(rays)])
    return ray_mesh(feet, down, np.linspace(0.0, depth, steps))
