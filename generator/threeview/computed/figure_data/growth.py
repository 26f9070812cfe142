"""Data of the growth figure: width and reach of a lesion against time."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from threeview.computed.figure_data.parameters import Parameters
from threeview.computed.picture import boundary_key
from threeview.computed.settings import LESION_PARAMETERS

if TYPE_CHECKING:
    from collections.abc import Mapping

    from threeview.computed.answers import Answers
    from threeview.evidence import Ledger

__all__ = ["Course", "Growth", "growth"]


@dataclass(frozen=True)
class Course:
    """A lesion's growth at one set temperature.

    Attributes:
        words: the set temperature.
        times: s from when the sensor reaches it.
        widths: mm at these times; 0 while nothing is inside the boundary.
        distals: reach beyond the tip, mm, likewise.
    """

    words: str
    times: tuple[float, ...]
    widths: tuple[float, ...]
    distals: tuple[float, ...]


@dataclass(frozen=True)
class Growth:
    """Growth of one electrode's lesion at several set temperatures.

    Attributes:
        electrode: in words.
        surroundings: medium and start temperature.
        edge: boundary that the sizes are of, in words.
        courses: coolest first.
    """

    electrode: str
    surroundings: str
    edge: str
    courses: tuple[Course, ...]


def growth(answers: Answers, given: Mapping[str, str | tuple[str, ...]], _ledger: Ledger) -> Growth:
    """Return the growth of a lesion at two to four set temperatures.

    Args:
        answers: computes the lesions.
        given: a lesion's setting with `sets` (°C) in place of `set`.

    Raises:
        SettingError: with every fault.
    """
    shared = tuple(name for name in LESION_PARAMETERS if name != "set")
    parameters = Parameters(given, (*shared, "sets"))
    sets = parameters.several("sets", 2, 4)
    setting = parameters.plain(shared)
    lesions = [parameters.lesion(answers, {**setting, "set": temperature}) for temperature in sets]
    parameters.finish()
    pairs = sorted(zip(sets, lesions, strict=True), key=lambda pair: float(pair[0]))
    edge = boundary_key(lesions[0]["criterion"])
    return Growth(
        electrode=lesions[0]["size"],
        surroundings=lesions[0]["surroundings"],
        edge="damage" if edge == "damage" else f"{edge}\u00a0°C",
        courses=tuple(
            _course(temperature, lesion["frames"], edge) for temperature, lesion in pairs
        ),
    )


def _course(temperature: str, frames: list[dict[str, Any]], edge: str) -> Course:
    sizes = [frame["extents"][edge] for frame in frames]
    return Course(
        words=f"{temperature}\u00a0°C",
        times=tuple(frame["time_s"] for frame in frames),
        widths=tuple(size["width_mm"] for size in sizes),
        distals=tuple(size["distal_mm"] for size in sizes),
    )
