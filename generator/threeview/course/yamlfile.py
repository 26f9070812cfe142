"""YAML as authors wrote it: every plain scalar stays text, and every value knows its place.

The models decide what a scalar means (a number field reads `1e3`, a text field keeps it), so `no`,
`on`, `12:30` and `010` never turn into something else on the way.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import yaml

from threeview.errors import Problem

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["Marks", "Plain", "read_yaml"]

Plain = str | None | list["Plain"] | dict[str, "Plain"]
Step = str | int

_NULLS = frozenset({"", "~", "null", "Null", "NULL"})
# What the parser itself gives to untagged values; any other tag was written by someone.
_CORE = ("str", "int", "float", "bool", "null", "timestamp", "merge", "value", "map", "seq")
_TAGS = frozenset(f"tag:yaml.org,2002:{name}" for name in _CORE)
_DEEPEST = 40  # no course file nests deeper; a bound keeps hostile input from the recursion limit


@dataclass(frozen=True)
class Marks:
    """Where a value stands: line and column from 1, and the same for what it holds.

    `literal` is true for block text (`|`), whose lines follow one by one below the header.
    """

    line: int
    column: int
    literal: bool = False
    children: Mapping[Step, Marks] = field(default_factory=dict)

    def at(self, path: tuple[Step, ...]) -> Marks:
        """Return the marks of the deepest part of `path` that exists."""
        here = self
        for step in path:
            here = here.children.get(step, here)
        return here


def read_yaml(text: str, file: str) -> tuple[Plain, Marks, list[Problem]]:
    """Parse one YAML document.

    Args:
        text: contents of the file.
        file: its name as the author knows it, for the problems.

    Returns:
        The value (None when it cannot be read), its marks, and all problems found.
    """
    try:
        node = yaml.compose(text, Loader=yaml.CSafeLoader)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line, column = (mark.line + 1, mark.column + 1) if mark else (0, 0)
        found = f"not readable as YAML: {error.problem or error.context}"
        return None, Marks(1, 1), [Problem(file, line, column, found, "expected valid YAML 1.2")]
    except yaml.reader.ReaderError as error:
        found = f"a character that YAML does not allow (#x{error.character:04x})"
        return None, Marks(1, 1), [Problem(file, 0, 0, found, "expected printable UTF-8 text")]
    if node is None:
        return None, Marks(1, 1), [Problem(file, 0, 0, "an empty file", "expected content")]
    builder = _Builder(file)
    value, marks = builder.build(node, 0)
    return value, marks, builder.problems


class _Builder:
    def __init__(self, file: str) -> None:
        self._file = file
        self._seen: set[int] = set()
        self.problems: list[Problem] = []

    def _refuse(self, node: yaml.Node, found: str, expected: str) -> None:
        line, column = node.start_mark.line + 1, node.start_mark.column + 1
        self.problems.append(Problem(self._file, line, column, found, expected))

    def build(self, node: yaml.Node, depth: int) -> tuple[Plain, Marks]:
        line, column = node.start_mark.line + 1, node.start_mark.column + 1
        if id(node) in self._seen or depth > _DEEPEST:
            found = "an alias (*name)" if id(node) in self._seen else f"more than {_DEEPEST} levels"
            self._refuse(node, found, "expected the value written out")
            return None, Marks(line, column)
        self._seen.add(id(node))
        if node.tag and node.tag not in _TAGS:
            self._refuse(node, f"the tag {node.tag}", "expected plain values without tags")
        if isinstance(node, yaml.MappingNode):
            return self._mapping(node, depth, Marks(line, column))
        if isinstance(node, yaml.SequenceNode):
            built = [self.build(child, depth + 1) for child in node.value]
            children: dict[Step, Marks] = {i: marks for i, (_, marks) in enumerate(built)}
            return [value for value, _ in built], Marks(line, column, children=children)
        style = getattr(node, "style", None)  # None or "" for plain text, "|" for block text
        value = None if not style and node.value in _NULLS else str(node.value)
        return value, Marks(line, column, literal=style == "|")

    def _mapping(self, node: yaml.MappingNode, depth: int, place: Marks) -> tuple[Plain, Marks]:
        result: dict[str, Plain] = {}
        children: dict[Step, Marks] = {}
        for key_node, value_node in node.value:
            if not isinstance(key_node, yaml.ScalarNode):
                self._refuse(key_node, "a key that is not text", "expected a field name")
                continue
            key = str(key_node.value)
            if key in result:
                self._refuse(key_node, f"'{key}' a second time", "expected each key once")
                continue
            result[key], marks = self.build(value_node, depth + 1)
            # A fault in a short value is found at its key's line; block text keeps its own.
            children[key] = marks
        return result, Marks(place.line, place.column, children=children)
