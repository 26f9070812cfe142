"""The exceptions of Threeview: how problems are told to the person who meets them.

Every error raised on purpose derives from `ThreeviewError`; the root itself is never raised. The
command prints them without a traceback.
"""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

__all__ = [
    "BuildError",
    "ContentError",
    "ConvergenceError",
    "Problem",
    "RecordError",
    "SettingError",
    "ThreeviewError",
    "nearest",
]


class ThreeviewError(Exception):
    """Root of the exceptions of this package; never raised itself."""


@dataclass(frozen=True, order=True)
class Problem:
    """One fault in a file, told so that its author can mend it.

    Attributes:
        file: path as the author knows it, relative to the course folder.
        line: line number, from 1; 0 when the fault belongs to the whole file.
        column: column number, from 1; 0 when unknown.
        found: what stands there.
        expected: what may stand there, or what to do.
        nearest: the closest legal spelling, if there is one.
    """

    file: str
    line: int
    column: int
    found: str
    expected: str
    nearest: str | None = None

    def __str__(self) -> str:
        """Return `file:line:column: found; expected ... (did you mean ...?)`."""
        place = self.file
        if self.line:
            place += f":{self.line}:{self.column}"
        text = f"{place}: {self.found}; {self.expected}"
        return f"{text} (did you mean '{self.nearest}'?)" if self.nearest else text


class ContentError(ThreeviewError):
    """The course folder has faults; all of them are in `problems`."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(sorted(set(problems)))
        super().__init__("\n".join(str(problem) for problem in self.problems))


class SettingError(ThreeviewError):
    """Settings given to a computation are not possible; each fault is in `faults`."""

    def __init__(self, faults: Sequence[str]) -> None:
        self.faults: tuple[str, ...] = tuple(faults)
        super().__init__("\n".join(self.faults))


class ConvergenceError(ThreeviewError):
    """An iteration stopped before its tolerance; no field is handed back.

    Attributes:
        residual: last relative residual, dimensionless.
        iterations: how many were made.
    """

    def __init__(self, what: str, residual: float, iterations: int) -> None:
        self.residual = residual
        self.iterations = iterations
        super().__init__(
            f"{what} did not converge: "
            f"relative residual {residual:.2e} after {iterations} iterations"
        )


class RecordError(ThreeviewError):
    """A learner's record cannot be read; the message says why and what to do."""


class BuildError(ThreeviewError):
    """The course is sound but the site could not be built; the message says what to do."""


def nearest(word: str, legal: Iterable[str]) -> str | None:
    """Return the legal spelling closest to `word`, or None when nothing is close."""
    matches = get_close_matches(word, sorted(legal), n=1, cutoff=0.6)
    return matches[0] if matches else None
