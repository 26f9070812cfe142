"""Closed editions: digests of what was released, and what has changed since."""

from __future__ import annotations

import hashlib
import json
from typing import TYPE_CHECKING

import yaml

from threeview.errors import BuildError

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from pydantic import BaseModel

    from threeview.course.course import Course
    from threeview.errors import Problem

__all__ = ["check_editions", "close_edition", "digests"]


def _digest(model: BaseModel, *, leave_out: set[str] | None = None) -> str:
    """Return a short SHA-256 over what a thing says; the order of fields does not matter."""
    plain = model.model_dump(mode="json", exclude_defaults=True, exclude=leave_out)
    text = json.dumps(plain, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def digests(course: Course) -> dict[str, str]:
    """Return the digest of every value, item version and objective, by `kind/name`.

    A value's digest leaves out its date and note: re-reading a source changes nothing.
    """
    found: dict[str, str] = {}
    for value in course.ledger.values.values():
        found[f"value/{value.id}"] = _digest(value, leave_out={"as_of", "note"})
    for banks in (course.retired, course.banks):
        for bank, items in banks.items():
            for item in items:
                found[f"item/{bank}/{item.versioned}"] = _digest(item)
    for module in course.modules:
        for objective in module.objectives:
            found[f"objective/{module.id}/{objective.id}"] = _digest(objective)
    return dict(sorted(found.items()))


def check_editions(course: Course) -> Iterator[Problem]:
    """Yield what a closed edition released and today's files say differently."""
    if not course.releases:
        return
    release = course.releases[-1]
    now = digests(course)
    for name, digest in release.digests.items():
        if now.get(name) == digest:
            continue
        kind, _, rest = name.partition("/")
        if name not in now:
            origin = course.origin("release", str(release.date))
            yield origin.problem(
                ("digests", name), f"'{rest}' ({kind}) is gone since this edition", _GONE[kind]
            )
            continue
        place, what = _place(course, kind, rest)
        yield course.origin(place, what).problem(
            (), f"{kind} '{rest}' changed since the edition of {release.date}", _CHANGED[kind]
        )


_GONE = {
    "item": "expected it unchanged under quizzes/retired/, so that old records can be scored",
    "value": "expected it kept, or a new edition closed (threeview edition close DATE)",
    "objective": "expected it kept, or a new edition closed (threeview edition close DATE)",
}
_CHANGED = {
    "item": "expected a new version of it, and the old one under quizzes/retired/",
    "value": "expected it as released, or a new edition closed (threeview edition close DATE)",
    "objective": "expected it as released, or a new edition closed (threeview edition close DATE)",
}


def _place(course: Course, kind: str, rest: str) -> tuple[str, str]:
    """Return the origin's key for a digest's name."""
    if kind == "value":
        return "value", rest
    bank, _, name = rest.partition("/")
    if kind == "objective":
        return "module", bank
    item = name.partition("@")[0]
    current = ("item:" + bank, item)
    return current if current in course.origins else ("retired:" + bank, item)


def close_edition(course: Course, day: date) -> str:
    """Return the text of `content/editions.yaml` with an edition of `day` added.

    Raises:
        BuildError: an edition of that day or a later one exists, or a released item changed.
    """
    if course.releases and course.releases[-1].date >= day:
        last = course.releases[-1].date
        raise BuildError(f"the last edition is of {last}; a new one needs a later date than that")
    items = [str(p) for p in check_editions(course) if p.found.startswith("item ")]
    if items:
        raise BuildError("released items cannot change:\n" + "\n".join(items))
    entries = [{"date": str(r.date), "digests": dict(r.digests)} for r in course.releases]
    entries.append({"date": str(day), "digests": digests(course)})
    return yaml.safe_dump(entries, sort_keys=False, allow_unicode=True, width=100)
