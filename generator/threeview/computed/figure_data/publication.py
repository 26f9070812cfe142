"""Data of the check against a publication: what it measured beside what the model computes.

The settings are those of the publication (Pain Med 2014, its abstract) and cannot be chosen, so
nobody can pick flattering ones. Nothing in the model was fitted to it.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING

from threeview.computed.figure_data.parameters import Parameters
from threeview.computed.figure_data.published import Published, published

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from threeview.computed.answers import Answers
    from threeview.evidence import Ledger

__all__ = ["Check", "ModelAgainstPublication", "Point", "Start", "model_against_publication"]

STARTS = (22, 37)  # °C: a bench at room temperature, and body temperature; the source names neither
GAUGES = (22, 20, 18, 16)
TIPS = (5, 10, 15)  # mm, those of the source; one of 10 mm where it pools them
_TIP = 10
_EDGE = "50"  # °C, what the source's group takes as the edge
_MEDIUM = "ex-vivo-medium"
_TENTH = Decimal("0.1")
_ORDER = f"; each gauge with tips of {', '.join(map(str, TIPS))}\u00a0mm"


@dataclass(frozen=True)
class Point:
    """One computed number beside the published range.

    Attributes:
        words: which electrode.
        value: rounded once, half up, to a tenth; all comparing is done on this number.
        verdict: below, inside or above the published range.
    """

    words: str
    value: Decimal
    verdict: str


@dataclass(frozen=True)
class Start:
    """The points of one check from one start temperature, °C."""

    temperature: int
    points: tuple[Point, ...]

    @property
    def outside(self) -> tuple[Point, ...]:
        """Return the points that disagree."""
        return tuple(point for point in self.points if point.verdict != "inside")


@dataclass(frozen=True)
class Check:
    """One published effect and the model's.

    Attributes:
        words: the effect, short.
        published: the ledger's value.
        unit: of all numbers.
        order: for several points of one gauge, what they are, in their order; else empty.
        starts: the model's numbers from each start temperature.
    """

    words: str
    published: Published
    unit: str
    order: str
    starts: tuple[Start, ...]

    @property
    def disagreements(self) -> int:
        """Return how many points lie outside the published range."""
        return sum(len(start.outside) for start in self.starts)


@dataclass(frozen=True)
class ModelAgainstPublication:
    """All checks, those with most disagreement first.

    Attributes:
        checks: every effect that the abstract states.
        medium: of the computed rows, in words.
        edge: boundary that the computed sizes are of, in words.
    """

    checks: tuple[Check, ...]
    medium: str
    edge: str


def model_against_publication(
    answers: Answers, given: Mapping[str, str | tuple[str, ...]], ledger: Ledger
) -> ModelAgainstPublication:
    """Return the model's numbers for every effect that the publication states.

    Args:
        answers: computes the lesions.
        given: must be empty.
        ledger: where the published effects stand.

    Raises:
        SettingError: parameters given, or a published effect missing from the ledger.
    """
    parameters = Parameters({}, ())
    parameters.faults += [
        f"parameter '{name}': this figure takes none; its settings are the publication's"
        for name in given
    ]
    values = {name: parameters.value(ledger, name, unit) for name, (_, unit, _) in _CHECKS.items()}
    parameters.finish()
    checks = [
        _check(answers, words, unit, published(value, ledger), numbers)
        for value, (words, unit, numbers) in zip(values.values(), _CHECKS.values(), strict=True)
        if value is not None
    ]
    checks.sort(key=_disagreement, reverse=True)
    tissue = answers.bench.tissue(_MEDIUM)
    return ModelAgainstPublication(
        checks=tuple(checks),
        medium=tissue.words if tissue else _MEDIUM,
        edge=f"{_EDGE}\u00a0°C",
    )


def _disagreement(check: Check) -> float:
    return check.disagreements / sum(len(start.points) for start in check.starts)


def _check(
    answers: Answers,
    words: str,
    unit: str,
    measured: Published,
    numbers: Callable[[Answers, int], Iterator[tuple[str, float]]],
) -> Check:
    starts = tuple(
        Start(
            start, tuple(_point(name, value, measured) for name, value in numbers(answers, start))
        )
        for start in STARTS
    )
    order = _ORDER if numbers is _excess else ""
    return Check(words, measured, unit, order, starts)


def _point(words: str, value: float, measured: Published) -> Point:
    number = Decimal(repr(value)).quantize(_TENTH, ROUND_HALF_UP)
    if measured.low is not None and number < Decimal(repr(measured.low)):
        return Point(words, number, "below")
    if measured.high is not None and number > Decimal(repr(measured.high)):
        return Point(words, number, "above")
    return Point(words, number, "inside")


def _extents(answers: Answers, start: int, gauge: int, **changes: int) -> dict[str, float]:
    """Return the sizes of the edge at one moment of a lesion; 80 °C for 120 s unless changed."""
    at = {"tip": _TIP, "set": 80, "time": 120, **changes}
    # The longest run holds the shorter times as frames.
    longest = 180 if (at["tip"], at["set"]) == (_TIP, 80) else at["time"]
    lesion = answers.lesion(
        {
            "electrode": f"conventional-{gauge}g-{at['tip']}mm",
            "set": str(at["set"]),
            "time": str(longest),
            "start": str(start),
            "tissue": _MEDIUM,
            "criterion": f"isotherm {_EDGE}",
        }
    )
    frame = next(frame for frame in lesion["frames"] if frame["time_s"] == at["time"])
    extents: dict[str, float] = frame["extents"][_EDGE]
    return extents


def _width(answers: Answers, start: int, gauge: int, **changes: int) -> float:
    return _extents(answers, start, gauge, **changes)["width_mm"]


def _temperature(answers: Answers, start: int) -> Iterator[tuple[str, float]]:
    for gauge in GAUGES:
        cool, hot = (_width(answers, start, gauge, set=at) for at in (60, 90))
        yield f"{gauge}\u00a0G", 100 * (hot / cool - 1)


def _minutes(minutes: int) -> Callable[[Answers, int], Iterator[tuple[str, float]]]:
    def numbers(answers: Answers, start: int) -> Iterator[tuple[str, float]]:
        for gauge in GAUGES:
            short, long = (_width(answers, start, gauge, time=60 * n) for n in (1, minutes))
            yield f"{gauge}\u00a0G", 100 * (long / short - 1)

    return numbers


def _excess(answers: Answers, start: int) -> Iterator[tuple[str, float]]:
    for gauge in GAUGES:
        for tip in TIPS:
            length = _extents(answers, start, gauge, tip=tip)["length_mm"]
            yield f"{gauge}\u00a0G, {tip}\u00a0mm tip", length - tip


def _gauge(*, share: bool) -> Callable[[Answers, int], Iterator[tuple[str, float]]]:
    def numbers(answers: Answers, start: int) -> Iterator[tuple[str, float]]:
        thin, thick = (_width(answers, start, gauge) for gauge in (GAUGES[0], GAUGES[-1]))
        change = 100 * (thick / thin - 1) if share else thick - thin
        yield f"{GAUGES[0]} to {GAUGES[-1]}\u00a0G", change

    return numbers


_CHECKS = {
    "temperature-effect-percent": ("Wider at 90 than at 60\u00a0°C", "%", _temperature),
    "time-effect-two-minutes": ("Wider after 2 than after 1\u00a0min", "%", _minutes(2)),
    "time-effect-three-minutes": ("Wider after 3 than after 1\u00a0min", "%", _minutes(3)),
    "lesion-length-overshoot": ("Longer than the bare tip", "mm", _excess),
    "gauge-effect-percent": ("Wider at 16 than at 22\u00a0G, in %", "%", _gauge(share=True)),
    "gauge-effect-mm": ("Wider at 16 than at 22\u00a0G, in mm", "mm", _gauge(share=False)),
}
