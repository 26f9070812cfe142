// Reads one JSON request from standard input and writes one JSON answer: the seat of the browser's
// code in tests that compare it with Python's.
import { readFileSync } from "node:fs";
import { loadCore } from "./core.mjs";

const core = await loadCore();

const ANSWERS = {
  canonical: (value) => orNull(() => core.canonicalJson(value)),
  parse: (text) => refusalOf(() => core.parseRecord(new TextEncoder().encode(text), "sample")),
  reduce: ([events, course, now]) => core.reduce(events, course, now),
  score: ([item, response]) => core.score(item, response),
  write: (record) => core.writeRecord(record),
};

function orNull(call) {
  try {
    return call();
  } catch (error) {
    if (error instanceof core.CanonicalError) return null;
    throw error;
  }
}

function refusalOf(call) {
  try {
    call();
    return "read";
  } catch (error) {
    if (error instanceof core.RecordError) return error.reason;
    throw error;
  }
}

const { call, inputs } = JSON.parse(readFileSync(0, "utf8"));
process.stdout.write(JSON.stringify(inputs.map((input) => ANSWERS[call](input))));
