/** The small part of Plotly that figures use, and how it is loaded: only when a reader asks. */
import { siteUrl } from "../page";

export type Trace = Readonly<Record<string, unknown>>;
export type Layout = Readonly<Record<string, unknown>>;

export interface Plotly {
  react(place: HTMLElement, data: readonly Trace[], layout: Layout, config: object): Promise<void>;
  purge(place: HTMLElement): void;
}

declare global {
  interface Window {
    Plotly?: Plotly;
  }
}

const loading = new Map<string, Promise<void>>();

export async function loadPlotly(): Promise<Plotly> {
  await loadScript("assets/vendor/plotly-cartesian.min.js");
  if (window.Plotly === undefined) throw new Error("Plotly did not register itself");
  return window.Plotly;
}

/** Load a classic script of the site once; a page opened from disk may not fetch. */
export function loadScript(path: string): Promise<void> {
  const known = loading.get(path);
  if (known !== undefined) return known;
  const loaded = new Promise<void>((resolve, reject) => {
    const script = document.createElement("script");
    script.src = siteUrl(path);
    script.addEventListener("load", () => resolve());
    script.addEventListener("error", () => reject(new Error(`${path} could not be loaded`)));
    document.head.append(script);
  });
  loading.set(path, loaded);
  // A failed load may be tried again.
  loaded.catch(() => loading.delete(path));
  return loaded;
}
