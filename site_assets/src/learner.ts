/** The learner at this device: everything a page does with what is kept goes through here. */
import { drawAccount, drawUuid } from "./chance";
import {
  bankOf,
  latestAttempt,
  merge,
  reduce,
  writeRecord,
  type Actor,
  type Answered,
  type CourseOutline,
  type Event,
  type Merge,
  type Progress,
  type Response,
  type ScorableItem,
} from "./core";
import { courseOfPage, now } from "./page";
import { openStore, type Store } from "./store";
import { Tabs } from "./tabs";

/** Names under which settings are kept. */
const ACTOR = "actor";
const LAST_COPY = "last-copy";

export class Learner {
  private log: Promise<readonly Event[]> | null = null;
  private readonly tabs: Tabs;

  constructor(
    readonly course: CourseOutline,
    readonly store: Store,
  ) {
    this.tabs = new Tabs(course.id);
    this.tabs.listen(() => (this.log = null));
  }

  /** All events, read once until something changes. */
  events(): Promise<readonly Event[]> {
    this.log ??= this.store.events();
    return this.log;
  }

  async progress(): Promise<Progress> {
    return reduce(await this.events(), this.course, now());
  }

  /** Call back after every change, in this tab or another; returns the way to stop it. */
  listen(listener: () => void): () => void {
    return this.tabs.listen(listener);
  }

  async answer(item: ScorableItem, response: Response): Promise<void> {
    const known = await this.attempt(bankOf(item.id));
    const attempt = known ?? (await this.store.claimSetting(attemptKey(item.id), drawUuid));
    const subject = `${item.id}@${item.version}`;
    const happening = await this.happening(subject);
    const event: Answered = { ...happening, kind: "answered", payload: { attempt, response } };
    await this.store.append([event]);
    await this.store.dropDrafts([item.id]);
    this.tabs.announce();
  }

  async read(subject: string, seconds: number): Promise<void> {
    const happening = await this.happening(subject);
    await this.store.append([{ ...happening, kind: "read", payload: { seconds } }]);
    this.tabs.announce();
  }

  /** The running attempt at a bank, or null before the first answer. */
  async attempt(bank: string): Promise<string | null> {
    const chosen = (await this.store.setting(attemptKey(`${bank}/`))) as string | undefined;
    return chosen ?? latestAttempt(await this.events(), bank);
  }

  /** Begin a bank anew; earlier answers stay in the log. */
  async startAgain(bank: string, items: readonly string[]): Promise<void> {
    await this.store.setSetting(attemptKey(`${bank}/`), drawUuid());
    await this.store.dropDrafts(items);
    this.tabs.announce();
  }

  /** Who this is; drawn once, at the first need. */
  actor(): Promise<Actor> {
    return this.store.claimSetting<Actor>(ACTOR, () => ({ account: drawAccount(), name: "" }));
  }

  /** The chosen name, without drawing an account for someone who only looks. */
  async name(): Promise<string> {
    return ((await this.store.setting(ACTOR)) as Actor | undefined)?.name ?? "";
  }

  async rename(name: string): Promise<void> {
    const { account } = await this.actor();
    await this.store.setSetting(ACTOR, { account, name });
    this.tabs.announce();
  }

  async lastCopy(): Promise<string | null> {
    return ((await this.store.setting(LAST_COPY)) as string | undefined) ?? null;
  }

  async noteCopy(time: string): Promise<void> {
    await this.store.setSetting(LAST_COPY, time);
    this.tabs.announce();
  }

  /** The whole log as the text of a record file. */
  async writeRecord(exported: string): Promise<string> {
    const [actor, events] = [await this.actor(), await this.events()];
    return writeRecord({ course: this.course.id, actor, exported, events });
  }

  /** Join a record's events to the log, unless one conflicts: then nothing is added. */
  async join(theirs: readonly Event[], actor: Actor): Promise<Merge> {
    const ours = await this.store.events();
    const result = merge(ours, theirs);
    if (result.conflicts.length > 0) {
      await this.store.keepAside({ time: now(), conflicts: result.conflicts });
      return result;
    }
    // An empty device that takes up a record goes on as the learner who made it.
    if (ours.length === 0) await this.store.setSetting(ACTOR, actor);
    await this.store.append(result.added);
    this.tabs.announce();
    return result;
  }

  async wipe(): Promise<void> {
    await this.store.wipe();
    this.tabs.announce();
  }

  private async happening(subject: string) {
    return {
      id: drawUuid(),
      schema: 1,
      actor: await this.actor(),
      time: now(),
      course: this.course.id,
      edition: this.course.edition,
      subject,
    } as const;
  }
}

let learner: Promise<Learner> | null = null;

/** The learner of this page; opened at the first call. */
export function openLearner(): Promise<Learner> {
  learner ??= open();
  return learner;
}

async function open(): Promise<Learner> {
  const course = courseOfPage();
  if (course === null) throw new Error("assets/data/course.js was not loaded before base.js");
  return new Learner(course, await openStore(course.id));
}

function attemptKey(subject: string): string {
  return `attempt:${bankOf(subject)}`;
}
