/** <tv-resume>: the home page's one filled button; it leads to where the learner was. */
import type { CourseOutline, ModuleProgress } from "../core";
import { define, need } from "../dom";
import type { Learner } from "../learner";
import { siteUrl } from "../page";
import { LiveElement } from "./live";

export interface Way {
  readonly words: string;
  readonly path: string;
}

class TvResume extends LiveElement {
  /** The link as the page was built: what a learner without a log begins with. */
  private first: Way | null = null;

  protected async draw(learner: Learner): Promise<void> {
    const link = need<HTMLAnchorElement>(this, "a");
    this.first ??= { words: link.textContent ?? "", path: link.getAttribute("href") ?? "" };
    const way = wayOn(learner.course, (await learner.progress()).modules);
    link.textContent = way?.words ?? this.first.words;
    link.setAttribute("href", way ? siteUrl(way.path) : this.first.path);
  }
}

/** Where to go on: the module last worked on, else the next one; null before the first step. */
export function wayOn(course: CourseOutline, modules: readonly ModuleProgress[]): Way | null {
  const places = modules.map((_, place) => place).filter((place) => modules[place]?.last);
  if (places.length === 0) return null;
  // Times are whole seconds; of two modules in one second the later in the course counts.
  const last = places.reduce((a, b) => (time(modules, b) >= time(modules, a) ? b : a));
  // The last one if it is unfinished, then those after it, then those before it.
  const order = [...modules.keys()].map((step) => (last + step) % modules.length);
  const place = order.find((index) => !isDone(modules[index] as ModuleProgress));
  if (place === undefined) {
    return { words: "All items answered: open the logbook", path: "logbook.html" };
  }
  const module = course.modules[place] as CourseOutline["modules"][number];
  const inQuiz = modules[place]?.state === "in the quiz" && module.quiz !== null;
  const goOn = modules[place]?.state === "not started" ? "Next" : "Go on";
  return {
    words: `${goOn}: ${module.number} ${module.title}`,
    path: inQuiz ? (module.quiz as string) : module.page,
  };
}

function isDone(module: ModuleProgress): boolean {
  if (module.items_total > 0) return module.state === "all items answered";
  return module.sections_read === module.sections_total;
}

function time(modules: readonly ModuleProgress[], place: number): string {
  return modules[place]?.last ?? "";
}

define("tv-resume", TvResume);
