import type { TideType } from "./source.js";

/** Half-widths of the 95 % error of the half-cosine, by kind of tide. */
export interface RuleError {
  /** At mid-interval, as a share of the range of the interval. */
  ownShare: number;
  /** At mid-interval, as a share of the usual range of the table. */
  usualShare: number;
  /** At the turns, metres: printed heights and times are rounded. */
  floorM: number;
}

/** Error of a printed turn: heights and times are rounded. */
export const TURN_ERROR_M = 0.02;

/** Form number below which the shallow-water ratio decides the error. */
const SEMIDIURNAL = 0.25;

/**
 * Error of the half-cosine in semidiurnal water by shallow-water ratio M4 / M2: upper end of the class, share of range.
 */
const SEMIDIURNAL_SHARES: readonly (readonly [number, number])[] = [
  [0.02, 0.02],
  [0.05, 0.04],
  [0.1, 0.08],
  [0.2, 0.12],
  [Infinity, 0.25],
];

/** Error in other water by form number: upper end of the class, share of range. */
const OTHER_SHARES: readonly (readonly [number, number])[] = [
  [1.5, 0.1],
  [3, 0.25],
  [Infinity, 0.12],
];

/** Where nothing is known about the kind of tide. */
const UNKNOWN_SHARE = 0.14;

const pick = (
  rows: readonly (readonly [number, number])[],
  at: number,
): number => rows.find(([upper]) => at < upper)![1];

/** Error of the half-cosine for a kind of tide. */
export function cosineError(type: TideType | undefined): RuleError {
  const share = shareOf(type);
  return { ownShare: share, usualShare: share * 0.25, floorM: TURN_ERROR_M };
}

function shareOf(type: TideType | undefined): number {
  if (type === undefined) return UNKNOWN_SHARE;
  if (type.formNumber >= SEMIDIURNAL)
    return pick(OTHER_SHARES, type.formNumber);
  return type.shallowRatio === null
    ? UNKNOWN_SHARE
    : pick(SEMIDIURNAL_SHARES, type.shallowRatio);
}

/** The twelfths lie within this share of the range of the half-cosine (computed). */
export const TWELFTHS_SHARE = 0.02555;

/** 95 % error of heights from constants against the authority's own predictions from them: metres, and share of the sum of amplitudes. */
const CONSTANTS_FLOOR_M = 0.005;
const CONSTANTS_SHARE = 0.004;

/** Error of heights from harmonic constants, metres either way; weather is not in it. */
export const constantsError = (source: {
  constituents: readonly { amplitudeM: number }[];
}): number =>
  CONSTANTS_FLOOR_M +
  CONSTANTS_SHARE *
    source.constituents.reduce((sum, c) => sum + c.amplitudeM, 0);

/** Error that differences add at a secondary port: metres, and share of the range. */
export const SECONDARY_FLOOR_M = 0.02;
/** Share of the range of the interval. */
export const SECONDARY_SHARE = 0.015;
