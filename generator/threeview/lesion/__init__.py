"""Radiofrequency lesions, computed: potential, heat, damage, and the shape they leave.

The way from settings to a lesion has six steps, each a file of its own:

1. *mesh* -- the half-plane (r, z) around the electrode, fitted to its tip (`geometry`, `mesh`).
2. *potential* -- div(sigma grad V) = 0 between bare metal and a far wall (`potential`).
3. *Joule heat* -- q = sigma |grad V|^2: the tissue is the heater, not the metal (`forms`).
4. *temperature* -- the bioheat equation, with the power that keeps the sensor on its set
   temperature (`heat`, `control`); steps 2 to 4 repeat, as warm tissue conducts better.
5. *damage* -- a first-order law integrated over time (`forms`).
6. *extents* -- isotherms and the damage boundary, and their width, length and reach (`extents`).

`simulate` does all six:

>>> from threeview.lesion import Case, Damage, Electrode, Numerics, Tissue, simulate
>>> electrode = Electrode(outer_diameter_mm=0.9, tip_mm=10, tip_shape="cone", taper_ratio=1,
...     sensor_depth_mm=0.5, metal_thermal_conductivity=15, metal_heat_capacity=3.95e6,
...     insulation_resistance=2e-4)
>>> tissue = Tissue(conductivity=0.4, conductivity_slope=0.015, reference_temperature_c=37,
...     conductivity_ceiling_c=100, thermal_conductivity=0.5, heat_capacity=3.8e6,
...     perfusion_per_s=0, blood_heat_capacity=3.8e6)
>>> damage = Damage(frequency_factor=7.39e39, activation_energy=2.577e5)
>>> case = Case(electrode=electrode, tissue=tissue, damage=damage, set_temperature_c=80, time_s=60)
>>> lesion = simulate(case, Numerics(spacing_mm=0.2, growth=0.3))
>>> 7 < lesion.width_mm < 9 and lesion.length_mm > 10
True
>>> [frame.time_s for frame in lesion.frames]
[0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0]

Lengths are in mm, and z is 0 at the distal end of the metal and rises up the shaft. The clock
starts when the sensor reaches the set temperature; the ramp before it has negative times.

The model leaves out: contact and hollow of a real cannula, vapour, blood flow that changes with
heat, and every boundary between tissues. It is for teaching, not for planning treatment.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

from threeview.lesion.case import Case, Damage, Electrode, Numerics, Tissue
from threeview.lesion.results import LesionResult

if TYPE_CHECKING:
    from threeview.lesion.field import field_profile
    from threeview.lesion.forms import damage_time
    from threeview.lesion.run import simulate

__all__ = [
    "Case",
    "Damage",
    "Electrode",
    "LesionResult",
    "Numerics",
    "Tissue",
    "damage_time",
    "field_profile",
    "simulate",
]

_SOLVERS = {"damage_time": "forms", "field_profile": "field", "simulate": "run"}


def __getattr__(name: str) -> Any:  # noqa: ANN401 -- a module attribute can be anything
    """Import what computes only when it is asked for; scipy is slow to load."""
    if name not in _SOLVERS:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_SOLVERS[name]}"), name)
