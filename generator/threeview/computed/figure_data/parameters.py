"""A figure's parameters as an author wrote them, read with every fault kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from threeview.errors import SettingError, nearest

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from threeview.computed.answers import Answers
    from threeview.evidence import Ledger, ReferenceValue

__all__ = ["Parameters"]


class Parameters:
    """Reads parameters one by one; `finish` raises once for all that was wrong.

    Args:
        given: as written.
        legal: the names that the figure knows.
    """

    def __init__(self, given: Mapping[str, str | tuple[str, ...]], legal: Collection[str]) -> None:
        self.faults: list[str] = [
            f"unknown parameter '{name}': expected one of {', '.join(legal)}{_hint(name, legal)}"
            for name in given
            if name not in legal
        ]
        self._given = {name: value for name, value in given.items() if name in legal}

    def one(self, name: str, default: str | None = None) -> str | None:
        """Return a single value, or the default where none is given."""
        value = self._given.get(name, default)
        if isinstance(value, tuple):
            self.faults.append(f"{name}: expected one value, found a list of {len(value)}")
            return None
        return value

    def wanted(self, name: str) -> str:
        """Return a single value that must be there; an empty text after a complaint."""
        if name not in self._given:
            self.faults.append(f"no '{name}': expected it among the parameters")
            return ""
        return self.one(name) or ""

    def several(self, name: str, fewest: int, most: int) -> tuple[str, ...]:
        """Return a list; a single value counts as a list of one."""
        value = self._given.get(name, ())
        values = (value,) if isinstance(value, str) else value
        if not fewest <= len(values) <= most:
            self.faults.append(f"{name}: expected {fewest} to {most} of them, found {len(values)}")
            return ()
        return values

    def number(self, name: str, default: str | None, low: float, high: float) -> float | None:
        """Return a number between `low` and `high`, or None where none is given."""
        text = self.one(name, default)
        if text is None:
            return None
        try:
            number = float(text)
        except ValueError:
            number = float("nan")
        if not low <= number <= high:
            self.faults.append(f"{name} '{text}': expected a number from {low:g} to {high:g}")
            return None
        return number

    def choice(self, name: str, legal: Collection[str], default: str) -> str:
        """Return one of a few words."""
        word = self.one(name, default) or default
        if word not in legal:
            self.faults.append(
                f"unknown {name} '{word}': expected one of {', '.join(legal)}{_hint(word, legal)}"
            )
        return word

    def plain(self, names: Collection[str]) -> dict[str, str]:
        """Return those of `names` that are given, each a single value."""
        found = {name: self.one(name) for name in names if name in self._given}
        return {name: value for name, value in found.items() if value is not None}

    def lesion(self, answers: Answers, setting: Mapping[str, str]) -> dict[str, Any]:
        """Return the lesion of a setting; an empty one after a complaint."""
        try:
            return answers.lesion(setting)
        except SettingError as error:
            self.faults += [fault for fault in error.faults if fault not in self.faults]
            return {}

    def value(self, ledger: Ledger, name: str, unit: str) -> ReferenceValue | None:
        """Return a ledger value measured in `unit`."""
        value = ledger.values.get(name)
        if value is None:
            hint = _hint(name, ledger.values)
            self.faults.append(f"unknown reference value '{name}'{hint}")
            return None
        numbers = (value.value, value.low, value.high)
        if value.unit != unit or all(number is None for number in numbers):
            self.faults.append(f"reference value '{name}': expected a number in {unit}")
            return None
        return value

    def finish(self) -> None:
        """Raise if anything was wrong.

        Raises:
            SettingError: with every fault.
        """
        if self.faults:
            raise SettingError(self.faults)


def _hint(word: str, legal: Collection[str]) -> str:
    close = nearest(word, legal)
    return f" (did you mean '{close}'?)" if close else ""
