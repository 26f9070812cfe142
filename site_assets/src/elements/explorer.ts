/** Exploring a drawn figure in time; a script of its own, loaded when a reader asks. */
import { h, need } from "../dom";
import { loadScript } from "../page";
import { moments, type FigureData } from "./figure-data";
import { plotOf, sectionWords } from "./figure-plots";
import { loadPlotly, type Plotly } from "./plotly";
import { TimeSlider } from "./time-slider";

const CONFIG = { displayModeBar: false, responsive: true, scrollZoom: false };

export class Explorer {
  private plotly: Plotly | null = null;
  private panel: HTMLElement | null = null;
  private redraw: (() => unknown) | null = null;
  // The plot takes its colours when it is drawn, so a change of scheme draws it again.
  private readonly scheme = new MutationObserver(() => void this.redraw?.());

  constructor(private readonly figure: HTMLElement) {}

  async open(): Promise<void> {
    const name = this.figure.dataset.figure ?? "";
    const [plotly] = await Promise.all([loadPlotly(), loadScript(`assets/data/figure-${name}.js`)]);
    const data = window.threeviewFigures?.[name];
    if (data === undefined) throw new Error(`figure ${name} has no data`);
    this.plotly = plotly;
    await this.build(data, plotly);
  }

  private async build(data: FigureData, plotly: Plotly): Promise<void> {
    const caption = this.figure.querySelector("figcaption")?.textContent?.trim() ?? "";
    // The table beside it holds the same numbers; Plotly's own drawing has no name.
    const place = h("div", { class: "tv-explore__plot", role: "img", "aria-label": caption });
    const draw = (moment: number) => {
      this.redraw = () => draw(moment);
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
    this.scheme.observe(document.body, { attributeFilter: ["data-md-color-scheme"] });
    await draw(times.length - 1);
  }

  close(): void {
    this.scheme.disconnect();
    this.redraw = null;
    const place = this.panel?.querySelector<HTMLElement>(".tv-explore__plot");
    if (place && this.plotly !== null) this.plotly.purge(place);
    this.panel?.remove();
    this.panel = null;
    this.plate.hidden = false;
  }

  private get plate(): HTMLElement {
    return need(this.figure, ".tv-plate");
  }

  private ink(token: string): string {
    return getComputedStyle(this.figure).getPropertyValue(`--tv-${token}`).trim();
  }
}
