/**
 * Progress: a pure function of (events, course, now), the twin of `threeview.progress.reduce`.
 *
 * Names of fields are those of the shared vectors (`tests/vectors/progress.json`).
 */
import { byTime, type Answered, type Event, type Read } from "./event";
import type { CourseOutline, ModuleOutline } from "./outline";
import { score, type ScorableItem, type Score } from "./quiz";

export type State = "not started" | "reading" | "in the quiz" | "all items answered";

export interface ObjectiveProgress {
  readonly id: string;
  readonly answered: number;
  readonly earned: number;
  readonly possible: number;
  readonly weak: boolean;
}

export interface ModuleProgress {
  readonly id: string;
  readonly sections_read: number;
  readonly sections_total: number;
  readonly attempts: number;
  readonly answered: number;
  readonly items_total: number;
  readonly right: number;
  readonly earned: number;
  readonly possible: number;
  readonly critical_missed: readonly string[];
  readonly objectives: readonly ObjectiveProgress[];
  readonly state: State;
  readonly last: string | null;
}

export interface Progress {
  readonly modules: readonly ModuleProgress[];
  /** Events dated more than a day after now: a clock was wrong, so they are not counted. */
  readonly ahead: number;
  /** Answers and readings that name nothing of this course. */
  readonly unknown: number;
}

/** An item's latest answer, scored against the version it names. */
interface Result {
  readonly item: ScorableItem;
  readonly score: Score;
}

const DAY_MS = 86_400_000;

/** Reduce a log to what it says about each module; `now` is UTC, as events write it. */
export function reduce(events: readonly Event[], course: CourseOutline, now: string): Progress {
  const limit = Date.parse(now) + DAY_MS;
  const inOrder = [...events].sort(byTime);
  const counted = inOrder.filter((event) => Date.parse(event.time) <= limit);
  const mine = counted.filter((event) => event.course === course.id);
  const taken = course.modules.map((module) => takeEvents(mine, module));
  const used = taken.reduce((sum, part) => sum + part.answered.length + part.read.length, 0);
  const countable = counted.filter(({ kind }) => kind === "answered" || kind === "read");
  return {
    modules: course.modules.map((module, place) =>
      reduceModule(module, taken[place] as ModuleEvents, course.weak_below_percent),
    ),
    ahead: events.length - counted.length,
    unknown: countable.length - used,
  };
}

interface ModuleEvents {
  readonly answered: readonly Answered[];
  readonly read: readonly Read[];
  readonly items: ReadonlyMap<string, ScorableItem>;
}

/** The events that name an item or a section of the module. */
function takeEvents(events: readonly Event[], module: ModuleOutline): ModuleEvents {
  const all = [...module.items, ...(module.retired ?? [])];
  const items = new Map(all.map((item) => [`${item.id}@${item.version}`, item]));
  const sections = new Set(module.sections.map((section) => `${module.id}/${section}`));
  return {
    items,
    answered: events.filter(
      (event): event is Answered => event.kind === "answered" && items.has(event.subject),
    ),
    read: events.filter(
      (event): event is Read => event.kind === "read" && sections.has(bare(event.subject)),
    ),
  };
}

function reduceModule(
  module: ModuleOutline,
  events: ModuleEvents,
  weakBelow: number,
): ModuleProgress {
  const results = latestResults(module, events);
  const counts = {
    sections_read: new Set(events.read.map((event) => bare(event.subject))).size,
    answered: results.length,
    items_total: module.items.length,
  };
  const times = [...events.answered, ...events.read].map((event) => event.time).sort();
  return {
    id: module.id,
    sections_total: module.sections.length,
    attempts: new Set(events.answered.map((event) => event.payload.attempt)).size,
    ...counts,
    right: results.filter((result) => result.score.right).length,
    ...points(results),
    critical_missed: results.filter(isCriticalMiss).map((result) => result.item.id),
    objectives: module.objectives.map(({ id }) => {
      const own = results.filter((result) => result.item.objective === id);
      return { id, answered: own.length, ...points(own), weak: isWeak(own, weakBelow) };
    }),
    state: stateOf(counts),
    last: times.at(-1) ?? null,
  };
}

/** Latest answer of each item that the module still asks, in the module's order. */
function latestResults(module: ModuleOutline, events: ModuleEvents): Result[] {
  // Events come in order, so a later answer takes the place of an earlier one.
  const latest = new Map(events.answered.map((event) => [bare(event.subject), event]));
  return module.items.flatMap(({ id }) => {
    const event = latest.get(id);
    const item = event && events.items.get(event.subject);
    return item ? [{ item, score: score(item, event.payload.response) }] : [];
  });
}

function points(results: readonly Result[]): { earned: number; possible: number } {
  return {
    earned: results.reduce((sum, result) => sum + result.score.earned, 0),
    possible: results.reduce((sum, result) => sum + result.score.possible, 0),
  };
}

function isWeak(results: readonly Result[], weakBelow: number): boolean {
  const { earned, possible } = points(results);
  return earned * 100 < weakBelow * possible || results.some(isCriticalMiss);
}

function isCriticalMiss(result: Result): boolean {
  return result.item.critical && !result.score.right;
}

function stateOf(counts: { sections_read: number; answered: number; items_total: number }): State {
  if (counts.answered > 0) {
    return counts.answered === counts.items_total ? "all items answered" : "in the quiz";
  }
  return counts.sections_read > 0 ? "reading" : "not started";
}

/** A subject without its version. */
export function bare(subject: string): string {
  return subject.slice(0, subject.indexOf("@"));
}
