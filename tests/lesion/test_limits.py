"""Impossible settings are refused, all at once, with what is possible."""

from __future__ import annotations

from dataclasses import fields, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.lesion.parameters import MUSCLE, needle, usual

from threeview.errors import SettingError
from threeview.lesion import Numerics, field_profile, simulate
from threeview.lesion.limits import check

WRONG = st.one_of(
    st.floats(max_value=-1.0), st.floats(min_value=1e121), st.just(float("nan")), st.just("ten")
)
PARTS = [(None, f) for f in ("set_temperature_c", "time_s", "ramp_s", "start_temperature_c")]
PARTS += [
    (part, field.name)
    for part in ("electrode", "tissue", "damage")
    for field in fields(getattr(usual(), part))
    if field.name != "tip_shape"
]


@pytest.mark.parametrize(("part", "name"), PARTS, ids=[f"{p or 'case'}.{n}" for p, n in PARTS])
@settings(deadline=None)  # a busy machine is no fault
@given(value=WRONG)
def test_every_number_is_guarded(part: str | None, name: str, value: object) -> None:
    """A negative, absurd, missing or worded number is refused wherever it stands."""
    case = usual()
    if part is None:
        case = replace(case, **{name: value})
    else:
        case = replace(case, **{part: replace(getattr(case, part), **{name: value})})
    with pytest.raises(SettingError) as told:
        check(case, Numerics())
    assert any("expected" in fault for fault in told.value.faults)


@settings(deadline=None)
@given(
    tip=st.floats(4, 15),
    diameter=st.floats(0.7, 1.7),
    setting=st.floats(45, 95),
    time=st.floats(5, 600),
    start=st.floats(15, 40),
)
def test_every_setting_of_the_bench_is_allowed(
    tip: float, diameter: float, setting: float, time: float, start: float
) -> None:
    """All combinations inside the ranges pass."""
    electrode = needle(tip_mm=tip, outer_diameter_mm=diameter)
    case = usual(
        electrode=electrode, set_temperature_c=setting, time_s=time, start_temperature_c=start
    )
    check(case, Numerics())


def test_all_faults_are_told_at_once() -> None:
    """Four faults give four lines, each with value, unit and legal range."""
    case = usual(
        electrode=needle(tip_mm=20.0),
        set_temperature_c=99.0,
        tissue=replace(MUSCLE, perfusion_per_s=float("nan")),
        criterion="isoterm 50",
    )
    with pytest.raises(SettingError) as told:
        simulate(case)
    faults = told.value.faults
    assert faults[0] == "set temperature is 99 °C; expected 45 to 95 °C"
    assert faults[1] == "active tip is 20 mm; expected 4 to 15 mm"
    assert faults[2] == "perfusion is nan 1/s; expected 0 to 0.01 1/s"
    assert faults[3].startswith("criterion is 'isoterm 50'")
    assert faults[3].endswith("(did you mean 'isotherm 50'?)")
    assert len(faults) == 4


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"tip_shape": "hook"}, "tip shape is 'hook'"),
        ({"tip_shape": "blunt"}, "on a blunt tip; expected 0"),
        ({"taper_ratio": 0.0}, "taper ratio is 0 on a cone tip"),
        ({"tip_mm": 4.0, "outer_diameter_mm": 1.65, "taper_ratio": 3.0}, "tapered end is 4.95 mm"),
        ({"sensor_depth_mm": 4.0, "tip_mm": 4.0, "taper_ratio": 4.0}, "taper ratio is 4"),
    ],
)
def test_lengths_must_fit_each_other(changes: dict[str, object], words: str) -> None:
    """Shape, taper, tip and sensor must make one electrode."""
    with pytest.raises(SettingError) as told:
        check(usual(electrode=needle(**changes)), Numerics())
    assert any(words in fault for fault in told.value.faults), told.value.faults


def test_numerics_are_guarded_too() -> None:
    """A mesh too coarse to mean anything is refused."""
    with pytest.raises(SettingError, match=r"mesh spacing is 2 mm; expected 0\.005 to 0\.3 mm"):
        check(usual(), Numerics(spacing_mm=2.0))


def test_field_profile_guards_its_settings() -> None:
    """Temperature and distances outside the model are refused."""
    with pytest.raises(SettingError, match="temperature is 150 °C; expected 0 to 100 °C"):
        field_profile(needle(), MUSCLE, [1.0], temperature_c=150.0)
    with pytest.raises(SettingError) as told:
        field_profile(needle(), MUSCLE, [0.0, 1.0, 40.0], temperature_c=37.0)
    assert told.value.faults == (
        "distance is 0 mm; expected above 0 and up to 22.5 mm",
        "distance is 40 mm; expected above 0 and up to 22.5 mm",
    )
