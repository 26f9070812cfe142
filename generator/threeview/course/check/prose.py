"""Rules for course text: known references, no bare quantities, no HTML, no strange links."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

from threeview.computed import QUESTIONS
from threeview.course.prose import Piece
from threeview.errors import nearest

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from threeview.course.check.texts import Text
    from threeview.course.course import Course
    from threeview.errors import Problem

__all__ = ["check_text", "known_names"]


def known_names(course: Course) -> dict[str, Collection[str]]:
    """Return the legal ids of each kind that a text function can name."""
    return {
        "value": course.ledger.values.keys(),
        "source": course.ledger.sources.keys(),
        "term": course.glossary.keys(),
        "caution": course.ledger.cautions.keys(),
        "question": QUESTIONS.keys(),
    }


_KINDS = {
    "value": "value",
    "computed": "question",
    "cite": "source",
    "term": "term",
    "caution": "caution",
}


def check_text(text: Text, course: Course, names: dict[str, Collection[str]]) -> Iterator[Problem]:
    """Yield the problems of one text."""
    for fault in text.prose.faults:
        yield text.problem(fault.found, fault.expected, fault.line, fault.nearest)
    yield from _functions(text, course, names)
    yield from _quantities(text)
    yield from _html(text)
    yield from _links(text)


def _functions(text: Text, course: Course, names: dict[str, Collection[str]]) -> Iterator[Problem]:
    for call in text.prose.calls():
        if call.name not in text.functions:
            legal = ", ".join(sorted(text.functions))
            yield text.problem(f"{call.name}() here", f"expected only {legal}", call.line)
            continue
        target = call.arguments[0]
        legal_names = _legal(call.name, text, course, names)
        if legal_names is not None and target not in legal_names:
            kind = _KINDS.get(call.name, call.name)
            near = nearest(target, legal_names)
            yield text.problem(
                f"the unknown {kind} '{target}'",
                f"expected a {kind} of this course",
                call.line,
                near,
            )


def _legal(
    name: str, text: Text, course: Course, names: dict[str, Collection[str]]
) -> Collection[str] | None:
    if name in _KINDS:
        return names[_KINDS[name]]
    if name in {"figure", "item"}:
        module = next((m for m in course.modules if m.id == text.module), None)
        if module is None:
            return ()
        if name == "figure":
            return [figure.id for figure in module.figures]
        return [item.id for item in course.banks.get(module.id, ())]
    return None


# A number (digits, or a spelled number above one) followed by a unit, as authors write them.
_WORDS = (
    "two three four five six seven eight nine ten eleven twelve fifteen twenty thirty forty "
    "fifty sixty seventy eighty ninety hundred"
).replace(" ", "|")
_SYMBOLS = r"mm[23²³]?|cm|µm|m/s|°\s?C|°\s?F|°|K|ms|s|min|h|Hz|kHz|mV|V|mA|Ω|W|J|%|mL|ml|mg|mSv|G"
_NAMES = (
    r"millimet(?:re|er)s?|centimet(?:re|er)s?|degrees?|seconds?|minutes?|hours?|days?|weeks?|"
    r"months?|years?|volts?|hertz|ohms?|watts?|joules?|per ?cent|percent|gauge|millilit(?:re|er)s?|"
    r"milliamperes?|points?"
)
_QUANTITY = re.compile(
    rf"(?<![\w.#-])(?:[-−±≤≥<>~]\s?)?\d[\d.,]*(?:\s?(?:–|-|to|and|or|±)\s?\d[\d.,]*)?"
    rf"[\s\u00a0\u202f-]?(?:(?:{_SYMBOLS})(?![\w/])|(?i:{_NAMES})\b)"
    rf"|\b(?i:{_WORDS})[\s-](?:and a half )?(?i:{_NAMES})\b"
)


def _quantities(text: Text) -> Iterator[Problem]:
    for piece in text.prose.pieces:
        if not isinstance(piece, Piece):
            continue
        plain = piece.text
        for own in text.own:
            plain = plain.replace(own, " " * len(own)).replace(
                own.replace("\u00a0", " "), " " * len(own)
            )
        for match in _QUANTITY.finditer(plain):
            line = piece.line + plain.count("\n", 0, match.start())
            yield text.problem(
                f"the bare quantity '{match.group().strip()}'",
                'expected value("…") or computed("…"), or plain("…") if it is no claim '
                "(a setting in an invented case)",
                line,
            )


_TAG = re.compile(r"<[/!?]?[A-Za-z]|\{[:#]|&#?\w+;")
_CODE = re.compile(r"`[^`\n]*`")


def _html(text: Text) -> Iterator[Problem]:
    for piece in text.prose.pieces:
        if not isinstance(piece, Piece):
            continue
        plain = _CODE.sub(lambda match: " " * len(match.group()), piece.text)
        for match in _TAG.finditer(plain):
            line = piece.line + plain.count("\n", 0, match.start())
            found = f"HTML or an attribute list ('{plain[match.start() : match.start() + 12]}')"
            yield text.problem(found.replace("\n", " "), "expected Markdown only", line)


class _Addresses(HTMLParser):
    """Gathers the addresses that a Markdown text would link to or load."""

    def __init__(self) -> None:
        super().__init__()
        self.links: list[str] = []
        self.loads: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = dict(attrs)
        if tag == "a":
            self.links.append(found.get("href") or "")
        elif "src" in found:
            self.loads.append(found.get("src") or "")


def _links(text: Text) -> Iterator[Problem]:
    """Convert as the site will, and look at what would be linked or loaded."""
    joined = "".join(p.text if isinstance(p, Piece) else "tvcall" for p in text.prose.pieces)
    if "](" not in joined and "]:" not in joined and "<" not in joined:
        return
    from markdown import markdown

    parser = _Addresses()
    parser.feed(markdown(joined))
    for address in parser.links:
        parts = urlsplit(address)
        if parts.scheme not in {"http", "https"} or not parts.netloc:
            yield text.problem(f"a link to '{address}'", "expected an http or https address")
    for address in parser.loads:
        yield text.problem(f"an image from '{address}'", 'expected figure("…") instead')
