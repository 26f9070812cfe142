/** <tv-figure>: a drawn figure with its table; on request, the same figure to explore in time. */
import { define, h } from "../dom";
import { loadScript } from "../page";
import type { Explorer } from "./explorer";

declare global {
  interface Window {
    /** Registered by `explore.js`, which is loaded on request. */
    threeviewExplorer?: typeof Explorer;
  }
}

const FAILED =
  "The figure could not be loaded; the drawing and its table stay as they are. " +
  "Check the network, or that the folder of the course is whole, and try again.";

class TvFigure extends HTMLElement {
  private explorer: Explorer | null = null;
  private isLoading = false;
  private readonly said = h("span", { role: "status" });

  connectedCallback(): void {
    const explore = this.explore;
    if (explore === null || !explore.hidden) return;
    explore.hidden = false;
    explore.after(this.said);
    explore.addEventListener("click", () => void this.toggle());
  }

  disconnectedCallback(): void {
    this.close();
  }

  private get explore(): HTMLButtonElement | null {
    return this.querySelector("[data-explore]");
  }

  private async toggle(): Promise<void> {
    // A second click while the plot loads would open a panel that nothing closes.
    if (this.isLoading) return;
    this.said.textContent = "";
    if (this.explorer !== null) {
      this.close();
      return;
    }
    this.isLoading = true;
    this.label("Loading the figure");
    try {
      await loadScript("assets/tv/explore.js");
      if (window.threeviewExplorer === undefined) throw new Error("explore.js did not register");
      this.explorer = new window.threeviewExplorer(this);
      await this.explorer.open();
      this.label("Show the still figure again");
    } catch {
      this.close();
      this.said.textContent = FAILED;
    } finally {
      this.isLoading = false;
    }
  }

  private close(): void {
    this.explorer?.close();
    this.explorer = null;
    this.label("Explore the figure");
  }

  private label(words: string): void {
    if (this.explore !== null) this.explore.textContent = words;
  }
}

define("tv-figure", TvFigure);
