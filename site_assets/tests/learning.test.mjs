// Attempts and copies: what the pages decide beyond the shared vectors.
import assert from "node:assert/strict";
import { test } from "node:test";
import { loadCore } from "./core.mjs";

const { attemptAnswers, isCopyDue, latestAttempt, unsaved } = await loadCore();

const NOW = "2026-11-25T12:00:00Z";
let number = 0;

function answered(subject, attempt, time, choice = ["a"]) {
  number += 1;
  const id = `00000000-0000-4000-8000-${String(number).padStart(12, "0")}`;
  return { id, kind: "answered", subject, time, payload: { attempt, response: { choice } } };
}

test("the running attempt of a bank is that of its latest answer", () => {
  const events = [
    answered("heat/one@1", "second", "2026-11-25T11:00:00Z"),
    answered("heat/one@1", "first", "2026-11-25T10:00:00Z"),
    answered("views/one@1", "other", "2026-11-25T11:30:00Z"),
    { kind: "read", subject: "heat/one@1", time: "2026-11-25T11:45:00Z", payload: {} },
  ];
  assert.equal(latestAttempt(events, "heat"), "second");
  assert.equal(latestAttempt(events, "hea"), null);
});

test("an attempt shows its own latest answers only", () => {
  const events = [
    answered("heat/one@1", "now", "2026-11-25T11:00:01Z", ["b"]),
    answered("heat/one@1", "now", "2026-11-25T11:00:00Z", ["a"]),
    answered("heat/two@1", "before", "2026-11-25T10:00:00Z"),
  ];
  const answers = attemptAnswers(events, "heat", "now");
  assert.deepEqual([...answers.keys()], ["heat/one"]);
  assert.deepEqual(answers.get("heat/one").payload.response.choice, ["b"]);
  assert.equal(attemptAnswers(events, "heat", null).size, 0);
});

test("what is newer than the last copy has none", () => {
  const events = [
    answered("heat/one@1", "x", "2026-11-25T10:00:00Z"),
    answered("heat/two@1", "x", "2026-11-25T10:00:01Z"),
  ];
  assert.equal(unsaved(events, null).length, 2);
  assert.equal(unsaved(events, "2026-11-25T10:00:00Z").length, 1);
  assert.equal(unsaved(events, "2026-11-25T10:00:01Z").length, 0);
});

test("a copy is due after many answers, or after six days with one", () => {
  const many = (count) =>
    Array.from({ length: count }, () => answered("heat/one@1", "x", "2026-11-25T10:00:00Z"));
  assert.equal(isCopyDue(many(14), null, NOW), false);
  assert.equal(isCopyDue(many(15), null, NOW), true);
  assert.equal(isCopyDue(many(15), "2026-11-25T10:00:00Z", NOW), false);
  const old = (time) => [answered("heat/one@1", "x", time)];
  assert.equal(isCopyDue(old("2026-11-19T12:00:01Z"), null, NOW), false);
  assert.equal(isCopyDue(old("2026-11-19T12:00:00Z"), null, NOW), true);
  assert.equal(isCopyDue([], null, NOW), false);
});
