/** The record file: a learner's log as a file to keep or hand on (twin: `threeview.record.log`). */
import { CanonicalError, canonicalJson, sha256Hex } from "./canonical";
import {
  byTime,
  fields,
  isActor,
  isCourse,
  isEvent,
  isObject,
  isTime,
  type Actor,
  type Event,
} from "./event";

export const FORMAT = "threeview-record";
export const VERSION = 1;
/** Largest file that is read, in bytes. */
export const LARGEST = 20_000_000;

export type Refusal =
  | "too-large"
  | "not-a-record"
  | "newer"
  | "damaged"
  | "unsound"
  | "other-course";

/** Why a file was refused; the message is for the learner. */
export class RecordError extends Error {
  constructor(
    readonly reason: Refusal,
    message: string,
  ) {
    super(message);
  }
}

export interface RecordFile {
  readonly course: string;
  readonly actor: Actor;
  readonly exported: string;
  readonly events: readonly Event[];
}

/** Two events under one id with different contents; neither may replace the other. */
export interface Conflict {
  readonly ours: Event;
  readonly theirs: Event;
}

export interface Merge {
  /** Union of both logs, in the order of the log; where they conflict, ours. */
  readonly events: readonly Event[];
  readonly added: readonly Event[];
  readonly conflicts: readonly Conflict[];
}

/** Join two logs as sets. */
export function merge(ours: readonly Event[], theirs: readonly Event[]): Merge {
  const known = new Map(ours.map((event) => [event.id, event]));
  const added: Event[] = [];
  const conflicts: Conflict[] = [];
  for (const event of theirs) {
    const same = known.get(event.id);
    if (same === undefined) {
      known.set(event.id, event);
      added.push(event);
    } else if (canonicalJson(same) !== canonicalJson(event)) {
      conflicts.push({ ours: same, theirs: event });
    }
  }
  return { events: [...known.values()].sort(byTime), added: added.sort(byTime), conflicts };
}

/** Write a record file; its checksum finds damage, it does not say who made it. */
export function writeRecord(record: RecordFile): string {
  const body = {
    format: FORMAT,
    version: VERSION,
    course: record.course,
    actor: record.actor,
    exported: record.exported,
    events: [...record.events].sort(byTime),
  };
  return canonicalJson({ ...body, sha256: sha256Hex(canonicalJson(body)) });
}

/** Read a record file of the course; throws RecordError, and then nothing of it may be used. */
export function parseRecord(bytes: Uint8Array, course: string): RecordFile {
  if (bytes.length > LARGEST) throw refuse("too-large");
  const value = parseJson(bytes);
  if (!isObject(value.json) || value.json.format !== FORMAT) throw refuse("not-a-record");
  if (value.json.version !== VERSION) throw refuse("newer");
  const { sha256, ...body } = value.json;
  if (hasFraction(value.text)) throw refuse("unsound");
  if (checksum(body) !== sha256) throw refuse("damaged");
  if (!isBody(body)) throw refuse("unsound");
  if (body.course !== course) throw otherCourse(body.course, course);
  const { actor, exported, events } = body;
  return { course, actor, exported, events };
}

function parseJson(bytes: Uint8Array): { json: unknown; text: string } {
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return { json: JSON.parse(text), text };
  } catch {
    throw refuse("not-a-record");
  }
}

/** Whether a number is written with a fraction or power, which parsing alone would hide (1.0). */
function hasFraction(text: string): boolean {
  return /[0-9][.eE]/.test(text.replace(/"(?:[^"\\]|\\.)*"/g, '""'));
}

function checksum(body: object): string {
  try {
    return sha256Hex(canonicalJson(body));
  } catch (error) {
    if (error instanceof CanonicalError) throw refuse("unsound");
    throw error;
  }
}

function isBody(body: Record<string, unknown>): body is Record<string, unknown> & RecordFile {
  if (fields(body) !== "actor,course,events,exported,format,version") return false;
  const { actor, course, events, exported } = body;
  if (!isActor(actor) || !isCourse(course) || !isTime(exported)) return false;
  if (!Array.isArray(events)) return false;
  // In order and each once; and no record carries another course's events.
  return events.every(
    (event, place) =>
      isEvent(event) &&
      event.course === course &&
      (place === 0 || byTime(events[place - 1] as Event, event) < 0),
  );
}

const WORDS: Readonly<Record<Exclude<Refusal, "other-course">, string>> = {
  "too-large": "This file is larger than a record can be. Choose the file saved from the logbook.",
  "not-a-record":
    "This file is not a record of this course, or it was cut short. " +
    "Choose a file whose name begins with threeview-record.",
  newer:
    "This record was written by a newer version of the course. " +
    "Open the newest version of the course and add the record there.",
  damaged:
    "This record was changed or damaged after it was saved: its checksum does not agree. " +
    "Nothing was added. Save the record again where it was made, and choose that file.",
  unsound:
    "This record holds entries that the course could not have written. Nothing was added. " +
    "Save the record again where it was made, and choose that file.",
};

function refuse(reason: Exclude<Refusal, "other-course">): RecordError {
  return new RecordError(reason, WORDS[reason]);
}

function otherCourse(found: string, expected: string): RecordError {
  return new RecordError(
    "other-course",
    `This record belongs to the course "${found}"; this is "${expected}". Nothing was added.`,
  );
}
