// The browser reduces every shared log to its stated progress.
import assert from "node:assert/strict";
import { describe, test } from "node:test";
import { loadCore } from "./core.mjs";
import { loadVectors } from "./vectors.mjs";

const { isEvent, reduce } = await loadCore();

for (const { id, description, course, tests } of loadVectors("progress")) {
  describe(`progress ${id}: ${description}`, () => {
    for (const { id: number, reason, events, now, expected } of tests) {
      test(`${number} ${reason}`, () => {
        assert.ok(events.every(isEvent), "the vector's own events are sound");
        assert.deepEqual(reduce(events, course, now), expected);
      });
    }
  });
}
