import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import { metres } from "../core/schema.js";
import type { Metres } from "../core/units.js";
import { checkWeights, load, rodeFields } from "./input.js";
import * as K from "./kernel.js";
import { describeLie, type RodeLie } from "./layRode.js";
import * as R from "./places.js";
import { prepareRode, type PreparedRode } from "./prepare.js";
import { solveReach } from "./reach.js";
import { solveForward } from "./solve.js";
import { spanAcross, spanUp } from "./span.js";

/** Input of {@link rodeProfile}. */
export const rodeProfileSchema = z.strictObject({
  ...rodeFields,
  /** Horizontal pull of the boat on the bow; or give the reach. */
  horizontalLoadN: z.optional(load()),
  /** Horizontal distance from the anchor to the bow; or give the load. */
  horizontalReachM: z.optional(metres({ min: 0, max: 1e6 })),
  /** Points on each hanging piece; 24 when left out. */
  pointsPerPiece: z.optional(z.int().check(z.gte(2), z.lte(1000))),
});
/** Input of {@link rodeProfile}. */
export type RodeProfileInput = Given<typeof rodeProfileSchema>;

/** The shape of the rode. */
export interface RodeProfile {
  /** Points from the anchor at [0, 0] to the bow: distance towards the boat and height, metres. */
  points: [xM: Metres, zM: Metres][];
  /** Index in `points` of the place where the rode leaves the bottom; 0 where all is lifted. */
  touchdown: number;
  /** How the rode lies. */
  lie: RodeLie;
}

/**
 * The shape of the rode in the water, for drawing.
 *
 * The solution of {@link layRode} or `loadAtReach`, followed from the bow down to the touchdown, and
 * along the bed to the anchor.
 *
 * *Valid* and *Accuracy*: as {@link layRode}.
 *
 * @throws InputError as {@link layRode}, and unless exactly one of load and reach is given.
 * @source H. M. Irvine, Cable Structures (1981), elastic catenary (formula from memory)
 * @example
 * ```ts
 * import { chain, rodeProfile } from "hawse/rode";
 *
 * const { points } = rodeProfile({
 *   segments: [{ ...chain(8), lengthM: 30 }],
 *   bowHeightAboveAnchorM: 6,
 *   horizontalLoadN: 400,
 * });
 * console.log(points[0], points.at(-1)?.map((m) => m.toFixed(2)));
 * // [ 0, 0 ] [ '28.84', '6.00' ]
 * ```
 */
export function rodeProfile(input: RodeProfileInput): RodeProfile {
  const rode = check(rodeProfileSchema, input);
  checkWeights(rode);
  if ((rode.horizontalLoadN === undefined) === (rode.horizontalReachM === undefined))
    refuse("", "one_of", "expected either horizontalLoadN or horizontalReachM");
  return rodeProfileUnchecked(rode);
}

/** {@link rodeProfile} for input that has been checked. */
export function rodeProfileUnchecked(rode: z.output<typeof rodeProfileSchema>): RodeProfile {
  const p = prepareRode(rode);
  const out = new Float64Array(K.COLUMNS);
  const heightM = rode.bowHeightAboveAnchorM;
  const state =
    rode.horizontalReachM === undefined
      ? solveForward(p, heightM, rode.horizontalLoadN ?? 0, out)
      : solveReach(p, heightM, rode.horizontalReachM, out);
  const lie = describeLie(rode, p, state, out);
  const bow: [number, number] = [lie.horizontalReachM, heightM];
  const points = hanging(p, out, bow, rode.pointsPerPiece ?? 24);
  const onBottom = lie.lengthOnBottomM > 0;
  if (onBottom) points.push([0, 0]);
  else points[points.length - 1] = [0, 0];
  points.reverse();
  return { points, touchdown: onBottom ? 1 : 0, lie };
}

/** Points of the part off the bottom, from the bow down. */
function hanging(
  p: PreparedRode,
  out: Float64Array,
  bow: [number, number],
  perPiece: number,
): [number, number][] {
  const h = out[K.LOAD]!;
  const bedV = h * p[R.TAN]!;
  let [x, z] = bow;
  let vb = out[K.BOW_VERTICAL]!;
  let left = p[R.TOTAL_M]! - out[K.ON_BOTTOM]!;
  const points: [number, number][] = [bow];
  for (let i = p[R.TOP]!; i >= R.PIECES && left > 0; i -= R.ROW) {
    const l = Math.min(p[i + R.LENGTH]!, left);
    const step = (l * p[i + R.WEIGHT]!) / perPiece;
    for (let k = 0; k < perPiece; k++) {
      x -= spanAcross(p, i, h, vb - step, vb);
      z -= spanUp(p, i, h, vb - step, vb);
      vb -= step;
      points.push([x, z]);
    }
    left -= l;
    vb = left > 0 ? vb - p[i + R.HUNG]! : bedV;
  }
  return points;
}
