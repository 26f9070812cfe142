"""Authored quiz items: what an author writes in `quizzes/*.yaml`."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from threeview.evidence.model import Day, Flag, Frozen, Id, Number, Quantity, Unit, Whole
from threeview.evidence.relation import Relation

__all__ = [
    "ArguedEvidence",
    "CategoryEvidence",
    "Evidence",
    "Item",
    "NumericAnswer",
    "Option",
    "QuantityEvidence",
]

OptionId = Annotated[str, Field(pattern=r"^[a-z]$")]


class Question(Frozen):
    """A named computed question with its parameters, kept as the author wrote them."""

    question: Id
    parameters: dict[str, str] = Field(default_factory=dict)

    @model_validator(mode="before")
    @classmethod
    def _gather(cls, raw: object) -> object:
        """Let authors write the parameters beside the question's name."""
        if isinstance(raw, dict) and "parameters" not in raw:
            rest = {key: text for key, text in raw.items() if key != "question"}
            return {"question": raw.get("question"), "parameters": rest}
        return raw


class QuantityEvidence(Frozen):
    """The key follows from a number: exactly the keyed options stand in `relation` to it."""

    kind: Literal["quantity"]
    reference: Id | None = None
    computed: Question | None = None
    relation: Relation = "within"
    tolerance: Number = Decimal(0)

    @model_validator(mode="after")
    def _one_reference(self) -> Self:
        if (self.reference is None) == (self.computed is None):
            raise ValueError("either reference or computed")
        return self


class CategoryEvidence(Frozen):
    """The key follows from a named result: exactly the keyed options carry its words."""

    kind: Literal["category"]
    reference: Id


class Review(Frozen):
    """Who looked at a judged key, and when."""

    by: str
    date: Day


class ArguedEvidence(Frozen):
    """The key is a judgement: it is reasoned, sourced and reviewed, and shown as such."""

    kind: Literal["argued"]
    references: tuple[Id, ...] = Field(min_length=1)
    review: Review


Evidence = Annotated[
    QuantityEvidence | CategoryEvidence | ArguedEvidence, Field(discriminator="kind")
]


class Option(Frozen):
    """One answer to choose; `quantity` or `category` ties it to the evidence."""

    id: OptionId
    text: str
    feedback: str
    quantity: Quantity | None = None
    category: str | None = None


class Accept(Frozen):
    """The numbers that count as right, both ends included, in the item's unit."""

    low: Number
    high: Number


class NumericAnswer(Frozen):
    """How a number is asked for.

    Attributes:
        unit: unit of the key.
        units: units offered to the learner; each converts to `unit`.
        step: the answer is rounded to a whole number of steps, half up.
        accept: right answers; None takes them from the evidence.
    """

    unit: Unit
    units: tuple[Unit, ...] = Field(min_length=1)
    step: Annotated[Number, Field(gt=0)]
    accept: Accept | None = None


class Item(Frozen):
    """One question, immutable under `id@version`."""

    id: Id
    version: Annotated[Whole, Field(ge=1)]
    type: Literal["single", "multiple", "numeric"]
    objective: Id
    level: Literal["recall", "application", "judgement"]
    critical: Flag = False
    stem: str
    options: tuple[Option, ...] = ()
    key: tuple[OptionId, ...] = ()
    numeric: NumericAnswer | None = None
    feedback_wrong: str | None = None
    rationale: str
    look_again: Id | None = None
    sources: tuple[Id, ...] = ()
    evidence: Evidence

    @model_validator(mode="after")
    def _shape(self) -> Self:
        if self.type == "numeric":
            if self.numeric is None or self.options or self.key or not self.feedback_wrong:
                raise ValueError("numeric and feedback_wrong, without options and key")
            return self
        return self._choice_shape()

    def _choice_shape(self) -> Self:
        ids = [option.id for option in self.options]
        if self.numeric is not None or not 2 <= len(ids) <= 6:  # noqa: PLR2004 - a phone's screen
            raise ValueError("two to six options, without numeric")
        if len(set(ids)) != len(ids):
            raise ValueError("each option id once")
        if not self.key or not set(self.key) <= set(ids) or len(set(self.key)) != len(self.key):
            raise ValueError(f"key among the options {', '.join(ids)}, each once")
        if self.type == "single" and len(self.key) != 1:
            raise ValueError("one key for a single best answer")
        return self

    @property
    def versioned(self) -> str:
        """The name under which answers are recorded, without its bank: `id@version`."""
        return f"{self.id}@{self.version}"
