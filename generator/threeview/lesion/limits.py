"""The settings the model is checked for, and the complaint about every one outside.

These ranges guard the computation; what a course offers its readers is narrower and stands with
its sources in the course's tables.
"""

from __future__ import annotations

from dataclasses import dataclass
from numbers import Real
from typing import TYPE_CHECKING

from threeview.errors import SettingError, nearest
from threeview.lesion.case import CRITERIA

if TYPE_CHECKING:
    from collections.abc import Iterator

    from threeview.lesion.case import Case, Electrode, Numerics, Tissue

__all__ = ["check", "check_field"]

_SHAPES = ("blunt", "cone", "bevel")


@dataclass(frozen=True)
class _Range:
    """Legal range of one attribute, in the words and unit its user knows."""

    attribute: str
    words: str
    low: float
    high: float
    unit: str

    def fault(self, owner: object) -> str | None:
        value = getattr(owner, self.attribute)
        legal = f"expected {self.low:g} to {self.high:g} {self.unit}".rstrip()
        if isinstance(value, bool) or not isinstance(value, Real):
            return f"{self.words} is {value!r}, not a number; {legal}"
        if self.low <= float(value) <= self.high:
            return None
        return f"{self.words} is {value:g} {self.unit}".rstrip() + f"; {legal}"


_CASE = (
    _Range("set_temperature_c", "set temperature", 45, 95, "°C"),
    _Range("time_s", "time", 5, 600, "s"),
    _Range("ramp_s", "ramp", 1, 60, "s"),
    _Range("start_temperature_c", "start temperature", 15, 40, "°C"),
)
_ELECTRODE = (
    _Range("outer_diameter_mm", "outer diameter", 0.6, 1.9, "mm"),
    _Range("tip_mm", "active tip", 4, 15, "mm"),
    _Range("taper_ratio", "taper ratio", 0, 3, ""),
    _Range("sensor_depth_mm", "sensor depth", 0.1, 4, "mm"),
    _Range("metal_thermal_conductivity", "thermal conductivity of the metal", 1, 500, "W/(m·K)"),
    _Range("metal_heat_capacity", "heat capacity of the metal", 1e6, 6e6, "J/(m3·K)"),
    _Range("insulation_resistance", "thermal resistance of the insulation", 1e-6, 1, "m2·K/W"),
)
_TISSUE = (
    _Range("conductivity", "conductivity", 0.005, 5, "S/m"),
    _Range("conductivity_slope", "conductivity slope", 0, 0.03, "1/K"),
    _Range("reference_temperature_c", "reference temperature", 0, 50, "°C"),
    _Range("conductivity_ceiling_c", "conductivity ceiling", 60, 150, "°C"),
    _Range("thermal_conductivity", "thermal conductivity", 0.1, 1, "W/(m·K)"),
    _Range("heat_capacity", "heat capacity", 1e6, 5e6, "J/(m3·K)"),
    _Range("perfusion_per_s", "perfusion", 0, 0.01, "1/s"),
    _Range("blood_heat_capacity", "heat capacity of blood", 3e6, 4.5e6, "J/(m3·K)"),
)
_DAMAGE = (
    _Range("frequency_factor", "frequency factor", 1e10, 1e120, "1/s"),
    _Range("activation_energy", "activation energy", 5e4, 1e6, "J/mol"),
)
_NUMERICS = (
    _Range("spacing_mm", "mesh spacing", 0.005, 0.3, "mm"),
    _Range("growth", "mesh growth", 0.02, 0.4, ""),
    _Range("domain_mm", "distance of the outer wall", 25, 150, "mm"),
    _Range("metal_layers", "layers of metal", 1, 16, ""),
    _Range("step_s", "time step", 0.01, 5, "s"),
    _Range("voltage_share", "share of time between potentials", 0, 0.5, ""),
    _Range("voltage_least_s", "shortest interval between potentials", 0, 10, "s"),
    _Range("voltage_most_s", "longest interval between potentials", 0, 10, "s"),
    _Range("tolerance", "tolerance of the potential", 1e-12, 1e-4, ""),
    _Range("iterations", "iterations of the potential", 1, 10000, ""),
    _Range("frame_s", "interval between frames", 1, 600, "s"),
)


def check(case: Case, numerics: Numerics) -> None:
    """Refuse a case that the model is not checked for.

    Raises:
        SettingError: names every fault and what is legal.
    """
    faults = [
        *_outside(case, _CASE),
        *_electrode(case.electrode),
        *_outside(case.tissue, _TISSUE),
        *_outside(case.damage, _DAMAGE),
        *_outside(numerics, _NUMERICS),
        *_word("criterion", case.criterion, CRITERIA),
    ]
    if faults:
        raise SettingError(faults)


def check_field(
    electrode: Electrode, tissue: Tissue, temperature_c: float, numerics: Numerics
) -> None:
    """Refuse an electrode or tissue that the model is not checked for; see `check`."""
    faults = [
        *_electrode(electrode),
        *_outside(tissue, _TISSUE),
        *_outside(numerics, _NUMERICS),
    ]
    if not 0 <= temperature_c <= 100:  # noqa: PLR2004 -- liquid water
        faults.append(f"temperature is {temperature_c:g} °C; expected 0 to 100 °C")
    if faults:
        raise SettingError(faults)


def _outside(owner: object, ranges: tuple[_Range, ...]) -> Iterator[str]:
    yield from filter(None, (r.fault(owner) for r in ranges))


def _electrode(electrode: Electrode) -> Iterator[str]:
    faults = [*_outside(electrode, _ELECTRODE), *_word("tip shape", electrode.tip_shape, _SHAPES)]
    yield from faults
    if faults:
        return  # lengths that are wrong themselves cannot be compared
    taper = electrode.taper_ratio * electrode.outer_diameter_mm
    if electrode.tip_shape == "blunt" and taper:
        yield f"taper ratio is {electrode.taper_ratio:g} on a blunt tip; expected 0"
    if electrode.tip_shape != "blunt" and not taper:
        yield f"taper ratio is 0 on a {electrode.tip_shape} tip; expected more, up to 3"
    if taper > 0.9 * electrode.tip_mm:
        yield (
            f"the tapered end is {taper:g} mm long; expected at most nine tenths of the active "
            f"tip, {0.9 * electrode.tip_mm:g} mm"
        )
    if electrode.sensor_depth_mm > electrode.tip_mm:
        yield (
            f"sensor depth is {electrode.sensor_depth_mm:g} mm; expected at most the active tip, "
            f"{electrode.tip_mm:g} mm"
        )


def _word(words: str, value: str, legal: tuple[str, ...]) -> Iterator[str]:
    if value not in legal:
        close = nearest(str(value), legal)
        hint = f" (did you mean '{close}'?)" if close else ""
        yield f"{words} is '{value}'; expected one of {', '.join(legal)}{hint}"
