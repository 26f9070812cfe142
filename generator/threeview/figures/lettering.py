"""How wide a label is, so that none lies on another; and lines of a given width."""

from __future__ import annotations

import re
from statistics import fmean
from typing import TYPE_CHECKING

from threeview.figures.svg import SIZE

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["spread", "tie", "width", "wrap"]

# Advance widths of Source Sans 3 at weight 600, thousandths of the size, by character.
_ADVANCES = {
    200: " \u00a0\u202f",
    260: "|ijl",
    275: "',.:;·I",
    320: "!f-()[]{}",
    345: "/\\°",
    370: "tr²",
    435: "sz?*",
    485: 'cxJv–"_',
    515: "YLeFagk0123456789#$+<=>^~×−≤≥",
    550: "VEXZSTo`uAhnbdpq",
    595: "CµPRBK",
    655: "DGUNH&",
    675: "OQΩ",
    750: "MwW",
    850: "%m@—…",
}
_ADVANCE = {letter: advance for advance, letters in _ADVANCES.items() for letter in letters}
_OTHER = 600
_UNIT = re.compile(r"(\d) (°C|mm|s|min|mL|%|gauge)(?!\w)")


def width(words: str) -> float:
    """Return the width of a label, px."""
    return SIZE * sum(_ADVANCE.get(letter, _OTHER) for letter in words) / 1000


def tie(words: str) -> str:
    """Return `words` with each number tied to the unit after it, and equations in one piece."""
    return _UNIT.sub("\\1\u00a0\\2", words).replace(" = ", "\u00a0=\u00a0")


def wrap(words: str, most: float) -> list[str]:
    """Return `words` in lines no wider than `most` px, broken at plain spaces only."""
    lines: list[str] = []
    for word in tie(words).split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width(longer) <= most:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Return positions at least `gap` apart, in the order given, as near to those wanted as can be.

    Without their gaps the positions only have to rise, so neighbours that would fall are pooled at
    their mean (isotonic regression), which is nearest in the sum of squares.

    Args:
        wanted: rising positions.
        gap: least distance of neighbours.
        low: least position of the first.
        high: greatest position of the last, if all fit between `low` and it.
    """
    pools: list[list[float]] = []
    for index, position in enumerate(wanted):
        pools.append([position - index * gap])
        while len(pools) > 1 and fmean(pools[-2]) > fmean(pools[-1]):
            pools[-2:] = [pools[-2] + pools[-1]]
    free = [fmean(pool) for pool in pools for _ in pool]
    most = max(low, high - (len(free) - 1) * gap)
    return [min(max(place, low), most) + index * gap for index, place in enumerate(free)]
