"""The surface of the metal: a curve in the half-plane (r, z), from its distal end up the shaft."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from threeview.lesion.case import Electrode

__all__ = ["Surface", "tip_surface"]

_BEVEL_POINTS = 65  # the rounded point of a bevel's equivalent body, as a polyline


@dataclass(frozen=True)
class Surface:
    """The surface of the metal, by arc length from the axis.

    Attributes:
        corners: (m, 2) points (r, z) of the tapered end, from the axis to the full radius, m.
        arcs: (m,) arc length of each of them, m.
        edge: arc length at which the insulation begins, m.
    """

    corners: NDArray[np.float64]
    arcs: NDArray[np.float64]
    edge: float

    @property
    def radius(self) -> float:
        """Radius of the shaft, m."""
        return float(self.corners[-1, 0])

    def points(self, arc: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the (n, 2) points (r, z) at the arc lengths `arc` (n,), all in m."""
        end = self.arcs[-1]
        r = np.interp(arc, self.arcs, self.corners[:, 0])
        z = np.interp(arc, self.arcs, self.corners[:, 1]) + np.maximum(arc - end, 0.0)
        return np.column_stack([r, z])


def tip_surface(electrode: Electrode) -> Surface:
    """Return the surface of an electrode's metal."""
    radius = electrode.outer_diameter_mm / 2e3
    corners = radius * _END[electrode.tip_shape](2 * electrode.taper_ratio)
    arcs = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(corners, axis=0).T))])
    edge = float(arcs[-1] + electrode.tip_mm / 1e3 - corners[-1, 1])
    return Surface(corners, arcs, edge)


def _blunt(_height: float) -> NDArray[np.float64]:
    return np.array([[0.0, 0.0], [1.0, 0.0]])


def _cone(height: float) -> NDArray[np.float64]:
    return np.array([[0.0, 0.0], [1.0, height]])


def _bevel(height: float) -> NDArray[np.float64]:
    """Return the round body with the area of a plane-cut rod at every height; unit radius.

    A plane cut leaves a circular segment of height 2 f at the share f of the bevel's length; its
    area is acos(1 - 2 f) - 2 (1 - 2 f) sqrt(f - f^2).
    """
    share = np.linspace(0.0, 1.0, _BEVEL_POINTS) ** 2
    across = 1.0 - 2.0 * share
    area = np.arccos(across) - 2.0 * across * np.sqrt(share - share**2)
    return np.column_stack([np.sqrt(area / np.pi), height * share])


_END = {"blunt": _blunt, "cone": _cone, "bevel": _bevel}
