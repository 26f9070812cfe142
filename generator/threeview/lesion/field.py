"""The electric field of a small stimulation current, before any heating."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy.interpolate import CubicSpline

from threeview.errors import SettingError
from threeview.lesion.case import Electrode, Numerics, Tissue
from threeview.lesion.forms import conductivity
from threeview.lesion.geometry import tip_surface
from threeview.lesion.limits import check_field
from threeview.lesion.mesh import Mesh, needle_mesh
from threeview.lesion.potential import Potential

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

__all__ = ["FieldProfile", "field_profile"]

_MILLIAMPERE = 1e-3
_SPREAD = 0.5  # of the domain: beyond it the wall, not the tissue, shapes the field


@dataclass(frozen=True, kw_only=True)
class FieldProfile:
    """Potential and field for each milliampere, along two straight lines.

    Attributes:
        distance_mm: (n,) from the metal: sideways from the middle of the active tip, and straight
            ahead of its distal end.
        sideways_v_per_m: (n,) field magnitude for 1 mA, V/m.
        ahead_v_per_m: (n,) the same ahead of the tip.
        sideways_v: (n,) potential for 1 mA against the outer wall, V.
        ahead_v: (n,) the same ahead of the tip.
        model_resistance_ohm: of the modelled tissue, electrode to the outer wall of the model;
            not what a generator shows, which adds pad, leads and the rest of the body.
    """

    distance_mm: NDArray[np.float64]
    sideways_v_per_m: NDArray[np.float64]
    ahead_v_per_m: NDArray[np.float64]
    sideways_v: NDArray[np.float64]
    ahead_v: NDArray[np.float64]
    model_resistance_ohm: float


def field_profile(
    electrode: Electrode,
    tissue: Tissue,
    distances_mm: Sequence[float],
    *,
    temperature_c: float,
    numerics: Numerics | None = None,
) -> FieldProfile:
    """Compute the steady field of 1 mA in tissue of one temperature.

    Args:
        electrode: what stands in the tissue.
        tissue: its conductivity is all that matters here.
        distances_mm: from the metal, mm; above 0, up to half the domain.
        temperature_c: of the tissue, °C.
        numerics: how finely.

    Raises:
        SettingError: settings outside what the model is checked for.
        ConvergenceError: the potential was not found to its tolerance.
    """
    numerics = numerics or Numerics()
    check_field(electrode, tissue, temperature_c, numerics)
    distance = _distances(distances_mm, _SPREAD * numerics.domain_mm)
    mesh = needle_mesh(tip_surface(electrode), numerics)
    potential = Potential(mesh, numerics.tolerance, numerics.iterations)
    warm = np.full_like(potential.parts.weights, temperature_c)
    sigma = conductivity(tissue, warm)
    potential.solve(sigma)
    resistance = 1.0 / float(potential.heat.sum())
    line = _Sideways(mesh, electrode)
    volts = potential.field[mesh.rays] * resistance * _MILLIAMPERE
    sideways, across = line.profile(volts)
    ahead = _LogSpline(mesh.distances, volts[0])
    return FieldProfile(
        distance_mm=distance * 1e3,
        sideways_v_per_m=_LogSpline(line.distance, across)(distance),
        ahead_v_per_m=np.abs(ahead(distance, slope=True)),
        sideways_v=_LogSpline(line.distance, sideways)(distance),
        ahead_v=ahead(distance),
        model_resistance_ohm=resistance,
    )


def _distances(distances_mm: Sequence[float], most: float) -> NDArray[np.float64]:
    """Return the distances in m, refused all at once when any is out of reach."""
    wrong = [d for d in distances_mm if not 0 < d <= most]
    if wrong:
        raise SettingError(
            [f"distance is {d:g} mm; expected above 0 and up to {most:g} mm" for d in wrong]
        )
    return np.asarray(distances_mm, dtype=float) / 1e3


class _Sideways:
    """The line sideways from the middle of the active tip, where it meets the mesh's lines.

    Attributes:
        distance: (steps,) from the metal of the points where it does, m.
    """

    def __init__(self, mesh: Mesh, electrode: Electrode) -> None:
        self._middle = electrode.tip_mm / 2e3
        # Rays from the tip's end cannot cross the line, and share a height when it is flat.
        self._first = int(np.flatnonzero(mesh.nodes[mesh.rays[:, 0], 1] <= 0)[-1])
        self._heights = mesh.nodes[mesh.rays[self._first :], 1]
        r = self._splines(mesh.nodes[mesh.rays, 0])
        out = np.array([s(self._middle) for s in r])
        self._lean = np.array([s(self._middle, 1) for s in r])
        self.distance = out - out[0]

    def profile(
        self, volts: NDArray[np.float64]
    ) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Return potential, V, and field magnitude, V/m, at `distance`, from (rays, steps) V."""
        splines = self._splines(volts)
        on_line = np.array([s(self._middle) for s in splines])
        along = np.array([s(self._middle, 1) for s in splines])
        out = _LogSpline(self.distance, on_line)(self.distance, slope=True)
        return on_line, np.hypot(out, along - out * self._lean)

    def _splines(self, values: NDArray[np.float64]) -> list[CubicSpline]:
        """Return (rays, steps) values as functions of height, one for each step."""
        return [
            CubicSpline(z, v) for z, v in zip(self._heights.T, values[self._first :].T, strict=True)
        ]


class _LogSpline:
    """Values along a line as a spline in the logarithm of distance from the metal."""

    def __init__(self, distance: NDArray[np.float64], values: NDArray[np.float64]) -> None:
        self._near = distance[1]  # keeps the logarithm finite at the metal
        self._spline = CubicSpline(np.log(distance + self._near), values)

    def __call__(
        self, distance: NDArray[np.float64], *, slope: bool = False
    ) -> NDArray[np.float64]:
        """Return values, or their change by distance, at distances from the metal in m."""
        x = np.log(distance + self._near)
        found: NDArray[np.float64] = (
            self._spline(x, 1) / (distance + self._near) if slope else self._spline(x)
        )
        return found
