import type { TideType } from "./source.js";

/**
 * 95 % error of the half-cosine at mid-interval, as a share of range: a constant and a multiple of M4 / M2, by form
 * number (upper end of the class).
 *
 * Below 0.5 fitted to the error of 3,403 reference stations over 28 days so that 95 % of all instants are covered;
 * above 0.5 fitted to seven stations over 2026 with every turn kept. Held against other years in the tests.
 */
const SHARES: readonly (readonly [form: number, constant: number, perRatio: number])[] = [
  [0.5, 0.012, 1.3],
  [Infinity, 0.03, 0.5],
];

/** Shallow-water ratio above which the error does not grow further. */
const MOST_RATIO = 0.4;

/**
 * Where the kind of tide is not told: covers 95 % even at the worst of sixteen stations, one of double high waters.
 */
const UNTOLD_SHARE = 0.22;

/** Part of the usual range that counts beside the range of the interval itself. */
export const USUAL_PART = 0.25;

/** Intervals this many times the usual one are twice as far from the half-cosine. */
const LONGISH = 1.3;

/** Share of range where a pair of small turns has vanished in a long interval. */
const LONG_SHARE = 0.42;

/** An interval longer than this many times the usual one is suspect, or hides a vanished pair of turns. */
export const SUSPECT = 1.6;

/** Mean interval between turns of a semidiurnal tide: a quarter of the lunar day of 24.8412 h. */
export const MEAN_INTERVAL_MS = 6.2103 * 3_600_000;

/** 95 % error of the half-cosine at mid-interval, as a share of range, for an interval so many times the usual one. */
export function cosineShare(type: TideType | undefined, timesUsual: number): number {
  const share = baseShare(type);
  if (!(timesUsual <= SUSPECT)) return Math.max(share, LONG_SHARE);
  return timesUsual <= LONGISH ? share : Math.max(share, Math.min(2 * share, LONG_SHARE));
}

function baseShare(type: TideType | undefined): number {
  if (type === undefined || type.shallowRatio === null) return UNTOLD_SHARE;
  const [, constant, perRatio] = SHARES.find(([form]) => type.formNumber < form)!;
  return constant + perRatio * Math.min(MOST_RATIO, type.shallowRatio);
}

/** The twelfths lie within this share of the range of the half-cosine (computed). */
export const TWELFTHS_SHARE = 0.02555;

/**
 * 95 % error of heights from constants against the authority's own predictions: metres, and share of the sum of
 * amplitudes. Found on published turns and levels of stations with constants of the same ten years; older
 * predictions, from constants revised since, differ by up to 6 cm.
 */
const CONSTANTS_FLOOR_M = 0.01;
const CONSTANTS_SHARE = 0.008;

/** Error of heights from harmonic constants, metres either way; weather is not in it. */
export const constantsError = (source: {
  constituents: readonly { amplitudeM: number }[];
}): number =>
  CONSTANTS_FLOOR_M +
  CONSTANTS_SHARE * source.constituents.reduce((sum, c) => sum + c.amplitudeM, 0);

/** Error that differences add at a secondary port: metres. */
export const SECONDARY_FLOOR_M = 0.02;
/** And share of the range of the interval. */
export const SECONDARY_SHARE = 0.015;
