/** The data of an interactive figure, as `threeview.figures.figure` describes them. */

export type Point = readonly [number, number];

export interface SectionFrame {
  readonly time_s: number;
  /** Boundary name to one side of its curve, distal to proximal; empty when nothing is inside. */
  readonly contours: Readonly<Record<string, readonly Point[]>>;
}

export interface Section {
  readonly words: string;
  readonly insulated_above_mm: number;
  readonly electrode: readonly Point[];
  readonly frames: readonly SectionFrame[];
}

export interface CrossSectionData {
  readonly kind: "cross-section";
  readonly words: string;
  readonly sections: readonly Section[];
  readonly extent_mm: { readonly r: number; readonly z: Point };
}

export interface Series {
  readonly name: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
}

export interface LinesData {
  readonly kind: "lines";
  readonly panels: readonly {
    readonly title: string;
    readonly x: string;
    readonly y: string;
    readonly x_scale: "linear" | "log";
    readonly y_scale: "linear" | "log";
    readonly series: readonly Series[];
  }[];
}

export type FigureData = CrossSectionData | LinesData;

declare global {
  interface Window {
    threeviewFigures?: Record<string, FigureData>;
  }
}

/** The moments a figure can show, in seconds; none when it does not change. */
export function moments(data: FigureData): readonly number[] {
  if (data.kind === "lines") return [];
  return data.sections[0]?.frames.map((frame) => frame.time_s) ?? [];
}
