"""How temperature and time change a lesion: the ratios in which lesion studies are reported.

Only computed numbers; what was published stands in the evidence ledger, and a page shows both.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING

from threeview.lesion.run import simulate

if TYPE_CHECKING:
    from threeview.lesion.case import Case, Numerics
    from threeview.lesion.results import LesionResult

__all__ = ["SettingEffects", "setting_effects"]


@dataclass(frozen=True, kw_only=True)
class SettingEffects:
    """What two settings change, by the case's criterion at the end of heating.

    Attributes:
        width_mm: of the case itself.
        length_excess_mm: length of the case's lesion less the active tip.
        temperature_percent: how much wider the lesion of the higher set temperature is.
        time_percent: how much wider each later time makes it than the first.
    """

    width_mm: float
    length_excess_mm: float
    temperature_percent: float
    time_percent: tuple[float, ...]


def setting_effects(
    case: Case,
    temperatures_c: tuple[float, float],
    times_s: tuple[float, ...],
    numerics: Numerics | None = None,
) -> SettingEffects:
    """Compute the effects of set temperature (at the case's time) and time (at its temperature).

    Raises:
        SettingError: a setting is outside what the model is checked for.
        ConvergenceError: a potential was not found to its tolerance.
    """

    @cache  # the case itself is usually one of the settings
    def run(one: Case) -> LesionResult:
        return simulate(one, numerics)

    lesion = run(case)
    low, high = (run(replace(case, set_temperature_c=t)).width_mm for t in temperatures_c)
    first, *later = (run(replace(case, time_s=t)).width_mm for t in times_s)
    return SettingEffects(
        width_mm=lesion.width_mm,
        length_excess_mm=lesion.length_mm - case.electrode.tip_mm,
        temperature_percent=_wider(low, high),
        time_percent=tuple(_wider(first, width) for width in later),
    )


def _wider(before: float, after: float) -> float:
    """Return the increase in percent; infinite when there was no lesion before."""
    return 100.0 * (after / before - 1.0) if before else float("inf")
