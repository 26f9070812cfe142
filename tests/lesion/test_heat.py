"""Heat against exact solutions: Kohlrausch, sphere, decay, half-space, manufactured."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.special import erfc, expi, expn
from tests.lesion.parameters import MUSCLE, needle
from tests.lesion.steady import ball, slab, steady

from threeview.lesion import Numerics, Tissue
from threeview.lesion import elements as el
from threeview.lesion.forms import joule
from threeview.lesion.geometry import tip_surface
from threeview.lesion.heat import Heat
from threeview.lesion.mesh import Mesh, needle_mesh


@dataclass(frozen=True)
class Given:
    """A source whose strength is a given function of time."""

    response: np.ndarray
    strength: Callable[[float], float]
    start: float = 0.0
    dt: float = 1.0

    def __call__(self, share: float, drift: np.ndarray, /) -> float:
        """Return the strength at the stage's time."""
        assert len(drift) == len(self.response)
        return self.strength(self.start + share * self.dt)


def perfusion(tissue: Tissue) -> float:
    """Return the heat that blood takes away, W/(m3·K), worked out apart from the engine."""
    return tissue.perfusion_per_s * tissue.blood_heat_capacity


def load(parts: el.Elements, q: np.ndarray) -> np.ndarray:
    """Return the (n,) integral of q v; q at the quadrature points, W/m3."""
    return parts.storage(q) @ np.ones(len(parts.starts) - 1)


def kohlrausch_error(numerics: Numerics, shape: str) -> float:
    """Return the largest deviation from the Kohlrausch relation, K.

    Steady, no perfusion, no heat into the electrode, V and rise both 0 on the wall:
    rise = (exp(alpha sigma0 (V0 V - V^2/2) / k) - 1) / alpha with V from 0 to V0.
    """
    electrode = needle(
        tip_shape=shape,
        taper_ratio=0.0 if shape == "blunt" else 1.0,
        metal_thermal_conductivity=1e-9,
        insulation_resistance=1e9,
    )
    volts, start = 7.0, 37.0
    tissue = replace(MUSCLE, perfusion_per_s=0.0, conductivity_ceiling_c=1e6)
    tissue = replace(tissue, conductivity=0.5, thermal_conductivity=0.5)
    mesh = needle_mesh(tip_surface(electrode), numerics)
    found = steady(mesh, tissue, volts, start, electrode)
    v = volts * found.potential[mesh.rays]
    alpha = tissue.conductivity_slope
    drive = tissue.conductivity * (volts * v - v**2 / 2) / tissue.thermal_conductivity
    expected = np.expm1(alpha * drive) / alpha
    assert expected.max() > 29  # the electrode is hot enough for the relation to matter
    return float(np.abs(found.rise[mesh.rays] - expected).max())


@pytest.mark.parametrize("shape", ["cone", "blunt", "bevel"])
def test_kohlrausch_relation_holds(shape: str) -> None:
    """On the default mesh temperature and potential obey the relation within 0.1 K."""
    assert kohlrausch_error(Numerics(), shape) <= 0.1


def test_kohlrausch_error_falls_with_the_mesh() -> None:
    """Over three meshes, each twice as fine, the error falls by order 1.3 or more."""
    meshes = [Numerics(spacing_mm=h, growth=h * 2.5) for h in (0.12, 0.06, 0.03)]
    errors = np.array([kohlrausch_error(numerics, "cone") for numerics in meshes])
    orders = np.log2(errors[:-1] / errors[1:])
    assert orders.min() >= 1.3, (errors, orders)


def sphere_rise(r: np.ndarray, a: float, b: float, strength: float, loss: float) -> np.ndarray:
    """Return the exact steady rise around an insulated sphere, K.

    Without perfusion the Kohlrausch relation for alpha -> 0 in the ball of radius b. With it
    u = r rise solves u'' - loss u = -strength a^2 / r^3; particular solution by variation of
    parameters, and the wall far enough (loss b^2 >> 1) to count as infinite.
    """
    if loss == 0:
        v = (a / r - a / b) / (1 - a / b)
        return strength * (v - v**2 / 2)
    lam, scaled = np.sqrt(loss), strength / (1 - a / b) ** 2

    def integral(x: np.ndarray) -> np.ndarray:
        rising = np.exp(lam * x)
        return -rising / (2 * x**2) - lam * rising / (2 * x) + lam**2 / 2 * expi(lam * x)

    def tail(x: np.ndarray) -> np.ndarray:
        return np.exp(lam * x) * expn(3, lam * x) / x**2

    half = scaled * a**2 / 2
    particular = half / lam * (np.exp(-lam * r) * (integral(r) - integral(a)) + tail(r))
    at_a, slope_at_a = half / lam * tail(a), half * tail(a)
    c = (slope_at_a - at_a / a) / (np.exp(-lam * a) * (lam + 1 / a))
    return (particular + c * np.exp(-lam * r)) / r


