"""The computed lesion beside a published series of measured ones.

Source: Factors that affect radiofrequency heat lesion size. Pain Medicine 2014,
doi 10.1111/pme.12566 (abstract). Excised tissue; 80 °C for two minutes unless varied. The
abstract states neither start temperature nor when its clock starts; room temperature and a clock
from the set temperature are taken here, a 10 mm tip, and the 50 °C isotherm at the end of heating.
"""

from __future__ import annotations

from functools import cache

import pytest
from tests.lesion.parameters import EX_VIVO, MUSCLE, needle, usual

from threeview.lesion import Numerics, Tissue
from threeview.lesion.effects import SettingEffects, setting_effects

#: Published ranges, percent and mm.
TEMPERATURE = (108.0, 152.0)  # 60 to 90 °C
TWO_MINUTES = (11.0, 20.0)  # against one
THREE_MINUTES = (23.0, 32.0)  # against one
EXCESS = (1.0, 5.0)  # length beyond the active tip
GAUGE_PERCENT, GAUGE_MM = (58.0, 65.0), (3.0, 4.0)  # 22 to 16 gauge

#: Within 0.2 % of the default mesh's widths, and three times as quick.
QUICK = Numerics(spacing_mm=0.1, growth=0.2, frame_s=600.0)


@cache
def effects(
    gauge: int, tip_mm: float = 10.0, tissue: Tissue = EX_VIVO, start: float = 22.0
) -> SettingEffects:
    """Return the effects for one electrode."""
    case = usual(electrode=needle(gauge, tip_mm), tissue=tissue, start_temperature_c=start)
    return setting_effects(case, (60.0, 90.0), (60.0, 120.0, 180.0), QUICK)


@pytest.mark.parametrize("gauge", [22, 20, 18])
def test_set_temperature_widens_as_published(gauge: int) -> None:
    """From 60 to 90 °C the lesion becomes 108 to 152 % wider."""
    assert TEMPERATURE[0] <= effects(gauge).temperature_percent <= TEMPERATURE[1]


@pytest.mark.parametrize("gauge", [22, 20, 18])
def test_time_widens_as_published(gauge: int) -> None:
    """Two minutes give 11 to 20 % more width than one, three minutes 23 to 32 %."""
    two, three = effects(gauge).time_percent
    assert TWO_MINUTES[0] <= two <= TWO_MINUTES[1]
    assert THREE_MINUTES[0] <= three <= THREE_MINUTES[1]


@pytest.mark.parametrize("gauge", [22, 20, 18])
def test_length_exceeds_the_tip_as_published(gauge: int) -> None:
    """The lesion is 1 to 5 mm longer than the active tip."""
    assert EXCESS[0] <= effects(gauge).length_excess_mm <= EXCESS[1]


def test_gauge_effect_is_smaller_than_published() -> None:
    """A known disagreement, kept in sight: from 22 to 16 gauge the model widens far less.

    Published 58 to 65 % and 3 to 4 mm; computed 38 % and 2.5 mm. No parameter within its range
    closes the gap, so none is tuned; should this test fail, the pages that state it are out of
    date.
    """
    thin, thick = effects(22).width_mm, effects(16).width_mm
    assert 35.0 < 100 * (thick / thin - 1) < 42.0 < GAUGE_PERCENT[0]
    assert 2.3 < thick - thin < 2.7 < GAUGE_MM[0]


def test_widest_needle_answers_less_to_temperature_than_published() -> None:
    """A known disagreement, kept in sight: at 16 gauge 60 to 90 °C adds about 101 %, not 108."""
    assert 97.0 < effects(16).temperature_percent < 105.0 < TEMPERATURE[0]


@pytest.mark.parametrize(("tip", "two"), [(5.0, 9.6), (15.0, 23.6)])
def test_short_and_long_tips_answer_otherwise_to_time(tip: float, two: float) -> None:
    """A known disagreement, kept in sight: 5 and 15 mm tips fall outside the pooled 11 to 20 %."""
    found = effects(20, tip).time_percent[0]
    assert abs(found - two) < 1.0
    assert not TWO_MINUTES[0] <= found <= TWO_MINUTES[1]


def test_body_temperature_gives_longer_lesions_than_published() -> None:
    """A known disagreement, kept in sight: started at 37 °C the excess length passes 5 mm."""
    assert effects(20, 10.0, MUSCLE, 37.0).length_excess_mm > EXCESS[1]
