// The browser writes, joins and reads records as the shared vectors say.
import assert from "node:assert/strict";
import { describe, test } from "node:test";
import { loadCore } from "./core.mjs";
import { loadVectors } from "./vectors.mjs";

const core = await loadCore();
const ids = (events) => events.map((event) => event.id);

const CHECKS = {
  canonical({ json, expected, sha256 }) {
    const value = JSON.parse(json);
    if (expected === null) {
      assert.throws(() => core.canonicalJson(value), core.CanonicalError);
      return;
    }
    const text = core.canonicalJson(value);
    assert.equal(text, expected);
    assert.equal(core.sha256Hex(text), sha256);
  },

  merge({ ours, theirs, expected }) {
    const { events, added, conflicts } = core.merge(ours, theirs);
    const found = {
      events: ids(events),
      added: ids(added),
      conflicts: conflicts.map((pair) => pair.theirs.id),
    };
    assert.deepEqual(found, expected);
  },

  parse({ text, expected }) {
    const bytes = new TextEncoder().encode(text);
    if (expected.refused !== undefined) {
      assert.throws(() => core.parseRecord(bytes, "sample"), { reason: expected.refused });
      return;
    }
    const record = core.parseRecord(bytes, "sample");
    assert.deepEqual(ids(record.events), expected.events);
    const plain = JSON.parse(text.replace(/^\ufeff/, ""));
    assert.deepEqual(JSON.parse(core.writeRecord(record)), plain);
  },
};

for (const { id, kind, description, tests } of loadVectors("record")) {
  describe(`record ${id}: ${description}`, () => {
    for (const vector of tests) test(`${vector.id} ${vector.reason}`, () => CHECKS[kind](vector));
  });
}
