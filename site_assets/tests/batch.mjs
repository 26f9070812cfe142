// Reads one JSON request from standard input and writes one JSON answer: the seat of the browser's
// code in tests that compare it with Python's.
import { readFileSync } from "node:fs";
import { loadCore } from "./core.mjs";

const core = await loadCore();

const ANSWERS = {
  score: ([item, response]) => core.score(item, response),
};

const { call, inputs } = JSON.parse(readFileSync(0, "utf8"));
process.stdout.write(JSON.stringify(inputs.map((input) => ANSWERS[call](input))));
