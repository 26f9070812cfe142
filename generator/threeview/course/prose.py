"""Course text: Markdown with a handful of functions, parsed so that every call can be checked.

jinja2 parses the text; only calls of the functions below with literal arguments are legal, so a
text can neither loop nor reach into Python. Pages render the same text in jinja2's sandbox.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from jinja2 import StrictUndefined, TemplateSyntaxError, nodes
from jinja2.sandbox import ImmutableSandboxedEnvironment

from threeview.errors import nearest

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

__all__ = ["BLOCKS", "FUNCTIONS", "Call", "Fault", "Piece", "Prose", "parse_prose", "sandbox"]

# What each function takes: the first argument's kind, and how many plain arguments it may have.
FUNCTIONS: dict[str, tuple[str, int]] = {
    "value": ("value", 2),
    "computed": ("question", 2),
    "cite": ("source", 1),
    "figure": ("figure", 1),
    "term": ("term", 2),
    "caution": ("caution", 1),
    "item": ("item", 1),
    "plain": ("text", 1),
}
# These stand alone in their paragraph: they become a figure, a frame, a question.
BLOCKS = frozenset({"figure", "caution", "item"})


@dataclass(frozen=True)
class Call:
    """One use of a text function; `line` counts from 1 within the text."""

    name: str
    arguments: tuple[str, ...]
    parameters: Mapping[str, str]
    line: int


@dataclass(frozen=True)
class Piece:
    """Text between calls; `line` is that of its first character."""

    text: str
    line: int


@dataclass(frozen=True)
class Fault:
    """A fault in a text: its line within the text, what was found, what was expected."""

    line: int
    found: str
    expected: str
    nearest: str | None = None


@dataclass(frozen=True)
class Prose:
    """A parsed text; `faults` are its own, references are checked elsewhere."""

    pieces: tuple[Piece | Call, ...]
    faults: tuple[Fault, ...]

    def calls(self, *names: str) -> Iterator[Call]:
        """Yield the calls, of all functions or of the named ones."""
        for piece in self.pieces:
            if isinstance(piece, Call) and (not names or piece.name in names):
                yield piece


@cache
def sandbox() -> ImmutableSandboxedEnvironment:
    """Return the environment in which course text is parsed and rendered."""
    return ImmutableSandboxedEnvironment(undefined=StrictUndefined, keep_trailing_newline=True)


def parse_prose(text: str) -> Prose:
    """Split a text into pieces and calls, gathering every fault.

    Args:
        text: Markdown with text functions.
    """
    try:
        tree = sandbox().parse(text)
    except TemplateSyntaxError as error:
        expected = 'expected text functions such as {{ value("some-id") }}'
        return Prose((), (Fault(error.lineno, f"unreadable: {error.message}", expected),))
    pieces: list[Piece | Call] = []
    faults: list[Fault] = []
    for node in tree.body:
        if not isinstance(node, nodes.Output):
            faults.append(Fault(node.lineno, "a template statement", _ONLY_CALLS))
            continue
        for part in node.nodes:
            if isinstance(part, nodes.TemplateData):
                pieces.append(Piece(part.data, part.lineno))
            else:
                made = _call(part)
                (faults if isinstance(made, Fault) else pieces).append(made)  # type: ignore[arg-type]
    faults += _crowded_blocks(text)
    return Prose(tuple(pieces), tuple(faults))


_ONLY_CALLS = f"expected only calls of: {', '.join(FUNCTIONS)}"


def _call(node: nodes.Expr) -> Call | Fault:
    if not isinstance(node, nodes.Call) or not isinstance(node.node, nodes.Name):
        return Fault(node.lineno, "an expression that is not a call", _ONLY_CALLS)
    name = node.node.name
    if name not in FUNCTIONS:
        return Fault(
            node.lineno, f"the unknown function '{name}'", _ONLY_CALLS, nearest(name, FUNCTIONS)
        )
    literals = [*node.args, *(pair.value for pair in node.kwargs)]
    if node.dyn_args or node.dyn_kwargs or not all(isinstance(e, nodes.Const) for e in literals):
        found = f"{name}() with something that is not written out"
        return Fault(node.lineno, found, 'expected text in "quotes" or numbers')
    arguments = tuple(str(arg.as_const()) for arg in node.args)
    kind, most = FUNCTIONS[name]
    if not 1 <= len(arguments) <= most or (node.kwargs and name != "computed"):
        found = f"{name}() with {len(arguments)} arguments"
        return Fault(node.lineno, found, f"expected the {kind} id first, at most {most}")
    parameters = {pair.key: str(pair.value.as_const()) for pair in node.kwargs}
    return Call(name, arguments, parameters, node.lineno)


_BLOCK_CALL = re.compile(r"\{\{\s*(" + "|".join(sorted(BLOCKS)) + r")\s*\(")
_ALONE = re.compile(r"\s*\{\{[^{}]*\}\}\s*")


def _crowded_blocks(text: str) -> Iterator[Fault]:
    """Find block functions that share their paragraph with something else."""
    lines = text.split("\n")
    for index, line in enumerate(lines):
        match = _BLOCK_CALL.search(line)
        if not match:
            continue
        around = [lines[i].strip() for i in (index - 1, index + 1) if 0 <= i < len(lines)]
        if not _ALONE.fullmatch(line) or any(around):
            found = f"{match.group(1)}() inside a paragraph"
            yield Fault(index + 1, found, "expected it alone, with an empty line above and below")
