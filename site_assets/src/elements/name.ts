/** <tv-name>: the name a learner chooses, or none. */
import { button, define, h } from "../dom";
import { openLearner } from "../learner";

/** As many characters as a record carries. */
const MOST = 80;

class TvName extends HTMLElement {
  private readonly field = h("input", {
    class: "tv-text",
    name: "name",
    autocomplete: "off",
    maxlength: String(MOST),
  });
  private readonly told = h("p", { role: "status" });

  connectedCallback(): void {
    if (this.childElementCount === 0) this.build();
    void this.fill();
  }

  private build(): void {
    const form = h("form", { class: "tv-name" });
    form.append(
      h("p", {}, "Your own or one you choose, for your copies. No patient data belong here."),
      h("label", {}, "Name ", this.field),
      h("p", { class: "tv-actions" }, button("Keep this name", () => form.requestSubmit())),
      this.told,
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      void this.keep();
    });
    this.append(form);
  }

  private async fill(): Promise<void> {
    this.field.value = await (await openLearner()).name();
  }

  private async keep(): Promise<void> {
    // Characters, not code units, and no half of a pair: what a record may carry.
    const whole = this.field.value.trim().replace(/[\ud800-\udfff]/gu, "");
    const name = [...whole].slice(0, MOST).join("");
    await (await openLearner()).rename(name);
    this.told.textContent = name === "" ? "No name is kept." : `Kept: ${name}.`;
  }
}

define("tv-name", TvName);
