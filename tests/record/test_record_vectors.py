"""The shared record vectors, run by Python."""

from __future__ import annotations

import hashlib
import json

import pytest
from tests.vectors.load import Vector, load_vectors

from threeview.record import Event, RefusedRecord, export_record, merge, parse_record
from threeview.record.canonical import CanonicalError, canonical_json, sha256_hex

VECTORS = load_vectors("record")


def of_kind(kind: str) -> pytest.MarkDecorator:
    """Parametrise a test by the vectors of one kind."""
    chosen = [vector for vector in VECTORS if vector.case["kind"] == kind]
    assert chosen, f"record.json holds no case of kind {kind}"
    return pytest.mark.parametrize("vector", chosen, ids=[vector.number for vector in chosen])


@of_kind("canonical")
def test_value_gets_its_one_canonical_text(vector: Vector) -> None:
    """Every value gets its stated text and checksum, or is refused."""
    value = json.loads(vector.test["json"])
    if vector.test["expected"] is None:
        with pytest.raises(CanonicalError):
            canonical_json(value)
        return
    text = canonical_json(value)
    assert vector.test["expected"] == text, vector.reason
    assert vector.test["sha256"] == sha256_hex(text)
    assert vector.test["sha256"] == hashlib.sha256(text.encode()).hexdigest()


@of_kind("merge")
def test_logs_join_as_sets(vector: Vector) -> None:
    """The union holds every event once, and conflicts are told."""
    ours, theirs = (
        tuple(Event.model_validate(event) for event in vector.test[side])
        for side in ("ours", "theirs")
    )
    result = merge(ours, theirs)
    found = {
        "events": [event.id for event in result.events],
        "added": [event.id for event in result.added],
        "conflicts": [pair.theirs.id for pair in result.conflicts],
    }
    assert vector.test["expected"] == found, vector.reason


@of_kind("parse")
def test_file_is_read_or_refused(vector: Vector) -> None:
    """Sound files give their events; all others are refused for the stated reason."""
    data = vector.test["text"].encode()
    refused = vector.test["expected"].get("refused")
    if refused is not None:
        with pytest.raises(RefusedRecord) as caught:
            parse_record(data, "sample")
        assert refused == caught.value.reason, vector.reason
        return
    record = parse_record(data, "sample")
    assert vector.test["expected"]["events"] == [event.id for event in record.events]
    assert json.loads(data.decode("utf-8-sig")) == json.loads(export_record(record))
