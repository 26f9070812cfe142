"""Data of the stimulation figure: the field of 1 mA by distance from the metal."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from threeview.computed.figure_data.parameters import Parameters
from threeview.computed.profile import distance_of, field_at
from threeview.computed.settings import read_size

if TYPE_CHECKING:
    from collections.abc import Mapping

    from threeview.computed.answers import Answers
    from threeview.evidence import Ledger

__all__ = ["FieldCurve", "StimulationField", "stimulation_field"]

_BESIDE_MM = "3"  # near enough to matter, far enough to be off the metal
_DIRECTIONS = {"side": "to the side", "ahead": "ahead"}


@dataclass(frozen=True)
class FieldCurve:
    """The field of one electrode in one direction.

    Attributes:
        electrode: in words.
        direction: 'side' of the middle of the bare tip, or 'ahead' of its end.
        words: the direction as a reader says it.
        distances: from the metal, mm.
        fields: for 1 mA, V/m.
        same: distance where the field equals the figure's `level`, mm; None outside the table.
    """

    electrode: str
    direction: str
    words: str
    distances: tuple[float, ...]
    fields: tuple[float, ...]
    same: float | None


@dataclass(frozen=True)
class StimulationField:
    """The fields of one to three electrodes.

    Attributes:
        curves: both directions of each electrode, in the order asked for.
        distance: beside the first electrode, mm; the author's choice.
        level: the field there, V/m.
        medium: in words.
    """

    curves: tuple[FieldCurve, ...]
    distance: float
    level: float
    medium: str


def stimulation_field(
    answers: Answers, given: Mapping[str, str | tuple[str, ...]], _ledger: Ledger
) -> StimulationField:
    """Return the fields of a 1 mA current by distance, and where they are alike.

    Args:
        answers: computes the fields.
        given: `electrodes` (one to three names); optional `distance` beside the first of them, mm
            (3 if left out), at whose field all curves are compared.

    Raises:
        SettingError: with every fault.
    """
    parameters = Parameters(given, ("electrodes", "distance"))
    names = parameters.several("electrodes", 1, 3)
    distance = parameters.number("distance", _BESIDE_MM, 1, 10) or 0.0
    for name in names:
        read_size(name, answers.bench, parameters.faults)
    parameters.finish()
    profiles = [answers.stimulation({"electrode": name}) for name in names]
    first = profiles[0]["side"]
    level = field_at(first["distance_mm"], first["field_v_per_m"], distance)
    return StimulationField(
        curves=tuple(
            _curve(profile, direction, level) for profile in profiles for direction in _DIRECTIONS
        ),
        distance=distance,
        level=level,
        medium=profiles[0]["medium"],
    )


def _curve(profile: Mapping[str, Any], direction: str, level: float) -> FieldCurve:
    line = profile[direction]
    distances, fields = tuple(line["distance_mm"]), tuple(line["field_v_per_m"])
    return FieldCurve(
        electrode=profile["size"],
        direction=direction,
        words=_DIRECTIONS[direction],
        distances=distances,
        fields=fields,
        same=distance_of(distances, fields, level),
    )
