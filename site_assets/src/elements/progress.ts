/** <tv-progress>: writes into the home list, in words, how far each module has come. */
import type { ModuleProgress } from "../core";
import { all, define, h, need } from "../dom";
import type { Learner } from "../learner";
import { LiveElement } from "./live";

class TvProgress extends LiveElement {
  protected async draw(learner: Learner): Promise<void> {
    const { modules } = await learner.progress();
    const states = new Map(modules.map((module) => [module.id, module]));
    for (const row of all<HTMLElement>(this, "[data-module]")) {
      const module = states.get(row.dataset.module ?? "");
      need(row, "[data-state]").replaceChildren(...(module ? stateWords(module) : []));
    }
  }
}

/** The state of a module for a reader; nothing at all when it was not started. */
export function stateWords(module: ModuleProgress): (Node | string)[] {
  switch (module.state) {
    case "not started":
      return [];
    case "reading":
      return [`read ${module.sections_read} of ${module.sections_total} sections`];
    case "in the quiz":
      return [h("b", {}, `${module.answered} of ${module.items_total}, go on`)];
    case "all items answered":
      return [`${module.right} of ${module.items_total} right${missedWords(module)}`];
  }
}

function missedWords(module: ModuleProgress): string {
  const missed = module.critical_missed.length;
  return missed === 0 ? "" : `, ${missed} critical missed`;
}

define("tv-progress", TvProgress);
