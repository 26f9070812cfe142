/** When to remind a learner to save a copy: storage in a browser can vanish. */
import { byTime, type Event } from "./event";

/** Answers since the last copy that are worth a reminder: about one quiz. */
const MANY = 15;
/** Some phone browsers erase a site's storage after seven days without a visit. */
const OLD_MS = 6 * 86_400_000;

/** How many entries have no copy yet. */
export function unsaved(events: readonly Event[], lastCopy: string | null): readonly Event[] {
  return events.filter((event) => lastCopy === null || event.time > lastCopy).sort(byTime);
}

/** Whether a copy is due: many answers without one, or one that has waited for days. */
export function isCopyDue(events: readonly Event[], lastCopy: string | null, now: string): boolean {
  const waiting = unsaved(events, lastCopy).filter((event) => event.kind === "answered");
  const oldest = waiting[0];
  if (oldest === undefined) return false;
  return waiting.length >= MANY || Date.parse(now) - Date.parse(oldest.time) >= OLD_MS;
}
