/** <tv-quiz>: a bank's items one at a time, with the way back to where the learner was. */
import { all, define } from "../dom";
import { openLearner, type Learner } from "../learner";
import { QuizFrame } from "./quiz-frame";
import { ANSWERED, TvItem } from "./item";
import { quizResult } from "./quiz-result";

export class TvQuiz extends HTMLElement {
  private items: TvItem[] = [];
  private learner: Learner | null = null;
  private frame: QuizFrame | null = null;
  /** Which item is shown; the number of items stands for the result. */
  private place = 0;
  private result: HTMLElement | null = null;
  private stop: (() => void) | null = null;

  connectedCallback(): void {
    void this.start();
  }

  disconnectedCallback(): void {
    this.stop?.();
  }

  private async start(): Promise<void> {
    if (this.frame === null) this.wire();
    this.learner = await openLearner();
    this.stop = this.learner.listen(() => void this.refresh());
    await this.refresh();
    this.show(this.linked() ?? this.firstOpen());
  }

  private wire(): void {
    this.items = all<TvItem>(this, "tv-item");
    // Nothing is shown until it is known where the learner was.
    for (const item of this.items) item.hidden = true;
    this.frame = new QuizFrame(this, this.items.length, {
      back: () => this.move(-1),
      on: () => this.move(1),
      again: () => void this.startAgain(),
    });
    this.addEventListener(ANSWERED, () => this.draw());
    addEventListener("hashchange", () => {
      const place = this.linked();
      if (place !== null) this.show(place);
    });
  }

  /** Items first, because the frame counts what they show. */
  private async refresh(): Promise<void> {
    await Promise.all(this.items.map((item) => item.refresh()));
    this.draw();
  }

  /** The item that the address names, as links from the logbook do. */
  private linked(): number | null {
    const place = this.items.findIndex((item) => `#${item.id}` === location.hash);
    return place < 0 ? null : place;
  }

  private firstOpen(): number {
    const place = this.items.findIndex((item) => item.checked === null);
    return place < 0 ? this.items.length : place;
  }

  private move(step: number): void {
    this.show(Math.min(Math.max(this.place + step, 0), this.items.length));
    this.frame?.focus();
  }

  private show(place: number): void {
    this.place = place;
    this.draw();
  }

  private draw(): void {
    this.items.forEach((item, place) => (item.hidden = place !== this.place));
    const done = this.items.map((item) => item.checked !== null);
    this.frame?.draw(this.place, done, this.learner?.store.keeps ?? false);
    this.result?.remove();
    this.result = this.place === this.items.length ? quizResult(this.items) : null;
    if (this.result !== null) this.frame?.actions.before(this.result);
  }

  private async startAgain(): Promise<void> {
    const items = this.items.map((item) => item.item.id);
    await this.learner?.startAgain(this.dataset.bank ?? "", items);
    await this.refresh();
    this.show(0);
    this.frame?.focus();
  }
}

define("tv-quiz", TvQuiz);
