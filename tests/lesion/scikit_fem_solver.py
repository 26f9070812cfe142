"""The same lesion by a general-purpose finite element library, written the way one would there.

Nothing of the engine is used but its input dataclasses: the mesh is a tensor grid bent to the
tip's cone and cut into triangles, time goes by backward Euler, the sleeve is a thin layer of poor
conductor inside the shaft's outline. The oracle of the tests, and the baseline of the benchmarks.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import skfem as fem
from scipy.sparse.linalg import splu
from skfem.helpers import dot, grad

if TYPE_CHECKING:
    from threeview.lesion import Case

# The sleeve's layer begins at this share of the radius: thin, so that the core conducts whole.
LAYER = 0.98
# The cone is cut off at this share of the radius, or its elements would vanish.
POINT = 0.001


@dataclass(frozen=True)
class Way:
    """How to solve: mesh spacing (mm) and growth, element order, step (s).

    `plain` assembles and solves afresh in every step; otherwise the heat matrix is factored once
    and the potential renewed when a quarter of the time has passed, at most every 5 s.
    """

    spacing: float
    growth: float
    order: int
    step: float
    plain: bool


@dataclass(frozen=True)
class Answer:
    """Width and distal reach in mm at the end of heating, power in W, unknowns."""

    width: float
    distal: float
    power: float
    unknowns: int


def graded(length: float, spacing: float, growth: float) -> np.ndarray:
    """Return points from 0 to `length`, their spacing growing by a factor."""
    steps = [spacing]
    while sum(steps) < length:
        steps.append(steps[-1] * (1 + growth))
    points = np.concatenate([[0.0], np.cumsum(steps)])
    return points * length / points[-1]


def between(low: float, high: float, spacing: float, growth: float) -> np.ndarray:
    """Return points from `low` to `high`, fine at both ends."""
    half = graded((high - low) / 2, spacing, growth)
    return np.concatenate([low + half, (high - half[::-1])[1:]])


def fitted_mesh(case: Case, way: Way, domain: float = 45.0) -> tuple[fem.MeshTri, np.ndarray]:
    """Return triangles and their material: 0 tissue, 1 metal, 2 the sleeve's layer. Lengths in m.

    Cone tips only. Rows of the grid keep their height; the column on the metal's outline is bent
    along the cone and, ahead of it, back again.
    """
    electrode = case.electrode
    a = electrode.outer_diameter_mm / 2
    taper, tip = electrode.taper_ratio * electrode.outer_diameter_mm, electrode.tip_mm
    h, g = way.spacing, way.growth
    r = np.unique([0.0, a / 3, 2 * a / 3, LAYER * a, *(a + graded(domain - a, h, g))])
    z = np.unique(
        np.concatenate(
            [
                -graded(domain, h, g),
                between(0.0, taper, h, g),
                between(taper, tip, h, g),
                tip + graded(domain, h, g),
            ]
        ).round(9)
    )
    quad = fem.MeshQuad.init_tensor(r, z)
    column, height = quad.p
    outline = a * np.interp(height, [-3 * taper, 0.0, taper], [1.0, POINT, 1.0])
    outside = outline + (column - a) * (domain - outline) / (domain - a)
    bent = np.where(column <= a, column * outline / a, outside)
    middle_r, middle_z = column[quad.t].mean(axis=0), height[quad.t].mean(axis=0)
    metal = (middle_r < a) & (middle_z > 0)
    layer = metal & (middle_r > LAYER * a) & (middle_z > tip)
    material = metal.astype(int) + layer
    mesh = fem.MeshQuad(np.vstack([bent, height]) / 1e3, quad.t)
    return mesh.to_meshtri(), np.tile(material, 2)


@fem.BilinearForm
def flow(u, v, w):  # noqa: ANN001, ANN201
    """Conduction of a body of revolution."""
    return 2 * np.pi * w.x[0] * w.k * dot(grad(u), grad(v))


@fem.BilinearForm
def content(u, v, w):  # noqa: ANN001, ANN201
    """Storage of a body of revolution."""
    return 2 * np.pi * w.x[0] * w.c * u * v


@fem.LinearForm
def heat(v, w):  # noqa: ANN001, ANN201
    """Source of a body of revolution."""
    return 2 * np.pi * w.x[0] * w.q * v


class Solver:
    """Bases, matrices and boundary sets of one case."""

    def __init__(self, case: Case, way: Way) -> None:
        self.case, self.way = case, way
        self.mesh, material = fitted_mesh(case, way)
        element = {1: fem.ElementTriP1, 2: fem.ElementTriP2}[way.order]()
        order = 2 * way.order
        self.basis = fem.Basis(self.mesh, element, intorder=order)
        self.tissue = fem.Basis(
            self.mesh, element, intorder=order, elements=np.flatnonzero(material == 0)
        )
        self.k, self.c, self.w = self._properties(material)
        self._sets(material)
        self.probe = self.basis.probes(np.array([[0.0], [case.electrode.sensor_depth_mm / 1e3]]))

    def _properties(self, material: np.ndarray) -> tuple[np.ndarray, ...]:
        electrode, tissue = self.case.electrode, self.case.tissue
        a = electrode.outer_diameter_mm / 2e3
        layer = a * np.log(1 / LAYER) / electrode.insulation_resistance
        k = np.array([tissue.thermal_conductivity, electrode.metal_thermal_conductivity, layer])
        c = np.array([tissue.heat_capacity, *[electrode.metal_heat_capacity] * 2])
        w = np.array([tissue.perfusion_per_s * tissue.blood_heat_capacity, 0.0, 0.0])
        return tuple(p[material][:, None] * np.ones(self.basis.X.shape[-1]) for p in (k, c, w))

    def _sets(self, material: np.ndarray) -> None:
        wall = self.mesh.p[0].max(), self.mesh.p[1].min(), self.mesh.p[1].max()
        self.far = self.basis.get_dofs(
            lambda x: np.isclose(x[0], wall[0]) | np.isclose(x[1], wall[1])
        ).all()
        used = np.unique(self.basis.element_dofs[:, material == 0])
        bare = (material == 1) & (
            self.mesh.p[1][self.mesh.t].max(axis=0) <= self.case.electrode.tip_mm / 1e3 + 1e-9
        )
        self.bare = np.intersect1d(np.unique(self.basis.element_dofs[:, bare]), used)
        unused = np.setdiff1d(np.arange(self.basis.N), used)
        self.fixed = np.unique(np.concatenate([self.bare, self.far, unused]))
        self.free = np.setdiff1d(np.arange(self.basis.N), self.far)

    def _volts(self, temperature: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Return the potential for 1 V on the metal, and the conductivity it was solved with."""
        tissue = self.case.tissue
        warm = np.minimum(self.tissue.interpolate(temperature), tissue.conductivity_ceiling_c)
        rise = np.asarray(warm) - tissue.reference_temperature_c
        sigma = tissue.conductivity * (1 + tissue.conductivity_slope * rise)
        volts = np.zeros(self.basis.N)
        volts[self.bare] = 1.0
        matrix = flow.assemble(self.tissue, k=sigma)
        return fem.solve(*fem.condense(matrix, x=volts, D=self.fixed)), sigma

    def source(self, temperature: np.ndarray) -> np.ndarray:
        """Return the Joule heat at 1 V for a temperature, assembled."""
        volts, sigma = self._volts(temperature)
        slope = self.tissue.interpolate(volts).grad
        return heat.assemble(self.tissue, q=sigma * dot(slope, slope))

    def unit_potential(self, temperature_c: float) -> tuple[np.ndarray, float]:
        """Return the potential for 1 V in tissue of one temperature, and the resistance, ohm."""
        even = np.full(self.basis.N, temperature_c)
        return self._volts(even)[0], 1.0 / float(self.source(even).sum())

    def march(self) -> tuple[np.ndarray, float]:
        """Return the temperature at the end of heating, °C, and the power, W."""
        case, way = self.case, self.way
        steps = round((case.ramp_s + case.time_s) / way.step)
        start = case.start_temperature_c
        temperature = np.full(self.basis.N, start)
        renewed, q, power, solve = -np.inf, None, 0.0, None
        for n in range(steps):
            now = n * way.step
            if way.plain or solve is None:
                stiff, store, blood = self._matrices()
                a = (store / way.step + stiff + blood).tocsc()
                solve = splu(a[self.free][:, self.free]).solve
            if way.plain or now - renewed >= min(5.0, max(1.0, now / 4)):
                q, renewed = self.source(temperature), now
                response = solve(q[self.free])
            share = min(1.0, (now + way.step) / case.ramp_s)
            target = start + share * (case.set_temperature_c - start)
            drift = np.zeros(self.basis.N)
            drift[self.free] = solve((store @ (temperature - start) / way.step)[self.free])
            lift = np.zeros(self.basis.N)
            lift[self.free] = response
            p = max(0.0, (target - start - self._read(drift)) / self._read(lift))
            temperature, power = start + drift + p * lift, p * q.sum()
        return temperature, float(power)

    def _matrices(self) -> tuple:
        return (
            flow.assemble(self.basis, k=self.k),
            content.assemble(self.basis, c=self.c),
            content.assemble(self.basis, c=self.w),
        )

    def _read(self, values: np.ndarray) -> float:
        return float((self.probe @ values)[0])

    def measure(self, temperature: np.ndarray, level: float) -> tuple[float, float]:
        """Return width and distal reach of an isotherm, mm, from values along straight lines."""
        a = self.case.electrode.outer_diameter_mm / 2e3
        tip = self.case.electrode.tip_mm / 1e3
        out = a + 1e-6 + np.linspace(0.0, 0.012, 241)
        radii = [
            _last(out, self.sample(temperature, out, np.full_like(out, z)), level)
            for z in np.linspace(0.3 * tip, 0.7 * tip, 9)
        ]
        ahead = np.linspace(1e-6, 0.008, 321)
        distal = _last(ahead, self.sample(temperature, 0 * ahead, -ahead), level)
        best = int(np.argmax(radii))
        radius = radii[best]
        if 0 < best < len(radii) - 1:  # the parabola through the widest three
            left, right = radii[best - 1] - radius, radii[best + 1] - radius
            radius -= (right - left) ** 2 / (8 * (left + right))
        return 2e3 * radius, 1e3 * distal

    def sample(self, values: np.ndarray, r: np.ndarray, z: np.ndarray) -> np.ndarray:
        """Return nodal values interpolated at points (r, z) in m."""
        return self.basis.probes(np.vstack([r, z])) @ values


def _last(x: np.ndarray, values: np.ndarray, level: float) -> float:
    """Return where values fall below the level for the last time, by linear interpolation."""
    i = int(np.flatnonzero(values >= level)[-1])
    return float(x[i] + (x[i + 1] - x[i]) * (values[i] - level) / (values[i] - values[i + 1]))


def solve(case: Case, way: Way, level: float = 50.0) -> Answer:
    """Compute a lesion with the library."""
    solver = Solver(case, way)
    temperature, power = solver.march()
    width, distal = solver.measure(temperature, level)
    return Answer(width, distal, power, solver.basis.N)
