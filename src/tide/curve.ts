import type { Turn } from "./kinds.js";

/** Why a height is not known. */
export type Unknown = "outsideTable" | "suspectGap";

/**
 * A source made ready for a span: numbers in, numbers out, no allocation in `heightAt` and the
 * errors. Heights are above the datum wanted.
 */
export interface TideCurve {
  /** Datum of the heights. */
  datum: string;
  /** Rule or method between and at turns. */
  basis: string;
  /** Height at an instant; NaN where it is not known. */
  heightAt: (timeMs: number) => number;
  /** Lower end of the 95 % error at an instant, not above zero: the unsafe side. */
  errorLowAt: (timeMs: number) => number;
  /** Upper end of the 95 % error at an instant, not below zero. */
  errorHighAt: (timeMs: number) => number;
  /** Why the height is not known; null where it is. */
  unknownAt: (timeMs: number) => Unknown | null;
  /** Parts of a span in which the height is not known. */
  gaps: (fromMs: number, toMs: number) => Gap[];
  /** Instants inside a span between which the height only rises or only falls. */
  breaks: (fromMs: number, toMs: number) => number[];
  /** High and low waters in a span. */
  turns: (fromMs: number, toMs: number) => Turn[];
  /** Whether figures at an instant rest on differences beyond the tabulated ones. */
  extrapolatedAt: (timeMs: number) => boolean;
  /** Heights at even steps, NaN where not known. */
  fill: (fromMs: number, stepMs: number, out: Float64Array) => void;
}

/** A part of a span in which the height is not known. */
export interface Gap {
  /** Start, UTC epoch milliseconds. */
  fromMs: number;
  /** End, UTC epoch milliseconds. */
  toMs: number;
  /** Why. */
  reason: Unknown;
}
