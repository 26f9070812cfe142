"""Models of the evidence ledger: what an author may write about a value, a source, a caution."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from typing import Annotated, Literal, Self

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, model_validator

from threeview.units import SYMBOLS

__all__ = [
    "Caution",
    "Day",
    "Flag",
    "Frozen",
    "Id",
    "Number",
    "Quantity",
    "ReferenceValue",
    "Source",
    "Unit",
    "Whole",
]

_WHOLE = re.compile(r"0|[1-9]\d*")
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
_NUMBER = re.compile(r"[+-]?(0|[1-9]\d*)(\.\d+)?([eE][+-]?\d+)?")


def _number(raw: object) -> object:
    """Accept a decimal number as the author wrote it; leave anything else to be refused."""
    if isinstance(raw, str) and not _NUMBER.fullmatch(raw):
        raise ValueError("a number such as 5, 0.5 or 1e3 (no leading zeros, no unit)")
    return raw


def _whole(raw: object) -> object:
    if isinstance(raw, str) and not _WHOLE.fullmatch(raw):
        raise ValueError("a whole number such as 3 (no leading zeros)")
    return raw


def _day(raw: object) -> object:
    if isinstance(raw, str) and not _DAY.fullmatch(raw):
        raise ValueError("a date such as 2026-11-25")
    return raw


def _flag(raw: object) -> object:
    """Accept only the two spellings of YAML 1.2; `no` and `on` are words, not switches."""
    if isinstance(raw, str):
        if raw not in {"true", "false"}:
            raise ValueError("true or false")
        return raw == "true"
    return raw


def _unit(raw: object) -> object:
    if isinstance(raw, str) and raw not in SYMBOLS:
        raise ValueError(f"one of the course's units: {', '.join(SYMBOLS)}")
    return raw


# Decimal keeps what the author wrote: 7.0 stays 7.0 on the page.
Number = Annotated[Decimal, BeforeValidator(_number)]
Whole = Annotated[int, BeforeValidator(_whole)]
Day = Annotated[date, BeforeValidator(_day)]
Flag = Annotated[bool, BeforeValidator(_flag)]
Unit = Annotated[str, BeforeValidator(_unit)]
Id = Annotated[str, Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$")]


class Frozen(BaseModel):
    """Base of all authored models: immutable, and no field it does not know."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class Quantity(Frozen):
    """A number or a range with its unit.

    Attributes:
        value: the point, or None when a range is given.
        low: lower end of the range, None when open.
        high: upper end of the range, None when open.
        unit: a symbol of `threeview.units`; None for a bare number.
    """

    value: Number | None = None
    low: Number | None = None
    high: Number | None = None
    unit: Unit | None = None

    @model_validator(mode="after")
    def _some_number(self) -> Self:
        if self.value is None and self.low is None and self.high is None:
            raise ValueError("a value, or low and high")
        if self.low is not None and self.high is not None and self.low > self.high:
            raise ValueError("low at most as large as high")
        return self

    @property
    def interval(self) -> tuple[Decimal | None, Decimal | None]:
        """Lower and upper end in `unit`; None where the range is open."""
        if self.low is None and self.high is None:
            return self.value, self.value
        return self.low, self.high


class Source(Frozen):
    """A published source as a CSL-JSON item; unknown authors are left out, never invented."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)

    id: Id
    type: Literal[
        "article-journal", "book", "chapter", "report", "standard", "webpage", "paper-conference"
    ]
    title: str
    author: tuple[dict[str, str], ...] = ()
    container_title: str | None = Field(None, alias="container-title")
    issued: dict[str, tuple[tuple[Whole, ...], ...]] | None = None
    volume: str | None = None
    issue: str | None = None
    page: str | None = None
    publisher: str | None = None
    edition: str | None = None
    genre: str | None = None
    number: str | None = None
    doi: str | None = Field(None, alias="DOI", pattern=r"^10\.\d{4,9}/\S+$")
    pmid: str | None = Field(None, alias="PMID", pattern=r"^\d+$")
    url: str | None = Field(None, alias="URL", pattern=r"^https?://\S+$")
    note: str | None = None

    @property
    def year(self) -> str:
        """Year of publication, or 'no date'."""
        parts = (self.issued or {}).get("date-parts", ())
        return str(parts[0][0]) if parts and parts[0] else "no date"

    @property
    def address(self) -> str | None:
        """Where the record stands: the DOI, else PubMed, else the official document's address."""
        if self.doi:
            return f"https://doi.org/{self.doi}"
        if self.pmid:
            return f"https://pubmed.ncbi.nlm.nih.gov/{self.pmid}/"
        return self.url


Basis = Literal["published", "common practice", "from memory"]


class ReferenceValue(Quantity):
    """One entry of the ledger: a quantity or a named result, with all it depends on.

    `category` holds a named result ("medium incidence") that quiz options can be matched with. The
    other attributes are described in docs of the authoring schema and in DEVELOPERS.md.
    """

    id: Id
    statement: str
    category: str | None = None
    n: Number | None = None
    N: Number | None = None
    comparator: Literal["at most", "at least", "below", "above", "about"] | None = None
    conditions: str | None = None
    population: str | None = None
    guideline: str | None = None
    sources: tuple[Id, ...] = ()
    basis: Basis
    read_as: Literal["abstract", "table", "excerpt", "full text"] | None = None
    grade: str | None = None
    funding: Literal["industry", "public", "none declared", "not stated"] | None = None
    conflicts_with: tuple[Id, ...] = ()
    as_of: Day
    note: str | None = None

    @model_validator(mode="after")
    def _some_number(self) -> Self:
        numbers = (self.value, self.low, self.high)
        if all(number is None for number in numbers) and self.category is None:
            raise ValueError("a value, low and high, or a category")
        if self.low is not None and self.high is not None and self.low > self.high:
            raise ValueError("low at most as large as high")
        return self

    @model_validator(mode="after")
    def _sourced(self) -> Self:
        if self.basis == "published" and not (self.sources and self.read_as):
            raise ValueError("sources and read_as (a published value says what was read)")
        if (self.n is None) != (self.N is None):
            raise ValueError("n and N together")
        return self

    @property
    def firm(self) -> bool:
        """Whether a critical item may rest on it: published, and more than one web excerpt."""
        return self.basis == "published" and self.read_as != "excerpt"


class Caution(Frozen):
    """A warning that stands where it applies: the harm, the moment, who decides."""

    id: Id
    kind: Literal["caution", "stop"]
    text: str
    values: tuple[Id, ...] = ()
    basis: str | None = None
