"""How long a page takes: counted from its words, never guessed."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from threeview.course.prose import Piece, parse_prose

if TYPE_CHECKING:
    from threeview.course.model import Module

__all__ = ["module_minutes", "words_in"]

# Conventions of this course, chosen for technical prose on a phone.
_WORDS_A_MINUTE = 180
_MINUTES_A_FIGURE = 1
_WORD = re.compile(r"\w+")


def words_in(text: str) -> int:
    """Return the words of a course text; a call in a sentence counts as one."""
    count = 0
    for piece in parse_prose(text).pieces:
        count += len(_WORD.findall(piece.text)) if isinstance(piece, Piece) else 1
    return count


def module_minutes(module: Module) -> int:
    """Return whole minutes to read a module's text and figures, rounded up."""
    words = sum(words_in(section.text) for section in module.sections)
    return -(-words // _WORDS_A_MINUTE) + _MINUTES_A_FIGURE * len(module.figures)
