/** The course as the scripts see it (twin: `threeview.progress.outline`). */
import type { ScorableItem } from "./quiz";

export interface ObjectiveOutline {
  readonly id: string;
  readonly text: string;
}

export interface ModuleOutline {
  readonly id: string;
  readonly title: string;
  readonly number: number;
  /** Paths from the root of the site. */
  readonly page: string;
  readonly quiz: string | null;
  readonly minutes: number;
  readonly sections: readonly string[];
  readonly objectives: readonly ObjectiveOutline[];
  readonly items: readonly ScorableItem[];
  /** Old versions of items, kept so that every record ever made can be scored. */
  readonly retired?: readonly ScorableItem[];
}

export interface CourseOutline {
  readonly id: string;
  readonly title: string;
  readonly edition: string;
  readonly weak_below_percent: number;
  readonly digest: string;
  readonly modules: readonly ModuleOutline[];
}
