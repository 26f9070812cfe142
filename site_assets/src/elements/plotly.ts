/** The small part of Plotly that figures use, and how it is loaded: only when a reader asks. */
import { loadScript } from "../page";

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

export async function loadPlotly(): Promise<Plotly> {
  await loadScript("assets/vendor/plotly-cartesian.min.js");
  if (window.Plotly === undefined) throw new Error("Plotly did not register itself");
  return window.Plotly;
}
