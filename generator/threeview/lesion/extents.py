"""Lesion boundaries and their sizes, from a field on the rays of a mesh.

Each ray crosses the boundary where the field falls below the level for the last time, so the
boundary is found to a fraction of an element and never by counting them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from threeview.lesion.results import Extents

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from threeview.lesion.mesh import Mesh

__all__ = ["boundary", "measure"]

_FINE = 4  # points of a drawn boundary for each ray
_LEAST = 3  # fewer points bound nothing
_TINY = 1e-12  # m; keeps the chord of two equal points from dividing by zero


def boundary(mesh: Mesh, field: NDArray[np.float64], level: float) -> NDArray[np.float64]:
    """Return the (n, 2) open curve (r, z) where `field` falls below `level`, in m.

    It runs from the axis ahead of the tip, or from the metal when the tip's end is outside, to
    the metal's surface further up.

    Args:
        mesh: with n nodes.
        field: (n,) values that fall outwards.
        level: in the unit of `field`.

    Returns:
        Points in order, or an empty (0, 2) array when no node reaches the level.
    """
    values = field[mesh.rays]
    inside = values >= level
    reached = np.flatnonzero(inside.any(axis=1))
    if not len(reached):
        return np.zeros((0, 2))
    first, last = int(reached[0]), int(reached[-1])
    rays = np.arange(first, last + 1)
    steps = values.shape[1]
    outermost = np.clip(steps - 1 - np.argmax(inside[rays, ::-1], axis=1), 0, steps - 2)
    distance = _crossing(mesh.distances, values[rays], outermost, level)
    distance[~inside[rays].any(axis=1)] = 0.0
    feet, ends = mesh.nodes[mesh.rays[rays, 0]], mesh.nodes[mesh.rays[rays, -1]]
    points = feet + (ends - feet) * (distance / mesh.distances[-1])[:, None]
    top = _foot(mesh, values[:, 0], last, level)
    if first == 0:
        return np.concatenate([points, top])
    return np.concatenate([_foot(mesh, values[:, 0], first, level, upwards=False), points, top])


def measure(
    curve: NDArray[np.float64], tip: float, metal: NDArray[np.float64]
) -> tuple[NDArray[np.float64], Extents]:
    """Return the closed boundary in mm and its sizes.

    Args:
        curve: (n, 2) open curve of `boundary`, m.
        tip: active tip length, m.
        metal: (m, 2) the metal's surface from its distal end up, m.
    """
    if len(curve) < _LEAST:
        return np.zeros((0, 2)), Extents.none()
    fine = _smooth(curve)
    width = 2 * float(fine[:, 0].max())
    low, high = float(fine[:, 1].min()), float(fine[:, 1].max())
    low_metal, high_metal = float(fine[0, 1]), float(fine[-1, 1])
    volume = _revolved(fine) - _enclosed(metal, max(low_metal, 0.0), high_metal)
    axis = np.array([[0.0, high_metal], [0.0, low_metal]])
    closed = np.concatenate([fine, axis, fine[:1]]) * 1e3
    return closed, Extents(
        width_mm=width * 1e3,
        length_mm=(high - low) * 1e3,
        distal_mm=-low * 1e3,
        proximal_mm=(high - tip) * 1e3,
        volume_mm3=volume * 1e9,
    )


def _crossing(
    x: NDArray[np.float64], f: NDArray[np.float64], last: NDArray[np.intp], level: float
) -> NDArray[np.float64]:
    """Return where each row of f (m, n) passes `level` between `last` (m,) and the next point.

    Inverse cubic interpolation where the four points around fall steadily (a field that falls
    like a logarithm has a smooth inverse), linear elsewhere.
    """
    row = np.arange(len(f))
    x0, x1 = x[last], x[last + 1]
    f0, f1 = f[row, last], f[row, last + 1]
    linear = x0 + (x1 - x0) * (f0 - level) / np.where(f0 == f1, 1.0, f0 - f1)
    column = np.clip(last - 1, 0, len(x) - 4)[:, None] + np.arange(4)
    xs, fs = x[column], f[row[:, None], column]
    steady = (np.diff(fs, axis=1) < 0).all(axis=1)
    cubic = _lagrange(np.where(steady[:, None], fs, -np.arange(4.0)), xs, level)
    found: NDArray[np.float64] = np.clip(np.where(steady, cubic, linear), x0, x1)
    return found


def _lagrange(f: NDArray[np.float64], x: NDArray[np.float64], level: float) -> NDArray[np.float64]:
    """Return x at f = level by the cubic through four points a row; f and x are (m, 4)."""
    own = np.eye(4, dtype=bool)
    above = np.where(own, 1.0, (level - f)[:, None, :]).prod(axis=2)
    below = np.where(own, 1.0, f[:, :, None] - f[:, None, :]).prod(axis=2)
    found: NDArray[np.float64] = (x * above / below).sum(axis=1)
    return found


def _foot(
    mesh: Mesh, surface: NDArray[np.float64], ray: int, level: float, *, upwards: bool = True
) -> NDArray[np.float64]:
    """Return the (1, 2) point on the metal where the boundary leaves it, beyond `ray`."""
    step = 1 if upwards else -1
    other = ray + step
    if not 0 <= other < len(surface) or surface[ray] < level:
        return mesh.nodes[mesh.rays[ray : ray + 1, 0]]
    x, f = step * mesh.arcs[::step], surface[None, ::step]
    last = ray if upwards else len(surface) - 1 - ray
    arc = step * _crossing(x, f, np.array([last]), level)
    share = (arc - mesh.arcs[ray]) / (mesh.arcs[other] - mesh.arcs[ray])
    a, b = mesh.nodes[mesh.rays[ray, 0]], mesh.nodes[mesh.rays[other, 0]]
    foot: NDArray[np.float64] = a + share[:, None] * (b - a)
    return foot


def _smooth(curve: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the curve with more points, on Hermite cubics by chord length.

    Chords differ much along a boundary, so tangents weigh the nearer neighbour more; on the axis
    the curve continues into its own mirror image.
    """
    before = curve[1] * [-1.0, 1.0] if curve[0, 0] == 0 else 2 * curve[0] - curve[1]
    step = np.diff(np.vstack([before, curve, 2 * curve[-1] - curve[-2]]), axis=0)
    chord = np.maximum(np.hypot(step[:, 0], step[:, 1]), _TINY)[:, None]
    weighed = step[:-1] / chord[:-1] * chord[1:] + step[1:] / chord[1:] * chord[:-1]
    tangent = weighed / (chord[:-1] + chord[1:])
    a, d = curve[:-1], step[1:-1]
    ma, mb = tangent[:-1] * chord[1:-1], tangent[1:] * chord[1:-1]
    t = (np.arange(_FINE) / _FINE)[:, None, None]
    h = a + t * ma + t**2 * (3 * d - 2 * ma - mb) + t**3 * (ma + mb - 2 * d)
    fine = h.transpose(1, 0, 2).reshape(-1, 2)
    return np.concatenate([np.maximum(fine, [0.0, -np.inf]), curve[-1:]])


def _revolved(curve: NDArray[np.float64]) -> float:
    """Return the volume of revolution below a polyline (r, z), as frusta, m3."""
    r, dz = curve[:, 0], np.diff(curve[:, 1])
    return float(np.pi / 3 * ((r[1:] ** 2 + r[1:] * r[:-1] + r[:-1] ** 2) @ dz))


def _enclosed(metal: NDArray[np.float64], low: float, high: float) -> float:
    """Return the volume of the metal between two heights, m3."""
    z = np.unique(np.concatenate([[low, high], metal[:, 1]]))
    z = z[(z >= low) & (z <= high)]
    rising, where = np.unique(metal[::-1, 1], return_index=True)
    r = np.interp(z, rising, metal[::-1, 0][where])
    return _revolved(np.column_stack([r, z]))
