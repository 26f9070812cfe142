"""Draws events and JSON values, for property tests."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

ACCOUNT = "0123456789abcdef0123456789abcdef"
TEXT = st.text(
    st.sampled_from('aB09 _"\\/<\0\n\x1f\x7f\u00a0\u03a9\u2028\u2212\ufb01\U0001f600'), max_size=6
)
"""Text of characters that languages treat differently: in sorting, escaping or counting."""
WHOLE = st.integers(-(2**53) + 1, 2**53 - 1)


def json_values() -> st.SearchStrategy[Any]:
    """Draw a value of text, whole numbers, booleans, null, lists and objects."""
    plain = st.one_of(st.none(), st.booleans(), WHOLE, TEXT)
    return st.recursive(
        plain,
        lambda inner: st.one_of(
            st.lists(inner, max_size=4), st.dictionaries(TEXT, inner, max_size=4)
        ),
        max_leaves=12,
    )


def responses() -> st.SearchStrategy[dict[str, Any]]:
    """Draw a response as a form may send it."""
    return st.fixed_dictionaries(
        {}, optional={"choice": st.lists(TEXT, max_size=2), "value": TEXT, "unit": TEXT}
    )


@st.composite
def events(draw: st.DrawFn, items: tuple[str, ...] = ("bank/item@1",)) -> dict[str, Any]:
    """Draw one event as JSON; few ids, times and subjects, so that they often coincide."""
    kind = draw(st.sampled_from(["answered", "answered", "read", "placed"]))
    subjects = {"read": ("heat/arises@2026-11",), "placed": ("task@1",), "answered": items}
    return {
        "id": identifier(draw(st.integers(0, 20))),
        "schema": 1,
        "actor": {"account": ACCOUNT, "name": draw(st.sampled_from(["", "Ω <b>"]))},
        "time": f"2026-11-{draw(st.sampled_from([24, 25, 28]))}T10:00:00Z",
        "course": "sample",
        "edition": "2026-11",
        "kind": kind,
        "subject": draw(st.sampled_from(subjects[kind])),
        "payload": draw(_payloads(kind)),
    }


def _payloads(kind: str) -> st.SearchStrategy[dict[str, Any]]:
    if kind == "read":
        return st.fixed_dictionaries({"seconds": st.integers(0, 9)})
    if kind == "placed":
        return st.dictionaries(TEXT, WHOLE, max_size=2)
    attempts = st.integers(900, 902).map(identifier)
    return st.fixed_dictionaries({"attempt": attempts, "response": responses()})


def logs(items: tuple[str, ...] = ("bank/item@1",)) -> st.SearchStrategy[list[dict[str, Any]]]:
    """Draw a log: events with distinct ids, in any order."""
    return st.lists(events(items), max_size=8, unique_by=lambda event: str(event["id"]))


def identifier(number: int) -> str:
    """Return a UUID of version 4 that ends in the number."""
    return f"00000000-0000-4000-8000-{number:012x}"
