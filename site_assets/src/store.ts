/**
 * What the browser keeps for a course: events (only ever added), drafts, a few settings, and what
 * an import set aside. Two tabs may write at once: an event has its own key, and whatever must be
 * made once is made inside one transaction.
 */
import { openDB, type DBSchema, type IDBPDatabase } from "idb";
import type { Conflict, Event, Response } from "./core";

/** What a learner has chosen or typed without checking it yet. */
export interface Draft {
  /** `bank/item`. */
  readonly item: string;
  readonly version: number;
  readonly response: Response;
}

export interface Aside {
  readonly time: string;
  readonly conflicts: readonly Conflict[];
}

export interface Store {
  /** False when everything is forgotten as soon as the page is left. */
  readonly keeps: boolean;
  events(): Promise<Event[]>;
  /** Add events; one whose id is already there is left as it is. */
  append(events: readonly Event[]): Promise<void>;
  setting(name: string): Promise<unknown>;
  setSetting(name: string, value: unknown): Promise<void>;
  /** The setting, made and kept first if there is none; two tabs get the same one. */
  claimSetting<Value>(name: string, make: () => Value): Promise<Value>;
  draft(item: string): Promise<Draft | undefined>;
  saveDraft(draft: Draft): Promise<void>;
  dropDrafts(items: readonly string[]): Promise<void>;
  keepAside(aside: Aside): Promise<void>;
  wipe(): Promise<void>;
}

interface Schema extends DBSchema {
  events: { key: string; value: Event };
  drafts: { key: string; value: Draft };
  settings: { key: string; value: unknown };
  aside: { key: number; value: Aside };
}

const ROOMS = ["events", "drafts", "settings", "aside"] as const;

/** Open the course's database; where the browser refuses one, keep things in memory. */
export async function openStore(course: string): Promise<Store> {
  try {
    const database = await openDB<Schema>(`threeview:${course}`, 1, {
      upgrade(fresh) {
        fresh.createObjectStore("events", { keyPath: "id" });
        fresh.createObjectStore("drafts", { keyPath: "item" });
        fresh.createObjectStore("settings");
        fresh.createObjectStore("aside", { autoIncrement: true });
      },
      // A later version of the course must be able to change the database under this page.
      blocking: (_old, _new, event) => (event.target as IDBDatabase).close(),
    });
    return new DatabaseStore(database);
  } catch {
    return new MemoryStore();
  }
}

class DatabaseStore implements Store {
  readonly keeps = true;

  constructor(private readonly database: IDBPDatabase<Schema>) {}

  events(): Promise<Event[]> {
    return this.database.getAll("events");
  }

  async append(events: readonly Event[]): Promise<void> {
    const work = this.database.transaction("events", "readwrite");
    for (const event of events) {
      if ((await work.store.getKey(event.id)) === undefined) await work.store.add(event);
    }
    await work.done;
  }

  setting(name: string): Promise<unknown> {
    return this.database.get("settings", name);
  }

  async setSetting(name: string, value: unknown): Promise<void> {
    await this.database.put("settings", value, name);
  }

  async claimSetting<Value>(name: string, make: () => Value): Promise<Value> {
    const work = this.database.transaction("settings", "readwrite");
    let value = (await work.store.get(name)) as Value | undefined;
    if (value === undefined) {
      value = make();
      await work.store.put(value, name);
    }
    await work.done;
    return value;
  }

  draft(item: string): Promise<Draft | undefined> {
    return this.database.get("drafts", item);
  }

  async saveDraft(draft: Draft): Promise<void> {
    await this.database.put("drafts", draft);
  }

  async dropDrafts(items: readonly string[]): Promise<void> {
    const work = this.database.transaction("drafts", "readwrite");
    await Promise.all([...items.map((item) => work.store.delete(item)), work.done]);
  }

  async keepAside(aside: Aside): Promise<void> {
    await this.database.add("aside", aside);
  }

  async wipe(): Promise<void> {
    // Emptied, not deleted: deleting waits for every other tab to close.
    const work = this.database.transaction(ROOMS, "readwrite");
    await Promise.all([...ROOMS.map((room) => work.objectStore(room).clear()), work.done]);
  }
}

class MemoryStore implements Store {
  readonly keeps = false;
  private readonly log = new Map<string, Event>();
  private readonly drafts = new Map<string, Draft>();
  private readonly settings = new Map<string, unknown>();

  async events(): Promise<Event[]> {
    return [...this.log.values()];
  }

  async append(events: readonly Event[]): Promise<void> {
    for (const event of events) if (!this.log.has(event.id)) this.log.set(event.id, event);
  }

  async setting(name: string): Promise<unknown> {
    return this.settings.get(name);
  }

  async setSetting(name: string, value: unknown): Promise<void> {
    this.settings.set(name, value);
  }

  async claimSetting<Value>(name: string, make: () => Value): Promise<Value> {
    if (!this.settings.has(name)) this.settings.set(name, make());
    return this.settings.get(name) as Value;
  }

  async draft(item: string): Promise<Draft | undefined> {
    return this.drafts.get(item);
  }

  async saveDraft(draft: Draft): Promise<void> {
    this.drafts.set(draft.item, draft);
  }

  async dropDrafts(items: readonly string[]): Promise<void> {
    for (const item of items) this.drafts.delete(item);
  }

  async keepAside(): Promise<void> {
    // The page shows the conflict; nothing outlives it here.
  }

  async wipe(): Promise<void> {
    for (const room of [this.log, this.drafts, this.settings]) room.clear();
  }
}
