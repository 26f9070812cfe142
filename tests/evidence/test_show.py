"""Numbers as a reader sees them."""

from __future__ import annotations

import pytest

from threeview.evidence import Quantity, ReferenceValue, show_value


@pytest.mark.parametrize(
    ("fields", "shown"),
    [
        ({"low": "58", "high": "65", "unit": "%"}, "58–65\u00a0%"),
        ({"value": "5.0", "unit": "mm"}, "5.0\u00a0mm"),
        ({"value": "-0.01"}, "−0.01"),
        ({"value": "-0.01", "low": "-0.24", "high": "0.23"}, "−0.01 (−0.24 to 0.23)"),
        ({"high": "0.5", "unit": "V"}, "≤\u202f0.5\u00a0V"),
        ({"low": "3", "unit": "mo"}, "≥\u202f3\u00a0months"),
        ({"value": "1", "unit": "wk"}, "1\u00a0week"),
        ({"value": "40", "unit": "deg"}, "40°"),
        ({"value": "26061", "unit": "count"}, "26\u202f061"),
        ({"value": "1e3", "unit": "s"}, "1000\u00a0s"),
    ],
)
def test_quantities(fields: dict[str, str], shown: str) -> None:
    """En dashes, minus signs, no-break spaces, the author's own digits."""
    assert show_value(Quantity(**fields)) == shown


def test_comparators_and_categories() -> None:
    """'about 5 mm' says about; a named result shows its words."""
    fixed = {"id": "x", "statement": "s", "basis": "common practice", "as_of": "2026-01-31"}
    about = ReferenceValue(value="5", unit="mm", comparator="about", **fixed)
    assert show_value(about) == "about 5\u00a0mm"
    assert show_value(ReferenceValue(category="weak", **fixed)) == "weak"
