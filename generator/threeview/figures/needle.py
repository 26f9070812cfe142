"""The electrode and what surrounds it: shapes in mm laid on a plate in px."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from threeview.figures.svg import circle, group, path, polygon, smooth

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from threeview.computed.figure_data.cross_section import Boundary, Curve, Needle, Nerve

__all__ = ["Plane", "boundary_marks", "grid", "needle_marks", "nerve_mark", "outline", "shade"]

Point = tuple[float, float]

_SHADES = ("t45", "t50", "t60", "t80")
_MILLIMETRES = 5  # every fifth line of the grid is stronger


@dataclass(frozen=True)
class Plane:
    """Where millimetres lie on the plate.

    Attributes:
        axis: x of the electrode's axis, px.
        tip: y of the distal end of its metal, px.
        scale: px for each mm.
    """

    axis: float
    tip: float
    scale: float

    def at(self, r: float, z: float) -> Point:
        """Return the point of the plate at (r, z) mm."""
        return self.axis + r * self.scale, self.tip - z * self.scale


def grid(plane: Plane, box: tuple[float, float, float, float]) -> str:
    """Return a millimetre grid that fills `box` (left, top, right, bottom; px)."""
    left, top, right, bottom = box
    fine: list[str] = []
    strong: list[str] = []
    for k, x in _lines(plane.axis, plane.scale, left, right):
        (fine if k % _MILLIMETRES else strong).append(f"M{x:.1f} {top:.1f}V{bottom:.1f}")
    for k, y in _lines(plane.tip, plane.scale, top, bottom):
        (fine if k % _MILLIMETRES else strong).append(f"M{left:.1f} {y:.1f}H{right:.1f}")
    return path("m-grid", "".join(fine)) + path("m-grid5", "".join(strong))


def _lines(origin: float, scale: float, low: float, high: float) -> Iterator[tuple[int, float]]:
    first, last = int((low - origin) // scale) + 1, int((high - origin) // scale)
    for k in range(first, last + 1):
        yield k, origin + k * scale


def outline(needle: Needle, top: float) -> list[Point]:
    """Return the outline of the metal up to z = `top`, (r, z) in mm, from its point upwards."""
    radius = needle.diameter / 2
    end: dict[str, list[Point]] = {
        "blunt": [(-radius, 0.0), (radius, 0.0)],
        "cone": [(-radius, needle.taper), (0.0, 0.0), (radius, needle.taper)],
        # Seen from the side; the lesion is computed for a round body of the same areas.
        "bevel": [(-radius, needle.taper), (radius, 0.0)],
    }
    return [(-radius, top), *end[needle.shape], (radius, top)]


def needle_marks(plane: Plane, needle: Needle) -> str:
    """Return the insulated shaft, filled up to the plate's edge, and the bare tip, open."""
    radius = needle.diameter / 2
    left, edge = plane.at(-radius, needle.tip)
    right = plane.at(radius, needle.tip)[0]
    shaft = polygon([(left, 0.0), (left, edge), (right, edge), (right, 0.0)])
    tip = polygon([plane.at(*point) for point in outline(needle, needle.tip)])
    return path("m-tip", tip) + path("m-shaft", shaft)


def boundary_marks(plane: Plane, boundaries: Sequence[Boundary]) -> str:
    """Return the isotherms from the outermost inwards, then the damage boundary over them."""
    reached = [b for b in boundaries if b.curve]
    isotherms = [
        path(f"m-iso {shade(b)}", _round(plane, b.curve)) for b in reached if b.key.isdigit()
    ]
    damage = [_round(plane, b.curve) for b in reached if not b.key.isdigit()]
    return "".join((*isotherms, *(path("m-halo", d) + path("m-damage", d) for d in damage)))


def shade(boundary: Boundary) -> str:
    """Return the class of an isotherm's colour; one without its own takes the next cooler one's."""
    return max(css for css in _SHADES if css <= f"t{boundary.key}")


def nerve_mark(plane: Plane, nerve: Nerve) -> str:
    """Return a nerve cut across: a ring to scale with three dots for its bundles."""
    centre = plane.at(nerve.offset, nerve.height)
    radius = nerve.diameter / 2 * plane.scale
    # A third of the radius off the centre, the dots leave the ring open to be seen through.
    dots = [
        circle("dot", (centre[0] + dx * radius, centre[1] + dy * radius), radius * 0.17)
        for dx, dy in ((-0.32, 0.22), (0.32, 0.22), (0.0, -0.34))
    ]
    return group("m-nerve", circle("ring", centre, radius), *dots)


def _round(plane: Plane, curve: Curve) -> str:
    """Return path data of a boundary on both sides of the axis."""
    right = [plane.at(r, z) for r, z in curve]
    left = [plane.at(-r, z) for r, z in reversed(curve)]
    if curve[0][0] == 0:
        left.pop()  # both sides meet on the axis
    return smooth([*left, *right], closed=True)
