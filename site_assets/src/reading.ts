/** Notes a section as read when its end has been on screen for a few seconds. */
import type { Read } from "./core";
import { all } from "./dom";
import { openLearner } from "./learner";

/** How long the end of a section must be on screen. */
const SECONDS = 3;

/** Watch the marks at the ends of the page's sections, once a second while it can be seen. */
export async function watchReading(): Promise<void> {
  const marks = all<HTMLElement>(document, "[data-read]");
  if (marks.length === 0) return;
  const learner = await openLearner();
  const read = new Set(
    (await learner.events())
      .filter((event): event is Read => event.kind === "read")
      .map((event) => event.subject),
  );
  const seen = new Map<HTMLElement, number>();
  const timer = setInterval(() => {
    if (document.visibilityState !== "visible") return;
    for (const mark of marks) {
      const subject = mark.dataset.read ?? "";
      if (read.has(subject) || !isOnScreen(mark)) continue;
      const seconds = (seen.get(mark) ?? 0) + 1;
      seen.set(mark, seconds);
      if (seconds < SECONDS) continue;
      read.add(subject);
      // A reading that cannot be kept costs nothing but a line of progress.
      void learner.read(subject, seconds).catch(() => read.delete(subject));
    }
    if (marks.every((mark) => read.has(mark.dataset.read ?? ""))) clearInterval(timer);
  }, 1000);
}

function isOnScreen(mark: HTMLElement): boolean {
  const { top } = mark.getBoundingClientRect();
  return top >= 0 && top <= innerHeight;
}
