/** The end of a quiz: what was right, and what to look at again. */
import { score } from "../core";
import { count, h } from "../dom";
import { siteUrl } from "../page";
import type { TvItem } from "./item";

export function quizResult(items: readonly TvItem[]): HTMLElement {
  const answered = items.filter((item) => item.checked !== null);
  const missed = answered.filter((item) => !score(item.item, item.checked ?? {}).right);
  const critical = missed.filter((item) => item.item.critical);
  const open = items.filter((item) => item.checked === null);
  return h(
    "section",
    { class: "tv-quiz__result" },
    h("h2", {}, `${answered.length - missed.length} of ${answered.length} right`),
    h("p", {}, summary(open.length, critical.length)),
    missed.length > 0 && h("p", {}, "Look again at:"),
    missed.length > 0 && h("ul", {}, ...missed.map((item) => row(item, items.indexOf(item)))),
    h("p", {}, h("a", { href: siteUrl("logbook.html") }, "Open the logbook")),
  );
}

function summary(open: number, critical: number): string {
  const left = open > 0 ? `${count(open, "item")} still open. ` : "";
  if (critical === 0) return `${left}No critical item was missed. Every answer is in the logbook.`;
  const missed = `${count(critical, "critical item")} missed: an error there hurts someone.`;
  return `${left}${missed} Every answer is in the logbook.`;
}

function row(item: TvItem, place: number): HTMLElement {
  const link = h("a", { href: `#${item.id}` }, `Item ${place + 1}`);
  const section = item.querySelector<HTMLAnchorElement>(".tv-look-again a");
  return h(
    "li",
    {},
    link,
    item.item.critical ? ", critical" : null,
    section && ": ",
    section && h("a", { href: section.getAttribute("href") ?? "" }, "read the section"),
  );
}
