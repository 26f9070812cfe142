"""Parameters as authors and the command line write them, turned into a `lesion.Case`.

This is where the ledger's names and units meet the engine's: gauges become millimetres, a tissue's
name becomes its properties, and a setting outside the ledger's limits is refused.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING

from threeview.errors import SettingError, nearest
from threeview.evidence.show import show_number
from threeview.units import show_quantity

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from threeview.evidence.bench import Bench, ConventionalSize
    from threeview.evidence.bench import Tissue as LedgerTissue
    from threeview.lesion import Case, Electrode, Tissue

__all__ = ["LESION_PARAMETERS", "Setting", "electrode", "medium", "read_setting", "read_size"]

LESION_PARAMETERS = (
    "electrode",
    "set",
    "time",
    "tissue",
    "start",
    "perfusion",
    "ramp",
    "criterion",
)

_LIMITS = {
    "set": "set_temperature",
    "time": "time",
    "ramp": "ramp",
    "start": "start_temperature",
    "perfusion": "perfusion",
}
_DEFAULTS = {"tissue": "muscle", "start": "37", "ramp": "10", "criterion": "isotherm 50"}


@dataclass(frozen=True)
class Setting:
    """One lesion as a reader names it.

    Attributes:
        electrode: its parametric name.
        size: the parameters in that name.
        tissue: the medium.
        numbers: set and start temperature (°C), time and ramp (s), perfusion (1/s).
        criterion: what bounds the lesion.
    """

    electrode: str
    size: ConventionalSize
    tissue: LedgerTissue
    numbers: Mapping[str, Decimal]
    criterion: str

    @property
    def phrases(self) -> dict[str, str]:
        """Return what a reader needs of each parameter; empty where it goes without saying."""
        at = {name: show_number(number) for name, number in self.numbers.items()}
        blood = f"perfusion {at['perfusion']}\u00a0/s" if self.numbers["perfusion"] else ""
        if not blood and self.tissue.perfusion.value:
            blood = "no blood flow"
        edge = "edge where the damage integral is 1"
        if self.criterion != "damage":
            edge = f"edge at {self.criterion.removeprefix('isotherm ')}\u00a0°C"
        return {
            "size": self.size.words,
            "set": f"set {show_quantity(at['set'], '°C')}",
            "time": f"{show_quantity(at['time'], 's')} from set temperature",
            "ramp": "" if at["ramp"] == _DEFAULTS["ramp"] else f"ramp {at['ramp']}\u00a0s",
            "tissue": self.tissue.words,
            "perfusion": blood,
            "start": f"start {show_quantity(at['start'], '°C')}",
            "criterion": edge,
        }

    @property
    def words(self) -> str:
        """Return the setting in one phrase, for source notes and captions."""
        return ", ".join(filter(None, self.phrases.values()))

    def against(self, other: Setting) -> str:
        """Return this setting, and of the other only what differs."""
        changes = [
            theirs or "otherwise the same"
            for ours, theirs in zip(self.phrases.values(), other.phrases.values(), strict=True)
            if ours != theirs
        ]
        return f"{self.words}; against {', '.join(changes) or 'the same'}"

    @property
    def heating(self) -> str:
        """Return set temperature and time in a few words, for the foot line of a plate."""
        set_, time = (show_number(self.numbers[name]) for name in ("set", "time"))
        return f"{show_quantity(set_, '°C')} set, {show_quantity(time, 's')}"

    @property
    def surroundings(self) -> str:
        """Return medium and start temperature in a few words, likewise."""
        start = show_quantity(show_number(self.numbers["start"]), "°C")
        return f"{self.tissue.words}, start\u00a0{start}"

    def case(self, bench: Bench) -> Case:
        """Return the engine's case."""
        from threeview.lesion import Case, Damage

        law = bench.tissues.damage[0]
        return Case(
            electrode=electrode(self.size, bench),
            tissue=medium(self.tissue, self.numbers["perfusion"]),
            damage=Damage(
                frequency_factor=float(law.frequency_factor.value),
                activation_energy=float(law.activation_energy.value),
            ),
            set_temperature_c=float(self.numbers["set"]),
            time_s=float(self.numbers["time"]),
            ramp_s=float(self.numbers["ramp"]),
            start_temperature_c=float(self.numbers["start"]),
            criterion=self.criterion,
        )


def medium(tissue: LedgerTissue, perfusion: Decimal) -> Tissue:
    """Return the engine's tissue for one of the ledger's, perfused at `perfusion`, 1/s."""
    from threeview.lesion import Tissue

    return Tissue(
        conductivity=float(tissue.conductivity.value),
        conductivity_slope=float(tissue.conductivity_slope.value),
        reference_temperature_c=float(tissue.reference_temperature.value),
        conductivity_ceiling_c=float(tissue.conductivity_ceiling.value),
        thermal_conductivity=float(tissue.thermal_conductivity.value),
        heat_capacity=float(tissue.heat_capacity.value),
        perfusion_per_s=float(perfusion),
        blood_heat_capacity=float(tissue.blood_heat_capacity.value),
    )