@pytest.mark.parametrize("perfused", [0.0, 0.01])
def test_sphere_warms_as_the_exact_solution(perfused: float) -> None:
    """Around a sphere the rise is exact within 0.3 % of the hottest, with and without blood."""
    a, b, volts = 1e-3, 0.15, 1.0
    tissue = replace(MUSCLE, conductivity_slope=0.0, perfusion_per_s=perfused)
    mesh = ball(a, b, 6e-5, 0.15, 33)
    found = steady(mesh, tissue, volts, 37.0).rise
    distance = np.hypot(*mesh.nodes.T)
    loss = perfusion(tissue) / tissue.thermal_conductivity
    near = distance < 0.02
    strength = tissue.conductivity * volts**2 / tissue.thermal_conductivity
    expected = sphere_rise(distance[near], a, b, strength, loss)
    assert_allclose(found[near], expected, atol=0.003 * expected.max())


def test_perfusion_cools_exponentially() -> None:
    """Far from the wall an even rise decays as exp(-w rho_b c_b t / (rho c))."""
    tissue = replace(MUSCLE, perfusion_per_s=0.01)
    mesh = ball(1e-3, 0.045, 2e-4, 0.15, 9)
    heat = Heat(mesh, tissue, needle())
    rise = np.ones(len(heat.free))
    nothing = Given(np.zeros(len(rise)), lambda _: 0.0)
    for _ in range(60):
        rise = heat.step(rise, 1.0, nothing).rise
    expected = np.exp(-60.0 * perfusion(tissue) / tissue.heat_capacity)
    assert_allclose(rise[0], expected, rtol=1e-4)


def test_half_space_step_is_exact() -> None:
    """Heat enters a perfused half-space held at its surface as the exact solution says."""
    tissue = replace(MUSCLE, perfusion_per_s=0.01)
    depth, surface, time, dt = 0.03, 10.0, 60.0, 0.5
    mesh = slab(1e-3, depth, 3, 151)
    heat = Heat(mesh, tissue, needle())
    # The unknown is the rise less the surface's, so the wall can be the surface; blood then
    # draws heat evenly besides.
    parts = el.elements(mesh, ~mesh.metal)
    even = load(parts, np.full_like(parts.weights, -perfusion(tissue) * surface))
    source = Given(heat.factor(dt).solve(even[heat.free]), lambda _: 1.0, dt=dt)
    rise = np.full(len(heat.free), -surface)
    for _ in range(round(time / dt)):
        rise = heat.step(rise, dt, source).rise
    x = mesh.nodes[heat.free, 1] + depth
    m = np.sqrt(perfusion(tissue) / tissue.thermal_conductivity)
    spread = 2 * np.sqrt(tissue.thermal_conductivity / tissue.heat_capacity * time)
    decay = np.sqrt(perfusion(tissue) / tissue.heat_capacity * time)
    falling = np.exp(-m * x) * erfc(x / spread - decay)
    rising = np.exp(m * x) * erfc(x / spread + decay)
    expected = surface / 2 * (falling + rising)
    near = x < depth / 2  # the far face is insulated, the half-space is not
    assert_allclose(rise[near] + surface, expected[near], atol=0.01)


