import { hours } from "../core/units.js";

/** Directions looked at on each side of the forecast one. */
const EACH_SIDE = 10;
/** Directions looked at for one forecast wind. */
export const DIRECTIONS = 2 * EACH_SIDE + 1;

/** A wind over which a sea is reckoned: direction off the forecast, and its weight. */
export interface Density {
  offsetDeg: Float64Array;
  weight: Float64Array;
}

/** A density to be filled. */
export const emptyDensity = (): Density => ({
  offsetDeg: new Float64Array(DIRECTIONS),
  weight: new Float64Array(DIRECTIONS),
});

const LIGHT_MPS = 5;
const FRESH_MPS = 10;

/**
 * One sigma of a forecast wind's direction: 18° for a fresh wind within a day, 28° for a moderate one or a
 * day later, 45° for light airs or beyond two days.
 *
 * @source common practice; mean absolute errors of 22° to 49° over thirty days at land stations
 */
export function directionSigma(windMps: number, leadMs: number): number {
  if (!(windMps >= LIGHT_MPS) || !(leadMs < hours(48))) return 45;
  return windMps >= FRESH_MPS && leadMs < hours(24) ? 18 : 28;
}

/**
 * Normal density of direction over 21 directions: 60° to each side of the forecast, or two sigma where that is
 * more, at most all round.
 */
export function normalDensity(sigmaDeg: number, out: Density): void {
  const half = Math.min(180, Math.max(60, 2 * sigmaDeg));
  gaussWeights(sigmaDeg, half, half / EACH_SIDE, out);
}

/** Normal weights at steps over ± `halfDeg`, summing to 1; a sigma of 0 puts all on the middle. */
export function gaussWeights(
  sigmaDeg: number,
  halfDeg: number,
  stepDeg: number,
  { offsetDeg, weight }: Density,
): void {
  let sum = 0;
  for (let i = 0; i < weight.length; i++) {
    const x = -halfDeg + i * stepDeg;
    const z = x / sigmaDeg;
    const w = sigmaDeg > 0 ? Math.exp(-0.5 * z * z) : Math.abs(x) < 1e-9 ? 1 : 0;
    offsetDeg[i] = x;
    weight[i] = w;
    sum += w;
  }
  for (let i = 0; i < weight.length; i++) weight[i]! /= sum;
}
