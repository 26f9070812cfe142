/** A slider over the moments of a figure; it plays only on request. */
import { button, h } from "../dom";

/** How long each moment stands while playing. */
const STEP_MS = 250;
/** Coarse steps for readers who asked for less motion. */
const CALM_SECONDS = 10;

export class TimeSlider {
  readonly element: HTMLElement;
  private readonly slider: HTMLInputElement;
  private readonly shown = h("output", { class: "tv-explore__time" });
  private readonly play: HTMLButtonElement;
  private readonly times: readonly number[];
  private timer: number | undefined;

  constructor(
    private readonly all: readonly number[],
    private readonly draw: (moment: number) => unknown,
  ) {
    const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
    this.times = calm ? all.filter((time, place) => isCoarse(time, place, all)) : all;
    const last = String(this.times.length - 1);
    this.slider = h("input", { type: "range", min: "0", max: last, step: "1", value: last });
    this.slider.addEventListener("input", () => {
      this.stop();
      this.show();
    });
    this.play = button("Play", () => this.toggle());
    this.play.hidden = calm;
    const label = h("label", {}, "Time ", this.slider);
    const line = { class: "tv-actions tv-explore__moments" };
    this.element = h("p", line, this.play, label, this.shown);
    this.say();
  }

  private toggle(): void {
    if (this.timer !== undefined) {
      this.stop();
      return;
    }
    if (this.place === this.times.length - 1) this.slider.value = "0";
    this.play.textContent = "Stop";
    this.timer = window.setInterval(() => this.step(), STEP_MS);
    this.show();
  }

  private step(): void {
    // Closing the figure takes the slider off the page.
    if (!this.element.isConnected || this.place === this.times.length - 1) {
      this.stop();
      return;
    }
    this.slider.value = String(this.place + 1);
    this.show();
  }

  private stop(): void {
    window.clearInterval(this.timer);
    this.timer = undefined;
    this.play.textContent = "Play";
  }

  private show(): void {
    this.say();
    void this.draw(this.all.indexOf(this.times[this.place] ?? 0));
  }

  private say(): void {
    const words = `${Math.round(this.times[this.place] ?? 0)} s`;
    this.slider.setAttribute("aria-valuetext", words);
    this.shown.textContent = `${words} of ${Math.round(this.all.at(-1) ?? 0)} s`;
  }

  private get place(): number {
    return Number(this.slider.value);
  }
}

function isCoarse(time: number, place: number, all: readonly number[]): boolean {
  return time % CALM_SECONDS === 0 || place === all.length - 1;
}
