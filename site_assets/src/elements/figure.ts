/** <tv-figure>: a drawn figure with its table; on request, the same figure to explore in time. */
import { define } from "../dom";
import { loadScript } from "../page";
import type { Explorer } from "./explorer";

declare global {
  interface Window {
    /** Registered by `explore.js`, which is loaded on request. */
    threeviewExplorer?: typeof Explorer;
  }
}

class TvFigure extends HTMLElement {
  private explorer: Explorer | null = null;

  connectedCallback(): void {
    const explore = this.explore;
    if (explore === null || !explore.hidden) return;
    explore.hidden = false;
    explore.addEventListener("click", () => void this.toggle());
  }

  disconnectedCallback(): void {
    this.close();
  }

  private get explore(): HTMLButtonElement | null {
    return this.querySelector("[data-explore]");
  }

  private async toggle(): Promise<void> {
    if (this.explorer !== null) {
      this.close();
      return;
    }
    this.label("Loading the figure");
    try {
      await loadScript("assets/tv/explore.js");
      if (window.threeviewExplorer === undefined) throw new Error("explore.js did not register");
      this.explorer = new window.threeviewExplorer(this);
      await this.explorer.open();
      this.label("Close the figure");
    } catch {
      this.close();
      this.label("The figure could not be loaded. Try again");
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
