"""Data of the size comparison: computed and measured lengths on one scale."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from threeview.computed.figure_data.parameters import Parameters
from threeview.computed.figure_data.published import Published, read_published
from threeview.computed.picture import boundary_key
from threeview.computed.settings import LESION_PARAMETERS

if TYPE_CHECKING:
    from collections.abc import Mapping

    from threeview.computed.answers import Answers
    from threeview.evidence import Ledger

__all__ = ["ComputedSize", "SizeComparison", "size_comparison"]

_DIMENSIONS = {
    "width": ("width_mm", "width"),
    "length": ("length_mm", "length"),
    "distal": ("distal_mm", "reach beyond the tip"),
}
_MOST = 8


@dataclass(frozen=True)
class ComputedSize:
    """One computed length, mm, and the electrode it belongs to in words."""

    words: str
    size: float


@dataclass(frozen=True)
class SizeComparison:
    """Lengths on one scale.

    Attributes:
        dimension: what is compared, in words.
        edge: boundary that the computed lengths are of, in words.
        setting: heating and medium of the computed rows, in two short halves.
        computed: in the order asked for.
        published: likewise; of any class of electrode, each with its conditions.
    """

    dimension: str
    edge: str
    setting: tuple[str, str]
    computed: tuple[ComputedSize, ...]
    published: tuple[Published, ...]


def size_comparison(
    answers: Answers, given: Mapping[str, str | tuple[str, ...]], ledger: Ledger
) -> SizeComparison:
    """Return lengths of several electrodes at one setting beside published ones.

    Args:
        answers: computes the lesions.
        given: `electrodes`, `dimension` (width, length or distal), `published` (ledger ids of
            lengths in mm), and the rest of a lesion's setting.
        ledger: where the published lengths stand.

    Raises:
        SettingError: with every fault.
    """
    shared = tuple(name for name in LESION_PARAMETERS if name != "electrode")
    parameters = Parameters(given, ("electrodes", *shared, "dimension", "published"))
    electrodes = parameters.several("electrodes", 1, _MOST)
    dimension = parameters.choice("dimension", _DIMENSIONS, "width")
    published = read_published(parameters, ledger, "published", _MOST)
    setting = parameters.plain(shared)
    lesions = [parameters.lesion(answers, {**setting, "electrode": e}) for e in electrodes]
    parameters.finish()
    field, words = _DIMENSIONS[dimension]
    edge = boundary_key(lesions[0]["criterion"])
    return SizeComparison(
        dimension=words,
        edge="damage" if edge == "damage" else f"{edge}\u00a0°C",
        setting=(lesions[0]["heating"], lesions[0]["surroundings"]),
        computed=tuple(ComputedSize(x["size"], x[field]) for x in lesions),
        published=published,
    )
