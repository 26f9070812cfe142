"""The tests' parameters are the course's, and the engine allows what the course offers."""

from __future__ import annotations

from dataclasses import fields, replace
from pathlib import Path
from typing import Any

import pytest
import yaml
from tests.lesion.parameters import DAMAGE, DIAMETERS, EX_VIVO, MUSCLE, needle, usual

from threeview.lesion import Numerics, Tissue
from threeview.lesion.limits import check

TABLES = Path(__file__).parents[2] / "content" / "reference"


def table(name: str) -> dict[str, Any]:
    """Return one of the course's tables."""
    found: dict[str, Any] = yaml.safe_load((TABLES / f"{name}.yaml").read_text("utf-8"))
    return found


@pytest.mark.parametrize(("name", "tissue"), [("muscle", MUSCLE), ("ex-vivo-medium", EX_VIVO)])
def test_tissues_are_those_of_the_course(name: str, tissue: Tissue) -> None:
    """Each property of a tissue in the tests has the course's value."""
    entry = next(t for t in table("tissues")["tissues"] if t["id"] == name)
    for field in fields(Tissue):
        key = field.name.removesuffix("_c").removesuffix("_per_s")
        assert getattr(tissue, field.name) == entry[key]["value"], field.name


def test_electrodes_are_those_of_the_course() -> None:
    """Diameters, metal, sleeve, sensor, taper and damage law have the course's values."""
    electrodes = table("electrodes")
    for entry in electrodes["gauges"]:
        if entry["gauge"] in DIAMETERS:
            assert DIAMETERS[entry["gauge"]] == entry["outer_diameter"]["value"]
    own, parts = needle(), electrodes["parts"]
    assert own.metal_thermal_conductivity == parts["metal_thermal_conductivity"]["value"]
    assert own.metal_heat_capacity == parts["metal_heat_capacity"]["value"]
    assert own.insulation_resistance == parts["insulation_resistance"]["value"]
    assert own.sensor_depth_mm == parts["sensor_depth"]["value"]
    taper = {shape["id"]: shape["taper_ratio"]["value"] for shape in electrodes["tip_shapes"]}
    assert own.taper_ratio == taper["cone"]
    law = table("tissues")["damage"][0]
    assert law["frequency_factor"]["value"] == DAMAGE.frequency_factor
    assert law["activation_energy"]["value"] == DAMAGE.activation_energy


@pytest.mark.parametrize("end", ["low", "high"])
def test_engine_allows_all_the_course_offers(end: str) -> None:
    """Both ends of every range in the course's tables pass the engine's own check."""
    limits, tissues = table("electrodes")["limits"], table("tissues")
    case = usual(
        set_temperature_c=limits["set_temperature"][end],
        time_s=limits["time"][end],
        ramp_s=limits["ramp"][end],
        start_temperature_c=limits["start_temperature"][end],
        tissue=replace(MUSCLE, perfusion_per_s=tissues["limits"]["perfusion"][end]),
        electrode=needle(limits["gauge"][end], limits["tip_length"][end]),
    )
    check(case, Numerics())


def test_every_gauge_and_shape_of_the_course_can_be_computed() -> None:
    """Each gauge of the table, with each tip shape, passes the engine's check at 5 mm or more."""
    electrodes = table("electrodes")
    for entry in electrodes["gauges"]:
        for shape in electrodes["tip_shapes"]:
            electrode = needle(
                tip_mm=5.0,
                outer_diameter_mm=entry["outer_diameter"]["value"],
                tip_shape=shape["id"],
                taper_ratio=shape["taper_ratio"]["value"],
            )
            check(usual(electrode=electrode), Numerics())


@pytest.mark.parametrize("name", ["electrodes", "tissues"])
def test_every_property_tells_where_it_comes_from(name: str) -> None:
    """Each value has unit, basis and source words, lies in its range, and 'published' was read."""

    def walk(node: object) -> list[dict[str, Any]]:
        if isinstance(node, dict):
            inner = [p for child in node.values() for p in walk(child)]
            return [node, *inner] if "value" in node else inner
        if isinstance(node, list):
            return [p for child in node for p in walk(child)]
        return []

    properties = walk(table(name))
    assert len(properties) > 10
    for p in properties:
        assert set(p) == {"value", "unit", "basis", "read_as", "source", "range"}, p
        assert p["range"][0] <= p["value"] <= p["range"][1], p
        assert p["basis"] in {"published", "common practice", "from memory"}, p
        assert (p["read_as"] is not None) == (p["basis"] == "published"), p
        assert p["source"], p
