// The browser's scorer gives every shared vector its stated result.
import assert from "node:assert/strict";
import { describe, test } from "node:test";
import { loadCore } from "./core.mjs";
import { loadVectors } from "./vectors.mjs";

const { score } = await loadCore();

for (const { id, description, item, tests } of loadVectors("scoring")) {
  describe(`scoring ${id}: ${description}`, () => {
    for (const { id: number, reason, response, expected } of tests) {
      test(`${number} ${reason}`, () => assert.deepEqual(score(item, response), expected));
    }
  });
}
