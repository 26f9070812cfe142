/** The logbook's tables and lists, from progress to the page. */
import type { CourseOutline, ModuleOutline, ModuleProgress, Progress } from "../core";
import { count, h } from "../dom";
import { day, siteUrl } from "../page";

/** What deserves a look before anything else: critical misses, then weak objectives. */
export function firstThings(course: CourseOutline, progress: Progress): HTMLElement[] {
  const rows = course.modules.flatMap((module, place) =>
    moduleRows(module, progress.modules[place] as ModuleProgress),
  );
  if (rows.length === 0) return [];
  const below = `${course.weak_below_percent}\u00a0%`;
  return [
    h(
      "section",
      { "aria-labelledby": "look-first" },
      h("h2", { id: "look-first" }, "Look at these first"),
      h("p", {}, `Critical items missed, and objectives under ${below} of their points.`),
      h("ul", { class: "tv-logbook__first" }, ...rows),
    ),
  ];
}

/** One row for each module: what was read and answered, in numbers with their words. */
export function moduleTable(course: CourseOutline, progress: Progress): HTMLElement {
  const head = ["Module", "Sections read", "Items answered", "Right", "Attempts", "Last"];
  const rows = course.modules.map((module, place) =>
    moduleRow(module, progress.modules[place] as ModuleProgress, head),
  );
  return h(
    "section",
    { "aria-labelledby": "module-by-module" },
    h("h2", { id: "module-by-module" }, "Module by module"),
    h(
      "table",
      { class: "tv-table tv-table--stack" },
      h("caption", {}, "Your latest answer to each item counts."),
      h("thead", {}, h("tr", {}, ...head.map((words) => h("th", { scope: "col" }, words)))),
      h("tbody", {}, ...rows),
    ),
  );
}

/** What was left out of the count, and why. */
export function oddEvents(progress: Progress): HTMLElement[] {
  const { ahead, unknown } = progress;
  const lines = [
    ahead > 0 &&
      `${count(ahead, "entry", "entries")} not counted: dated in the future. ` +
        "Check this device's clock.",
    unknown > 0 &&
      `${count(unknown, "entry", "entries")} not counted: ` +
        "about parts that this edition does not have.",
  ];
  return lines.filter((line) => line !== false).map((line) => h("p", {}, line));
}

function moduleRow(module: ModuleOutline, done: ModuleProgress, head: string[]): HTMLElement {
  const cells = [
    `${done.sections_read} of ${done.sections_total}`,
    `${done.answered} of ${done.items_total}`,
    done.answered === 0 ? "nothing yet" : `${done.right} of ${done.answered}`,
    String(done.attempts),
    done.last === null ? "never" : day(done.last),
  ];
  const link = h("a", { href: siteUrl(module.page) }, `${module.number} ${module.title}`);
  return h(
    "tr",
    { "data-module": module.id },
    h("th", { scope: "row" }, link),
    ...cells.map((cell, place) => h("td", { "data-label": head[place + 1] ?? "" }, cell)),
  );
}

function moduleRows(module: ModuleOutline, done: ModuleProgress): HTMLElement[] {
  const quiz = siteUrl(module.quiz ?? module.page);
  const missed = done.critical_missed.map((id) =>
    h(
      "li",
      {},
      h("b", {}, "Critical item missed"),
      `, module ${module.number}: `,
      h("a", { href: `${quiz}#item-${id.split("/")[1]}` }, itemName(module, id)),
    ),
  );
  const weak = done.objectives
    .filter((objective) => objective.weak)
    .map((objective) =>
      h(
        "li",
        {},
        h("b", {}, "Weak"),
        `, ${objective.earned} of ${objective.possible} points: `,
        h("a", { href: siteUrl(module.page) }, objectiveText(module, objective.id)),
      ),
    );
  return [...missed, ...weak];
}

function itemName(module: ModuleOutline, id: string): string {
  const asked = [...new Set(module.items.map((item) => item.id))];
  return `${module.title}, item ${asked.indexOf(id) + 1}`;
}

function objectiveText(module: ModuleOutline, id: string): string {
  return module.objectives.find((objective) => objective.id === id)?.text ?? id;
}
