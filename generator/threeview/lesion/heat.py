"""Heat: rho c dT/dt = div(k grad T) + p q - w rho_b c_b (T - T_start), metal included.

Temperatures are rises above the start, zero on the outer wall. Time goes by SDIRK2: two implicit
stages with one matrix, L-stable, so the exact controller does not ring (a Crank-Nicolson step
would).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

import numpy as np

from threeview.lesion import elements as el
from threeview.lesion.factor import factor
from threeview.lesion.forms import perfusion

if TYPE_CHECKING:
    from numpy.typing import NDArray
    from scipy import sparse
    from scipy.sparse.linalg import SuperLU

    from threeview.lesion.case import Electrode, Tissue
    from threeview.lesion.mesh import Mesh

__all__ = ["GAMMA", "Heat", "Power", "Step"]

GAMMA = 1.0 - 1.0 / np.sqrt(2.0)  # makes the two-stage scheme second order and L-stable


class Power(Protocol):
    """The power of each stage of a step, in units of some heat q.

    Attributes:
        response: (f,) `Heat.factor(dt).solve(q)`, the rise that one unit adds in a stage, K.
    """

    @property
    def response(self) -> NDArray[np.float64]: ...  # noqa: D102 -- see the class

    def __call__(self, share: float, drift: NDArray[np.float64], /) -> float:
        """Return the power of a stage.

        Args:
            share: how much of the step has passed at the stage.
            drift: (f,) the rise that the stage would end with unpowered, K.
        """


@dataclass(frozen=True)
class Step:
    """What one step did.

    Attributes:
        rise: (f,) temperature rise at its end, K.
        power: at its end, units of q.
        dose: power integrated over the step, units of q times s.
        lost: heat lost to wall and blood, J.
    """

    rise: NDArray[np.float64]
    power: float
    dose: float
    lost: float


class Heat:
    """The heat equation on a mesh, with one factorisation for each step length met.

    Attributes:
        free: node numbers that are not on the outer wall.
        mass: (f, f) heat capacity matrix, J/K.
        stiffness: (f, f) conduction, perfusion and interface, W/K.
        sinks: (f,) heat lost to wall and blood for each kelvin at a node, W/K.
    """

    def __init__(self, mesh: Mesh, tissue: Tissue, electrode: Electrode) -> None:
        parts = el.elements(mesh, np.ones(len(mesh.quads), dtype=bool))
        metal = np.repeat(mesh.metal[:, None], 4, axis=1)
        k = np.where(metal, electrode.metal_thermal_conductivity, tissue.thermal_conductivity)
        c = np.where(metal, electrode.metal_heat_capacity, tissue.heat_capacity)
        blood = parts.storage(np.where(metal, 0.0, perfusion(tissue)))
        stiffness = parts.conduction(k)
        stiffness = stiffness + el.interface(mesh, 1.0 / electrode.insulation_resistance)
        self.free = np.setdiff1d(np.arange(len(mesh.nodes)), mesh.wall)
        matrix = stiffness + blood
        self.mass: sparse.csr_matrix = parts.storage(c)[self.free][:, self.free]
        self.stiffness: sparse.csr_matrix = matrix[self.free][:, self.free]
        taken = np.asarray(blood.sum(axis=0)).ravel()
        self.sinks = taken[self.free] - np.asarray(matrix[mesh.wall].sum(axis=0)).ravel()[self.free]
        self._capacity = np.asarray(self.mass.sum(axis=0)).ravel()
        self._factors: dict[float, SuperLU] = {}

    def factor(self, dt: float) -> SuperLU:
        """Return the factors of M / (gamma dt) + K, kept for the next step of the same length."""
        key = round(dt, 9)
        if key not in self._factors:
            self._factors[key] = factor(self.mass / (GAMMA * dt) + self.stiffness)
        return self._factors[key]

    def step(self, rise: NDArray[np.float64], dt: float, power: Power) -> Step:
        """Return what a step of `dt` seconds does to a (f,) temperature rise, K."""
        solve = self.factor(dt).solve
        start = rise / (GAMMA * dt)
        drift = solve(self.mass @ start)
        first = power(GAMMA, drift)
        middle = drift + first * power.response
        slope = (middle - rise) / (GAMMA * dt)
        drift = solve(self.mass @ (start + (1.0 - GAMMA) / GAMMA * slope))
        last = power(1.0, drift)
        end = drift + last * power.response
        lost = (1.0 - GAMMA) * (self.sinks @ middle) + GAMMA * (self.sinks @ end)
        return Step(end, last, dt * ((1.0 - GAMMA) * first + GAMMA * last), dt * float(lost))

    def stored(self, rise: NDArray[np.float64]) -> float:
        """Return the heat stored by a (f,) rise, J."""
        return float(self._capacity @ rise)
