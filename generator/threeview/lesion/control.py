"""The set-point controller and its clock.

The power of every stage is chosen so that the sensor reads its target exactly: a ramp, then a
hold. A proportional-integral loop at a tenth of a second gives the same width within 0.06 %, so
the exact law stands for any generator that holds its set temperature.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from threeview.lesion.case import Case, Numerics
    from threeview.lesion.mesh import Mesh

__all__ = ["Interval", "Schedule", "Sensor"]


@dataclass(frozen=True)
class Interval:
    """A stretch of heating in equal steps; times from when the set temperature is reached, s."""

    begin: float
    end: float
    longest: float

    def steps(self) -> Iterator[tuple[float, float]]:
        """Yield (start, length) of each step."""
        n = int(np.ceil((self.end - self.begin) / self.longest - 1e-9))
        dt = (self.end - self.begin) / n
        for k in range(n):
            yield self.begin + k * dt, dt


@dataclass(frozen=True)
class Schedule:
    """The ramp, then frame after frame to the end of heating."""

    case: Case
    numerics: Numerics

    def intervals(self) -> Iterator[Interval]:
        """Yield the intervals in order; each from the first hold onwards ends in a frame."""
        longest, every = self.numerics.step_s, self.numerics.frame_s
        yield Interval(-self.case.ramp_s, 0.0, longest)
        begin = 0.0
        while begin < self.case.time_s - 1e-9:
            end = min(begin + every, self.case.time_s)
            yield Interval(begin, end, longest)
            begin = end


class Sensor:
    """The temperature sensor on the metal's axis and the law that keeps it on target."""

    def __init__(self, mesh: Mesh, free: NDArray[np.intp], case: Case) -> None:
        heights = mesh.nodes[mesh.axis, 1]
        depth = case.electrode.sensor_depth_mm / 1e3
        above = int(np.clip(np.searchsorted(heights, depth), 1, len(heights) - 1))
        share = (depth - heights[above - 1]) / (heights[above] - heights[above - 1])
        self._nodes = np.searchsorted(free, mesh.axis[[above - 1, above]])
        self._weights = np.array([1.0 - share, share])
        self._case = case

    def read(self, rise: NDArray[np.float64]) -> float:
        """Return the sensor's temperature for a (f,) rise above the start, °C."""
        return self._case.start_temperature_c + self.weigh(rise)

    def target(self, time: float) -> float:
        """Return the sensor's intended rise at a time, K."""
        full = self._case.set_temperature_c - self._case.start_temperature_c
        return full * min(1.0, 1.0 + time / self._case.ramp_s)

    def holding(self, start: float, dt: float, response: NDArray[np.float64]) -> _Holding:
        """Return the power that keeps the sensor on target through one step.

        Args:
            start: of the step, s from the set temperature.
            dt: length of the step, s.
            response: (f,) rise that one unit of power adds in a stage, K.
        """
        return _Holding(self, start, dt, response)

    def weigh(self, rise: NDArray[np.float64]) -> float:
        """Return the rise at the sensor of a (f,) rise, K."""
        return float(self._weights @ rise[self._nodes])


@dataclass(frozen=True)
class _Holding:
    """The exact controller over one step: lifts the unpowered reading to the target."""

    sensor: Sensor
    start: float
    dt: float
    response: NDArray[np.float64]

    def __call__(self, share: float, drift: NDArray[np.float64], /) -> float:
        """Return the power of the stage; never negative, as no generator cools."""
        missing = self.sensor.target(self.start + share * self.dt) - self.sensor.weigh(drift)
        return max(0.0, missing / self.sensor.weigh(self.response))
