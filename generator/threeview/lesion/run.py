"""From a case to a lesion: the loop over time."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from threeview.lesion.case import ISOTHERMS, Case, Numerics
from threeview.lesion.control import Schedule, Sensor
from threeview.lesion.extents import boundary, measure
from threeview.lesion.forms import conductivity, damage_rate, damage_step
from threeview.lesion.geometry import tip_surface
from threeview.lesion.heat import Heat
from threeview.lesion.limits import check
from threeview.lesion.mesh import needle_mesh
from threeview.lesion.potential import Potential
from threeview.lesion.results import Frame, LesionResult, Trace

if TYPE_CHECKING:
    from numpy.typing import NDArray

__all__ = ["simulate"]


def simulate(case: Case, numerics: Numerics | None = None) -> LesionResult:
    """Compute a lesion.

    Args:
        case: electrode, tissue, damage law and settings.
        numerics: how finely; the defaults keep the width within 0.3 %.

    Raises:
        SettingError: settings outside what the model is checked for; every fault is named.
        ConvergenceError: the potential was not found to its tolerance.
    """
    numerics = numerics or Numerics()
    check(case, numerics)
    run = _Run(case, numerics)
    frames = []
    for interval in Schedule(case, numerics).intervals():
        for start, dt in interval.steps():
            run.advance(start, dt)
        if interval.end >= 0:
            frames.append(run.frame(interval.end))
    return run.result(tuple(frames))


class _Run:
    """One lesion under way: the fields and what is needed to move them on."""

    def __init__(self, case: Case, numerics: Numerics) -> None:
        self.case, self.numerics = case, numerics
        self.mesh = needle_mesh(tip_surface(case.electrode), numerics)
        self.heat = Heat(self.mesh, case.tissue, case.electrode)
        self.potential = Potential(self.mesh, numerics.tolerance, numerics.iterations)
        self.sensor = Sensor(self.mesh, self.heat.free, case)
        self.rise = np.zeros(len(self.heat.free))
        self.temperature = np.full(len(self.mesh.nodes), case.start_temperature_c)
        self.rate = damage_rate(case.damage, self.temperature)
        self.omega = np.zeros(len(self.mesh.nodes))
        self.given = self.lost = 0.0
        self.renewed = -np.inf
        self.responses: dict[float, NDArray[np.float64]] = {}
        self.rows: list[tuple[float, ...]] = []

    def renew(self, elapsed: float) -> None:
        """Bring potential and Joule heat up to date when their time has come."""
        n = self.numerics
        wait = min(n.voltage_most_s, max(n.voltage_least_s, n.voltage_share * elapsed))
        if elapsed - self.renewed < wait - 1e-9:
            return
        sigma = conductivity(self.case.tissue, self.potential.parts.at_points(self.temperature))
        self.potential.solve(sigma)
        heat = self.potential.heat
        self.source = heat[self.heat.free]
        self.watts = float(heat.sum())
        self.wasted = self.watts - float(self.source.sum())  # set free in the wall itself
        self.responses.clear()
        self.renewed = elapsed

    def advance(self, start: float, dt: float) -> None:
        """Move everything on by one step that begins at `start`, clock from set temperature."""
        self.renew(start + self.case.ramp_s)
        if dt not in self.responses:
            self.responses[dt] = self.heat.factor(dt).solve(self.source)
        step = self.heat.step(self.rise, dt, self.sensor.holding(start, dt, self.responses[dt]))
        self.rise = step.rise
        self.given += step.dose * self.watts
        self.lost += step.lost + step.dose * self.wasted
        self.temperature[self.heat.free] = self.case.start_temperature_c + self.rise
        rate = damage_rate(self.case.damage, self.temperature)
        self.omega += damage_step(self.rate, rate, dt)
        self.rate = rate
        peak = float(self.temperature[self.mesh.rays].max())
        reading = self.sensor.read(self.rise)
        self.rows.append((start + dt, reading, peak, step.power * self.watts, 1.0 / self.watts))

    def frame(self, time: float) -> Frame:
        """Return the boundaries as they are."""
        fields = {f"isotherm {t}": (self.temperature, float(t)) for t in ISOTHERMS}
        fields["damage"] = (np.log(np.maximum(self.omega, 1e-300)), 0.0)
        metal = self.mesh.nodes[self.mesh.rays[:, 0]]
        tip = self.case.electrode.tip_mm / 1e3
        found = {
            name: measure(boundary(self.mesh, field, level), tip, metal)
            for name, (field, level) in fields.items()
        }
        return Frame(
            time_s=time,
            contours={name: contour for name, (contour, _) in found.items()},
            extents={name: extents for name, (_, extents) in found.items()},
        )

    def result(self, frames: tuple[Frame, ...]) -> LesionResult:
        """Return the finished lesion."""
        end = frames[-1].extents[self.case.criterion]
        columns = np.array(self.rows).T
        balance = self.given - self.lost - self.heat.stored(self.rise)
        return LesionResult(
            case=self.case,
            criterion=self.case.criterion,
            width_mm=end.width_mm,
            length_mm=end.length_mm,
            distal_mm=end.distal_mm,
            proximal_mm=end.proximal_mm,
            volume_mm3=end.volume_mm3,
            peak_tissue_c=float(columns[2, -1]),
            model_resistance_ohm=float(columns[4, -1]),
            energy_residual=abs(balance) / self.given,
            unknowns=len(self.heat.free),
            frames=frames,
            trace=Trace(
                time_s=columns[0],
                sensor_c=columns[1],
                peak_tissue_c=columns[2],
                power_w=columns[3],
                resistance_ohm=columns[4],
            ),
        )
