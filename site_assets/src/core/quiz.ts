/**
 * Scoring of quiz items: the twin of `threeview.quiz.scoring`.
 *
 * Points are whole numbers out of `POSSIBLE`; a written number is compared as an exact fraction.
 * Both languages run `tests/vectors/scoring.json`; the rules and their reasons are in
 * `docs/scoring.md`.
 */

/** Points of every item; divisible by two, three and four keyed options. */
export const POSSIBLE = 12;

export type Ratio = readonly [numerator: number, denominator: number];

export interface NumericKey {
  /** Unit symbol to its ratio to the key's unit. */
  readonly units: Readonly<Record<string, Ratio>>;
  readonly step: Ratio;
  /** Smallest and largest right count of steps. */
  readonly low: number;
  readonly high: number;
}

export interface ScorableItem {
  /** `bank/item`, without the version. */
  readonly id: string;
  readonly version: number;
  readonly type: "single" | "multiple" | "numeric";
  readonly objective: string;
  readonly critical: boolean;
  readonly options?: readonly string[];
  readonly key?: readonly string[];
  readonly numeric?: NumericKey;
}

export interface Response {
  readonly choice?: readonly string[];
  readonly value?: string;
  readonly unit?: string;
}

export type Flag =
  | "blank"
  | "duplicate-option"
  | "not-a-number"
  | "too-many"
  | "unknown-option"
  | "unknown-unit";

export interface Score {
  readonly earned: number;
  readonly possible: number;
  readonly right: boolean;
  readonly flags: readonly Flag[];
}

/** An exact fraction; the denominator is positive. */
export interface Fraction {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

const SPACES = "[ \\t\\u00a0\\u2007\\u2009\\u202f]*";
const DECIMAL = new RegExp(`^${SPACES}([-+\\u2212]?)([0-9]{1,9})(?:[.,]([0-9]{1,6}))?${SPACES}$`);
const EMPTY = new RegExp(`^${SPACES}$`);

/** Score one response; nothing a learner can write makes it throw. */
export function score(item: ScorableItem, response: Response): Score {
  if (item.type === "numeric") return scoreNumeric(item, response);
  return scoreChoice(item, response.choice ?? []);
}

/** Read a decimal number as people write it, or null when it is not one. */
export function readDecimal(text: string): Fraction | null {
  const match = DECIMAL.exec(text);
  if (match === null) return null;
  const [, sign = "", whole = "0", part = ""] = match;
  const size = BigInt(whole + part);
  const numerator = sign === "-" || sign === "−" ? -size : size;
  return { numerator, denominator: 10n ** BigInt(part.length) };
}

function scoreChoice(item: ScorableItem, choice: readonly string[]): Score {
  const picks = new Set(choice);
  const options = new Set(item.options);
  const key = new Set(item.key);
  const flags: Flag[] = [];
  if (picks.size === 0) flags.push("blank");
  if (picks.size < choice.length) flags.push("duplicate-option");
  if (item.type === "single" && picks.size > 1) flags.push("too-many");
  if ([...picks].some((pick) => !options.has(pick))) flags.push("unknown-option");
  const hits = [...picks].filter((pick) => key.has(pick)).length;
  const right = hits === key.size && picks.size === key.size;
  if (item.type === "single") return outcome(right ? POSSIBLE : 0, right, flags);
  const net = Math.max(0, hits - (picks.size - hits));
  const earned = Number((BigInt(POSSIBLE) * BigInt(net)) / BigInt(key.size));
  return outcome(earned, right, flags);
}

function scoreNumeric(item: ScorableItem, response: Response): Score {
  const text = response.value ?? "";
  if (EMPTY.test(text)) return outcome(0, false, ["blank"]);
  const numeric = item.numeric;
  const value = readDecimal(text);
  const unit = response.unit ?? "";
  // A name such as "constructor" must not reach the prototype of the table.
  const ratio = numeric && Object.hasOwn(numeric.units, unit) ? numeric.units[unit] : undefined;
  const flags: Flag[] = [];
  if (value === null) flags.push("not-a-number");
  if (ratio === undefined) flags.push("unknown-unit");
  if (numeric === undefined || value === null || ratio === undefined) {
    return outcome(0, false, flags);
  }
  const count = countSteps(value, ratio, numeric.step);
  const right = BigInt(numeric.low) <= count && count <= BigInt(numeric.high);
  return outcome(right ? POSSIBLE : 0, right, flags);
}

/** Whole steps in a value after conversion, a half step counting upward. */
function countSteps(value: Fraction, ratio: Ratio, step: Ratio): bigint {
  const top = value.numerator * BigInt(ratio[0]) * BigInt(step[1]);
  const bottom = value.denominator * BigInt(ratio[1]) * BigInt(step[0]);
  return floorDivide(2n * top + bottom, 2n * bottom);
}

/** BigInt division cuts toward zero; a negative answer needs the floor. */
function floorDivide(top: bigint, bottom: bigint): bigint {
  const cut = top / bottom;
  return top % bottom < 0n ? cut - 1n : cut;
}

function outcome(earned: number, right: boolean, flags: Flag[]): Score {
  return { earned, possible: POSSIBLE, right, flags: flags.sort() };
}
