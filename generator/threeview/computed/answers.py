"""Answers to named questions, each lesion computed once."""

from __future__ import annotations

import dataclasses
import math
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING, Any

from threeview.computed.cache import Cache
from threeview.computed.profile import field_at
from threeview.computed.questions import QUESTIONS
from threeview.computed.settings import electrode, medium, read_setting, read_size
from threeview.errors import SettingError, nearest
from threeview.evidence import Quantity

if TYPE_CHECKING:
    from collections.abc import Mapping

    from threeview.evidence.bench import Bench

__all__ = ["Answer", "Answers"]


@dataclass(frozen=True)
class Answer:
    """A computed value as a reader meets it.

    Attributes:
        question: its name.
        parameters: as asked.
        quantity: rounded once, half up, to the question's decimals.
        words: the conditions it was computed under.
    """

    question: str
    parameters: Mapping[str, str]
    quantity: Quantity
    words: str


class Answers:
    """Answers questions for one course.

    Args:
        bench: the course's electrodes and tissues.
        cache: where lesions are kept; a fresh in-process one if left out.
    """

    def __init__(self, bench: Bench, cache: Cache | None = None) -> None:
        self.bench = bench
        self._cache = cache or Cache()

    def answer(self, question: str, parameters: Mapping[str, str]) -> Answer:
        """Return the answer to a question.

        Raises:
            SettingError: unknown question, or impossible parameters (every fault).
        """
        asked = QUESTIONS.get(question)
        if asked is None:
            close = nearest(question, QUESTIONS)
            hint = f" (did you mean '{close}'?)" if close else ""
            legal = ", ".join(QUESTIONS)
            raise SettingError([f"unknown question '{question}': expected one of {legal}{hint}"])
        number, words = asked.find(self, parameters)
        rounded = Decimal(repr(number)).quantize(Decimal(1).scaleb(-asked.decimals), ROUND_HALF_UP)
        return Answer(question, dict(parameters), Quantity(value=rounded, unit=asked.unit), words)

    def faults(self, question: str, parameters: Mapping[str, str]) -> tuple[str, ...]:
        """Return what is wrong with a question; empty if it has an answer."""
        try:
            self.answer(question, parameters)
        except SettingError as error:
            return error.faults
        return ()

    def lesion(self, parameters: Mapping[str, str]) -> dict[str, Any]:
        """Return a lesion with its frames, as JSON (lengths in mm, rounded to 0.001).

        Raises:
            SettingError: impossible parameters.
        """
        setting = read_setting(parameters, self.bench)
        case = setting.case(self.bench)

        def compute() -> dict[str, Any]:
            from threeview.computed.picture import picture
            from threeview.lesion import simulate

            return picture(simulate(case))

        found: dict[str, Any] = self._cache.get("lesion", dataclasses.asdict(case), compute)
        return {
            **found,
            "words": setting.words,
            "size": setting.size.words,
            "heating": setting.heating,
            "surroundings": setting.surroundings,
            "tip_mm": case.electrode.tip_mm,
        }

    def damage_time(self, parameters: Mapping[str, str]) -> tuple[float, str]:
        """Return the seconds after which a constant temperature reaches the damage threshold.

        t = exp(Ea / (R T)) / A, the first-order law of the ledger's damage constants.
        """
        from threeview.lesion import damage_time

        faults: list[str] = []
        law = self.bench.tissues.damage[0]
        if set(parameters) != {"temperature"}:
            faults.append("expected one parameter, temperature (°C)")
        try:
            celsius = float(parameters.get("temperature", "nan"))
        except ValueError:
            celsius = math.nan
        if not 40 <= celsius <= 100:  # noqa: PLR2004 - where the constants were measured
            faults.append("temperature: expected 40 to 100 °C")
        if faults:
            raise SettingError(faults)
        seconds = damage_time(
            celsius, float(law.frequency_factor.value), float(law.activation_energy.value)
        )
        return seconds, f"constant {celsius:g}\u00a0°C, {law.words}"

    def field(self, parameters: Mapping[str, str]) -> tuple[float, str]:
        """Return the field at a distance from the tip, V/m for 1 mA (see `stimulation`)."""
        faults: list[str] = []
        legal = {"electrode", "distance", "direction"}
        faults += [f"unknown parameter '{name}'" for name in parameters if name not in legal]
        try:
            distance = float(parameters.get("distance", "nan"))
        except ValueError:
            distance = math.nan
        if not 0.5 <= distance <= 20:  # noqa: PLR2004 - from just off the metal to a nerve root
            faults.append("distance: expected 0.5 to 20 mm")
        direction = parameters.get("direction", "side")
        if direction not in {"side", "ahead"}:
            faults.append(f"direction '{direction}': expected side or ahead")
        if faults:
            raise SettingError(faults)
        profile = self.stimulation(parameters)
        line = profile[direction]
        return field_at(line["distance_mm"], line["field_v_per_m"], distance), (
            f"{profile['words']}, {distance:g}\u00a0mm "
            f"{'to the side of the middle of the tip' if direction == 'side' else 'ahead of it'}"
        )

    def stimulation(self, parameters: Mapping[str, str]) -> dict[str, Any]:
        """Return the field of a 1 mA current to the side of an electrode's tip and ahead of it.

        Raises:
            SettingError: the electrode's name spells no legal size.
        """
        faults: list[str] = []
        name = parameters.get("electrode", "")
        size = read_size(name, self.bench, faults)
        if size is None:
            raise SettingError(faults)
        body = electrode(size, self.bench)
        resting = self.bench.tissues.tissues[0]
        tissue = medium(resting, resting.perfusion.value)

        def compute() -> dict[str, Any]:
            from threeview.computed.picture import field_picture

            return field_picture(body, tissue)

        inputs = {"electrode": dataclasses.asdict(body), "tissue": dataclasses.asdict(tissue)}
        found: dict[str, Any] = self._cache.get("field", inputs, compute)
        return {
            **found,
            "words": f"{size.words}, {resting.id} at rest",
            "size": size.words,
            "medium": resting.words,
        }
