/** What stands around the item of a quiz: where one is, and the ways on. */
import { button, h, need } from "../dom";

interface Ways {
  readonly back: () => void;
  readonly on: () => void;
  readonly again: () => void;
}

export class QuizFrame {
  readonly actions: HTMLElement;
  private readonly place: HTMLElement;
  private readonly kept: HTMLElement;
  private readonly segments: HTMLElement[];
  private readonly back: HTMLButtonElement;
  private readonly on: HTMLButtonElement;
  private readonly again: HTMLButtonElement;

  constructor(
    private readonly quiz: HTMLElement,
    private readonly total: number,
    ways: Ways,
  ) {
    this.place = h("span", { tabindex: "-1", class: "tv-quiz__place" });
    this.kept = h("span");
    const count = need(quiz, ".tv-quiz__count");
    count.replaceChildren(this.place, this.kept);
    this.segments = Array.from({ length: total }, () => h("li", { class: "tv-segment" }));
    // The words beside it say the same.
    count.after(h("ol", { class: "tv-segments", "aria-hidden": "true" }, ...this.segments));
    this.back = button("Previous item", ways.back);
    this.on = button("Next item", ways.on);
    this.again = button("Start again", ways.again);
    this.actions = h("p", { class: "tv-quiz__actions" }, this.on, this.back, this.again);
    const foot = quiz.querySelector(".tv-quiz__foot");
    if (foot !== null) foot.before(this.actions);
    else quiz.append(this.actions);
  }

  /** Draw for the item at a place; `total` stands for the result. */
  draw(place: number, done: readonly boolean[], keeps: boolean): void {
    const atResult = place === this.total;
    const answered = done.filter(Boolean).length;
    this.place.replaceChildren(
      ...(atResult
        ? [h("b", {}, "Result"), ` ${answered} of ${this.total} answered`]
        : [h("b", {}, `Item ${place + 1}`), ` of ${this.total}`]),
    );
    this.kept.textContent = keeps ? "saved on this device" : "not saved: storage is off";
    this.segments.forEach((segment, index) => {
      segment.classList.toggle("tv-segment--done", done[index] === true);
      segment.classList.toggle("tv-segment--now", index === place);
    });
    this.back.hidden = place === 0;
    this.on.hidden = atResult;
    this.on.textContent = place === this.total - 1 ? "See the result" : "Next item";
    // One action leads: checking an open item, going on from a checked one.
    this.on.classList.toggle("tv-button--lead", done[place] === true);
    this.again.hidden = answered === 0 || !atResult;
  }

  /** Take the reader to the top of the item; a screen reader says which one it is. */
  focus(): void {
    this.place.focus({ preventScroll: true });
    need(this.quiz, ".tv-quiz__head").scrollIntoView({ block: "start" });
  }
}
