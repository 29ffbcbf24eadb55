import { ANCHOR_TYPES } from "../core/anchorTypes.js";
import { bedNames } from "../holding/beds.js";
import { holdingOf } from "../holding/holding.js";
import { exp, log } from "../core/elementary.js";

/** Bounds of the anchor's mass in a sweep, kg. */
export const MASS_BOUNDS = { min: 1, max: 500 } as const;

/** Masses between which the holding is straight in logarithms. */
const MASSES = 2049;
const LOG_LEAST = log(MASS_BOUNDS.min);
const LOG_STEP = (log(MASS_BOUNDS.max) - LOG_LEAST) / (MASSES - 1);
/** Whole degrees of pull angle; the figures run straight between them. */
const RIGHT_ANGLE = 90;

/** Holding of one type of anchor in one bed, ready to be asked often. */
export interface HoldingTable {
  /** Holding for a pull along the bed at a mass: likely and lowest credible, N; NaN where no figure is honest. */
  readonly at: (massKg: number) => { likelyN: number; lowN: number };
  /** The mass asked for last, and its holding. */
  massKg: number;
  likelyN: number;
  lowN: number;
  /** Share of it left at each whole degree, likely and low. */
  readonly share: Float64Array;
  readonly lowShare: Float64Array;
}

/**
 * Holding of an anchor type in a bed, by their places in the lists of words. Where masses are drawn
 * they are looked up between masses of a table, straight in logarithms: within 1e-4.
 */
export function holdingTable(type: number, bed: number, massVaries: boolean): HoldingTable {
  const ask = (massKg: number, pullAngleDeg = 0) =>
    holdingOf({
      anchor: { type: ANCHOR_TYPES[type]!, massKg },
      seabed: bedNames[bed]!,
      pullAngleDeg,
    });
  const holding = (massKg: number) => {
    const { ultimateN } = ask(massKg);
    return { likelyN: ultimateN?.likely ?? NaN, lowN: ultimateN?.low ?? NaN };
  };
  const shares = Array.from({ length: RIGHT_ANGLE + 1 }, (_, a) => ask(15, a).upliftShare);
  return {
    at: massVaries ? tableOf(holding) : holding,
    massKg: NaN,
    likelyN: NaN,
    lowN: NaN,
    share: Float64Array.from(shares, (s) => s.likely),
    lowShare: Float64Array.from(shares, (s) => s.low),
  };
}

/** Power laws that may cut each other, straight in logarithms between masses. */
function tableOf(f: HoldingTable["at"]): HoldingTable["at"] {
  const rows = Array.from({ length: MASSES }, (_, i) => f(exp(LOG_LEAST + i * LOG_STEP)));
  const likely = Float64Array.from(rows, (r) => log(r.likelyN));
  const low = Float64Array.from(rows, (r) => log(r.lowN));
  return (massKg) => {
    const at = (log(massKg) - LOG_LEAST) / LOG_STEP;
    const i = Math.min(MASSES - 2, Math.max(0, Math.floor(at)));
    const between = (logs: Float64Array) =>
      // No holding at all has no logarithm to interpolate.
      logs[i] === -Infinity ? 0 : exp(logs[i]! + (at - i) * (logs[i + 1]! - logs[i]!));
    return { likelyN: between(likely), lowN: between(low) };
  };
}

/** Share left at a pull angle; NaN where that is not known. */
export function shareAt(shares: Float64Array, angleDeg: number): number {
  const at = Math.min(RIGHT_ANGLE, Math.max(0, angleDeg));
  const i = Math.min(RIGHT_ANGLE - 1, at | 0);
  return shares[i]! + (at - i) * (shares[i + 1]! - shares[i]!);
}
