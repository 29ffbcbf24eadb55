import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { POUND_FORCE_N } from "../core/constants.js";
import type { Source } from "../core/judgement.js";
import { metres, speed } from "../core/schema.js";
import { lastAtOrBefore, linearAt } from "../core/series.js";
import { feet, knots, type Newtons } from "../core/units.js";

/** Lengths of the table, ft, and loads at 15 kn, lbf. */
const LENGTHS_FT = [20, 25, 30, 35, 40, 50, 60, 70];
const LOADS_30_KN_LBF = [360, 490, 700, 900, 1200, 1600, 2000, 2700];
/** The table's own rounding: 25 ft and 70 ft at 15 kn are above and at a quarter of 30 kn. */
const LOADS_15_KN_LBF = [90, 125, 175, 225, 300, 400, 500, 675];
/** Rows by wind: the storm row, printed for 42 kn in one copy and 45 kn in another, is twice the 30 kn row and 60 kn four times. */
const WINDS_KN = [15, 30, 42, 45, 60];

const LOAD_SOURCE: Source = {
  title: "Loads on Ground Tackle, horizontal load table for sailboats",
  where: "table; 25, 35, 60 and 70 ft from a second printing",
  provenance: "read",
};

export const designLoadInput = z.strictObject({
  /** Length overall. */
  lengthM: metres({ above: 0, max: 100 }),
  /** Wind to design for. */
  windMps: speed({ max: 60 }),
  /** High windage: house-like or broad craft, multihulls; up to half as much again; `traditional` unless given. */
  windage: z._default(z.enum(["traditional", "high"]), "traditional"),
});

/** Tabulated load on ground tackle. */
export interface DesignLoad {
  /** Load, N; null for vessels longer than the table. */
  loadN: Newtons | null;
  /** The table. */
  basis: Source;
}

/**
 * Load on the ground tackle by length and wind, from the published table.
 *
 * Exact at the table's rows; between lengths by straight line, below 20 ft the 20 ft row; between winds by
 * the power of the speed that joins the rows, which is the square but for the storm row: that stands in one
 * printing for 42 kn and in another for 45 kn, and holds from the one to the other. The loads are
 * made for all chain, shoal water, yawing and surge: five to six times the steady drag of the wind.
 *
 * *Valid*: 6 to 21 m, in sand, moderate protection from seas, free to oscillate. *Accuracy*: the
 * table's; copies differ in the storm row (42 kn or 45 kn; at 50 ft 3200 or 3600 lbf, 3200 taken as twice the 30 kn row).
 *
 * @throws InputError when a figure is missing, out of range or unknown.
 * @source Loads on Ground Tackle, horizontal load table for sailboats
 * @example
 * ```ts
 * import { designLoad, feet, knots } from "hawse";
 * console.log(designLoad({ lengthM: feet(40), windMps: knots(30) }).loadN?.toFixed(1));
 * // 5337.9
 * ```
 */
export const designLoad = (input: Given<typeof designLoadInput>): DesignLoad =>
  tabulatedLoad(check(designLoadInput, input));

/** {@link designLoad} without the check. */
export function tabulatedLoad(i: z.output<typeof designLoadInput>): DesignLoad {
  const lengths = LENGTHS_FT.map(feet);
  const length = Math.max(i.lengthM, lengths[0]!);
  const at30 = linearAt(lengths, LOADS_30_KN_LBF, length);
  const at15 = linearAt(lengths, LOADS_15_KN_LBF, length);
  if (Number.isNaN(at30)) return { loadN: null, basis: LOAD_SOURCE };
  const rows = [at15, at30, 2 * at30, 2 * at30, 4 * at30];
  const factor = i.windage === "high" ? 1.5 : 1;
  return {
    loadN: factor * POUND_FORCE_N * atWind(rows, i.windMps),
    basis: LOAD_SOURCE,
  };
}

/** Load at a wind: by the power of the speed that joins the rows on either side, the square outside them. */
function atWind(rows: readonly number[], windMps: number): number {
  const winds = WINDS_KN.map(knots);
  const last = winds.length - 1;
  const i = Math.min(last, Math.max(0, lastAtOrBefore(winds, windMps)));
  const ratio = windMps / winds[i]!;
  if (windMps < winds[0]! || i === last) return rows[i]! * ratio * ratio;
  const power = Math.log(rows[i + 1]! / rows[i]!) / Math.log(winds[i + 1]! / winds[i]!);
  return rows[i]! * Math.exp(power * Math.log(ratio));
}
