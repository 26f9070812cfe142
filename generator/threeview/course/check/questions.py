"""Rules for computed values: every question in a text or a figure can be answered as it stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from threeview.computed import FIGURE_DATA, QUESTIONS
from threeview.errors import SettingError, nearest

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from threeview.computed import Answers
    from threeview.course.check.texts import Text
    from threeview.course.course import Course
    from threeview.course.model import FigureSpec
    from threeview.course.origin import Origin
    from threeview.course.yamlfile import Step
    from threeview.errors import Problem

__all__ = ["check_questions"]


def check_questions(course: Course, texts: Sequence[Text], answers: Answers) -> Iterator[Problem]:
    """Yield computed questions with impossible parameters, and figures that nobody can draw."""
    for text in texts:
        for call in text.prose.calls("computed"):
            if call.arguments[0] not in QUESTIONS:
                continue  # reported as unknown
            for fault in answers.faults(call.arguments[0], call.parameters):
                yield text.problem(fault, "expected a legal question", call.line)
    for module in course.modules:
        own = [text for text in texts if text.used_by == module.id]
        shown = {call.arguments[0] for text in own for call in text.prose.calls("figure")}
        for index, figure in enumerate(module.figures):
            place = course.origin("module", module.id), ("figures", index)
            yield from _figure(figure, place, shown, answers, course)


def _figure(
    figure: FigureSpec,
    place: tuple[Origin, tuple[Step, ...]],
    shown: set[str],
    answers: Answers,
    course: Course,
) -> Iterator[Problem]:
    origin, path = place
    if figure.kind not in FIGURE_DATA:
        found = f"the unknown figure kind '{figure.kind}'"
        expected = f"expected one of: {', '.join(FIGURE_DATA)}"
        yield origin.problem((*path, "kind"), found, expected, nearest(figure.kind, FIGURE_DATA))
        return
    if figure.id not in shown:
        found = f"figure '{figure.id}' is shown nowhere"
        expected = f'expected {{{{ figure("{figure.id}") }}}} in a section'
        yield origin.problem((*path, "id"), found, expected)
    try:
        FIGURE_DATA[figure.kind](answers, figure.parameters, course.ledger)
    except SettingError as error:
        for fault in error.faults:
            yield origin.problem((*path, "parameters"), fault, "expected a legal figure")
