/**
 * Canonical JSON: one text for one value, in both languages (twin: `threeview.record.canonical`).
 *
 * Keys are sorted by UTF-16 code unit, there are no spaces, strings are escaped as JSON.stringify
 * does, numbers are whole and safe. Fractions and lone surrogates are refused: languages write them
 * differently. For the values it accepts it follows the JSON Canonicalization Scheme (RFC 8785).
 */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";

export type Json =
  | string
  | number
  | boolean
  | null
  | readonly Json[]
  | { readonly [key: string]: Json };

/** Deepest nesting that is written or read. */
export const DEPTH = 16;

export class CanonicalError extends Error {}

/** Write a value as canonical JSON; throws CanonicalError for what has no canonical form. */
export function canonicalJson(value: unknown, depth = 0): string {
  if (depth > DEPTH) throw new CanonicalError(`nested more than ${DEPTH} deep`);
  if (value === null || typeof value === "boolean") return JSON.stringify(value);
  if (typeof value === "string") return canonicalText(value);
  if (typeof value === "number") return wholeNumber(value);
  if (Array.isArray(value)) {
    return `[${value.map((entry) => canonicalJson(entry, depth + 1)).join(",")}]`;
  }
  if (typeof value === "object") return canonicalObject(value, depth);
  throw new CanonicalError(`${typeof value} has no place in JSON`);
}

/** SHA-256 of a text's UTF-8 bytes as lower-case hexadecimal; works without a secure context. */
export function sha256Hex(text: string): string {
  return bytesToHex(sha256(utf8ToBytes(text)));
}

function canonicalObject(value: object, depth: number): string {
  // Array.sort compares by UTF-16 code unit, which is what is wanted.
  const pairs = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
  const texts = pairs.map(
    ([key, entry]) => `${canonicalText(key)}:${canonicalJson(entry, depth + 1)}`,
  );
  return `{${texts.join(",")}}`;
}

function canonicalText(text: string): string {
  // With the u flag, a pair is one character, so only a half without its partner matches.
  if (/[\ud800-\udfff]/u.test(text)) throw new CanonicalError("half of a surrogate pair");
  return JSON.stringify(text);
}

function wholeNumber(value: number): string {
  if (!Number.isSafeInteger(value)) throw new CanonicalError(`${value} is not a whole number`);
  return JSON.stringify(value);
}
