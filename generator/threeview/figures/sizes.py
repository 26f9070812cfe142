"""Computed and published lengths on one millimetre scale."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from threeview.figures.figure import Figure, Table
from threeview.figures.lettering import tie, wrap
from threeview.figures.numbers import size
from threeview.figures.svg import diamond, document, line, path, text

if TYPE_CHECKING:
    from threeview.computed.figure_data.published import Published
    from threeview.computed.figure_data.sizes import ComputedSize, SizeComparison

__all__ = ["size_comparison"]

_WIDTH = 336
_LEFT = 12  # px: where zero lies
_LINE = 19  # px between lines of text
_TRACK = 30  # px for a mark below its text
_TOP = 34
_STRONG = 5  # mm


def size_comparison(data: SizeComparison) -> Figure:
    """Draw lengths as rows on one scale, computed first; each says what it rests on."""
    scale = (_WIDTH - 2 * _LEFT) / (math.ceil(_longest(data)) + 0.5)
    y, rows = float(_TOP), []
    for computed in data.computed:
        rows.append(_computed(computed, scale, y))
        y += _LINE + _TRACK
    for published in data.published:
        words = _words(published)
        rows.append(_published(published, words, scale, y))
        y += _LINE * len(words) + _TRACK
    sentence = _sentence(data)
    return Figure(
        svg=document(_WIDTH, y + 4, sentence, _grid(scale, y) + "".join(rows)),
        sentence=sentence,
        table=_table(data),
        key=(
            ("m-computed", f"computed here, at the {data.edge} boundary"),
            ("m-published", "from the evidence; each row says what it rests on"),
        ),
        foot=(f"computed: {data.setting[0]}", data.setting[1]),
    )


def _longest(data: SizeComparison) -> float:
    ends = [end for p in data.published for end in (p.low, p.high) if end is not None]
    return max([*ends, *(c.size for c in data.computed)])


def _grid(scale: float, bottom: float) -> str:
    lines, labels = [], []
    for mm in range(int((_WIDTH - _LEFT) / scale) + 1):
        x = _LEFT + mm * scale
        css = "m-grid" if mm % _STRONG else "m-grid5"
        lines.append(line(css, (x, _TOP - 8), (x, bottom)))
        if mm % _STRONG == 0:
            words = f"{mm}\u00a0mm" if mm else "0"
            labels.append(text("m-label light", (x, _TOP - 16), words, "middle"))
    return "".join((*lines, *labels))


def _computed(row: ComputedSize, scale: float, y: float) -> str:
    end, track = _LEFT + row.size * scale, y + _LINE + 10
    return "".join(
        (
            text("m-label", (_LEFT, y + 14), f"{row.words}: {size(row.size)}"),
            line("m-computed", (_LEFT, track), (end, track)),
            diamond((end, track)),
        )
    )


def _words(row: Published) -> list[tuple[str, str]]:
    """Return the lines above a published mark, each with its class."""
    most = _WIDTH - 2 * _LEFT
    basis = row.basis_words[0].upper() + row.basis_words[1:]
    conditions = f"{basis}: {row.conditions}."
    return [
        *(("m-label", words) for words in wrap(row.statement, most)),
        *(("m-label light", words) for words in wrap(conditions, most)),
    ]


def _published(row: Published, words: list[tuple[str, str]], scale: float, y: float) -> str:
    marks = [
        text(css, (_LEFT, y + 14 + _LINE * index), shown)
        for index, (css, shown) in enumerate(words)
    ]
    track = y + _LINE * len(words) + 10
    low, high = (None if end is None else _LEFT + end * scale for end in (row.low, row.high))
    left = _LEFT if low is None else low
    right = _WIDTH - _LEFT if high is None else high
    if low == high:
        left = _LEFT  # a single number is a length from zero, as the computed ones are
    marks.append(line("m-published", (left, track), (right, track)))
    ticks = "".join(f"M{x:.1f} {track - 6:.1f}v12" for x in (low, high) if x is not None)
    marks.append(path("m-published", ticks))
    return "".join(marks)


def _sentence(data: SizeComparison) -> str:
    computed = ", ".join(f"{row.words} {size(row.size)}" for row in data.computed)
    published = " ".join(
        f"{row.statement} {row.basis_words[0].upper()}{row.basis_words[1:]}."
        for row in data.published
    )
    return (
        f"Computed {data.dimension} at the {data.edge} boundary, {', '.join(data.setting)}: "
        f"{computed}. {published}"
    ).strip()


def _table(data: SizeComparison) -> Table:
    conditions = f"computed: {', '.join(data.setting)}"
    computed = tuple((row.words, size(row.size), conditions) for row in data.computed)
    published = tuple(
        (tie(row.statement), row.shown, tie(f"{row.basis_words}: {row.conditions}"))
        for row in data.published
    )
    head = ("What", data.dimension[0].upper() + data.dimension[1:], "Rests on")
    return Table("The same lengths", head, (*computed, *published))
