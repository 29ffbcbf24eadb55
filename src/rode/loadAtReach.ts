import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { metres } from "../core/schema.js";
import { checkWeights, rodeFields } from "./input.js";
import { COLUMNS } from "./kernel.js";
import { describeLie, type RodeLie } from "./layRode.js";
import { prepareRode } from "./prepare.js";
import { solveReach } from "./reach.js";

/** Input of {@link loadAtReach}. */
export const loadAtReachSchema = z.strictObject({
  ...rodeFields,
  /** Horizontal distance from the anchor to the bow. */
  horizontalReachM: metres({ min: 0, max: 1e6 }),
});
/** Input of {@link loadAtReach}. */
export type LoadAtReachInput = Given<typeof loadAtReachSchema>;

/**
 * The pull of the rode when the bow stands at a given distance from the anchor, and how the rode
 * then lies.
 *
 * The model of {@link layRode} solved for the load. Within the slack reach the load is zero and the
 * state `slack`: the rode then does not hold the boat in any one place.
 *
 * *Valid* and *Accuracy*: as {@link layRode}; the bow is met to 1e-8 m.
 *
 * @throws InputError as {@link layRode}.
 * @source H. M. Irvine, Cable Structures (1981), elastic catenary (formula from memory)
 * @example
 * ```ts
 * import { chain, loadAtReach } from "hawse/rode";
 *
 * const lie = loadAtReach({
 *   segments: [{ ...chain(10), lengthM: 50 }],
 *   bowHeightAboveAnchorM: 10,
 *   horizontalReachM: 47,
 * });
 * console.log(lie.horizontalLoadN.toFixed(0), lie.state);
 * // 416 grounded
 * ```
 */
export function loadAtReach(input: LoadAtReachInput): RodeLie {
  const rode = check(loadAtReachSchema, input);
  checkWeights(rode);
  return loadAtReachUnchecked(rode);
}

/** {@link loadAtReach} for input that has been checked. */
export function loadAtReachUnchecked(rode: z.output<typeof loadAtReachSchema>): RodeLie {
  const p = prepareRode(rode);
  const out = new Float64Array(COLUMNS);
  const state = solveReach(p, rode.bowHeightAboveAnchorM, rode.horizontalReachM, out);
  return describeLie(rode, p, state, out);
}
