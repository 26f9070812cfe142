/** One line under the header for what a learner should know about this browser. */
import { isCopyDue, unsaved } from "./core";
import { button, count, h } from "./dom";
import { openLearner, type Learner } from "./learner";
import { isFromDisk, now, siteUrl } from "./page";

interface Manner {
  /** Whether closing it is remembered on this device. */
  readonly remember: boolean;
}

/** Show whichever notices apply; each can be closed. */
export async function showNotices(): Promise<void> {
  const learner = await openLearner();
  if (!learner.store.keeps) {
    showNotice("blocked", [h("p", {}, BLOCKED)], { remember: false });
    return;
  }
  if (isFromDisk() && isFirefox()) {
    await showOnce(learner, "firefox-disk", [h("p", {}, FIREFOX)]);
  } else {
    await showOnce(learner, "storage", storageWords());
  }
  await remindOfCopy(learner);
}

/** Put a line under the header; nothing happens on a page that has no place for it. */
export function showNotice(name: string, parts: readonly Node[], manner: Manner): void {
  const place = document.querySelector(".tv-notices");
  if (place === null || place.querySelector(`[data-notice="${name}"]`) !== null) return;
  const close = button("Close", () => {
    line.remove();
    if (manner.remember) void remember(name);
  });
  const line = h("div", { class: "md-typeset", "data-notice": name }, ...parts, close);
  place.append(line);
}

const BLOCKED =
  "This browser lets the course keep nothing (storage is blocked, or this is a private window): " +
  "answers are gone when you leave the page. Allow storage for this site, or use another window.";

const FIREFOX =
  "Opened from disk, Firefox keeps a separate storage for each page: answers given on one page " +
  "are not seen by the others, nor by the logbook. To keep a record, open the same folder in a " +
  "Chromium browser, or serve it (threeview serve) and open the address it prints.";

function storageWords(): Node[] {
  const text = h(
    "p",
    {},
    "Your answers are kept in this browser only; some phone browsers erase a site's storage " +
      "after 7 days unused. ",
    h("a", { href: siteUrl("logbook.html") }, "The logbook"),
    " saves a copy.",
  );
  return [text];
}

async function showOnce(learner: Learner, name: string, parts: readonly Node[]): Promise<void> {
  if ((await learner.store.setting(key(name))) !== undefined) return;
  showNotice(name, parts, { remember: true });
}

async function remindOfCopy(learner: Learner): Promise<void> {
  const [events, lastCopy] = [await learner.events(), await learner.lastCopy()];
  if (!isCopyDue(events, lastCopy, now())) return;
  const entries = count(unsaved(events, lastCopy).length, "entry", "entries");
  const words = h(
    "p",
    {},
    `${entries} of your record are only in this browser. `,
    h("a", { href: siteUrl("logbook.html") }, "Save a copy in the logbook"),
    ".",
  );
  showNotice("copy", [words], { remember: false });
}

async function remember(name: string): Promise<void> {
  await (await openLearner()).store.setSetting(key(name), now());
}

function key(name: string): string {
  return `notice:${name}`;
}

function isFirefox(): boolean {
  return navigator.userAgent.includes("Firefox/");
}
