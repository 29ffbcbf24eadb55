import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { RAD } from "../core/angles.js";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import type { Degrees, Metres, Newtons, NewtonsPerMetre } from "../core/units.js";
import { checkWeights, load, rodeFields, type Rode } from "./input.js";
import * as K from "./kernel.js";
import * as R from "./places.js";
import { prepareRode, type PreparedRode } from "./prepare.js";
import { solveForward } from "./solve.js";

/** Input of {@link layRode}. */
export const layRodeSchema = z.strictObject({
  ...rodeFields,
  /** Horizontal pull of the boat on the bow. */
  horizontalLoadN: load(),
});
/** Input of {@link layRode}. */
export type LayRodeInput = Given<typeof layRodeSchema>;

/** How a rode lies. */
export interface RodeLie {
  /**
   * `slack`: no horizontal load, the bow part hangs straight down. `grounded`: some rode lies on the
   * bottom. `lifted`: all is off the bottom and the pull reaches the anchor at an angle.
   */
  state: "slack" | "grounded" | "lifted";
  /** Horizontal load at the bow. */
  horizontalLoadN: Newtons;
  /** Horizontal distance from the anchor to the bow; when laid without load, the greatest slack reach. */
  horizontalReachM: Metres;
  /** Tension at the bow. */
  bowTensionN: Newtons;
  /** Vertical load at the bow, positive downwards on the bow. */
  bowVerticalN: Newtons;
  /** Angle of the rode at the bow, below the horizontal. */
  bowAngleDeg: Degrees;
  /** Tension at the anchor. */
  anchorTensionN: Newtons;
  /** Horizontal part of the tension at the anchor; on a slope or with friction not that of the bow. */
  anchorHorizontalN: Newtons;
  /** Pull at the anchor above the horizontal; negative below it. */
  pullAngleDeg: Degrees;
  /** Pull at the anchor above the bed: what decides whether the anchor is being lifted. */
  pullAngleFromBedDeg: Degrees;
  /** Unstretched length of the whole rode. */
  lengthM: Metres;
  /** Unstretched rode lying on the bottom. */
  lengthOnBottomM: Metres;
  /** Unstretched rode off the bottom. */
  hangingLengthM: Metres;
  /** Rope (not chain) lying on the bottom, where it chafes. */
  ropeOnBottomM: Metres;
  /** Stretch of the whole rode. */
  stretchM: Metres;
  /** Share, 0 to 1, of the weight at the touchdown that the rode bears; null where no weight hangs there. */
  weightLiftedShare: number | null;
  /** Horizontal load it takes to gain a metre of reach here; null while slack. */
  stiffnessNPerM: NewtonsPerMetre | null;
  /** Greatest reach without any horizontal load; null where a float leaves the slack rode no lie that the model knows. */
  greatestSlackReachM: Metres | null;
  /**
   * Greater tension of the two ends over the least breaking load of the segments that give one; null
   * where none does. Above about 0.3 the stretch of rope is no longer in proportion to load.
   */
  useOfBreaking: number | null;
  /** True where the unstretched rode is no longer than the height it has to span: it cannot reach the bed. */
  tooShort: boolean;
}

/**
 * How the rode lies under a horizontal pull at the bow: reach, tensions, the angle of the pull at
 * the anchor and what lies on the bottom.
 *
 * Elastic catenaries joined end to end, with weights and floats between them, on a plane bed that
 * may slope and rub. Left out: forces of the water on the rode, bending, sinking into mud, a rode
 * that does not lead straight, and stretch that is not in proportion to load (nylon above about
 * 30 % of its breaking load is stiffer than reckoned).
 *
 * *Valid*: static loads; friction counts as fully taken up towards the boat, which holds while a
 * load rises and not after it has fallen.
 * *Accuracy*: 1e-8 against integration of the cable equations over every branch.
 *
 * @throws InputError for bad figures, where the bed rises to the bow within the rode's length
 * (`aground`), or where a float brings the rode down on the bottom a second time or up above the bow
 * (`floated`).
 * @source H. M. Irvine, Cable Structures (1981), elastic catenary (formula from memory)
 * @example
 * ```ts
 * import { chain, layRode } from "hawse/rode";
 *
 * const lie = layRode({
 *   segments: [{ ...chain(10), lengthM: 40 }],
 *   bowHeightAboveAnchorM: 8,
 *   horizontalLoadN: 1500,
 * });
 * console.log(lie.state, lie.horizontalReachM.toFixed(1), lie.lengthOnBottomM.toFixed(1));
 * // grounded 38.8 3.7
 * ```
 */
