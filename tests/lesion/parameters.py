"""Parameter sets of the lesion tests; the same numbers stand with their sources in the course.

`test_tables.py` holds the two together.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from threeview.lesion import Case, Damage, Electrode, Numerics, Tissue
from threeview.lesion.results import LesionResult
from threeview.lesion.run import simulate

#: Nominal outer diameters of regular-wall needle tubing, mm (a needle gauge comparison chart).
DIAMETERS = {22: 0.72, 20: 0.91, 18: 1.27, 17: 1.47, 16: 1.65}

#: Muscle: conductivity from the published dispersion at 460 kHz (doi 10.1088/0031-9155/41/11/003,
#: constants recalled), thermal values from a bioheat materials table, perfusion at rest
#: (doi 10.3390/cancers11081183).
MUSCLE = Tissue(
    conductivity=0.44,
    conductivity_slope=0.015,
    reference_temperature_c=37.0,
    conductivity_ceiling_c=100.0,
    thermal_conductivity=0.49,
    heat_capacity=3.73e6,
    perfusion_per_s=0.0008,
    blood_heat_capacity=3.8e6,
)
#: Excised liver-like medium: thermal values from a bioheat materials table, conductivity recalled.
EX_VIVO = replace(
    MUSCLE,
    conductivity=0.33,
    conductivity_slope=0.02,
    thermal_conductivity=0.52,
    heat_capacity=3.82e6,
    perfusion_per_s=0.0,
)
#: Denatured liver protein, from a bioheat materials table.
DAMAGE = Damage(frequency_factor=7.39e39, activation_energy=2.577e5)


def needle(gauge: int = 20, tip_mm: float = 10.0, **changes: object) -> Electrode:
    """Return a conventional electrode with a conical tip, of steel (values from memory)."""
    electrode = Electrode(
        outer_diameter_mm=DIAMETERS[gauge],
        tip_mm=tip_mm,
        tip_shape="cone",
        taper_ratio=1.0,
        sensor_depth_mm=0.5,
        metal_thermal_conductivity=15.0,
        metal_heat_capacity=3.95e6,
        insulation_resistance=2e-4,
    )
    return replace(electrode, **changes)  # type: ignore[arg-type]


def usual(**changes: object) -> Case:
    """Return a 20 gauge, 10 mm electrode in muscle at 80 °C for two minutes, with changes."""
    case = Case(
        electrode=needle(),
        tissue=MUSCLE,
        damage=DAMAGE,
        set_temperature_c=80.0,
        time_s=120.0,
    )
    return replace(case, **changes)  # type: ignore[arg-type]


@cache
def lesion(case: Case, numerics: Numerics | None = None) -> LesionResult:
    """Return a computed lesion, once for all tests that ask."""
    return simulate(case, numerics)
