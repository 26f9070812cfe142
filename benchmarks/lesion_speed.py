"""Race the lesion engine against a general finite element library, at equal accuracy.

Run `python benchmarks/lesion_speed.py`. Each of five rounds runs the engine, the library with its
factors kept (tuned) and the library assembling and solving afresh in every step (plain), one after
the other, so a busy machine slows all three. The library's two ways are the cheapest of
`scikit_fem_baseline.py` with a width error of 0.3 % or less; the engine's mesh keeps the same
bound. Nothing here is compiled just in time. Measuring the finished field is timed for the engine,
not for the library. The figures are printed beside their targets; nothing is asserted.
"""

from __future__ import annotations

import statistics
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

sys.path.insert(0, str(Path(__file__).parents[1]))

from benchmarks.scikit_fem_baseline import FINEST
from tests.lesion.parameters import lesion, usual
from tests.lesion.scikit_fem_solver import Solver, Way

from threeview.lesion import Numerics, simulate

if TYPE_CHECKING:
    from collections.abc import Callable

ROUNDS = 5
TUNED = Way(0.15, 0.25, 1, 5.0, plain=False)
PLAIN = Way(0.12, 0.25, 1, 5.0, plain=True)
EQUAL = Numerics(spacing_mm=0.25, growth=0.25, step_s=5.0, frame_s=600.0)
CASE = usual()


def engine(numerics: Numerics) -> float:
    """Return the width by the engine, mm."""
    return simulate(CASE, numerics).width_mm


def march(way: Way) -> tuple[Solver, object]:
    """Return the library's solver and its final temperature."""
    solver = Solver(CASE, way)
    return solver, solver.march()[0]


def seconds(work: Callable[[], object]) -> float:
    """Return how long something takes, s."""
    begin = time.perf_counter()
    work()
    return time.perf_counter() - begin


def race() -> dict[str, list[float]]:
    """Return the times of every round, s."""
    entries: dict[str, Callable[[], object]] = {
        "engine": lambda: engine(EQUAL),
        "tuned": lambda: march(TUNED),
        "plain": lambda: march(PLAIN),
        "default": lambda: engine(Numerics()),
    }
    for work in entries.values():  # one round to warm caches
        work()
    times: dict[str, list[float]] = {name: [] for name in entries}
    for _ in range(ROUNDS):
        for name, work in entries.items():
            times[name].append(seconds(work))
    return times


def row(name: str, value: str, target: str) -> None:
    """Print one figure beside its target."""
    print(f"{name:58} {value:>12}   {target}")


def main() -> None:
    """Race, then print."""
    truth = lesion(CASE, FINEST).width_mm
    times = race()
    print(f"\n20 G, 10 mm, 80 °C, ramp 10 s + 120 s, muscle; finest width {truth:.4f} mm")
    for name, way in (("library, tuned", TUNED), ("library, plain", PLAIN)):
        solver, temperature = march(way)
        error = 100 * (solver.measure(temperature, 50.0)[0] / truth - 1)
        row(f"width error, {name}, {solver.basis.N} unknowns", f"{error:+.2f} %", "at most 0.3 %")
    for name, numerics in (("engine, this race", EQUAL), ("engine, default", Numerics())):
        found = simulate(CASE, numerics)
        error = 100 * (found.width_mm / truth - 1)
        row(f"width error, {name}, {found.unknowns} unknowns", f"{error:+.2f} %", "at most 0.3 %")
    for name, many in times.items():
        row(f"seconds, {name} (median of {ROUNDS})", f"{statistics.median(many):.3f}", "")
    for name, target in (("plain", 12), ("tuned", 3)):
        pairs = zip(times[name], times["engine"], strict=True)
        ratios = [slow / fast for slow, fast in pairs]
        spread = f"at least {target}x   (rounds {min(ratios):.1f} to {max(ratios):.1f})"
        row(f"engine faster than the library, {name}", f"{statistics.median(ratios):.1f}x", spread)


if __name__ == "__main__":
    main()
