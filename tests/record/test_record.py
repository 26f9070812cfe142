"""Properties of records: damage is found, union is a union, both languages write alike."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.record.draw import ACCOUNT, events, identifier, json_values, logs
from tests.vectors.browser_core import ask_browser_core
from tests.vectors.load import load_vectors

from threeview.record import Actor, Event, Record, RefusedRecord, export_record, merge, parse_record
from threeview.record.canonical import CanonicalError, canonical_json
from threeview.record.log import LARGEST

BATCH = 300


def read_log(log: list[dict[str, Any]]) -> tuple[Event, ...]:
    """Return the events of a drawn log in the order of logs."""
    return merge((), tuple(Event.model_validate(event) for event in log)).events


def record_of(log: list[dict[str, Any]]) -> Record:
    """Return a record that holds a drawn log."""
    return Record(
        course="sample",
        actor=Actor(account=ACCOUNT, name="Ω"),
        exported="2026-11-25T12:00:00Z",
        events=read_log(log),
    )


def refusal(data: bytes) -> str:
    """Return why a file is refused, or "read"."""
    try:
        parse_record(data, "sample")
    except RefusedRecord as error:
        return error.reason
    return "read"


SMALL = {
    "id": identifier(1),
    "schema": 1,
    "actor": {"account": ACCOUNT, "name": "Ω"},
    "time": "2026-11-25T10:00:00Z",
    "course": "sample",
    "edition": "2026-11",
    "kind": "answered",
    "subject": "bank/item@1",
    "payload": {"attempt": identifier(900), "response": {"value": "8,1", "unit": "mm"}},
}


def test_any_flipped_bit_is_noticed() -> None:
    """A record with one bit flipped anywhere is refused, whatever bit it is."""
    sound = export_record(record_of([SMALL]))
    assert refusal(sound) == "read"
    for place in range(len(sound)):
        for bit in range(8):
            damaged = bytearray(sound)
            damaged[place] ^= 1 << bit
            assert refusal(bytes(damaged)) != "read", (place, bit)


def test_any_cut_is_noticed() -> None:
    """A record cut short anywhere is refused."""
    sound = export_record(record_of([SMALL]))
    for length in range(len(sound)):
        assert refusal(sound[:length]) == "not-a-record"


def test_too_large_a_file_is_refused_before_it_is_read() -> None:
    """A file over the limit is refused with words, even when it is no JSON."""
    with pytest.raises(RefusedRecord, match="larger than a record can be") as caught:
        parse_record(b"{" * (LARGEST + 1))
    assert caught.value.reason == "too-large"


def test_bytes_that_are_no_text_are_refused() -> None:
    """Bytes outside UTF-8 are no record."""
    assert refusal(b"\xff\xfe{}") == "not-a-record"


def test_refusal_names_the_place() -> None:
    """The words of an unsound record name the entry and the field."""
    body = json.loads(export_record(record_of([SMALL])))
    body["events"][0]["kind"] = "passed"
    del body["sha256"]
    sealed = body | {"sha256": canonical_digest(body)}
    with pytest.raises(RefusedRecord, match=r"events\.0\.kind"):
        parse_record(json.dumps(sealed).encode())


def canonical_digest(body: dict[str, Any]) -> str:
    """Return the checksum that a record with this body must carry."""
    from threeview.record.canonical import sha256_hex

    return sha256_hex(canonical_json(body))


@given(logs())
def test_record_reads_back_as_it_was_written(log: list[dict[str, Any]]) -> None:
    """Writing and reading a record loses and changes nothing."""
    record = record_of(log)
    assert record == parse_record(export_record(record), "sample")
    assert {e["id"]: e for e in log} == {e.id: e.as_json() for e in record.events}


@settings(max_examples=50)
@given(logs(), logs(), logs())
def test_merging_is_a_union(
    one: list[dict[str, Any]], two: list[dict[str, Any]], three: list[dict[str, Any]]
) -> None:
    """Without conflicts, joining logs does not depend on order, grouping or repetition."""
    pool = {event["id"]: event for log in (one, two, three) for event in log}
    a, b, c = (read_log([pool[event["id"]] for event in log]) for log in (one, two, three))
    assert merge(a, b).events == merge(b, a).events
    assert merge(merge(a, b).events, c).events == merge(a, merge(b, c).events).events
    assert merge(a, a).events == a
    assert not merge(a, a).added
    assert {event.id for event in merge(a, b).events} == {event.id for event in (*a, *b)}


@given(events(), events())
def test_conflict_keeps_both(first: dict[str, Any], second: dict[str, Any]) -> None:
    """One id with other contents never overwrites: both sides are handed back."""
    second["id"] = first["id"]
    ours, theirs = Event.model_validate(first), Event.model_validate(second)
    result = merge((ours,), (theirs,))
    assert result.events == (ours,)
    pairs = [(pair.ours, pair.theirs) for pair in result.conflicts]
    assert pairs == ([] if first == second else [(ours, theirs)])


def test_python_and_browser_write_alike() -> None:
    """Any value gets the same canonical text in both languages, or none in both."""
    odd = st.one_of(json_values(), st.floats(), st.integers())
    values: list[Any] = []

    @settings(max_examples=BATCH, database=None)
    @given(st.one_of(odd, st.lists(odd, max_size=2)))
    def collect(value: Any) -> None:  # noqa: ANN401 - any JSON at all
        values.append(value)

    collect()
    # NaN and infinity cannot travel as JSON; whole floats turn into integers in a browser.
    fit = [value for value in values if is_plain(value)]
    for value, there in zip(fit, ask_browser_core("canonical", fit), strict=True):
        assert there == canonical_or_none(value), value


def is_plain(value: object) -> bool:
    """Tell whether JSON carries the value to the browser unchanged."""
    parts = value if isinstance(value, list) else [value]
    return not any(
        isinstance(part, float) and (part != part or part in {-1e400, 1e400} or part.is_integer())  # noqa: PLR0124 - NaN
        for part in parts
    )


def canonical_or_none(value: object) -> str | None:
    """Return the canonical text, or None where there is none."""
    try:
        return canonical_json(value)
    except CanonicalError:
        return None


def test_python_and_browser_write_the_same_record() -> None:
    """Both languages write byte for byte the same record file."""
    records: list[Record] = []

    @settings(max_examples=60, database=None)
    @given(logs())
    def collect(log: list[dict[str, Any]]) -> None:
        records.append(record_of(log))

    collect()
    plain = [
        record.model_dump(mode="json", by_alias=True, exclude={"events"})
        | {"events": [event.as_json() for event in record.events]}
        for record in records
    ]
    assert [export_record(record).decode() for record in records] == ask_browser_core(
        "write", plain
    )


def test_python_and_browser_refuse_alike() -> None:
    """Records with one character changed are refused for the same reason in both languages."""
    texts = [v.test["text"] for v in load_vectors("record") if v.case["kind"] == "parse"]
    long = [text for text in texts if len(text) > 100]
    changed: list[str] = []

    @settings(max_examples=BATCH, database=None)
    @given(st.sampled_from(long), st.integers(0, 2**16), st.sampled_from('0a"\\,{}[]:-. \n\u00a0'))
    def collect(text: str, place: int, character: str) -> None:
        cut = place % len(text)
        changed.append(text[:cut] + character + text[cut + 1 :])

    collect()
    for text, there in zip(changed, ask_browser_core("parse", changed), strict=True):
        assert there == refusal(text.encode()), text
