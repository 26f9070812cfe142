"""The formulas of the model, and nothing else.

Letters are those of the textbooks: sigma conductivity, V potential, T temperature, k thermal
conductivity, w perfusion, Omega the damage integral.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray
    from scipy import sparse

    from threeview.lesion.case import Damage, Tissue

__all__ = [
    "GAS",
    "KELVIN",
    "conductivity",
    "damage_rate",
    "damage_step",
    "damage_time",
    "joule",
    "perfusion",
]

GAS = 8.314462618  # J/(mol·K), exact since the 2019 SI to the digits given
KELVIN = 273.15  # 0 °C, by definition
_STILL = 1e-6  # below it expm1(x)/x is 1 + x/2 to machine precision


def conductivity(tissue: Tissue, T: NDArray[np.float64]) -> NDArray[np.float64]:  # noqa: N803
    """Return sigma(T) = sigma_ref (1 + alpha (min(T, ceiling) - T_ref)), S/m; T in °C."""
    capped = np.minimum(T, tissue.conductivity_ceiling_c)
    rise = capped - tissue.reference_temperature_c
    sigma: NDArray[np.float64] = tissue.conductivity * (1.0 + tissue.conductivity_slope * rise)
    return sigma


def joule(K: sparse.csr_matrix, V: NDArray[np.float64]) -> NDArray[np.float64]:  # noqa: N803
    """Return the (n,) integrals of q v with q = sigma |grad V|^2 (SAR times density), W.

    As sigma |grad V|^2 v = sigma grad V · grad (V v) - sigma grad V^2 · grad v / 2, this is
    V (K V) - K V^2 / 2: the loss in every link between two nodes, half to each of them. Against
    the plain quadrature of |grad V|^2 it keeps the relation between potential and temperature
    where the field is singular, at the point and at the insulation's edge.

    Args:
        K: (n, n) conduction matrix of sigma, 1/ohm.
        V: (n,) potential at the nodes, V.
    """
    heat: NDArray[np.float64] = V * (K @ V) - K @ (V * V) / 2
    return heat


def perfusion(tissue: Tissue) -> float:
    """Return w rho_b c_b, the heat that blood carries off for each kelvin, W/(m3·K)."""
    return tissue.perfusion_per_s * tissue.blood_heat_capacity


def damage_rate(damage: Damage, T: NDArray[np.float64]) -> NDArray[np.float64]:  # noqa: N803
    """Return ln of dOmega/dt = A exp(-Ea / (R T)), with dOmega/dt in 1/s; T in °C."""
    exponent: NDArray[np.float64] = damage.activation_energy / (GAS * (T + KELVIN))
    log_rate: NDArray[np.float64] = np.log(damage.frequency_factor) - exponent
    return log_rate


def damage_time(celsius: float, frequency_factor: float, activation_energy: float) -> float:
    """Return when Omega reaches 1 at one temperature, exp(Ea / (R T)) / A, s.

    Args:
        celsius: temperature, °C.
        frequency_factor: A, 1/s.
        activation_energy: Ea, J/mol.
    """
    return math.exp(activation_energy / (GAS * (celsius + KELVIN))) / frequency_factor


def damage_step(
    before: NDArray[np.float64], after: NDArray[np.float64], dt: float
) -> NDArray[np.float64]:
    """Return the growth of Omega over a step, from the logarithm of its rate at both ends.

    The logarithm is taken as linear in time, so the integral is dt (b - a)/ln(b/a).
    """
    change = after - before
    still = np.abs(change) < _STILL
    mean = np.where(still, 1.0 + change / 2, np.expm1(change) / np.where(still, 1.0, change))
    growth: NDArray[np.float64] = dt * np.exp(before) * mean
    return growth
