"""The ledger as one frozen collection, with the look-ups that other rooms need."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from threeview.evidence.model import Caution, ReferenceValue, Source

__all__ = ["Ledger"]


@dataclass(frozen=True)
class Ledger:
    """Reference values, sources and cautions by id; `topics` names each value's file."""

    values: Mapping[str, ReferenceValue] = field(default_factory=dict)
    sources: Mapping[str, Source] = field(default_factory=dict)
    cautions: Mapping[str, Caution] = field(default_factory=dict)
    topics: Mapping[str, str] = field(default_factory=dict)

    def conflicts(self, value: ReferenceValue) -> tuple[ReferenceValue, ...]:
        """Return the values that `value` disagrees with, in the order its author gave."""
        return tuple(self.values[other] for other in value.conflicts_with if other in self.values)

    def sources_of(self, value: ReferenceValue) -> tuple[Source, ...]:
        """Return the sources of `value`; empty for common practice and memory."""
        return tuple(self.sources[name] for name in value.sources if name in self.sources)
