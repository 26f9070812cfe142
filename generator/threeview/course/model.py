"""Models of the course: what an author writes in `content/`."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from threeview.evidence.model import Day, Frozen, Id, Whole

__all__ = [
    "CourseMeta",
    "FigureSpec",
    "Module",
    "Objective",
    "PlainPage",
    "Release",
    "Section",
    "Term",
]


class Objective(Frozen):
    """What a learner can do after a module; items and progress refer to it."""

    id: Id
    text: str


class Section(Frozen):
    """One idea of a module; `text` is Markdown with the course's text functions."""

    id: Id
    title: str
    text: str


class FigureSpec(Frozen):
    """A figure to compute: `kind` names the drawing, `parameters` are its question's."""

    id: Id
    kind: Id
    caption: str
    parameters: dict[str, str | tuple[str, ...]] = Field(default_factory=dict)


class Module(Frozen):
    """A module: one question, its objectives, its sections."""

    id: Id
    title: str
    question: str
    values_checked: Day
    objectives: tuple[Objective, ...] = Field(min_length=1)
    cautions: tuple[Id, ...] = ()
    key_values: tuple[Id, ...] = ()
    figures: tuple[FigureSpec, ...] = ()
    sections: tuple[Section, ...] = Field(min_length=1)


class CourseMeta(Frozen):
    """The course as a whole (`content/course.yaml`)."""

    id: Id
    title: str
    subject: str
    lead: str
    audience: str
    edition: Day
    modules: tuple[Id, ...] = Field(min_length=1)
    pages: tuple[Id, ...] = ()
    weak_below_percent: Annotated[Whole, Field(ge=1, le=100)]


class Term(Frozen):
    """A glossary entry."""

    id: Id
    term: str
    plural: str | None = None
    definition: str
    see: tuple[Id, ...] = ()


class PlainPage(Frozen):
    """A page of `content/pages/*.md`: front matter, then Markdown with the text functions."""

    id: Id
    title: str
    cautions: tuple[Id, ...] = ()
    text: str = ""


class Release(Frozen):
    """One closed edition: digests of what was released, by `kind/id`."""

    date: Day
    digests: dict[str, str]
