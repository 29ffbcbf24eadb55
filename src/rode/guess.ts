import { HEIGHT, LOAD } from "./columns.js";
import * as R from "./places.js";
import type { PreparedRode } from "./prepare.js";

/**
 * Vertical load to start from. Either the whole hangs, nearly straight, or the lowest piece is a
 * catenary from the bed and the others are straight; both with the stretch of the horizontal load.
 * Takes height and load from their columns, as all that is asked often: engines make objects of
 * numbers that are handed from function to function.
 */
export function guess(p: PreparedRode, out: Float64Array): number {
  const heightM = out[HEIGHT]!;
  const h = out[LOAD]!;
  const longM = p[R.TOTAL_M]! + h * p[R.STRETCH_PER_N]!;
  const above = longM * longM - heightM * heightM;
  if (!(above > 0)) return p[R.TOTAL_N]! + (heightM - p[R.TOTAL_M]!) / p[R.STRETCH_PER_N]!;
  const bedV = h * p[R.TAN]!;
  // Exact for one even piece without stretch.
  const sag = (3 * p[R.SPREAD_BELOW]!) / (longM * longM);
  const below = heightM * Math.sqrt((h * h) / above + sag) - p[R.MEAN_BELOW_N]!;
  if (below > bedV) return below + p[R.TOTAL_N]!;
  const perN = p[R.PIECES + R.M_PER_N]!;
  const up = p[R.UPPER_M]! + h * p[R.UPPER_STRETCH_PER_N]!;
  const over = bedV === 0 ? heightM : heightM - p[R.TAN]! * Math.sqrt(above);
  const free = over > 0.01 * heightM ? over : 0.01 * heightM;
  const a = h * perN;
  const square = up * (up - p[R.UPPER_N]! * perN) + free * (free + 2 * a);
  if (!(square > up * up)) return bedV + p[R.UPPER_N]!;
  // As if the straight part were level, then with the slope that this gives it.
  const first = Math.sqrt(square) - up;
  const sine = (up * up * first * first) / (a * a + first * first);
  const joint = Math.max(0.5 * first, Math.sqrt(square - sine) - up);
  return bedV + p[R.UPPER_N]! + p[R.PIECES + R.WEIGHT]! * joint;
}

/** One over the length in which the rode bends, over the square of the load. */
export const perBend = (p: PreparedRode, h: number): number =>
  1 / (h * h * Math.min(h * p[R.LEAST_M_PER_N]!, p[R.TOTAL_M]!));
