/** Reads and fills the form of an item. */
import type { Response, ScorableItem } from "../core";
import { all } from "../dom";

/** What the form holds now, raw. */
export function readForm(form: HTMLFormElement, item: ScorableItem): Response {
  if (item.type === "numeric") {
    const data = new FormData(form);
    return { value: String(data.get("value") ?? ""), unit: String(data.get("unit") ?? "") };
  }
  return { choice: choices(form).filter((input) => input.checked).map((input) => input.value) };
}

/** Put a response into the form; fields that it does not name are emptied. */
export function fillForm(form: HTMLFormElement, response: Response): void {
  const chosen = new Set(response.choice);
  for (const input of choices(form)) input.checked = chosen.has(input.value);
  const number = form.querySelector<HTMLInputElement>("[name=value]");
  if (number !== null) number.value = response.value ?? "";
  const unit = form.querySelector<HTMLSelectElement>("[name=unit]");
  const known = [...(unit?.options ?? [])].some((option) => option.value === response.unit);
  if (unit !== null && known) unit.value = response.unit as string;
}

/** Let the form be changed, or only read; what is locked keeps its focus and its contrast. */
export function lockForm(form: HTMLFormElement, locked: boolean): void {
  for (const field of all<HTMLInputElement | HTMLSelectElement>(form, "input, select")) {
    if (locked) field.setAttribute("aria-disabled", "true");
    else field.removeAttribute("aria-disabled");
    if (field.matches("[name=value]")) (field as HTMLInputElement).readOnly = locked;
  }
}

function choices(form: HTMLFormElement): HTMLInputElement[] {
  return all<HTMLInputElement>(form, "[name=choice]");
}
