/** Attempts: one run through a bank's items, from the first answer until "Start again". */
import { byTime, type Answered, type Event } from "./event";
import { bare } from "./progress";

/** The bank of an item's id or subject: what stands before the stroke. */
export function bankOf(subject: string): string {
  return subject.slice(0, subject.indexOf("/"));
}

/** The attempt that the latest answer in a bank belongs to, or null before the first. */
export function latestAttempt(events: readonly Event[], bank: string): string | null {
  const answers = answersIn(events, bank);
  return answers.at(-1)?.payload.attempt ?? null;
}

/** The latest answer to each item of a bank within one attempt, by `bank/item`. */
export function attemptAnswers(
  events: readonly Event[],
  bank: string,
  attempt: string | null,
): ReadonlyMap<string, Answered> {
  const own = answersIn(events, bank).filter((event) => event.payload.attempt === attempt);
  return new Map(own.map((event) => [bare(event.subject), event]));
}

function answersIn(events: readonly Event[], bank: string): Answered[] {
  return events
    .filter((event): event is Answered => event.kind === "answered")
    .filter((event) => bankOf(event.subject) === bank)
    .sort(byTime);
}
