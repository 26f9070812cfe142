"""Draws items and responses, sensible and hostile, for property tests."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

IDS = "abcdef"
HOSTILE = st.text(max_size=12)
"""Any text at all; lone surrogates are left out because no browser form can send one."""


@st.composite
def choice_items(draw: st.DrawFn) -> dict[str, Any]:
    """Draw a single or multiple item as JSON."""
    options = list(IDS[: draw(st.integers(2, len(IDS)))])
    kind = draw(st.sampled_from(["single", "multiple"]))
    most = 1 if kind == "single" else len(options)
    key = draw(st.lists(st.sampled_from(options), min_size=1, max_size=most, unique=True))
    return _item(kind) | {"options": options, "key": key}


@st.composite
def numeric_items(draw: st.DrawFn) -> dict[str, Any]:
    """Draw a numeric item as JSON, with units and steps of any ratio."""
    parts = st.integers(1, 1000)
    ratio = st.tuples(parts, parts).map(list)
    low = draw(st.integers(-500, 500))
    numeric = {
        "units": {"mm": [1, 1], "odd": draw(ratio)},
        "step": draw(ratio),
        "low": low,
        "high": low + draw(st.integers(0, 50)),
    }
    return _item("numeric") | {"numeric": numeric}


def choices() -> st.SearchStrategy[dict[str, Any]]:
    """Draw a choice: known ids, repeated ids, unknown text."""
    pick = st.one_of(st.sampled_from(list(IDS)), HOSTILE)
    return st.fixed_dictionaries({"choice": st.lists(pick, max_size=8)})


def numbers() -> st.SearchStrategy[dict[str, Any]]:
    """Draw a typed number: near a half step, spelt in any of the accepted ways, or rubbish."""
    spelt = st.builds(
        lambda sign, whole, mark, part, space: f"{space}{sign}{whole}{mark}{part}{space}",
        st.sampled_from(["", "-", "+", "\u2212"]),
        st.integers(0, 999),
        st.sampled_from(["", ".", ","]),
        st.sampled_from(["", "0", "5", "25", "05", "049999", "499999", "500000", "5000001"]),
        st.sampled_from(["", " ", "\u00a0", "\u202f"]),
    )
    return st.fixed_dictionaries(
        {"value": st.one_of(spelt, HOSTILE)},
        optional={"unit": st.one_of(st.sampled_from(["mm", "odd"]), HOSTILE)},
    )


@st.composite
def edge_answers(draw: st.DrawFn) -> list[Any]:
    """Draw a numeric item and a number within a millionth of an end of what is right."""
    item = draw(numeric_items())
    numeric = item["numeric"]
    numeric["step"] = draw(st.sampled_from([[1, 1], [1, 2], [1, 10], [1, 4], [10, 1], [1, 3]]))
    numeric["low"] = draw(st.integers(-20, 20))
    numeric["high"] = numeric["low"] + draw(st.integers(0, 3))
    end = draw(st.sampled_from([2 * numeric["low"] - 1, 2 * numeric["high"] + 1]))
    millionths = 10**6 * end * numeric["step"][0] // (2 * numeric["step"][1])
    millionths += draw(st.integers(-1, 1))
    size = abs(millionths)
    text = f"{'-' if millionths < 0 else ''}{size // 10**6}.{size % 10**6:06d}"
    return [item, {"value": text, "unit": "mm"}]


def items_with_responses() -> st.SearchStrategy[list[Any]]:
    """Draw an item and a response to it, now and then of the other kind."""
    items = st.one_of(choice_items(), numeric_items())
    any_pair = st.tuples(items, st.one_of(choices(), numbers())).map(list)
    return st.one_of(any_pair, edge_answers())


def _item(kind: str) -> dict[str, Any]:
    return {"id": "bank/item", "version": 1, "type": kind, "objective": "o", "critical": False}
