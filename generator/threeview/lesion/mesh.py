"""A mesh fitted to the electrode: straight rays from the metal's surface to the outer wall.

The tissue is one block of quadrilaterals, ray by ray, so the tip's slope is followed exactly and
no row of fine elements runs on where nothing happens. The metal is a second block, from the
surface to the axis; the two share their nodes on the bare tip and only there.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from threeview.lesion.case import Numerics
    from threeview.lesion.geometry import Surface

__all__ = ["Mesh", "needle_mesh", "ray_mesh", "spaced"]

_FAN = 2.0  # rays turn from the axis to sideways over about this many radii of surface
_BLEND = 6.0  # the metal's cross-lines straighten over this many radii of shaft


@dataclass(frozen=True)
class Mesh:
    """Quadrilaterals in the half-plane (r, z) of a body of revolution.

    Attributes:
        nodes: (n, 2) positions (r, z), m.
        quads: (e, 4) node numbers, counter-clockwise.
        metal: (e,) whether an element is metal.
        rays: (rays, steps) node numbers of the tissue block, each row from the metal outwards.
        distances: (steps,) distance along every ray, m.
        arcs: (rays,) arc length of each ray's foot on the surface, m.
        edge: number of the last ray that starts on bare metal.
        shaft: (k, 2) pairs of metal and tissue nodes that face each other through the insulation.
        axis: (rays,) node numbers along the metal's axis, or empty without metal.
    """

    nodes: NDArray[np.float64]
    quads: NDArray[np.intp]
    metal: NDArray[np.bool_]
    rays: NDArray[np.intp]
    distances: NDArray[np.float64]
    arcs: NDArray[np.float64]
    edge: int
    shaft: NDArray[np.intp]
    axis: NDArray[np.intp]

    @property
    def wall(self) -> NDArray[np.intp]:
        """Node numbers on the outer wall."""
        return self.rays[:, -1]

    @property
    def bare(self) -> NDArray[np.intp]:
        """Node numbers on bare metal."""
        return self.rays[: self.edge + 1, 0]


def spaced(
    places: Sequence[float], spacing: float, growth: float, fine: Sequence[bool] | None = None
) -> NDArray[np.float64]:
    """Return points from the first of `places` to the last, each of them hit, fine near them.

    The spacing at distance d from the nearest fine place is about `spacing + growth d`.

    Args:
        places: increasing positions.
        spacing: at the fine places, in the unit of `places`.
        growth: dimensionless.
        fine: which places attract points; all of them when left out.
    """
    centres = [p for p, f in zip(places, fine or [True] * len(places), strict=True) if f]
    pieces = [np.array([places[0]])]
    for low, high in pairwise(places):
        x = np.linspace(low, high, 4001)
        nearest = np.min([np.abs(x - c) for c in centres], axis=0)
        density = 1.0 / (spacing + growth * nearest)
        mean = (density[1:] + density[:-1]) / 2
        count = np.concatenate([[0.0], np.cumsum(mean)]) * (x[1] - x[0])
        n = max(1, round(float(count[-1])))
        pieces.append(np.interp(np.linspace(0.0, count[-1], n + 1)[1:], count, x))
    return np.concatenate(pieces)


def ray_mesh(
    feet: NDArray[np.float64], directions: NDArray[np.float64], distances: NDArray[np.float64]
) -> Mesh:
    """Return a block of tissue without metal, all of its inner surface bare.

    Args:
        feet: (rays, 2) starting points (r, z), m.
        directions: (rays, 2) unit vectors, turning counter-clockwise.
        distances: (steps,) from 0 to the wall, m.
    """
    nodes = feet[:, None, :] + distances[None, :, None] * directions[:, None, :]
    rays = np.arange(len(feet) * len(distances)).reshape(len(feet), len(distances))
    quads = _quads(rays)
    arcs = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(feet, axis=0).T))])
    nothing = np.zeros((0, 2), dtype=np.intp)
    return Mesh(
        nodes.reshape(-1, 2),
        quads,
        np.zeros(len(quads), dtype=bool),
        rays,
        distances,
        arcs,
        len(feet) - 1,
        nothing,
        nothing[:, 0],
    )


def needle_mesh(surface: Surface, numerics: Numerics) -> Mesh:
    """Return the mesh of an electrode and the tissue around it."""
    reach, spacing = numerics.domain_mm / 1e3, numerics.spacing_mm / 1e3
    places = [0.0, float(surface.arcs[-1]), surface.edge, surface.edge + reach]
    arcs = spaced(places, spacing, numerics.growth, [True, True, True, False])
    distances = spaced([0.0, reach], spacing, numerics.growth, [True, False])
    feet = surface.points(arcs)
    fan = _FAN * surface.radius
    angle = -np.pi / 2 * fan / (fan + arcs) * (1.0 - arcs / arcs[-1])
    tissue = ray_mesh(feet, np.column_stack([np.cos(angle), np.sin(angle)]), distances)
    tissue.nodes[tissue.rays[0], 0] = 0.0  # cos(pi/2) leaves 1e-17
    edge = int(np.argmin(np.abs(arcs - surface.edge)))
    return _with_metal(tissue, surface, edge, numerics.metal_layers)


def _with_metal(tissue: Mesh, surface: Surface, edge: int, layers: int) -> Mesh:
    """Return the tissue block joined with a block for the metal below its feet."""
    feet = tissue.nodes[tissue.rays[:, 0]]
    excess = float(surface.arcs[-1] - surface.corners[-1, 1])
    along = np.clip((tissue.arcs - surface.arcs[-1]) / (_BLEND * surface.radius), 0.0, 1.0)
    axis = np.column_stack([np.zeros(len(feet)), tissue.arcs - excess * along])
    count = len(tissue.nodes)
    grid = np.empty((len(feet), layers + 1), dtype=np.intp)
    grid[0] = tissue.rays[0, 0]  # the metal's lines meet in the distal end
    grid[1 : edge + 1, 0] = tissue.rays[1 : edge + 1, 0]
    shaft = np.arange(count, count + len(feet) - edge - 1)
    grid[edge + 1 :, 0] = shaft
    inner = np.arange((len(feet) - 1) * layers).reshape(-1, layers) + count + len(shaft)
    grid[1:, 1:] = inner
    share = np.linspace(0.0, 1.0, layers + 1)[1:, None]
    inside = feet[1:, None, :] * (1 - share) + axis[1:, None, :] * share
    quads = _quads(grid[:, ::-1])
    return Mesh(
        np.concatenate([tissue.nodes, feet[edge + 1 :], inside.reshape(-1, 2)]),
        np.concatenate([tissue.quads, quads]),
        np.concatenate([tissue.metal, np.ones(len(quads), dtype=bool)]),
        tissue.rays,
        tissue.distances,
        tissue.arcs,
        edge,
        np.column_stack([shaft, tissue.rays[edge + 1 :, 0]]),
        grid[:, -1],
    )


def _quads(grid: NDArray[np.intp]) -> NDArray[np.intp]:
    """Return the (e, 4) quadrilaterals of a grid whose columns run to the right, rows upwards."""
    corners = (grid[:-1, :-1], grid[:-1, 1:], grid[1:, 1:], grid[1:, :-1])
    return np.stack(corners, axis=-1).reshape(-1, 4)