def electrode(size: ConventionalSize, bench: Bench) -> Electrode:
    """Return the engine's electrode for a size that `read_setting` or `read_size` accepted."""
    from threeview.lesion import Electrode

    parts = bench.electrodes.parts
    gauge = next(g for g in bench.electrodes.gauges if g.gauge == size.gauge)
    shape = next(s for s in bench.electrodes.tip_shapes if s.id == size.tip_shape)
    return Electrode(
        outer_diameter_mm=float(gauge.outer_diameter.value),
        tip_mm=float(size.tip_length),
        tip_shape=shape.id,  # type: ignore[arg-type]  # the ledger's shapes are the engine's
        taper_ratio=float(shape.taper_ratio.value),
        sensor_depth_mm=float(parts["sensor_depth"].value),
        metal_thermal_conductivity=float(parts["metal_thermal_conductivity"].value),
        metal_heat_capacity=float(parts["metal_heat_capacity"].value),
        insulation_resistance=float(parts["insulation_resistance"].value),
    )


def read_size(name: str, bench: Bench, faults: list[str]) -> ConventionalSize | None:
    """Return the size that an electrode's name spells, adding what is wrong to `faults`."""
    size = bench.conventional(name)
    if size is None:
        faults.append(
            f"electrode '{name}': expected a name such as conventional-18g-10mm "
            "(class, gauge, length of the active tip)"
        )
        return None
    before = len(faults)
    gauges = [g.gauge for g in bench.electrodes.gauges]
    if size.gauge not in gauges:
        faults.append(f"gauge {size.gauge}: expected one of {', '.join(map(str, gauges))}")
    _within("tip length", Decimal(size.tip_length), bench.limit("tip_length"), faults)
    shapes = [shape.id for shape in bench.electrodes.tip_shapes]
    if size.tip_shape not in shapes:
        faults.append(f"tip '{size.tip_shape}': expected one of {', '.join(shapes)}")
    return size if len(faults) == before else None


def read_setting(parameters: Mapping[str, str], bench: Bench) -> Setting:
    """Return the setting that `parameters` describe.

    Args:
        parameters: `electrode`, `set` (°C), `time` (s); optional `tissue`, `start` (°C),
            `perfusion` (1/s), `ramp` (s), `criterion`.
        bench: electrodes, tissues and limits of the course.

    Raises:
        SettingError: with every fault.
    """
    faults: list[str] = []
    _names(parameters, LESION_PARAMETERS, ("electrode", "set", "time"), faults)
    given = {**_DEFAULTS, **parameters}
    size = read_size(given["electrode"], bench, faults) if "electrode" in given else None
    tissue = bench.tissue(given["tissue"])
    if tissue is None:
        names = [t.id for t in bench.tissues.tissues]
        faults.append(_unknown("tissue", given["tissue"], names))
    elif "perfusion" not in given:
        given["perfusion"] = str(tissue.perfusion.value)
    numbers = {
        name: number
        for name, limit in _LIMITS.items()
        if name in given
        and (number := _number(name, given[name], bench.limit(limit), faults)) is not None
    }
    criteria = _criteria()
    if given["criterion"] not in criteria:
        faults.append(_unknown("criterion", given["criterion"], criteria))
    if {"set", "start"} <= numbers.keys() and numbers["set"] <= numbers["start"]:
        faults.append(f"set {numbers['set']} °C: expected more than the start temperature")
    if faults or size is None or tissue is None:
        raise SettingError(faults)
    return Setting(given["electrode"], size, tissue, numbers, given["criterion"])


def _criteria() -> Collection[str]:
    from threeview.lesion.case import CRITERIA

    return tuple(CRITERIA)


def _names(
    parameters: Mapping[str, str],
    legal: Collection[str],
    wanted: Collection[str],
    faults: list[str],
) -> None:
    faults += [_unknown("parameter", name, legal) for name in parameters if name not in legal]
    faults.extend(
        f"no '{name}': expected it among the parameters"
        for name in wanted
        if name not in parameters
    )


def _unknown(kind: str, found: str, legal: Collection[str]) -> str:
    close = nearest(found, legal)
    hint = f" (did you mean '{close}'?)" if close else ""
    return f"unknown {kind} '{found}': expected one of {', '.join(legal)}{hint}"


def _number(
    name: str, text: str, limit: tuple[Decimal, Decimal, str], faults: list[str]
) -> Decimal | None:
    try:
        number = Decimal(text)
    except InvalidOperation:
        number = Decimal("NaN")
    if not number.is_finite():
        faults.append(f"{name} '{text}': expected a number in {limit[2]}")
        return None
    return number if _within(name, number, limit, faults) else None


def _within(
    name: str, number: Decimal, limit: tuple[Decimal, Decimal, str], faults: list[str]
) -> bool:
    low, high, unit = limit
    if low <= number <= high:
        return True
    faults.append(f"{name} {number} {unit}: expected {low} to {high} {unit}")
    return False
