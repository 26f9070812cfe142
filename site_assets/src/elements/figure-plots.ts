/** From figure data to Plotly traces, in the colours and line styles of the drawn figures. */
import type { CrossSectionData, FigureData, LinesData, Point, Section } from "./figure-data";
import type { Layout, Trace } from "./plotly";

export interface Plot {
  readonly traces: readonly Trace[];
  readonly layout: Layout;
}

/** Reads a colour of the page's scheme: tokens live in the style sheet, never in a script. */
export type Ink = (token: string) => string;

/** The plot of a figure at one of its moments. */
export function plotOf(data: FigureData, moment: number, ink: Ink): Plot {
  return data.kind === "lines" ? linesPlot(data, ink) : sectionPlot(data, moment, ink);
}

const DASHES = ["solid", "dash", "dot", "dashdot", "longdash"];
/** Boundaries whose style says what they are; temperatures have a colour of their own. */
const ISOTHERMS = new Set(["45", "50", "60", "80"]);

function sectionPlot(data: CrossSectionData, moment: number, ink: Ink): Plot {
  const traces = data.sections.flatMap((section, place) =>
    sectionTraces(section, place, moment, ink),
  );
  const axes = data.sections.map((_, place) => sectionAxes(place, data, ink));
  const columns = data.sections.length;
  const grid = { rows: 1, columns, pattern: "independent", xgap: 0.12 };
  // A pair shares the width, so the drawings are smaller.
  const height = columns > 1 ? 400 : 520;
  return { traces, layout: { ...base(ink), height, grid, ...Object.assign({}, ...axes) } };
}

function sectionTraces(section: Section, place: number, moment: number, ink: Ink): Trace[] {
  const axes = axisNames(place);
  const frame = section.frames[moment];
  const contours = Object.entries(frame?.contours ?? {});
  const curves = contours
    .filter(([, curve]) => curve.length > 0)
    .map(([name, curve]) => ({
      ...axes,
      ...coordinates(bothSides(curve)),
      mode: "lines",
      name: boundaryWords(name),
      line: boundaryLine(name, ink),
      showlegend: place === 0,
      hovertemplate: "%{x:.1f} mm aside, %{y:.1f} mm along",
    }));
  return [...curves, ...needleTraces(section, axes, ink)];
}

/** The metal's outline, open at the bare tip, and the insulated shaft filled above it. */
function needleTraces(section: Section, axes: object, ink: Ink): Trace[] {
  const radius = Math.max(...section.electrode.map(([r]) => r));
  const top = Math.max(...section.electrode.map(([, z]) => z));
  const low = section.insulated_above_mm;
  const shaft: Point[] = [[-radius, low], [radius, low], [radius, top], [-radius, top]];
  const common = { ...axes, mode: "lines", fill: "toself", showlegend: false, hoverinfo: "skip" };
  const line = { color: ink("ink"), width: 1.5 };
  return [
    { ...common, ...coordinates(section.electrode), fillcolor: ink("paper"), line },
    { ...common, ...coordinates(shaft), fillcolor: ink("steel"), line: { width: 0 } },
  ];
}

function sectionAxes(place: number, data: CrossSectionData, ink: Ink): object {
  const { r, z } = data.extent_mm;
  const suffix = place === 0 ? "" : String(place + 1);
  const title = data.sections.length > 1 ? `${sectionLetter(place)}, mm` : "mm";
  const across = { range: [-r, r], constrain: "domain", title: { text: title } };
  const along = { range: [...z], constrain: "domain", scaleanchor: `x${suffix}`, scaleratio: 1 };
  return {
    [`xaxis${suffix}`]: { ...axis(ink), ...across },
    [`yaxis${suffix}`]: { ...axis(ink), ...along },
  };
}

/** What the sections of a figure are, in words; the axes carry only their letters. */
export function sectionWords(data: FigureData): string {
  if (data.kind === "lines") return "";
  if (data.sections.length === 1) return data.sections[0]?.words ?? "";
  return data.sections.map(({ words }, place) => `${sectionLetter(place)}: ${words}`).join(" | ");
}

function sectionLetter(place: number): string {
  return String.fromCharCode("A".charCodeAt(0) + place);
}

function linesPlot(data: LinesData, ink: Ink): Plot {
  const traces = data.panels.flatMap((panel, place) =>
    panel.series.map((series, index) => ({
      ...axisNames(place),
      x: series.x,
      y: series.y,
      mode: "lines",
      name: series.name,
      // One legend serves panels that draw the same series.
      legendgroup: series.name,
      showlegend: place === 0 || !data.panels[0]?.series.some(({ name }) => name === series.name),
      line: { color: ink("ink"), width: 2.2, dash: DASHES[index % DASHES.length] },
    })),
  );
  const axes = data.panels.map((panel, place) => {
    const suffix = place === 0 ? "" : String(place + 1);
    return {
      [`xaxis${suffix}`]: { ...axis(ink), type: panel.x_scale, title: { text: panel.x } },
      [`yaxis${suffix}`]: { ...axis(ink), type: panel.y_scale, title: { text: panel.y } },
    };
  });
  const grid = { rows: data.panels.length, columns: 1, pattern: "independent", ygap: 0.3 };
  const height = 120 + 300 * data.panels.length;
  return { traces, layout: { ...base(ink), height, grid, ...Object.assign({}, ...axes) } };
}

function base(ink: Ink): Layout {
  return {
    paper_bgcolor: ink("paper"),
    plot_bgcolor: ink("paper"),
    font: { family: ink("font-plain"), size: 15, color: ink("ink") },
    margin: { l: 56, r: 12, t: 12, b: 56 },
    legend: { orientation: "h", yanchor: "bottom", y: 1.02, x: 0 },
    dragmode: false,
  };
}

function axis(ink: Ink): object {
  return { gridcolor: ink("rule"), zeroline: false, linecolor: ink("edge"), automargin: true };
}

function axisNames(place: number): object {
  const suffix = place === 0 ? "" : String(place + 1);
  return { xaxis: `x${suffix}`, yaxis: `y${suffix}` };
}

function coordinates(points: readonly Point[]): object {
  return { x: points.map(([r]) => r), y: points.map(([, z]) => z) };
}

/** A contour is one side; the other mirrors it, and the curve runs on without a gap. */
function bothSides(curve: readonly Point[]): Point[] {
  return [...curve, ...[...curve].reverse().map(([r, z]): Point => [-r, z])];
}

function boundaryWords(name: string): string {
  return ISOTHERMS.has(name) ? `${name} °C` : name;
}

function boundaryLine(name: string, ink: Ink): object {
  if (ISOTHERMS.has(name)) return { color: ink(`t${name}`), width: 1.8 };
  return { color: ink("ink"), width: 2.2, dash: name === "damage" ? "dot" : "dash" };
}
