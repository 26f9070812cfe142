/** <tv-logbook>: the learner's own page, worked out anew from the log each time. */
import { define, h } from "../dom";
import type { Learner } from "../learner";
import { day } from "../page";
import "./copies";
import { copyWords } from "./copies";
import { LiveElement } from "./live";
import "./name";
import "./wipe";
import { firstThings, moduleTable, oddEvents } from "./logbook-report";

class TvLogbook extends LiveElement {
  private readonly report = h("div", { class: "tv-logbook__report" });
  private readonly copied = h("p", { class: "tv-logbook__copied" });

  /** Replaces the plain list of modules; the words above it stay. */
  private build(): void {
    this.querySelector("table")?.remove();
    this.append(
      this.copied,
      this.report,
      part("keep-a-copy", "Keep a copy", "tv-copies"),
      part("your-name", "Your name, if you want", "tv-name"),
      part("wipe", "Wipe this device", "tv-wipe"),
    );
  }

  protected async draw(learner: Learner): Promise<void> {
    if (!this.report.isConnected) this.build();
    const [progress, events] = [await learner.progress(), await learner.events()];
    const lastCopy = await learner.lastCopy();
    const name = await learner.name();
    this.copied.replaceChildren(
      ...(name === "" ? [] : [h("b", {}, name), ". "]),
      copyWords(events, lastCopy, day),
    );
    this.report.replaceChildren(
      ...oddEvents(progress),
      ...firstThings(learner.course, progress),
      moduleTable(learner.course, progress),
    );
  }
}

function part(id: string, title: string, tag: string): HTMLElement {
  const heading = h("h2", { id }, title);
  return h("section", { "aria-labelledby": id }, heading, document.createElement(tag));
}

define("tv-logbook", TvLogbook);
