"""The damage law against its closed form and against quadrature."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.integrate import quad
from tests.lesion.parameters import DAMAGE

from threeview.lesion.forms import damage_rate, damage_step, damage_time


@pytest.mark.parametrize(
    ("temperature", "seconds"), [(45.0, 277.0), (50.0, 61.4), (55.0, 14.2), (60.0, 3.45)]
)
def test_time_to_threshold_at_constant_temperature(temperature: float, seconds: float) -> None:
    """The integral reaches 1 after exp(Ea / (R T)) / A: times of a bioheat materials table."""
    log_rate = damage_rate(DAMAGE, np.array([temperature]))
    omega = sum(damage_step(log_rate, log_rate, seconds / 8) for _ in range(8))
    assert_allclose(omega, 1.0, rtol=0.01)
    law = DAMAGE.frequency_factor, DAMAGE.activation_energy
    assert_allclose(damage_time(temperature, *law), seconds, rtol=0.01)


def test_integral_follows_a_warming_tissue() -> None:
    """Steps of 2.5 s through a 40 K rise in 20 s agree with adaptive quadrature within 2 %."""

    def temperature(t: float) -> float:
        return 40.0 + 2.0 * t

    def rate(t: float) -> float:
        return float(np.exp(damage_rate(DAMAGE, np.array([temperature(t)])))[0])

    ends = [damage_rate(DAMAGE, np.array([temperature(2.5 * n)])) for n in range(9)]
    stepped = sum(damage_step(a, b, 2.5) for a, b in itertools.pairwise(ends))
    assert_allclose(stepped, quad(rate, 0.0, 20.0)[0], rtol=0.02)


def test_step_without_change_is_rate_times_time() -> None:
    """A rate that stays, or changes by less than rounding, gives no division by zero."""
    rate = np.log(np.array([1e-8, 0.5, 3.0]))
    assert_allclose(damage_step(rate, rate, 4.0), 4.0 * np.exp(rate))
    assert_allclose(damage_step(rate, rate + 1e-9, 4.0), 4.0 * np.exp(rate), rtol=1e-8)
