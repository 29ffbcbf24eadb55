import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { GRAVITY_MPS2, SEA_WATER_KG_PER_M3 } from "../core/constants.js";
import type { Range3, Source } from "../core/judgement.js";
import { metres, newtons, newtonsPerMetre } from "../core/schema.js";
import type { Newtons } from "../core/units.js";
import { BED_FIGURES, type BedName } from "./beds.js";
import { anchor, bed, holdingOf } from "./holding.js";

/** Density of steel, kg/m³. */
const STEEL_KG_PER_M3 = 7850;

/** Resistance of the soil to a straight upward pull, over the holding; ours: cohesive soil sucks, sand hardly. */
const SOIL_SHARE = {
  cohesive: { low: 0.2, likely: 0.5, high: 1 },
  other: { low: 0.05, likely: 0.2, high: 0.5 },
} as const;

/** How far the naval procedure for cohesive soil may be out: force and time (NCEL R-755, abstract, read). */
const ACCURACY = { force: 0.5, time: 1 } as const;

export const breakOutInput = z.strictObject({
  /** The anchor. */
  anchor,
  /** The bed, or the beds it may be. */
  seabed: bed,
  /** Depth of water: that much chain hangs when the cable is up and down. */
  depthM: metres({ above: 0 }),
  /** Height of the bow roller above the water; 1 m unless given. */
  bowHeightM: z._default(metres({ min: 0 }), 1),
  /** Weight of the cable in water. */
  cableWeightInWaterNPerM: newtonsPerMetre({ min: 0 }),
  /** Greatest pull the anchor has borne since it was set; deepens it. */
  greatestPullN: z.optional(newtons()),
  /** Safe working pull of the windlass. */
  windlassN: z.optional(newtons()),
});

/** What to do in order when weighing. */
export type WeighStep =
  | "motorUpTakingInSlack"
  | "upAndDown"
  | "makeFast"
  | "waitOrLetSwellWork"
  | "breakOutWithEngine"
  | "haul";

/** Codes of the cautions of {@link BreakOut}. */
export type BreakOutCaution =
  | "neverByHandOrWindlass"
  | "windlassTooWeak"
  | "suctionFallsWithTime"
  | "mayBeFast"
  | "makeFastNotOnWindlass"
  | "noFigure";

/** Force to break an anchor out. */
export interface BreakOut {
  /** Weight of anchor and hanging cable in water, N. */
  weightN: Newtons;
  /** Upward force on the cable at the bow, N; null where the bed has no figure. */
  forceN: Range3<Newtons> | null;
  /** How far the best published procedure may be out, as shares of force and time. */
  accuracy: {
    /** Of the force. */
    force: number;
    /** Of the time. */
    time: number;
  };
  /** What to do, in order. */
  steps: WeighStep[];
  /** What to beware of. */
  cautions: BreakOutCaution[];
  /** Sources. */
  basis: Source[];
}

const STEPS: WeighStep[] = [
  "motorUpTakingInSlack",
  "upAndDown",
  "makeFast",
  "waitOrLetSwellWork",
  "breakOutWithEngine",
  "haul",
];

/**
 * Force to break out an anchor with the cable up and down, and how to go about it.
 *
 * Weight of anchor and hanging cable in water and a share of the holding for the soil on the flukes, more
 * in clay and mud, where suction adds and falls with time. A wide spread, not a promise: the best naval
 * procedure for cohesive soil is good to half the force and twice the time. Leaves out an anchor foul of
 * rock, cable or wreck.
 *
 * *Valid*: anchors free of obstructions. *Accuracy*: the spread; shares of the holding are our own judgement.
 *
 * @throws InputError when a figure is missing, out of range or unknown.
 * @source H. J. Lee, Unaided breakout of partially embedded objects, NCEL R-755 (accuracy only); steps: common practice, no source
 * @example
 * ```ts
 * import { breakOut } from "hawse";
 * const out = breakOut({ anchor: { type: "claw", massKg: 15 }, seabed: "mud, firm", depthM: 8,
 *   cableWeightInWaterNPerM: 12 });
 * console.log(Math.round(out.weightN), Math.round(out.forceN?.likely ?? NaN));
 * // 236 768
 * ```
 */
export const breakOut = (input: Given<typeof breakOutInput>): BreakOut =>
  breakOutOf(check(breakOutInput, input));

/** {@link breakOut} without the check. */
export function breakOutOf(i: z.output<typeof breakOutInput>): BreakOut {
  const weightN =
    i.anchor.massKg * GRAVITY_MPS2 * (1 - SEA_WATER_KG_PER_M3 / STEEL_KG_PER_M3) +
    i.cableWeightInWaterNPerM * (i.depthM + i.bowHeightM);
  const beds = Array.isArray(i.seabed) ? i.seabed : [i.seabed];
  const forceN = hardest(beds.map((name) => forceOnBed(i, name, weightN)));
  return {
    weightN,
    forceN,
    accuracy: ACCURACY,
    steps: STEPS,
    cautions: cautionsOf(i, beds, forceN),
    basis: [
      {
        title:
          "Unaided breakout of partially embedded objects from cohesive seafloor soils, NCEL R-755",
        where: "abstract: force good to 50 %, time to 100 %",
        provenance: "read",
      },
      { title: "common practice, no source", provenance: "commonPractice" },
    ],
  };
}

function forceOnBed(
  i: z.output<typeof breakOutInput>,
  seabed: BedName,
  weightN: number,
): Range3 | null {
  const { ultimateN } = holdingOf({ anchor: i.anchor, seabed, pullAngleDeg: 0 });
  const { cohesive } = BED_FIGURES[seabed];
  return ultimateN && force(weightN, ultimateN, cohesive, i.greatestPullN ?? 0);
}

/** Of the beds it may be the one that lets go hardest counts; none of which there is no figure. */
function hardest(forces: readonly (Range3 | null)[]): Range3 | null {
  const known = forces.filter((f) => f !== null);
  if (known.length < forces.length) return null;
  return {
    low: Math.min(...known.map((f) => f.low)),
    likely: Math.max(...known.map((f) => f.likely)),
    high: Math.max(...known.map((f) => f.high)),
  };
}

/** Weight and soil; an anchor that has borne a pull is set at least as deep as that pull needs. */
function force(weightN: number, holding: Range3, cohesive: boolean, borneN: number): Range3 {
  const share = cohesive ? SOIL_SHARE.cohesive : SOIL_SHARE.other;
  return {
    low: weightN + share.low * Math.max(holding.low, borneN),
    likely: weightN + share.likely * Math.max(holding.likely, borneN),
    high: weightN + share.high * Math.max(holding.high, borneN),
  };
}

function cautionsOf(
  i: z.output<typeof breakOutInput>,
  beds: readonly BedName[],
  forceN: Range3 | null,
): BreakOutCaution[] {
  const figures = beds.map((name) => BED_FIGURES[name]);
  const enough = i.windlassN !== undefined && forceN !== null && i.windlassN >= forceN.high;
  return [
    "neverByHandOrWindlass",
    "makeFastNotOnWindlass",
    ...(i.windlassN !== undefined && !enough ? (["windlassTooWeak"] as const) : []),
    ...(figures.some((f) => f.cohesive) ? (["suctionFallsWithTime"] as const) : []),
    ...(figures.some((f) => f.relative === null) ? (["mayBeFast", "noFigure"] as const) : []),
  ];
}
