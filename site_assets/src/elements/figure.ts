/** <tv-figure>: a drawn figure with its table; on request, the same figure to explore in time. */
import { define, h, need } from "../dom";
import { moments, type FigureData } from "./figure-data";
import { plotOf, sectionWords } from "./figure-plots";
import { loadPlotly, loadScript, type Plotly } from "./plotly";
import { TimeSlider } from "./time-slider";

const CONFIG = { displayModeBar: false, responsive: true, scrollZoom: false };

class TvFigure extends HTMLElement {
  private plotly: Plotly | null = null;
  private panel: HTMLElement | null = null;

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
    if (this.panel !== null) {
      this.close();
      return;
    }
    this.label("Loading the figure");
    try {
      await this.open();
    } catch {
      this.close();
      this.label("The figure could not be loaded. Try again");
    }
  }

  private async open(): Promise<void> {
    const name = this.dataset.figure ?? "";
    const [plotly] = await Promise.all([loadPlotly(), loadScript(`assets/data/figure-${name}.js`)]);
    const data = window.threeviewFigures?.[name];
    if (data === undefined) throw new Error(`figure ${name} has no data`);
    this.plotly = plotly;
    await this.build(data, plotly);
    this.label("Close the figure");
  }

  private async build(data: FigureData, plotly: Plotly): Promise<void> {
    const caption = this.querySelector("figcaption")?.textContent?.trim() ?? "";
    // The table beside it holds the same numbers; Plotly's own drawing has no name.
    const place = h("div", { class: "tv-explore__plot", role: "img", "aria-label": caption });
    const draw = (moment: number) => {
      const { traces, layout } = plotOf(data, moment, (token) => this.ink(token));
      return plotly.react(place, traces, layout, CONFIG);
    };
    const times = moments(data);
    this.panel = h("div", { class: "tv-explore" }, place);
    const words = sectionWords(data);
    if (words !== "") this.panel.append(h("p", { class: "tv-plate__foot" }, h("span", {}, words)));
    if (times.length > 1) this.panel.append(new TimeSlider(times, draw).element);
    // It stands where the drawing stood, beside the same table.
    this.plate.after(this.panel);
    this.plate.hidden = true;
    await draw(times.length - 1);
  }

  private close(): void {
    const place = this.panel?.querySelector<HTMLElement>(".tv-explore__plot");
    if (place && this.plotly !== null) this.plotly.purge(place);
    this.panel?.remove();
    this.panel = null;
    this.plate.hidden = false;
    this.label("Explore the figure");
  }

  private get plate(): HTMLElement {
    return need(this, ".tv-plate");
  }

  private label(words: string): void {
    if (this.explore !== null) this.explore.textContent = words;
  }

  private ink(token: string): string {
    return getComputedStyle(this).getPropertyValue(`--tv-${token}`).trim();
  }
}

define("tv-figure", TvFigure);
