/** Events: what a learner did, immutable and closed (twin: `threeview.record.event`). */
import { CanonicalError, canonicalJson, type Json } from "./canonical";
import type { Response } from "./quiz";

export const KINDS = ["read", "answered", "placed", "decided", "observed"] as const;
export type Kind = (typeof KINDS)[number];

export interface Actor {
  /** 32 hexadecimal digits, drawn once on the device; no one's name. */
  readonly account: string;
  /** A name the learner chose, or nothing. */
  readonly name: string;
}

interface Happening {
  readonly id: string;
  readonly schema: 1;
  readonly actor: Actor;
  /** UTC, whole seconds: 2026-11-25T10:00:00Z. */
  readonly time: string;
  readonly course: string;
  readonly edition: string;
  /** What it is about, as `id@version` or `id@edition`. */
  readonly subject: string;
}

export interface Answered extends Happening {
  readonly kind: "answered";
  readonly payload: { readonly attempt: string; readonly response: Response };
}

export interface Read extends Happening {
  readonly kind: "read";
  readonly payload: { readonly seconds: number };
}

export interface Other extends Happening {
  readonly kind: "placed" | "decided" | "observed";
  readonly payload: { readonly [key: string]: Json };
}

export type Event = Answered | Read | Other;

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;
const ACCOUNT = /^[0-9a-f]{32}$/;
const TIME = /^[12][0-9]{3}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}Z$/;
const COURSE = /^[a-z0-9-]{1,100}$/;
const EDITION = /^[A-Za-z0-9._-]{1,40}$/;
const SUBJECT = /^[a-z0-9/-]{1,160}@[A-Za-z0-9._-]{1,40}$/;
const ITEM = /^[a-z0-9-]{1,80}\/[a-z0-9-]{1,80}@[1-9][0-9]{0,5}$/;
const EVENT_FIELDS = "actor,course,edition,id,kind,payload,schema,subject,time";

/** Whether a value is a sound event; nothing else may enter the log. */
export function isEvent(value: unknown): value is Event {
  return (
    isObject(value) &&
    fields(value) === EVENT_FIELDS &&
    matches(value.id, UUID) &&
    value.schema === 1 &&
    isActor(value.actor) &&
    isTime(value.time) &&
    isCourse(value.course) &&
    matches(value.edition, EDITION) &&
    matches(value.subject, SUBJECT) &&
    isPayload(value.kind, value.subject, value.payload)
  );
}

/** Whether a value can be the id of a course. */
export function isCourse(value: unknown): value is string {
  return matches(value, COURSE);
}

export function isActor(value: unknown): value is Actor {
  return (
    isObject(value) &&
    fields(value) === "account,name" &&
    matches(value.account, ACCOUNT) &&
    isText(value.name, 80)
  );
}

/** Whether a value is a moment that the calendar has, written as 2026-11-25T10:00:00Z. */
export function isTime(value: unknown): value is string {
  if (!matches(value, TIME)) return false;
  const date = new Date(value);
  return !Number.isNaN(date.getTime()) && writeTime(date) === value;
}

/** Write a date as events do: UTC, whole seconds. */
export function writeTime(date: Date): string {
  return `${date.toISOString().slice(0, 19)}Z`;
}

/** Order of the log: by time, then by id. */
export function byTime(a: Event, b: Event): number {
  if (a.time !== b.time) return a.time < b.time ? -1 : 1;
  if (a.id === b.id) return 0;
  return a.id < b.id ? -1 : 1;
}

export function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** Names of an object's fields in order, to compare with the closed list of them. */
export function fields(value: object): string {
  return Object.keys(value).sort().join(",");
}

function isPayload(kind: unknown, subject: string, payload: unknown): boolean {
  if (!isObject(payload) || !KINDS.includes(kind as Kind) || !isCanonical(payload)) return false;
  if (kind === "read") {
    return fields(payload) === "seconds" && isCount(payload.seconds);
  }
  if (kind !== "answered") return true;
  return (
    ITEM.test(subject) &&
    fields(payload) === "attempt,response" &&
    matches(payload.attempt, UUID) &&
    isResponse(payload.response)
  );
}

function isResponse(value: unknown): value is Response {
  if (!isObject(value)) return false;
  const { choice = [], unit = "", value: typed = "", ...rest } = value;
  return (
    Object.keys(rest).length === 0 &&
    Array.isArray(choice) &&
    choice.length <= 50 &&
    choice.every((pick) => isText(pick, 100)) &&
    isText(typed, 100) &&
    isText(unit, 100)
  );
}

function isCanonical(value: object): boolean {
  try {
    canonicalJson(value);
    return true;
  } catch (error) {
    if (error instanceof CanonicalError) return false;
    throw error;
  }
}

function isCount(value: unknown): value is number {
  return Number.isSafeInteger(value) && (value as number) >= 0;
}

/** Text of at most so many characters; characters, not code units, so that Python agrees. */
function isText(value: unknown, most: number): value is string {
  return typeof value === "string" && [...value].length <= most && !/[\ud800-\udfff]/u.test(value);
}

function matches(value: unknown, pattern: RegExp): value is string {
  return typeof value === "string" && pattern.test(value);
}
