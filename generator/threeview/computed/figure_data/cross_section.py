"""Data of cross-sections: one lesion through the axis of its electrode, or two on one scale."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from threeview.computed.figure_data.parameters import Parameters
from threeview.computed.figure_data.published import Published, published, read_published
from threeview.computed.picture import boundary_key
from threeview.computed.questions import split_pair
from threeview.computed.settings import LESION_PARAMETERS

if TYPE_CHECKING:
    from collections.abc import Mapping

    from threeview.computed.answers import Answers
    from threeview.evidence import Ledger

__all__ = [
    "Boundary",
    "CrossSection",
    "Frame",
    "Needle",
    "Nerve",
    "Pair",
    "Section",
    "cross_section",
    "pair",
]

Curve = tuple[tuple[float, float], ...]

_DRAWN = ("45", "50", "60", "80", "damage")
_NERVE_DIAMETER = "medial-branch-diameter"
_MOST_BESIDE = 2  # more brackets than this no longer read as a comparison


@dataclass(frozen=True)
class Needle:
    """The electrode to draw, mm.

    Attributes:
        diameter: outer diameter.
        tip: active length.
        shape: blunt, cone or bevel.
        taper: length of the tapered end.
    """

    diameter: float
    tip: float
    shape: str
    taper: float


@dataclass(frozen=True)
class Boundary:
    """One boundary at the end of heating, sizes in mm.

    Attributes:
        key: '45' and the like, or 'damage'.
        words: as a reader says it.
        width: greatest diameter; 0 when nothing is inside, like the other sizes.
        length: along the electrode.
        distal: reach beyond the distal end of the metal.
        curve: (r, z) of one side, from the distal to the proximal end; empty when not reached.
    """

    key: str
    words: str
    width: float
    length: float
    distal: float
    curve: Curve


@dataclass(frozen=True)
class Frame:
    """Boundaries at one moment, for the interactive figure."""

    time: float
    curves: Mapping[str, Curve]


@dataclass(frozen=True)
class Section:
    """One computed lesion, ready to draw.

    Attributes:
        words: the whole setting in a phrase.
        foot: the same in two short halves.
        needle: what stands in the tissue.
        boundaries: hottest last, the damage boundary after them.
        lesion: key of the boundary that counts as the lesion's edge.
        frames: growth over time.
    """

    words: str
    foot: tuple[str, str]
    needle: Needle
    boundaries: tuple[Boundary, ...]
    lesion: str
    frames: tuple[Frame, ...]

    @property
    def edge(self) -> Boundary:
        """Return the boundary that counts as the lesion's edge."""
        return next(b for b in self.boundaries if b.key == self.lesion)


@dataclass(frozen=True)
class Nerve:
    """A nerve cut across, beside the middle of the active tip.

    Attributes:
        diameter: mm, the ledger's.
        shown: the ledger's value in words.
        offset: from the axis to the centre, mm; the author's choice.
        height: above the distal end of the metal, mm.
        state: inside, outside or crossed by the lesion's edge.
    """

    diameter: float
    shown: str
    offset: float
    height: float
    state: str


@dataclass(frozen=True)
class CrossSection:
    """One lesion, what was measured beside it, and perhaps a nerve."""

    section: Section
    beside: tuple[Published, ...]
    nerve: Nerve | None


@dataclass(frozen=True)
class Pair:
    """Two lesions to draw on one scale."""

    left: Section
    right: Section


def cross_section(
    answers: Answers, given: Mapping[str, str | tuple[str, ...]], ledger: Ledger
) -> CrossSection:
    """Return one lesion through the axis of its electrode.

    Args:
        answers: computes the lesion.
        given: a lesion's setting; optional `beside` (ledger ids of measured widths, mm) and
            `nerve` (distance of a nerve's centre from the axis, mm).
        ledger: where the nerve's diameter and the measured widths stand.

    Raises:
        SettingError: with every fault.
    """
    parameters = Parameters(given, (*LESION_PARAMETERS, "beside", "nerve"))
    lesion = parameters.lesion(answers, parameters.plain(LESION_PARAMETERS))
    beside = read_published(parameters, ledger, "beside", _MOST_BESIDE)
    offset = parameters.number("nerve", None, 0, 12)
    diameter = None
    if offset is not None:
        diameter = parameters.value(ledger, _NERVE_DIAMETER, "mm")
    parameters.finish()
    section = _section(lesion)
    nerve = None
    if offset is not None and diameter is not None:
        nerve = _nerve(section, published(diameter, ledger), offset)
    return CrossSection(section, beside, nerve)


def pair(answers: Answers, given: Mapping[str, str | tuple[str, ...]], _ledger: Ledger) -> Pair:
    """Return two lesions on one scale.

    Args:
        answers: computes the lesions.
        given: the first lesion's setting, and what differs in the second as `to_electrode`,
            `to_set` and the like.

    Raises:
        SettingError: with every fault.
    """
    changes = tuple(f"to_{name}" for name in LESION_PARAMETERS)
    parameters = Parameters(given, (*LESION_PARAMETERS, *changes))
    first, second = split_pair(parameters.plain((*LESION_PARAMETERS, *changes)))
    if first == second:
        parameters.faults.append("nothing differs: expected to_electrode, to_set or the like")
    left, right = (parameters.lesion(answers, setting) for setting in (first, second))
    parameters.finish()
    return Pair(_section(left), _section(right))


def _section(lesion: Mapping[str, Any]) -> Section:
    electrode, final = lesion["electrode"], lesion["frames"][-1]
    edge = boundary_key(lesion["criterion"])
    drawn = [key for key in final["contours"] if key in _DRAWN or key == edge]
    return Section(
        words=lesion["words"],
        foot=(f"{lesion['size']}, {lesion['heating']}", lesion["surroundings"]),
        needle=Needle(
            diameter=electrode["outer_diameter_mm"],
            tip=electrode["tip_mm"],
            shape=electrode["tip_shape"],
            taper=electrode["taper_mm"],
        ),
        boundaries=tuple(_boundary(key, final) for key in drawn),
        lesion=edge,
        frames=tuple(
            Frame(f["time_s"], {key: _curve(f["contours"][key]) for key in drawn})
            for f in lesion["frames"]
        ),
    )


def _boundary(key: str, frame: Mapping[str, Any]) -> Boundary:
    sizes = frame["extents"][key]
    return Boundary(
        key=key,
        words="damage" if key == "damage" else f"{key}\u00a0°C",
        width=sizes["width_mm"],
        length=sizes["length_mm"],
        distal=sizes["distal_mm"],
        curve=_curve(frame["contours"][key]),
    )


def _curve(points: list[list[float]]) -> Curve:
    return tuple((r, z) for r, z in points)


def _nerve(section: Section, diameter: Published, offset: float) -> Nerve:
    across = diameter.high or diameter.low or 0.0
    height = section.needle.tip / 2
    inside = [
        _inside(
            section.edge.curve, offset + across / 2 * math.cos(a), height + across / 2 * math.sin(a)
        )
        for a in (2 * math.pi * k / 48 for k in range(48))
    ]
    state = "inside" if all(inside) else "crossed by" if any(inside) else "outside"
    return Nerve(across, diameter.shown, offset, height, state)


def _inside(curve: Curve, r: float, z: float) -> bool:
    """Return whether (r, z) lies between the axis and the curve, by crossings of a ray outwards."""
    r = abs(r)
    crossings = sum(
        (z0 > z) != (z1 > z) and r < r0 + (z - z0) * (r1 - r0) / (z1 - z0)
        for (r0, z0), (r1, z1) in pairwise(curve)
    )
    return crossings % 2 == 1
