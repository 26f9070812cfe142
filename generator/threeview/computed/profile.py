"""A field tabulated by distance: its value anywhere, and the distance of a value.

The field falls by powers of the distance, so between table points both run straight in their
logarithms.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["distance_of", "field_at"]


def field_at(distances: Sequence[float], fields: Sequence[float], distance: float) -> float:
    """Return the field, V/m, at a distance within the table, mm."""
    return _between(distances, fields, distance)


def distance_of(distances: Sequence[float], fields: Sequence[float], field: float) -> float | None:
    """Return the distance, mm, at which a falling field has a value; None outside the table."""
    if not fields[-1] <= field <= fields[0]:
        return None
    return _between(fields[::-1], distances[::-1], field)


def _between(rising: Sequence[float], values: Sequence[float], at: float) -> float:
    index = min(max(bisect_left(rising, at), 1), len(rising) - 1)
    left, right = math.log(rising[index - 1]), math.log(rising[index])
    share = (math.log(at) - left) / (right - left)
    low, high = math.log(values[index - 1]), math.log(values[index])
    return math.exp((1 - share) * low + share * high)
