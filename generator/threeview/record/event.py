"""Events: what a learner did, immutable and closed (twin: `site_assets/src/core/event.ts`)."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Annotated, Any, Literal, Self

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Field,
    StrictInt,
    StrictStr,
    model_validator,
)

from threeview.record.canonical import CanonicalError, canonical_json

__all__ = ["Actor", "AnsweredPayload", "Event", "RawResponse", "ReadPayload", "Time", "read_time"]

_TIME_FORMAT = "%Y-%m-%dT%H:%M:%SZ"


def read_time(text: str) -> datetime:
    """Return the moment written as `2026-11-25T10:00:00Z` (UTC, whole seconds).

    Raises:
        ValueError: the text is written otherwise, or the calendar has no such moment.
    """
    moment = datetime.strptime(text, _TIME_FORMAT).replace(tzinfo=UTC)
    if moment.strftime(_TIME_FORMAT) != text:
        raise ValueError("a moment such as 2026-11-25T10:00:00Z")
    return moment


def _checked_time(text: str) -> str:
    read_time(text)
    return text


Uuid = Annotated[
    StrictStr,
    Field(pattern=r"^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$"),
]
Time = Annotated[
    StrictStr,
    Field(pattern=r"^[12][0-9]{3}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}Z$"),
    AfterValidator(_checked_time),
]
CourseId = Annotated[StrictStr, Field(pattern=r"^[a-z0-9-]{1,100}$")]
EditionName = Annotated[StrictStr, Field(pattern=r"^[A-Za-z0-9._-]{1,40}$")]
Subject = Annotated[StrictStr, Field(pattern=r"^[a-z0-9/-]{1,160}@[A-Za-z0-9._-]{1,40}$")]
ItemSubject = Annotated[
    StrictStr, Field(pattern=r"^[a-z0-9-]{1,80}/[a-z0-9-]{1,80}@[1-9][0-9]{0,5}$")
]
ShortText = Annotated[StrictStr, Field(max_length=100)]


class Closed(BaseModel):
    """Frozen and closed: an unknown field is a mistake, not a wish."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class Actor(Closed):
    """Who did it.

    Attributes:
        account: 32 hexadecimal digits, drawn once on the device; nobody's name.
        name: a name the learner chose, or nothing.
    """

    account: Annotated[StrictStr, Field(pattern=r"^[0-9a-f]{32}$")]
    name: Annotated[StrictStr, Field(max_length=80)]


class RawResponse(Closed):
    """A response as it was given; `threeview.quiz.Response` has the same fields.

    An event keeps it as written: a field that was never sent stays away, so that the event's
    canonical form does not change.
    """

    choice: Annotated[tuple[ShortText, ...], Field(max_length=50)] = ()
    value: ShortText = ""
    unit: ShortText = ""


class AnsweredPayload(Closed):
    """One answer within an attempt."""

    attempt: Uuid
    response: RawResponse


class ReadPayload(Closed):
    """How long a section was on screen, in seconds."""

    seconds: Annotated[StrictInt, Field(ge=0, le=2**53 - 1)]


class _AnsweredCheck(Closed):
    """What an answer's subject and payload must be."""

    subject: ItemSubject
    payload: AnsweredPayload


class Event(Closed):
    """One thing a learner did.

    Attributes:
        id: UUID of version 4.
        schema_version: 1; `schema` in JSON.
        actor: who.
        time: when, in UTC and whole seconds.
        course: id of the course.
        edition: name of the course's edition at that time.
        kind: what was done.
        subject: what it is about, as `id@version` or `id@edition`.
        payload: raw data of that kind, never a score.
    """

    model_config = ConfigDict(populate_by_name=True)

    id: Uuid
    schema_version: Annotated[StrictInt, Field(alias="schema", ge=1, le=1)]
    actor: Actor
    time: Time
    course: CourseId
    edition: EditionName
    kind: Literal["read", "answered", "placed", "decided", "observed"]
    subject: Subject
    payload: dict[str, Any]

    @model_validator(mode="after")
    def _check_payload(self) -> Self:
        if self.kind == "answered":
            _AnsweredCheck.model_validate({"subject": self.subject, "payload": self.payload})
        elif self.kind == "read":
            ReadPayload.model_validate(self.payload)
        try:
            canonical_json(self.payload)
        except CanonicalError as error:
            raise ValueError(f"a payload of text and whole numbers ({error})") from error
        return self

    @property
    def bare_subject(self) -> str:
        """The subject without its version."""
        return self.subject.partition("@")[0]

    def as_json(self) -> dict[str, Any]:
        """Return the event as it stands in a record file."""
        return self.model_dump(mode="json", by_alias=True)

    def canonical(self) -> str:
        """Return the canonical text, by which two events are the same or not."""
        return canonical_json(self.as_json())
