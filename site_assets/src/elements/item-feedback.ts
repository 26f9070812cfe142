/** Shows what an answer led to: inside the option rows, and in the reasons below them. */
import { readDecimal, type Response, type ScorableItem, type Score } from "../core";
import { all, h, need } from "../dom";

/** Mark the rows, open the reasons, and return the verdict in words. */
export function showFeedback(
  root: HTMLElement,
  item: ScorableItem,
  response: Response,
  score: Score,
): string {
  clearFeedback(root);
  const answer = need<HTMLDetailsElement>(root, ".tv-answer");
  answer.hidden = false;
  answer.open = true;
  if (item.type === "numeric") markNumber(root, score);
  else markOptions(root, item, new Set(response.choice));
  const key = need(answer, ".tv-answer__key").textContent?.trim() ?? "";
  return verdict(item, response, score, key);
}

/** Take all of it away again: the item is open. */
export function clearFeedback(root: HTMLElement): void {
  for (const why of all(root, ".tv-option__why")) why.remove();
  for (const row of all(root, ".tv-option--keyed, .tv-option--wrong")) {
    row.classList.remove("tv-option--keyed", "tv-option--wrong");
  }
  for (const reason of all<HTMLElement>(root, ".tv-answer__why > li, .tv-answer__wrong")) {
    reason.hidden = false;
  }
  const answer = need<HTMLDetailsElement>(root, ".tv-answer");
  answer.open = false;
  answer.hidden = true;
}

function markOptions(root: HTMLElement, item: ScorableItem, chosen: ReadonlySet<string>): void {
  for (const row of all<HTMLElement>(root, ".tv-option")) {
    const option = row.dataset.option ?? "";
    const keyed = item.key?.includes(option) ?? false;
    const words = optionWords(item, keyed, chosen.has(option));
    if (words === null) continue;
    row.classList.add(keyed ? "tv-option--keyed" : "tv-option--wrong");
    const reason = root.querySelector<HTMLElement>(`.tv-answer__why > [data-option="${option}"]`);
    row.append(why(words, reason));
    // It now stands in its row; saying it twice would be noise.
    if (reason !== null) reason.hidden = true;
  }
}

function optionWords(item: ScorableItem, keyed: boolean, chosen: boolean): string | null {
  if (!keyed) return chosen ? "Your answer. Not this one." : null;
  const key = item.type === "single" ? "The keyed answer." : "A keyed answer.";
  return chosen ? `Your answer. ${key}` : key;
}

function markNumber(root: HTMLElement, score: Score): void {
  const field = need(root, ".tv-numeric");
  const words = score.right ? "Your answer is right." : "Your answer. Not this one.";
  field.after(why(words, null, score.right ? "tv-option--keyed" : "tv-option--wrong"));
  const wrong = root.querySelector<HTMLElement>(".tv-answer__wrong");
  if (wrong !== null) wrong.hidden = score.right;
}

function why(words: string, reason: HTMLElement | null, state = ""): HTMLElement {
  const box = h("span", { class: `tv-option__why ${state}`.trim() });
  box.append(h("strong", { class: "tv-option__verdict" }, words));
  // The reason begins with its option's letter, which the row already shows.
  const parts = [...(reason?.childNodes ?? [])].filter((node) => node.nodeName !== "B");
  for (const part of parts) box.append(part.cloneNode(true));
  for (const copy of all(box, "[id]")) copy.removeAttribute("id");
  return box;
}

function verdict(item: ScorableItem, response: Response, score: Score, key: string): string {
  const read = item.type === "numeric" ? readBack(response) : "";
  if (score.right) return `Right.${read}`;
  const partly = `Partly right: ${score.earned} of ${score.possible} points.`;
  return `${score.earned > 0 ? partly : "Not this one."}${read} ${key}`;
}

/** Says how a written number was understood, because a comma can mean two things. */
function readBack(response: Response): string {
  const value = readDecimal(response.value ?? "");
  if (value === null) return "";
  const shown = Number(value.numerator) / Number(value.denominator);
  return ` Read as ${shown} ${response.unit ?? ""}.`.replace("-", "−");
}