export function layRode(input: LayRodeInput): RodeLie {
  const rode = check(layRodeSchema, input);
  checkWeights(rode);
  return layRodeUnchecked(rode);
}

/** {@link layRode} for input that has been checked. */
export function layRodeUnchecked(rode: z.output<typeof layRodeSchema>): RodeLie {
  const p = prepareRode(rode);
  const out = new Float64Array(K.COLUMNS);
  const state = solveForward(p, rode.bowHeightAboveAnchorM, rode.horizontalLoadN, out);
  return describeLie(rode, p, state, out);
}

const STATES = ["slack", "grounded", "lifted"] as const;

/** The lie that a kernel wrote into `out`, in words and degrees. */
export function describeLie(
  rode: Rode,
  p: PreparedRode,
  state: number,
  out: Float64Array,
): RodeLie {
  const name = STATES[state] ?? refuseLie(state);
  const reachM = out[K.REACH]!;
  K.placeAndChange(p, out[K.LOAD]!, out[K.BOW_VERTICAL]!, out);
  const across = out[K.ANCHOR_HORIZONTAL]!;
  const up = out[K.ANCHOR_VERTICAL]!;
  // Adding 0 turns -0 into 0: JSON knows no other.
  const bedDeg = (rode.seabedSlopeDeg ?? 0) + 0;
  const pullAngleDeg = name === "lifted" ? Math.atan2(up, across) / RAD + 0 : bedDeg;
  const share = out[K.LIFTED_SHARE]!;
  const lengthOnBottomM = out[K.ON_BOTTOM]!;
  const anchorTensionN = Math.sqrt(across * across + up * up);
  return {
    state: name,
    horizontalLoadN: out[K.LOAD]!,
    horizontalReachM: reachM,
    bowTensionN: out[K.BOW_TENSION]!,
    bowVerticalN: out[K.BOW_VERTICAL]!,
    bowAngleDeg: Math.atan2(out[K.BOW_VERTICAL]!, out[K.LOAD]!) / RAD,
    anchorTensionN,
    anchorHorizontalN: across,
    pullAngleDeg,
    pullAngleFromBedDeg: name === "lifted" ? pullAngleDeg - bedDeg : 0,
    lengthM: p[R.TOTAL_M]!,
    lengthOnBottomM,
    hangingLengthM: p[R.TOTAL_M]! - lengthOnBottomM,
    ropeOnBottomM: ropeWithin(rode, lengthOnBottomM),
    stretchM: out[K.STRETCH]!,
    weightLiftedShare: share >= 0 ? share : null,
    stiffnessNPerM: name === "slack" ? null : K.stiffnessOf(out),
    greatestSlackReachM: slackReachOf(rode, p),
    useOfBreaking: useOf(rode, Math.max(anchorTensionN, out[K.BOW_TENSION]!)),
    tooShort: !(p[R.TOTAL_M]! > rode.bowHeightAboveAnchorM),
  };
}

function slackReachOf(rode: Rode, p: PreparedRode): number | null {
  const out = new Float64Array(K.COLUMNS);
  solveForward(p, rode.bowHeightAboveAnchorM, 0, out);
  const reachM = out[K.REACH]!;
  return Number.isNaN(reachM) ? null : reachM;
}

/** Tension over the least breaking load given. */
function useOf(rode: Rode, tensionN: number): number | null {
  const least = Math.min(...rode.segments.map((s) => s.breakingN ?? Infinity));
  return least < Infinity ? tensionN / least : null;
}

/** Rope among the first `lengthM` metres from the anchor. */
function ropeWithin(rode: Rode, lengthM: number): number {
  let rope = 0;
  let from = 0;
  for (const s of rode.segments) {
    if (s.kind === "rope") rope += Math.min(s.lengthM, Math.max(0, lengthM - from));
    from += s.lengthM;
  }
  return rope;
}

/** Refuse a rode that has no lie, by the state that says why. */
export function refuseLie(state: number): never {
  return state === K.AGROUND
    ? refuse("seabedSlopeDeg", "aground", "the bed rises to the bow within the length of the rode")
    : refuse(
        "weights",
        "floated",
        "a float brings the rode down on the bottom a second time or up above the bow, which is outside the model",
      );
}
