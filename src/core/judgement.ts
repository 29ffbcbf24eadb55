import type { Milliseconds } from "./units.js";

/** How much a reason weighs: a note, a caution, a warning, or a stop. */
export type Severity = "note" | "caution" | "warning" | "stop";

/** A span of time, both ends included. */
export interface Interval {
  /** Start, UTC epoch milliseconds. */
  fromMs: Milliseconds;
  /** End, UTC epoch milliseconds. */
  toMs: Milliseconds;
}

/** An uncertain figure. What the spread means is said where the figure is given. */
export interface Range3<T extends number = number> {
  /** Lower end of the spread. */
  low: T;
  /** The figure to expect. */
  likely: T;
  /** Upper end of the spread. */
  high: T;
}

/** Where a figure or a rule comes from. */
export interface Source {
  /** Title of the publication, or "common practice, no source". */
  title: string;
  /** Section, table, equation or page. */
  where?: string;
  /** How we know the figure. */
  provenance: "read" | "computed" | "memory" | "commonPractice";
}

/** One reason of a judgement: a figure against its limit, and the rule that sets the limit. */
export interface Reason {
  /** Stable machine code, e.g. `depth.aground`. */
  code: string;
  /** How much it weighs. */
  severity: Severity;
  /** When it applies or is worst, UTC epoch milliseconds. */
  atMs?: Milliseconds;
  /** The figure found; null when it is not known. */
  value: number | string | null;
  /** The limit it was held against; null where there is none. */
  limit: number | string | null;
  /** The rule or source that sets the limit. */
  basis: string;
}

/** Whether what has this weight makes a place unsafe: cautions and notes do not. */
export const isGrave = (severity: Severity): boolean =>
  severity === "stop" || severity === "warning";
