"""What a computed lesion is told in: millimetres, degrees Celsius, seconds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    import numpy as np
    from numpy.typing import NDArray

    from threeview.lesion.case import Case

__all__ = ["Extents", "Frame", "LesionResult", "Trace"]


@dataclass(frozen=True, kw_only=True)
class Extents:
    """Sizes of one boundary.

    Attributes:
        width_mm: greatest diameter across the electrode.
        length_mm: along the electrode, from lowest to highest point.
        distal_mm: how far it lies ahead of the distal end of the metal (negative: behind it).
        proximal_mm: how far it rises above the active tip (negative: below its upper end).
        volume_mm3: of tissue, the electrode not counted.
    """

    width_mm: float
    length_mm: float
    distal_mm: float
    proximal_mm: float
    volume_mm3: float

    @classmethod
    def none(cls) -> Extents:
        """Return the extents of a boundary that nothing has reached: all zero."""
        return cls(width_mm=0.0, length_mm=0.0, distal_mm=0.0, proximal_mm=0.0, volume_mm3=0.0)


@dataclass(frozen=True, kw_only=True)
class Frame:
    """The lesion at one moment.

    Attributes:
        time_s: since the sensor reached the set temperature; 0 is the end of the ramp.
        contours: for each criterion, the (n, 2) closed boundary (r, z) in mm, first point
            repeated, closed along the axis through the electrode; (0, 2) when nothing is inside.
        extents: for each criterion.
    """

    time_s: float
    contours: Mapping[str, NDArray[np.float64]]
    extents: Mapping[str, Extents]


@dataclass(frozen=True, kw_only=True)
class Trace:
    """The course of heating, one value a step.

    Attributes:
        time_s: (n,) from minus the ramp; 0 when the sensor reaches the set temperature.
        sensor_c: (n,) at the sensor.
        peak_tissue_c: (n,) the hottest tissue node.
        power_w: (n,) into the tissue.
        resistance_ohm: (n,) of the modelled tissue, electrode to outer wall.
    """

    time_s: NDArray[np.float64]
    sensor_c: NDArray[np.float64]
    peak_tissue_c: NDArray[np.float64]
    power_w: NDArray[np.float64]
    resistance_ohm: NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class LesionResult:
    """A computed lesion. z is 0 at the distal end of the metal and rises up the shaft.

    Attributes:
        case: what was computed.
        criterion: what bounds the sizes below.
        width_mm: see `Extents`; the others likewise, all at the end of heating.
        length_mm: see `Extents`.
        distal_mm: see `Extents`.
        proximal_mm: see `Extents`.
        volume_mm3: see `Extents`.
        peak_tissue_c: hottest tissue at the end of heating.
        model_resistance_ohm: of the modelled tissue at the end, electrode to the outer wall of
            the model; not what a generator shows.
        energy_residual: heat given less heat stored and lost, relative to heat given.
        unknowns: of the heat equation.
        frames: at the end of the ramp, at every interval after it, and at the end.
        trace: the course of heating.
    """

    case: Case
    criterion: str
    width_mm: float
    length_mm: float
    distal_mm: float
    proximal_mm: float
    volume_mm3: float
    peak_tissue_c: float
    model_resistance_ohm: float
    energy_residual: float
    unknowns: int
    frames: tuple[Frame, ...]
    trace: Trace
