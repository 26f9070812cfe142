/** <tv-wipe>: remove everything the course keeps here, in two steps, a copy offered first. */
import { button, count, define, h } from "../dom";
import { openLearner } from "../learner";
import { saveCopy } from "./copies";

class TvWipe extends HTMLElement {
  private readonly told = h("p", { role: "status" });
  private readonly first = button("Wipe this device", () => void this.ask());
  private readonly second = h("div", { class: "tv-wipe__second", hidden: true });

  connectedCallback(): void {
    if (this.childElementCount > 0) return;
    this.append(
      h("p", {}, "Removes your answers, your name and everything else the course keeps here."),
      h("p", { class: "tv-actions" }, this.first),
      this.second,
      this.told,
    );
  }

  private async ask(): Promise<void> {
    const learner = await openLearner();
    const entries = count((await learner.events()).length, "entry", "entries");
    const keep = button("Keep everything", () => this.close("Nothing was removed."));
    this.told.textContent = "";
    this.second.replaceChildren(
      h("p", {}, `${entries} will be gone from this device. A saved copy brings them back.`),
      h(
        "p",
        { class: "tv-actions" },
        button("Save a copy first", () => void this.save()),
        button(`Wipe ${entries} now`, () => void this.wipe()),
        keep,
      ),
    );
    this.second.hidden = false;
    this.first.hidden = true;
    // The first button is gone; the safe answer takes the focus.
    keep.focus();
  }

  private async save(): Promise<void> {
    await saveCopy(await openLearner());
    this.told.textContent = "A copy was saved among the downloads.";
  }

  private async wipe(): Promise<void> {
    await (await openLearner()).wipe();
    this.close("Done. Nothing of yours is left on this device, saved copies apart.");
  }

  private close(words: string): void {
    this.second.hidden = true;
    this.first.hidden = false;
    this.first.focus();
    this.told.textContent = words;
  }
}

define("tv-wipe", TvWipe);
