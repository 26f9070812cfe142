"""Scoring of quiz items: the twin of `site_assets/src/core/quiz.ts`.

Points are whole numbers out of `POSSIBLE`; a written number is compared as an exact fraction, so
nothing is ever rounded twice. Both languages run `tests/vectors/scoring.json`; the rules and their
reasons are in `docs/scoring.md`.
"""

from __future__ import annotations

import re
from fractions import Fraction
from math import floor
from typing import Annotated, Literal, Self

from pydantic import BaseModel, ConfigDict, Field, StrictBool, StrictInt, StrictStr, model_validator

__all__ = ["POSSIBLE", "NumericKey", "Response", "ScorableItem", "Score", "read_decimal", "score"]

POSSIBLE = 12
"""Points of every item; divisible by two, three and four keyed options."""

_SPACES = "[ \\t\u00a0\u2007\u2009\u202f]*"
_DECIMAL = re.compile(rf"{_SPACES}([-+\u2212]?)([0-9]{{1,9}})(?:[.,]([0-9]{{1,6}}))?{_SPACES}")
_EMPTY = re.compile(_SPACES)

PositiveInt = Annotated[StrictInt, Field(ge=1)]
Ratio = tuple[PositiveInt, PositiveInt]
Flag = Literal[
    "blank", "duplicate-option", "not-a-number", "too-many", "unknown-option", "unknown-unit"
]


class _Closed(BaseModel):
    """Frozen and closed: an unknown field is a mistake, not a wish."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class NumericKey(_Closed):
    """What counts as right for a number.

    Attributes:
        units: unit symbol to its ratio (numerator, denominator) to the key's unit.
        step: size of one step in the key's unit, as (numerator, denominator).
        low: smallest right count of steps.
        high: largest right count of steps.
    """

    units: dict[StrictStr, Ratio] = Field(min_length=1)
    step: Ratio
    low: StrictInt
    high: StrictInt

    @model_validator(mode="after")
    def _order(self) -> Self:
        if self.low > self.high:
            raise ValueError("low is not above high")
        return self


class ScorableItem(_Closed):
    """An item reduced to what scoring needs; the same JSON goes into the page.

    Attributes:
        id: `bank/item`, without the version.
        version: version of the item, from 1.
        type: one best answer, all that apply, or a number.
        objective: id of the objective it tests.
        critical: whether a wrong answer alone makes the objective weak.
        options: ids of the options; empty for a number.
        key: ids of the right options; empty for a number.
        numeric: what counts as right for a number, else None.
    """

    id: StrictStr
    version: PositiveInt
    type: Literal["single", "multiple", "numeric"]
    objective: StrictStr
    critical: StrictBool = False
    options: tuple[StrictStr, ...] = ()
    key: tuple[StrictStr, ...] = ()
    numeric: NumericKey | None = None

    @model_validator(mode="after")
    def _shape(self) -> Self:
        if self.type == "numeric":
            if self.numeric is None or self.options or self.key:
                raise ValueError("a numeric item has numeric and neither options nor key")
            return self
        repeated = len(set(self.options)) < len(self.options) or len(set(self.key)) < len(self.key)
        if self.numeric is not None or repeated or not set(self.key) <= set(self.options):
            raise ValueError("a choice item has options and a key among them, each once")
        if not self.key or (self.type == "single" and len(self.key) > 1):
            raise ValueError("one keyed option for single, one or more for multiple")
        return self

    @property
    def versioned(self) -> str:
        """The subject under which answers are recorded: `bank/item@version`."""
        return f"{self.id}@{self.version}"

    def as_json(self) -> dict[str, object]:
        """Return the JSON object that the browser scores with, without empty fields."""
        plain = self.model_dump(mode="json", exclude_none=True)
        return {name: value for name, value in plain.items() if value != []}


class Response(_Closed):
    """What a learner answered, kept raw.

    Attributes:
        choice: ids of the chosen options, in the order chosen.
        value: number as typed.
        unit: symbol of the unit chosen beside it.
    """

    choice: tuple[StrictStr, ...] | None = None
    value: StrictStr | None = None
    unit: StrictStr | None = None


class Score(_Closed):
    """Result of one response.

    Attributes:
        earned: points, 0 to `possible`.
        possible: always `POSSIBLE`.
        right: whether the answer is exactly right.
        flags: what was odd about the response, sorted.
    """

    earned: int
    possible: int
    right: bool
    flags: tuple[Flag, ...]


def score(item: ScorableItem, response: Response) -> Score:
    """Score one response; nothing a learner can write makes it raise."""
    if item.numeric is not None:
        return _score_number(item.numeric, response.value or "", response.unit or "")
    return _score_choice(item, response.choice or ())


def read_decimal(text: str) -> Fraction | None:
    """Return the number in `text`, or None when it is not one as people write it.

    Spaces at the ends are dropped, no-break ones too. Then: an optional sign (+, - or U+2212), one
    to nine digits, and at most one point or comma followed by one to six digits.
    """
    match = _DECIMAL.fullmatch(text)
    if match is None:
        return None
    sign, whole, part = match.group(1), match.group(2), match.group(3) or ""
    size = Fraction(int(whole + part), 10 ** len(part))
    return size if sign in {"", "+"} else -size


def _score_choice(item: ScorableItem, choice: tuple[str, ...]) -> Score:
    picks, key = set(choice), set(item.key)
    flags: set[Flag] = set()
    if not picks:
        flags.add("blank")
    if len(picks) < len(choice):
        flags.add("duplicate-option")
    if item.type == "single" and len(picks) > 1:
        flags.add("too-many")
    if not picks <= set(item.options):
        flags.add("unknown-option")
    right = picks == key
    if item.type == "single":
        return _outcome(POSSIBLE if right else 0, flags, right=right)
    net = max(0, len(picks & key) - len(picks - key))
    return _outcome(POSSIBLE * net // len(key), flags, right=right)


def _score_number(numeric: NumericKey, value: str, unit: str) -> Score:
    if _EMPTY.fullmatch(value):
        return _outcome(0, {"blank"}, right=False)
    flags: set[Flag] = set()
    number = read_decimal(value)
    ratio = numeric.units.get(unit)
    if number is None:
        flags.add("not-a-number")
    if ratio is None:
        flags.add("unknown-unit")
    if number is None or ratio is None:
        return _outcome(0, flags, right=False)
    # A half step counts upward, as people round.
    count = floor(number * Fraction(*ratio) / Fraction(*numeric.step) + Fraction(1, 2))
    right = numeric.low <= count <= numeric.high
    return _outcome(POSSIBLE if right else 0, flags, right=right)


def _outcome(earned: int, flags: set[Flag], *, right: bool) -> Score:
    return Score(earned=earned, possible=POSSIBLE, right=right, flags=tuple(sorted(flags)))
