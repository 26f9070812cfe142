"""The questions that texts, figures and quiz keys may ask, by name."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from threeview.computed.settings import read_setting

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from threeview.computed.answers import Answers

__all__ = ["QUESTIONS", "Question", "split_pair"]


@dataclass(frozen=True)
class Question:
    """A question the engine can answer.

    Attributes:
        words: what is asked, as a reader says it.
        unit: unit of the answer, a symbol of `threeview.units`.
        decimals: the answer is rounded once to this many decimals, half up.
        parameters: legal parameters.
        find: computes the number in `unit`, and the conditions in words.
    """

    words: str
    unit: str
    decimals: int
    find: Callable[[Answers, Mapping[str, str]], tuple[float, str]]


def _dimension(field: str) -> Callable[[Answers, Mapping[str, str]], tuple[float, str]]:
    def find(answers: Answers, parameters: Mapping[str, str]) -> tuple[float, str]:
        lesion = answers.lesion(parameters)
        return float(lesion[field]), lesion["words"]

    return find


def split_pair(parameters: Mapping[str, str]) -> tuple[dict[str, str], dict[str, str]]:
    """Split off `to_set=90` and its like: the case to start from, and the one to go to."""
    first = {k: v for k, v in parameters.items() if not k.startswith("to_")}
    changes = {k.removeprefix("to_"): v for k, v in parameters.items() if k.startswith("to_")}
    return first, {**first, **changes}


def _widths(answers: Answers, parameters: Mapping[str, str]) -> tuple[float, float, str]:
    """Return the two widths of a pair, mm, and what sets the cases apart."""
    cases = split_pair(parameters)
    before, after = (float(answers.lesion(case)["width_mm"]) for case in cases)
    first, second = (read_setting(case, answers.bench) for case in cases)
    return before, after, first.against(second)


def _gain(answers: Answers, parameters: Mapping[str, str]) -> tuple[float, str]:
    before, after, words = _widths(answers, parameters)
    return (after / before - 1) * 100, words


def _difference(answers: Answers, parameters: Mapping[str, str]) -> tuple[float, str]:
    before, after, words = _widths(answers, parameters)
    return after - before, words


def _excess(answers: Answers, parameters: Mapping[str, str]) -> tuple[float, str]:
    lesion = answers.lesion(parameters)
    return lesion["length_mm"] - lesion["tip_mm"], lesion["words"]


def _damage_time(answers: Answers, parameters: Mapping[str, str]) -> tuple[float, str]:
    return answers.damage_time(parameters)


def _field(answers: Answers, parameters: Mapping[str, str]) -> tuple[float, str]:
    return answers.field(parameters)


QUESTIONS: dict[str, Question] = {
    "lesion-width": Question("width of the lesion", "mm", 1, _dimension("width_mm")),
    "lesion-length": Question("length of the lesion", "mm", 1, _dimension("length_mm")),
    "lesion-distal": Question("reach beyond the tip", "mm", 1, _dimension("distal_mm")),
    "lesion-proximal": Question(
        "reach up the shaft behind the tip", "mm", 1, _dimension("proximal_mm")
    ),
    "lesion-volume": Question("volume of the lesion", "mm3", 0, _dimension("volume_mm3")),
    "peak-tissue": Question("hottest tissue", "°C", 1, _dimension("peak_tissue_c")),
    "width-gain": Question("gain in width", "%", 0, _gain),
    "width-difference": Question("gain in width", "mm", 1, _difference),
    "length-excess": Question("length beyond that of the bare tip", "mm", 1, _excess),
    "damage-time": Question("time to the damage threshold", "s", 1, _damage_time),
    "stimulation-field": Question("electric field for one milliampere", "V/m", 1, _field),
}
