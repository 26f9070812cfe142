"""Find the library's own best way to a lesion: for each way, time and width error.

Run `python benchmarks/scikit_fem_baseline.py`. The cheapest plain and the cheapest tuned way with
a width error of 0.3 % or less are what `lesion_speed.py` races against.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from tests.lesion.parameters import lesion, usual
from tests.lesion.scikit_fem_solver import Solver, Way

from threeview.lesion import Numerics

#: The yardstick, finer than anything raced; another library's finest differs by 0.05 %.
FINEST = Numerics(spacing_mm=0.02, growth=0.06, step_s=1.0, frame_s=600.0)
GRIDS = [
    (0.3, 0.6, 2),
    (0.3, 0.45, 2),
    (0.2, 0.35, 2),
    (0.15, 0.25, 1),
    (0.12, 0.25, 1),
    (0.09, 0.25, 1),
    (0.09, 0.2, 1),
    (0.06, 0.2, 1),
]
STEPS = (1.0, 2.5, 5.0)


def timed(case: object, way: Way) -> tuple[float, float]:
    """Return seconds and width in mm; measuring the finished field is not timed."""
    begin = time.perf_counter()
    solver = Solver(case, way)
    temperature, _ = solver.march()
    seconds = time.perf_counter() - begin
    return seconds, solver.measure(temperature, 50.0)[0]


def main() -> None:
    """Print every way, and the best two."""
    case = usual()
    truth = lesion(case, FINEST).width_mm
    print(f"20 G, 10 mm, 80 °C, 10 + 120 s, muscle; finest own width {truth:.4f} mm")
    print("spacing mm  growth  order  step s  plain   seconds  width error %")
    best: dict[bool, tuple[float, Way]] = {}
    for plain in (False, True):
        for spacing, growth, order in GRIDS:
            for step in STEPS:
                way = Way(spacing, growth, order, step, plain)
                seconds, width = timed(case, way)
                error = 100 * (width / truth - 1)
                print(
                    f"{spacing:10g}  {growth:6g}  {order:5d}  {step:6g}  {plain!s:5}"
                    f"  {seconds:8.3f}  {error:+.3f}",
                    flush=True,
                )
                if abs(error) <= 0.3 and seconds < best.get(plain, (1e9, way))[0]:
                    best[plain] = (seconds, way)
    for plain, (seconds, way) in best.items():
        print(f"best {'plain' if plain else 'tuned'}: {seconds:.3f} s, {way}")


if __name__ == "__main__":
    main()
