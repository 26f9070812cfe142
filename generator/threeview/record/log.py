"""The record file: a learner's log as a file (twin: `site_assets/src/core/record.ts`)."""

from __future__ import annotations

import json
from itertools import pairwise
from typing import Annotated, Any, Literal, NoReturn, Self

from pydantic import Field, StrictInt, ValidationError, model_validator

from threeview.errors import RecordError
from threeview.record.canonical import CanonicalError, canonical_json, sha256_hex
from threeview.record.event import Actor, Closed, CourseId, Event, Time

__all__ = ["Conflict", "Merge", "Record", "RefusedRecord", "export_record", "merge", "parse_record"]

FORMAT = "threeview-record"
VERSION = 1
LARGEST = 20_000_000
"""Largest file that is read, in bytes."""

Refusal = Literal["too-large", "not-a-record", "newer", "damaged", "unsound", "other-course"]

_WORDS: dict[Refusal, str] = {
    "too-large": "the file is larger than a record can be; choose the file saved from the logbook",
    "not-a-record": (
        "the file is not a record of a Threeview course, or it was cut short; "
        "choose a file whose name begins with threeview-record"
    ),
    "newer": "the record was written by a newer version; update threeview and try again",
    "damaged": (
        "the record was changed or damaged after it was saved: its checksum does not agree; "
        "ask for the record to be saved again where it was made"
    ),
    "unsound": (
        "the record holds entries that a course could not have written; "
        "ask for the record to be saved again where it was made"
    ),
    "other-course": "the record belongs to another course",
}


class RefusedRecord(RecordError):  # noqa: N818 - named for what the reader meets
    """A file was refused, and nothing of it may be used.

    Attributes:
        reason: one of a closed list, the same as in the browser.
    """

    def __init__(self, reason: Refusal, detail: str = "") -> None:
        self.reason: Refusal = reason
        super().__init__(f"{_WORDS[reason]} ({detail})" if detail else _WORDS[reason])


class Record(Closed):
    """A learner's log at the moment it was saved.

    Attributes:
        course: id of the course.
        actor: whose device saved it.
        exported: when it was saved.
        events: sorted by time, then id; each id once.
    """

    course: CourseId
    actor: Actor
    exported: Time
    events: tuple[Event, ...]

    @model_validator(mode="after")
    def _check_events(self) -> Self:
        order = [_order(event) for event in self.events]
        if any(after <= before for before, after in pairwise(order)):
            raise ValueError("events sorted by time and id, each once")
        if any(event.course != self.course for event in self.events):
            raise ValueError("events of one course")
        return self


class Conflict(Closed):
    """Two events under one id with different contents; neither may replace the other."""

    ours: Event
    theirs: Event


class Merge(Closed):
    """Two logs joined.

    Attributes:
        events: union of both in the order of the log; where they conflict, ours.
        added: events that only the second log held.
        conflicts: pairs under one id that differ.
    """

    events: tuple[Event, ...]
    added: tuple[Event, ...]
    conflicts: tuple[Conflict, ...]


def merge(ours: tuple[Event, ...], theirs: tuple[Event, ...]) -> Merge:
    """Join two logs as sets: nothing is lost and nothing is replaced."""
    known = {event.id: event for event in ours}
    added: list[Event] = []
    conflicts: list[Conflict] = []
    for event in theirs:
        same = known.get(event.id)
        if same is None:
            known[event.id] = event
            added.append(event)
        elif same.canonical() != event.canonical():
            conflicts.append(Conflict(ours=same, theirs=event))
    return Merge(
        events=tuple(sorted(known.values(), key=_order)),
        added=tuple(sorted(added, key=_order)),
        conflicts=tuple(conflicts),
    )


def export_record(record: Record) -> bytes:
    """Write a record file; its checksum finds damage, it does not say who made it."""
    body = {
        "format": FORMAT,
        "version": VERSION,
        "course": record.course,
        "actor": record.actor.model_dump(),
        "exported": record.exported,
        "events": [event.as_json() for event in record.events],
    }
    return canonical_json(body | {"sha256": sha256_hex(canonical_json(body))}).encode()


def parse_record(data: bytes, course: str | None = None) -> Record:
    """Read a record file, of the given course if one is given.

    Raises:
        RefusedRecord: the file is no record, damaged, newer, unsound or another course's.
    """
    if len(data) > LARGEST:
        raise RefusedRecord("too-large")
    value = _parse_json(data)
    if not isinstance(value, dict) or value.get("format") != FORMAT:
        raise RefusedRecord("not-a-record")
    version = value.get("version")
    if isinstance(version, bool) or version != VERSION:
        raise RefusedRecord("newer")
    body = {key: part for key, part in value.items() if key != "sha256"}
    if _checksum(body) != value.get("sha256"):
        raise RefusedRecord("damaged")
    record = _validate(body)
    if course is not None and record.course != course:
        raise RefusedRecord("other-course", f'found "{record.course}", expected "{course}"')
    return record


def _order(event: Event) -> tuple[str, str]:
    return event.time, event.id


def _parse_json(data: bytes) -> Any:  # noqa: ANN401 - any JSON at all
    try:
        return json.loads(data.decode("utf-8-sig"), parse_constant=_refuse_constant)
    except (ValueError, RecursionError) as error:
        raise RefusedRecord("not-a-record") from error


def _refuse_constant(name: str) -> NoReturn:
    """Refuse NaN and Infinity, which Python reads but JSON does not have."""
    raise ValueError(f"{name} is not JSON")


def _checksum(body: dict[str, Any]) -> str:
    try:
        return sha256_hex(canonical_json(body))
    except CanonicalError as error:
        raise RefusedRecord("unsound", str(error)) from error


class _Body(Record):
    """The record as it stands in the file, its checksum apart."""

    format: Literal["threeview-record"]
    version: Annotated[StrictInt, Field(ge=VERSION, le=VERSION)]


def _validate(body: dict[str, Any]) -> Record:
    try:
        whole = _Body.model_validate(body)
    except ValidationError as error:
        first = error.errors()[0]
        place = ".".join(str(step) for step in first["loc"])
        raise RefusedRecord("unsound", f"{place}: {first['msg']}") from error
    return Record(
        course=whole.course, actor=whole.actor, exported=whole.exported, events=whole.events
    )
