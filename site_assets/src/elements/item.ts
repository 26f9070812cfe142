/** <tv-item>: one question. Without script it can be read; with script it can be answered. */
import { attemptAnswers, bankOf, score, type Response, type ScorableItem } from "../core";
import { define, need } from "../dom";
import { openLearner, type Learner } from "../learner";
import { clearFeedback, showFeedback } from "./item-feedback";
import { fillForm, lockForm, readForm } from "./item-form";

/** Told to the page when an item was checked. */
export const ANSWERED = "tv-answered";

export class TvItem extends HTMLElement {
  /** Set once the item has been checked in the running attempt. */
  checked: Response | null = null;
  private learner: Learner | null = null;
  private stop: (() => void) | null = null;
  private wired = false;
  /** While an answer is on its way to the log, or could not get there. */
  private unsaved = false;

  connectedCallback(): void {
    if (!this.wired) this.wire();
    void this.start();
  }

  disconnectedCallback(): void {
    this.stop?.();
  }

  /** The item as the scorer knows it. */
  get item(): ScorableItem {
    return JSON.parse(need(this, ".tv-item__data").textContent ?? "") as ScorableItem;
  }

  /** Show what the log and the drafts say about this item. */
  async refresh(): Promise<void> {
    const learner = this.learner;
    if (learner === null) return;
    const bank = bankOf(this.item.id);
    const attempt = await learner.attempt(bank);
    const answer = attemptAnswers(await learner.events(), bank, attempt).get(this.item.id);
    if (answer !== undefined && answer.subject === this.dataset.item) {
      if (this.checked === null) this.showChecked(answer.payload.response, false);
    } else if (this.checked !== null && !this.unsaved) {
      this.showOpen();
    }
  }

  private wire(): void {
    this.wired = true;
    need<HTMLButtonElement>(this, ".tv-item__actions button").hidden = false;
    need<HTMLElement>(this, ".tv-answer").hidden = true;
    this.form.addEventListener("submit", (event) => {
      event.preventDefault();
      void this.check();
    });
    this.form.addEventListener("input", () => void this.keepDraft());
    // A checked answer stands: a click or an arrow key on a locked field does nothing.
    this.form.addEventListener("click", (event) => this.guard(event));
  }

  private async start(): Promise<void> {
    this.learner = await openLearner();
    this.stop = this.learner.listen(() => void this.refresh());
    await this.refresh();
    if (this.checked === null) await this.restoreDraft(this.learner);
  }

  private async restoreDraft(learner: Learner): Promise<void> {
    const draft = await learner.store.draft(this.item.id);
    if (draft?.version === this.item.version) fillForm(this.form, draft.response);
  }

  private async keepDraft(): Promise<void> {
    if (this.checked !== null) {
      fillForm(this.form, this.checked);
      return;
    }
    const { id, version } = this.item;
    const draft = { item: id, version, response: readForm(this.form, this.item) };
    // Losing a draft costs a click; the answer itself reports a failure.
    await this.learner?.store.saveDraft(draft).catch(() => undefined);
  }

  private async check(): Promise<void> {
    const learner = await openLearner();
    if (this.checked !== null) return;
    const response = readForm(this.form, this.item);
    const fault = unready(this.item, response);
    if (fault !== null) {
      this.say(fault);
      return;
    }
    this.unsaved = true;
    this.showChecked(response, true);
    try {
      await learner.answer(this.item, response);
      this.unsaved = false;
    } catch (error) {
      this.say(`${this.live.textContent ?? ""} This answer could not be saved: ${reason(error)}`);
    }
    this.dispatchEvent(new CustomEvent(ANSWERED, { bubbles: true }));
  }

  private showChecked(response: Response, fresh: boolean): void {
    this.checked = response;
    fillForm(this.form, response);
    lockForm(this.form, true);
    const words = showFeedback(this, this.item, response, score(this.item, response));
    this.say(fresh ? words : `Answered before. ${words}`);
    this.setButton("Checked", true);
  }

  private showOpen(): void {
    this.checked = null;
    fillForm(this.form, {});
    lockForm(this.form, false);
    clearFeedback(this);
    this.say("");
    this.setButton("Check", false);
  }

  private setButton(words: string, done: boolean): void {
    const button = need<HTMLButtonElement>(this, ".tv-item__actions button");
    button.textContent = words;
    button.classList.toggle("tv-button--lead", !done);
    if (done) button.setAttribute("aria-disabled", "true");
    else button.removeAttribute("aria-disabled");
  }

  private guard(event: globalThis.Event): void {
    const field = (event.target as Element).closest("input, select");
    if (this.checked !== null && field !== null) event.preventDefault();
  }

  private say(words: string): void {
    this.live.textContent = words;
  }

  private get live(): HTMLElement {
    return need(this, ".tv-item__live");
  }

  private get form(): HTMLFormElement {
    return need(this, ".tv-item__form");
  }
}

/** Why a response cannot be checked yet, in words; null when it can. */
function unready(item: ScorableItem, response: Response): string | null {
  const { flags } = score(item, response);
  if (flags.includes("blank")) {
    return item.type === "numeric" ? "Write a number first." : "Choose an answer first.";
  }
  if (!flags.includes("not-a-number")) return null;
  return "That is not read as a number. Write digits with one point or comma, such as 8.5.";
}

function reason(error: unknown): string {
  const full = error instanceof DOMException && error.name === "QuotaExceededError";
  if (full) return "this device has no room left. Free some space, then answer again.";
  return "the browser refused. Leave this page open and save a copy in the logbook.";
}

define("tv-item", TvItem);
