/** <tv-copies>: save the record as a file, share it, add one from another device, print. */
import { RecordError, parseRecord, unsaved, type Event, type RecordFile } from "../core";
import { button, count, define, h } from "../dom";
import { openLearner, type Learner } from "../learner";
import { now } from "../page";

export class TvCopies extends HTMLElement {
  private readonly told = h("p", { role: "status", class: "tv-copies__told" });
  private readonly asked = h("p", { class: "tv-actions" });
  private readonly picker = h("input", {
    type: "file",
    accept: ".json,application/json",
    "aria-label": "Record file to add",
    hidden: true,
    change: () => void this.addFile(),
  });

  connectedCallback(): void {
    if (this.childElementCount > 0) return;
    const share = button("Share a copy", () => void this.share());
    share.hidden = !canShare();
    this.append(
      h("p", {}, "The file holds your answers with their times, the name you gave, and no score."),
      h(
        "p",
        { class: "tv-actions" },
        button("Save a copy", () => void this.save(), true),
        share,
        button("Add a copy from another device", () => this.picker.click()),
        button("Print this page", () => print()),
      ),
      this.picker,
      this.told,
      this.asked,
    );
  }

  private async save(): Promise<void> {
    await saveCopy(await openLearner());
    this.say("Saved among the downloads. Keep it where you keep other files.");
  }

  private async share(): Promise<void> {
    const learner = await openLearner();
    const time = now();
    const file = await recordFile(learner, time);
    try {
      await navigator.share({ files: [file], title: file.name });
    } catch {
      this.say("Nothing was shared. Save a copy instead, if you like.");
      return;
    }
    await learner.noteCopy(time);
    this.say("Shared.");
  }

  private async addFile(): Promise<void> {
    const file = this.picker.files?.[0];
    if (file === undefined) return;
    const learner = await openLearner();
    this.asked.replaceChildren();
    try {
      const bytes = new Uint8Array(await file.arrayBuffer());
      await this.consider(learner, parseRecord(bytes, learner.course.id));
    } catch (error) {
      this.say(error instanceof RecordError ? error.message : "The file could not be read.");
    }
    // The same file may be chosen again.
    this.picker.value = "";
  }

  /** Another account's record is added only after a second look: it may be another person's. */
  private async consider(learner: Learner, record: RecordFile): Promise<void> {
    const { account } = await learner.actor();
    const mine = record.actor.account === account || (await learner.events()).length === 0;
    if (mine) return this.join(learner, record);
    const whose = record.actor.name === "" ? "a learner without a name" : record.actor.name;
    this.say(
      `This copy was saved by ${whose}, under another account than this device's. ` +
        "If it is yours, from another device, add it. If it is someone else's, do not.",
    );
    this.asked.replaceChildren(
      button("It is mine, add it", () => void this.join(learner, record)),
      button("Leave it", () => {
        this.asked.replaceChildren();
        this.say("Nothing was added.");
      }),
    );
  }

  private async join(learner: Learner, record: RecordFile): Promise<void> {
    this.asked.replaceChildren();
    const { added, conflicts } = await learner.join(record.events, record.actor);
    if (conflicts.length > 0) {
      const entries = count(conflicts.length, "entry", "entries");
      this.say(
        `Nothing was added: ${entries} in the file and on this device have the same number ` +
          "but different contents. Both are kept aside on this device. " +
          "Save a copy here, and show both files to whoever looks after the course.",
      );
      return;
    }
    const known = record.events.length - added.length;
    this.say(`${count(added.length, "entry", "entries")} added, ${known} already here.`);
  }

  private say(words: string): void {
    this.told.textContent = words;
  }
}

/** Hand the record to the browser as a download. */
export async function saveCopy(learner: Learner): Promise<void> {
  const time = now();
  const file = await recordFile(learner, time);
  const address = URL.createObjectURL(file);
  h("a", { href: address, download: file.name }).click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
  await learner.noteCopy(time);
}

/** How the copies stand, in one line. */
export function copyWords(
  events: readonly Event[],
  lastCopy: string | null,
  day: (time: string) => string,
): string {
  const left = unsaved(events, lastCopy).length;
  if (events.length === 0) return "Nothing is kept here yet.";
  if (lastCopy === null) return `No copy saved yet: ${count(left, "entry", "entries")} only here.`;
  const since = left === 0 ? "nothing new" : count(left, "new entry", "new entries");
  return `Last copy saved ${day(lastCopy)}, ${since} since.`;
}

async function recordFile(learner: Learner, time: string): Promise<File> {
  const text = await learner.writeRecord(time);
  const { name } = await learner.actor();
  return new File([text], fileName(name, time), { type: "application/json" });
}

/** threeview-record-<name>-<date>.json, in letters that every system stores. */
export function fileName(name: string, time: string): string {
  const plain = name.normalize("NFKD").replace(/[^A-Za-z0-9]+/g, "-").replace(/^-+|-+$/g, "");
  const parts = ["threeview-record", plain.toLowerCase(), time.slice(0, 10)];
  return `${parts.filter((part) => part !== "").join("-")}.json`;
}

function canShare(): boolean {
  const phone = matchMedia("(pointer: coarse)").matches;
  const probe = new File(["{}"], "probe.json", { type: "application/json" });
  return phone && (navigator.canShare?.({ files: [probe] }) ?? false);
}

define("tv-copies", TvCopies);
