"""Electrodes and tissues as the engine needs them: properties with a basis, and legal ranges.

An electrode of a class is its parameters, so it is named by them (`conventional-18g-10mm`); there
is no list of models.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Annotated, TypeVar

from pydantic import Field, field_validator

from threeview.evidence.model import Basis, Frozen, Id, Number, Unit, Whole

if TYPE_CHECKING:
    from decimal import Decimal

__all__ = ["Bench", "ConventionalSize", "DamageSet", "Electrodes", "Property", "Tissue", "Tissues"]

_Entry = TypeVar("_Entry")
_ELECTRODE_LIMITS = ("gauge", "tip_length", "set_temperature", "time", "ramp", "start_temperature")
_TISSUE_LIMITS = ("perfusion",)
_PARTS = (
    "metal_thermal_conductivity",
    "metal_heat_capacity",
    "insulation_resistance",
    "sensor_depth",
)
_CONVENTIONAL = re.compile(r"conventional-(\d+)g-(\d+(?:\.\d+)?)mm(?:-(\w+))?")


class Property(Frozen):
    """One property: its value, what it rests on, and the range the course may vary it over."""

    value: Number
    unit: Unit
    basis: Basis
    read_as: str | None = None
    source: str
    range: tuple[Number, Number]


class Limit(Frozen):
    """A legal range, both ends included."""

    low: Number
    high: Number
    unit: Unit


class Gauge(Frozen):
    """Outer diameter of one needle gauge."""

    gauge: Whole
    outer_diameter: Property


class TipShape(Frozen):
    """A tip shape: how long its tapered end is, over the outer diameter."""

    id: Id
    words: str
    taper_ratio: Property


def _complete(found: dict[str, _Entry], wanted: tuple[str, ...]) -> dict[str, _Entry]:
    """Refuse a table that lacks an entry the engine asks for, or has one it would never read."""
    if set(found) != set(wanted):
        raise ValueError(f"exactly these fields: {', '.join(wanted)}")
    return found


class Electrodes(Frozen):
    """`electrodes.yaml`: limits, gauges, parts and tip shapes of conventional electrodes."""

    limits: dict[str, Limit]
    gauges: tuple[Gauge, ...]
    parts: dict[str, Property]
    tip_shapes: tuple[TipShape, ...]

    @field_validator("limits")
    @classmethod
    def _all_limits(cls, found: dict[str, Limit]) -> dict[str, Limit]:
        return _complete(found, _ELECTRODE_LIMITS)

    @field_validator("parts")
    @classmethod
    def _all_parts(cls, found: dict[str, Property]) -> dict[str, Property]:
        return _complete(found, _PARTS)


class Tissue(Frozen):
    """A homogeneous medium at rest."""

    id: Id
    words: str
    conductivity: Property
    reference_temperature: Property
    conductivity_slope: Property
    conductivity_ceiling: Property
    thermal_conductivity: Property
    heat_capacity: Property
    perfusion: Property
    blood_heat_capacity: Property


class DamageSet(Frozen):
    """Constants of a first-order damage process."""

    id: Id
    words: str
    frequency_factor: Property
    activation_energy: Property
    note: str | None = None


class Tissues(Frozen):
    """`tissues.yaml`: media, limits and damage constants."""

    limits: dict[str, Limit]
    tissues: Annotated[tuple[Tissue, ...], Field(min_length=1)]
    damage: Annotated[tuple[DamageSet, ...], Field(min_length=1)]

    @field_validator("limits")
    @classmethod
    def _all_limits(cls, found: dict[str, Limit]) -> dict[str, Limit]:
        return _complete(found, _TISSUE_LIMITS)


class ConventionalSize(Frozen):
    """The parameters in the name of a conventional electrode."""

    gauge: int
    tip_length: Number
    tip_shape: str

    @property
    def words(self) -> str:
        """Return the electrode as a reader says it: '18 G, 10 mm tip'."""
        return f"{self.gauge}\u00a0G, {self.tip_length}\u00a0mm tip"


class Bench(Frozen):
    """Everything of the ledger that the lesion engine is given."""

    electrodes: Electrodes
    tissues: Tissues

    def tissue(self, name: str) -> Tissue | None:
        """Return a tissue by id, or None."""
        return next((tissue for tissue in self.tissues.tissues if tissue.id == name), None)

    def conventional(self, name: str) -> ConventionalSize | None:
        """Return the parameters that an electrode's name spells, or None if it spells none."""
        match = _CONVENTIONAL.fullmatch(name)
        if not match:
            return None
        gauge, tip, shape = match.groups()
        return ConventionalSize(gauge=int(gauge), tip_length=tip, tip_shape=shape or "cone")

    def limit(self, name: str) -> tuple[Decimal, Decimal, str]:
        """Return low, high and unit of the legal range of a setting."""
        limits = {**self.electrodes.limits, **self.tissues.limits}
        found = limits[name]
        return found.low, found.high, found.unit
