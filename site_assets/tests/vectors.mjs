// Reads a file of shared vectors; a file without cases is an error, never an empty success.
import { readFileSync } from "node:fs";

export function loadVectors(name) {
  const path = new URL(`../../tests/vectors/${name}.json`, import.meta.url);
  const { cases } = JSON.parse(readFileSync(path, "utf8"));
  console.log(`${name}.json: ${countTests(name, cases)} vectors in ${cases.length} cases`);
  return cases;
}

export function countTests(name, cases) {
  const count = cases?.reduce((sum, { tests }) => sum + tests.length, 0) ?? 0;
  if (count === 0) throw new Error(`tests/vectors/${name}.json holds no cases`);
  return count;
}