def manufactured_error(rays: int, steps: int, dt: float) -> float:
    """Return the largest error of a made-up transient with a made-up potential, relative.

    V = r^2 - 2 z^2 is harmonic with |grad V|^2 = 4 r^2 + 16 z^2; the rise is
    exp(-b t) cos(pi z / (2 L)) (1 + cos(pi r^2 / R^2)), whose source is worked out by hand.
    """
    tissue, size, rate, time = replace(MUSCLE, perfusion_per_s=0.005), 0.01, 0.05, 10.0
    mesh = slab(size, size, rays, steps)
    heat = Heat(mesh, tissue, needle())
    parts = el.elements(mesh, ~mesh.metal)
    k, c, loss = tissue.thermal_conductivity, tissue.heat_capacity, perfusion(tissue)

    def shape(r: np.ndarray, z: np.ndarray) -> np.ndarray:
        return np.cos(np.pi * z / (2 * size)) * (1 + np.cos(np.pi * r**2 / size**2))

    def laplacian(r: np.ndarray, z: np.ndarray) -> np.ndarray:
        s = np.pi / size**2
        across = -4 * s * np.sin(s * r**2) - 4 * s**2 * r**2 * np.cos(s * r**2)
        along = -((np.pi / (2 * size)) ** 2) * (1 + np.cos(s * r**2))
        return np.cos(np.pi * z / (2 * size)) * (across + along)

    r, z = (parts.at_points(place) for place in mesh.nodes.T)
    made = (loss - rate * c) * shape(r, z) - k * laplacian(r, z)
    v = mesh.nodes[:, 0] ** 2 - 2 * mesh.nodes[:, 1] ** 2
    matrix = parts.conduction(np.full_like(r, tissue.conductivity))
    own_joule = joule(matrix, v)
    exact_joule = load(parts, tissue.conductivity * (4 * r**2 + 16 * z**2))
    scale = 1e8  # brings the two heats to one size, so an error in either shows
    heats = load(parts, made) + scale * (own_joule - exact_joule)
    response = heat.factor(dt).solve(heats[heat.free])
    rise = shape(*mesh.nodes[heat.free].T)
    expected = np.exp(-rate * time) * rise
    for n in range(round(time / dt)):
        power = Given(response, lambda t: np.exp(-rate * t), n * dt, dt)
        rise = heat.step(rise, dt, power).rise
    return float(np.abs(rise - expected).max() / expected.max())


def test_manufactured_heat_converges_at_second_order() -> None:
    """Halving mesh and step quarters the error of a made-up transient (order 2, within 0.2)."""
    errors = [manufactured_error(n + 1, n + 1, 20.0 / n) for n in (10, 20, 40)]
    orders = np.log2(np.array(errors[:-1]) / errors[1:])
    assert_allclose(orders, 2.0, atol=0.2)
    assert errors[-1] < 5e-3


def sleeve_jump(mesh: Mesh, electrode_resistance: float) -> tuple[float, float]:
    """Return the jump across the sleeve far up the shaft and the heat that crosses, K and W/m2."""
    electrode = needle(insulation_resistance=electrode_resistance)
    heat = Heat(mesh, replace(MUSCLE, perfusion_per_s=0.0), electrode)
    source = np.zeros(len(mesh.nodes))
    source[mesh.axis] = 1.0
    rise = np.zeros(len(mesh.nodes))
    rise[heat.free] = np.linalg.solve(heat.stiffness.toarray(), source[heat.free])
    metal, tissue = mesh.shaft[len(mesh.shaft) // 2]
    exchange = el.interface(mesh, 1.0 / electrode_resistance) @ rise
    return float(rise[metal] - rise[tissue]), float(exchange[metal])


def test_sleeve_resists_heat_in_proportion() -> None:
    """The temperature jump through the sleeve is flux times its resistance, its area exact."""
    mesh = needle_mesh(tip_surface(needle()), Numerics(spacing_mm=0.2, growth=0.4))
    jump, crossing = sleeve_jump(mesh, 1e-3)
    at = len(mesh.shaft) // 2
    heights = mesh.nodes[mesh.shaft[at - 1 : at + 2, 0], 1]
    area = np.pi * 0.91e-3 * (heights[2] - heights[0]) / 2
    assert jump > 0.01
    assert 0 < sleeve_jump(mesh, 1e-6)[0] < 0.01 * jump  # next to no sleeve, next to no jump
    assert_allclose(crossing * 1e-3 / area, jump, rtol=1e-9)
    everywhere = el.interface(mesh, 1.0)[mesh.shaft[:, 0]][:, mesh.shaft[:, 0]].sum()
    assert_allclose(everywhere, np.pi * 0.91e-3 * 0.045, rtol=1e-9)
