"""What a lesion is computed from: electrode, tissue, damage law, settings, and the numerics.

Physical numbers come in from outside (the course keeps them with their sources); only numerical
choices have defaults here, each with its reason.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = ["CRITERIA", "ISOTHERMS", "Case", "Damage", "Electrode", "Numerics", "Tissue"]

TipShape = Literal["blunt", "cone", "bevel"]

#: Isotherms drawn for every lesion, °C.
ISOTHERMS = (45, 50, 55, 60, 80)
#: What may bound a lesion: an isotherm at the moment in question, or the damage integral at 1.
CRITERIA = (*(f"isotherm {level}" for level in ISOTHERMS), "damage")


@dataclass(frozen=True, kw_only=True)
class Electrode:
    """A conventional monopolar electrode: a solid metal rod, insulated above its active tip.

    Attributes:
        outer_diameter_mm: of the rod, mm.
        tip_mm: active (bare) length from the distal end of the metal, mm.
        tip_shape: `blunt` (flat end), `cone`, or `bevel`; a bevel is computed as the round body
            that has the bevelled rod's cross-section area at every height.
        taper_ratio: length of the tapered end over the outer diameter; 0 for a blunt end.
        sensor_depth_mm: distance of the temperature sensor behind the distal end, on the axis, mm.
        metal_thermal_conductivity: W/(m·K).
        metal_heat_capacity: by volume, J/(m3·K).
        insulation_resistance: thermal resistance of the sleeve by area, m2·K/W.
    """

    outer_diameter_mm: float
    tip_mm: float
    tip_shape: TipShape
    taper_ratio: float
    sensor_depth_mm: float
    metal_thermal_conductivity: float
    metal_heat_capacity: float
    insulation_resistance: float


@dataclass(frozen=True, kw_only=True)
class Tissue:
    """A homogeneous tissue.

    Attributes:
        conductivity: electrical, at the reference temperature, S/m.
        conductivity_slope: relative change for each kelvin, 1/K.
        reference_temperature_c: where `conductivity` holds, °C.
        conductivity_ceiling_c: temperature above which conductivity stays as it is, °C.
        thermal_conductivity: W/(m·K).
        heat_capacity: by volume, J/(m3·K).
        perfusion_per_s: blood by volume of tissue, 1/s; the blood arrives at start temperature.
        blood_heat_capacity: by volume, J/(m3·K).
    """

    conductivity: float
    conductivity_slope: float
    reference_temperature_c: float
    conductivity_ceiling_c: float
    thermal_conductivity: float
    heat_capacity: float
    perfusion_per_s: float
    blood_heat_capacity: float


@dataclass(frozen=True, kw_only=True)
class Damage:
    """A first-order damage law, rate = frequency_factor exp(-activation_energy / (R T)).

    Attributes:
        frequency_factor: 1/s.
        activation_energy: J/mol.
    """

    frequency_factor: float
    activation_energy: float


@dataclass(frozen=True, kw_only=True)
class Case:
    """One lesion to compute.

    Attributes:
        electrode: what stands in the tissue.
        tissue: what surrounds it, everywhere.
        damage: the damage law.
        set_temperature_c: what the sensor is held at, °C.
        time_s: heating time, counted from when the sensor reaches the set temperature, s.
        ramp_s: time from switching on to the set temperature, s.
        start_temperature_c: of tissue, metal and arriving blood, °C.
        criterion: what bounds the lesion, one of `CRITERIA`.
    """

    electrode: Electrode
    tissue: Tissue
    damage: Damage
    set_temperature_c: float
    time_s: float
    ramp_s: float = 10.0
    start_temperature_c: float = 37.0
    criterion: str = "isotherm 50"


@dataclass(frozen=True, kw_only=True)
class Numerics:
    """How finely a lesion is computed; the defaults keep the width within 0.3 %.

    Attributes:
        spacing_mm: mesh spacing at the metal, the tip's end and edge, and the insulation's edge.
        growth: relative growth of the spacing with distance from those places.
        domain_mm: distance of the outer wall from the metal.
        metal_layers: elements between the surface of the metal and its axis.
        step_s: longest time step.
        voltage_share: the potential is renewed when this share of the heating time has passed,
            but at least every `voltage_most_s`, and not before `voltage_least_s`.
        voltage_least_s: see above.
        voltage_most_s: see above.
        tolerance: relative residual at which the potential has converged.
        iterations: most iterations for the potential before giving up.
        frame_s: interval between frames.
    """

    spacing_mm: float = 0.06
    growth: float = 0.15
    domain_mm: float = 45.0
    metal_layers: int = 2
    step_s: float = 2.5
    voltage_share: float = 0.25
    voltage_least_s: float = 1.0
    voltage_most_s: float = 5.0
    tolerance: float = 1e-7
    iterations: int = 60
    frame_s: float = 10.0
