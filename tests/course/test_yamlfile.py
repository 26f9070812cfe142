"""Scalars stay what the author wrote; every value knows its place; hostile input is refused."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from threeview.course.yamlfile import read_yaml


@pytest.mark.parametrize("word", ["no", "on", "yes", "off", "12:30", "010", "1e3", "0x1F", "1_000"])
def test_plain_scalars_stay_text(word: str) -> None:
    """What YAML 1.1 turns into booleans, octals and base-60 numbers stays as written."""
    value, _, problems = read_yaml(f"word: {word}\n", "f.yaml")
    assert value == {"word": word}
    assert problems == []


@pytest.mark.parametrize("null", ["", "~", "null"])
def test_nulls_are_nothing(null: str) -> None:
    """The spellings of nothing in YAML 1.2, unless quoted."""
    assert read_yaml(f"a: {null}\n", "f")[0] == {"a": None}
    assert read_yaml(f'a: "{null}"\n', "f")[0] == {"a": null}


def test_places_are_lines_and_columns_from_one() -> None:
    """The mark of a nested value is where it begins in the file."""
    _, marks, _ = read_yaml("a:\n  - b: 1\n    c: two\n", "f")
    place = marks.at(("a", 0, "c"))
    assert (place.line, place.column) == (3, 8)


def test_a_repeated_key_is_a_problem_at_its_second_place() -> None:
    """The later of two equal keys would silently win; it is refused."""
    _, _, problems = read_yaml("a: 1\nb: 2\na: 3\n", "f.yaml")
    assert [str(p) for p in problems] == ["f.yaml:3:1: 'a' a second time; expected each key once"]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("a: &x 1\nb: *x\n", "an alias"),
        ("a: !!python/object:os.system x\n", "tag"),
        ("a: !mine x\n", "the tag !mine"),
        ("? [1, 2]\n: x\n", "a key that is not text"),
        ("a: [1\n", "not readable as YAML"),
        ("a: 1\n---\nb: 2\n", "not readable as YAML"),
        ("a: \x07\n", "a character that YAML does not allow"),
        ("", "an empty file"),
        ("[" * 60 + "]" * 60, "more than 40 levels"),
    ],
)
def test_what_is_refused(text: str, found: str) -> None:
    """Aliases, tags, odd keys, broken and hostile files are problems, not surprises."""
    _, _, problems = read_yaml(text, "f.yaml")
    assert any(found in problem.found for problem in problems), problems


@given(st.text(max_size=200))
def test_any_text_is_read_or_refused(text: str) -> None:
    """No text ends in a traceback: it gives a value or at least one problem."""
    value, _, problems = read_yaml(text, "f.yaml")
    assert value is not None or problems or text.strip() in {"~", "null", "Null", "NULL"}
