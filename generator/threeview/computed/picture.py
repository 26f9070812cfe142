"""A computed lesion as JSON, small enough for a page and fine enough to draw from."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from threeview.lesion import Electrode, LesionResult, Tissue
    from threeview.lesion.results import Extents, Frame, Trace

__all__ = ["boundary_key", "field_picture", "picture"]

_CLOSE_MM = 0.01  # how far a thinned outline may lie from the computed one
# Where the field is tabulated: from just off the metal to a nerve root, even in the logarithm.
_DISTANCES_MM = tuple(float(f"{d:.3g}") for d in np.geomspace(0.5, 20, 33))


def boundary_key(criterion: str) -> str:
    """Return the short name of a boundary: '50' of 'isotherm 50', 'damage' of itself."""
    return criterion.removeprefix("isotherm ")


def picture(result: LesionResult) -> dict[str, Any]:
    """Return a lesion as JSON: sizes in mm to 0.001, outlines to 0.01 mm, times in s.

    `frames` holds, for each moment, `contours` and `extents` by short boundary name. A contour is
    the open curve (r, z) of one side, from its distal to its proximal end; the other side mirrors
    it, and an empty list means that nothing is inside.
    """
    electrode = result.case.electrode
    return {
        "width_mm": round(result.width_mm, 3),
        "length_mm": round(result.length_mm, 3),
        "distal_mm": round(result.distal_mm, 3),
        "proximal_mm": round(result.proximal_mm, 3),
        "volume_mm3": round(result.volume_mm3, 3),
        "peak_tissue_c": round(result.peak_tissue_c, 3),
        "criterion": result.criterion,
        "energy_residual": float(f"{result.energy_residual:.3g}"),
        "unknowns": result.unknowns,
        "electrode": {
            "outer_diameter_mm": electrode.outer_diameter_mm,
            "tip_mm": electrode.tip_mm,
            "tip_shape": electrode.tip_shape,
            "taper_mm": round(electrode.taper_ratio * electrode.outer_diameter_mm, 3),
        },
        "traces": _traces(result.trace),
        "frames": [_frame(frame) for frame in result.frames],
    }


def field_picture(electrode: Electrode, tissue: Tissue) -> dict[str, Any]:
    """Return potential (V) and field (V/m) of 1 mA by distance (mm), to the side and ahead.

    The tissue is at rest at the temperature where its conductivity is known.
    """
    from threeview.lesion import field_profile

    profile = field_profile(
        electrode, tissue, _DISTANCES_MM, temperature_c=tissue.reference_temperature_c
    )
    lines = {
        "side": (profile.sideways_v_per_m, profile.sideways_v),
        "ahead": (profile.ahead_v_per_m, profile.ahead_v),
    }
    return {
        name: {
            "distance_mm": list(_DISTANCES_MM),
            "field_v_per_m": [float(f"{number:.4g}") for number in field],
            "potential_v": [float(f"{number:.4g}") for number in volts],
        }
        for name, (field, volts) in lines.items()
    }


def _frame(frame: Frame) -> dict[str, Any]:
    return {
        "time_s": round(frame.time_s, 3),
        "contours": {boundary_key(name): _outline(c) for name, c in frame.contours.items()},
        "extents": {boundary_key(name): _sizes(e) for name, e in frame.extents.items()},
    }


def _sizes(extents: Extents) -> dict[str, float]:
    return {
        "width_mm": round(extents.width_mm, 3),
        "length_mm": round(extents.length_mm, 3),
        "distal_mm": round(extents.distal_mm, 3),
        "proximal_mm": round(extents.proximal_mm, 3),
        "volume_mm3": round(extents.volume_mm3, 3),
    }


def _traces(trace: Trace) -> dict[str, list[float]]:
    return {
        "time_s": np.round(trace.time_s, 3).tolist(),
        "sensor_c": np.round(trace.sensor_c, 2).tolist(),
        "peak_tissue_c": np.round(trace.peak_tissue_c, 2).tolist(),
        "power_w": np.round(trace.power_w, 3).tolist(),
        "resistance_ohm": np.round(trace.resistance_ohm, 2).tolist(),
    }


def _outline(contour: NDArray[np.float64]) -> list[list[float]]:
    """Return the boundary in tissue as few points; the way back along the axis is cut."""
    if not len(contour):
        return []
    curve = contour[:-3]
    # Adding zero turns -0.0 into 0.0.
    rounded: list[list[float]] = (np.round(curve[_kept(curve)], 2) + 0.0).tolist()
    return rounded


def _kept(curve: NDArray[np.float64]) -> list[int]:
    """Return the indices of points whose polyline stays within `_CLOSE_MM` (Douglas-Peucker)."""
    kept = {0, len(curve) - 1}
    spans = [(0, len(curve) - 1)]
    while spans:
        first, last = spans.pop()
        if last - first < 2:  # noqa: PLR2004 - no point between
            continue
        off = _distances(curve[first + 1 : last], curve[first], curve[last])
        farthest = int(np.argmax(off))
        if off[farthest] > _CLOSE_MM:
            middle = first + 1 + farthest
            kept.add(middle)
            spans += [(first, middle), (middle, last)]
    return sorted(kept)


def _distances(
    points: NDArray[np.float64], start: NDArray[np.float64], end: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return the distances of (n, 2) points from the segment between two points."""
    along = end - start
    share = np.clip((points - start) @ along / max(float(along @ along), 1e-12), 0.0, 1.0)
    foot = start + share[:, None] * along
    distances: NDArray[np.float64] = np.hypot(*(points - foot).T)
    return distances
