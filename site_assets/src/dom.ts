/** Building and reading the page without ever parsing text as HTML. */

type Child = Node | string | null | false;
type Attributes = Readonly<Record<string, string | boolean | ((event: globalThis.Event) => void)>>;

/**
 * Make an element. A function becomes a listener of the event its name says, `true` an attribute
 * without value, text children become text and nothing else.
 */
export function h<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Tag] {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === "function") element.addEventListener(name, value);
    else if (value === true) element.setAttribute(name, "");
    else if (value !== false) element.setAttribute(name, value);
  }
  element.append(...children.filter((child) => child !== null && child !== false));
  return element;
}

/** A button as the style sheet knows it; one of a screen's buttons may lead. */
export function button(words: string, act: () => void, lead = false): HTMLButtonElement {
  const kind = lead ? "tv-button tv-button--lead" : "tv-button";
  return h("button", { type: "button", class: kind, click: act }, words);
}

/** The first element that matches, typed; throws when the page lacks it, for that is our fault. */
export function need<Found extends Element>(root: ParentNode, selector: string): Found {
  const found = root.querySelector<Found>(selector);
  if (found === null) throw new Error(`the page has no ${selector}`);
  return found;
}

export function all<Found extends Element>(root: ParentNode, selector: string): Found[] {
  return [...root.querySelectorAll<Found>(selector)];
}

/** Register an element once, even if a script was loaded twice. */
export function define(name: string, element: CustomElementConstructor): void {
  if (customElements.get(name) === undefined) customElements.define(name, element);
}

/** "1 answer", "2 answers". */
export function count(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`;
}
