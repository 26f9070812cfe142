"""Runs all rules over a course and counts what a reader should know about it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from threeview.course.check.keys import check_item
from threeview.course.check.prose import check_text, known_names
from threeview.course.check.questions import check_questions
from threeview.course.check.references import (
    check_cautions,
    check_ledger,
    check_modules,
    check_sources,
    usage,
)
from threeview.course.check.texts import course_texts
from threeview.course.editions import check_editions

if TYPE_CHECKING:
    from collections.abc import Mapping

    from threeview.computed import Answers
    from threeview.course.course import Course
    from threeview.errors import Problem

__all__ = ["CheckReport", "check_course"]


@dataclass(frozen=True)
class CheckReport:
    """What `check_course` found.

    Attributes:
        problems: sorted by place; empty for a sound course.
        counts: what the course holds (values, items, escapes, ...), for the reader.
        used: for each ledger value, the pages and items that use it.
    """

    problems: tuple[Problem, ...]
    counts: Mapping[str, int]
    used: Mapping[str, tuple[str, ...]]


def check_course(course: Course, answers: Answers) -> CheckReport:
    """Check a loaded course against itself.

    Args:
        course: as loaded.
        answers: the computed room, for keys and figures that rest on computed values.
    """
    texts = tuple(course_texts(course))
    names = known_names(course)
    found: list[Problem] = []
    for text in texts:
        found += check_text(text, course, names)
    for bank, item in course.items():
        found += check_item(bank, item, course, answers)
    found += check_modules(course)
    found += check_ledger(course)
    found += check_sources(course, texts)
    found += check_cautions(course, texts)
    found += check_questions(course, texts, answers)
    found += check_editions(course)
    escapes = sum(1 for text in texts for _ in text.prose.calls("plain"))
    return CheckReport(tuple(sorted(set(found))), _counts(course, escapes), usage(course, texts))


def _counts(course: Course, escapes: int) -> dict[str, int]:
    items = [item for _, item in course.items()]
    values = course.ledger.values.values()
    return {
        "modules": len(course.modules),
        "items": len(items),
        "critical items": sum(item.critical for item in items),
        "argued keys": sum(item.evidence.kind == "argued" for item in items),
        "reference values": len(values),
        "common practice": sum(value.basis == "common practice" for value in values),
        "from memory": sum(value.basis == "from memory" for value in values),
        "sources": len(course.ledger.sources),
        "figures": sum(len(module.figures) for module in course.modules),
        "plain quantities": escapes,
    }
