"""Damaged course files end in problems or in a sound course, never in a traceback."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from tests.course.conftest import check

from threeview.computed import Cache
from threeview.course import load_course
from threeview.errors import ContentError

TOKENS = (
    *("{", "]", ":", "-", '"', "~", "|", "%", "\t", "\n", "é", "-1", "1e999", "NaN", ".inf"),
    *("{{", '{{ value("x") }}', "!!x", "&a", "*a", "2026-99-99", "999999999999999999999"),
)


def damage(text: str, chance: random.Random) -> str:
    """Return `text` with a token put in, some characters cut out, or a line lost or doubled."""
    at = chance.randrange(len(text) + 1)
    kind = chance.randrange(4)
    if kind == 0:
        return text[:at] + chance.choice(TOKENS) + text[at:]
    if kind == 1:
        return text[:at] + text[at + chance.randrange(1, 12) :]
    lines = text.split("\n")
    line = chance.randrange(len(lines))
    if kind == 2:
        del lines[line]
    else:
        lines.insert(line, chance.choice(lines))
    return "\n".join(lines)


@pytest.mark.parametrize("seed", range(8))
def test_damage_is_reported_or_harmless(small: Path, cache: Cache, seed: int) -> None:
    """Each of 40 random damages gives problems that name a file, or a course that still loads."""
    chance = random.Random(seed)  # noqa: S311 - the same damages in every run
    files = sorted(path for path in small.rglob("*") if path.suffix in {".yaml", ".md"})
    reported = 0
    for _ in range(40):
        path = chance.choice(files)
        sound = path.read_text(encoding="utf-8")
        path.write_text(damage(sound, chance), encoding="utf-8")
        try:
            problems = check(load_course(small), cache).problems
        except ContentError as error:
            problems = error.problems
        assert all(problem.file and problem.found and problem.expected for problem in problems)
        reported += bool(problems)
        path.write_text(sound, encoding="utf-8")
    assert reported >= 10, "the damages were too gentle to prove anything"
