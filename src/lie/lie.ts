import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { reciprocal, turnDeg, wrap180 } from "../core/angles.js";
import { check } from "../core/check.js";
import type { Range3, Source } from "../core/judgement.js";
import { direction, metres, plain, seconds, speed } from "../core/schema.js";
import type { Degrees, Newtons } from "../core/units.js";
import { overWindsBetween } from "./between.js";
import { crossFlowHeading, LIE, lieCoefficients, lieKernel } from "./kernel.js";
import { GUSTS, YAW_DEG } from "./tables.js";
import { vessel, type Vessel } from "./vessel.js";
import { reflectedShare } from "./wave.js";
import { exposure } from "./wind.js";
import { cosDeg, sinDeg } from "../core/elementary.js";

export const lieInput = z.strictObject({
  /** The vessel; see `vesselFrom`. */
  vessel,
  /** Mean wind at the height of the windage; a forecast for 10 m is on the safe side. */
  windMps: speed({ max: 90 }),
  /** Direction the wind comes from. */
  windFromDeg: direction(),
  /** Rate of the stream; none unless given. */
  streamMps: z._default(speed({ max: 12 }), 0),
  /** Direction the stream runs towards. North unless given. */
  streamTowardsDeg: z._default(direction(), 0),
  /** Gusts: where the vessel lies, or gust over mean wind; near land unless given. */
  gust: z.optional(z.union([exposure, plain({ min: 1, max: 3 })])),
  /** Depth of water, which makes the stream across the hull count for more; deep unless given. */
  depthM: z.optional(metres({ above: 0 })),
  /** Waves running past the vessel. */
  waves: z.optional(
    z.strictObject({
      /** Significant height. */
      significantHeightM: metres({ min: 0, max: 20 }),
      /** Direction the waves come from. */
      fromDeg: direction(),
      /** Period; without it all of the wave counts as thrown back. */
      periodS: z.optional(seconds({ above: 0 })),
    }),
  ),
});

/** What a vessel lies to. */
export type LiesTo = "wind" | "stream" | "between" | "unsettled";

/** Codes of the cautions of {@link Lie}. */
export type LieCaution = "calm" | "noPreferredHeading" | "rodeLeadsAstern" | "loadsCancel";

/** How a vessel lies to her anchor. */
export interface Lie {
  /** Steady horizontal pull on the rode, N. */
  pullN: Newtons;
  /** Direction from the anchor to the bow, in which the vessel pulls; null where nothing pulls. */
  pullTowardsDeg: Degrees | null;
  /** Heading of the bow; null where nothing turns the vessel. */
  headingDeg: Degrees | null;
  /** Heading by the cross-flow law of moments, whose gap to `headingDeg` is the model's own uncertainty. */
  crossFlowHeadingDeg: Degrees | null;
  /** Yawing to either side of the heading, degrees: an envelope from reports, not a prediction. */
  yaw: Range3<Degrees>;
  /** Bearing of the anchor relative to the heading, positive to starboard; beyond 90 the rode leads under the vessel. Null where there is no pull or heading. */
  rodeLeadDeg: Degrees | null;
  /** Size of each steady force, N; they add as vectors. */
  shares: {
    /** Of the wind. */
    windN: Newtons;
    /** Of the stream. */
    streamN: Newtons;
    /** Of the waves. */
    waveN: Newtons;
  };
  /**
   * Pull in a gust, N: low with the vessel steady, likely and high with her yawed so that her side shows.
   * Where a gust against the stream eases the pull, or turns her round, the hardest of any wind from the mean to the gust.
   */
  peakPullN: Range3<Newtons>;
  /** What she lies to; unsettled where no heading or no direction of pull is preferred. */
  liesTo: LiesTo;
  /** How firmly the heading is set, from 0 (none) to 1 (wind and stream agree). */
  settled: number;
  /** What to beware of. */
  cautions: LieCaution[];
  /** Figures of the vessel that were guessed, and `gust` where none was given. */
  assumed: string[];
  /** Sources of the model. */
  basis: Source[];
}

/** Below this share of moment or force left over, a coefficient 30 % out would turn the result round. */
const UNSETTLED = 0.15;

const BASIS: Source[] = [
  { title: "drag law F = 1/2 rho C A V^2", provenance: "computed" },
  {
    title: "UFC 4-159-03, Design: Moorings",
    where: "Eq. 11 and 15-21",
    provenance: "read",
  },
  {
    title: "balance of turning moments about the bow, sine law",
    where: "own derivation",
    provenance: "computed",
  },
];

/**
 * How a vessel lies to her anchor between wind, stream and waves: her heading, and the pull on the rode.
 *
 * The rode acts at the bow, so the vessel turns until the turning moments of wind on her side, stream on
 * her lateral plane and waves cancel about the bow; each follows the sine of its angle. The pull is the
 * sum of the forces at that heading and the bow lies from the anchor along it, which is not the heading.
 * Leaves out rudder and helm, lift of the keel, drag of the rode, her own way and the rhythm of yawing.
 *
 * *Valid*: steady wind and stream over the whole vessel. *Accuracy*: heading as far as the cross-flow law
 * differs; forces about 30 % for measured areas, more for guessed ones.
 *
 * @throws InputError when a figure is missing, out of range or unknown.
 * @source UFC 4-159-03, Design: Moorings (2005), Eq. 11 and 15-21; own derivation of the heading
 * @example
 * ```ts
 * import { knots, lie, vesselFrom } from "hawse";
 * const weather = { windMps: knots(15), windFromDeg: 0, streamMps: knots(1), streamTowardsDeg: 240 };
 * for (const kind of ["yacht", "motorBoat"] as const) {
 *   const { headingDeg, liesTo } = lie({ vessel: vesselFrom({ kind, lengthM: 10 }), ...weather });
 *   console.log(kind, Math.round(headingDeg ?? NaN), liesTo);
 * }
 * // yacht 43 stream
 * // motorBoat 22 wind
 * ```
 */
export const lie = (input: Given<typeof lieInput>): Lie => lieOf(check(lieInput, input));

/** {@link lie} without the check. */
export function lieOf(input: z.output<typeof lieInput>): Lie {
  const c = lieCoefficients(input.vessel);
  const out = new Float64Array(LIE.length);
  run(c, input, input.windMps, out);
  const liesTo = liesToOf(input, out);
  const yaw = yawOf(liesTo, out[LIE.windMomentShare]!);
  const rodeLeadDeg = known(wrap180(reciprocal(out[LIE.pullTowardsDeg]!) - out[LIE.headingDeg]!));
  return {
    pullN: out[LIE.pullN]!,
    pullTowardsDeg: known(out[LIE.pullTowardsDeg]!),
    headingDeg: known(out[LIE.headingDeg]!),
    crossFlowHeadingDeg: known(crossFlowHeading(out)),
    yaw,
    rodeLeadDeg,
    shares: {
      windN: out[LIE.windN]!,
      streamN: out[LIE.streamN]!,
      waveN: out[LIE.waveN]!,
    },
    liesTo,
    settled: out[LIE.settled]!,
    cautions: cautionsOf(out, rodeLeadDeg),
    peakPullN: peakPull(c, input, yaw),
    assumed: [...(input.vessel.assumed ?? []), ...(input.gust === undefined ? ["gust"] : [])],
    basis: BASIS,
  };
}

const known = (value: number): number | null => (Number.isNaN(value) ? null : value);

function run(
  c: Float64Array,
  input: z.output<typeof lieInput>,
  windMps: number,
  out: Float64Array,
  windFromDeg = input.windFromDeg,
): void {
  const { waves } = input;
  lieKernel(
    c,
    windMps,
    windFromDeg,
    input.streamMps,
    input.streamTowardsDeg,
    out,
    input.depthM ?? Infinity,
    waves === undefined
      ? 0
      : waves.significantHeightM * reflectedShare(waves.periodS, input.vessel.hullDraughtM),
    waves?.fromDeg ?? 0,
  );
}

/** Pull as a share of what wind, stream and waves would pull together from ahead. */
const leftOver = (out: Float64Array): number => out[LIE.pullN]! / out[LIE.headOnN]!;

/** Whether no heading or no direction of pull is preferred; NaN counts as unsettled. Takes what {@link lieKernel} wrote. */
export const isUnsettled = (out: Float64Array): boolean =>
  !(out[LIE.settled]! >= UNSETTLED && leftOver(out) >= UNSETTLED);

function liesToOf(input: z.output<typeof lieInput>, out: Float64Array): LiesTo {
  if (isUnsettled(out)) return "unsettled";
  const heading = out[LIE.headingDeg]!;
  const offWind = input.windMps > 0 ? Math.abs(turnDeg(heading, input.windFromDeg)) : 180;
  const offStream =
    input.streamMps > 0 ? Math.abs(turnDeg(heading, reciprocal(input.streamTowardsDeg))) : 180;
  if (Math.min(offWind, offStream) > NEAR_DEG) return "between";
  return offWind <= offStream ? "wind" : "stream";
}

/** Within this angle of wind or stream a vessel is said to lie to it; ours. */
const NEAR_DEG = 30;

function yawOf(liesTo: LiesTo, windShare: number): Range3<Degrees> {
  if (liesTo === "unsettled") return { low: 0, likely: 90, high: 180 };
  return {
    low: YAW_DEG.low * windShare,
    likely: YAW_DEG.likely * windShare,
    high: YAW_DEG.high * windShare,
  };
}

function cautionsOf(out: Float64Array, rodeLeadDeg: number | null): LieCaution[] {
  const cautions: LieCaution[] = [];
  if (out[LIE.pullN] === 0) cautions.push("calm");
  else if (!(leftOver(out) >= UNSETTLED)) cautions.push("loadsCancel");
  if (!(out[LIE.settled]! >= UNSETTLED)) cautions.push("noPreferredHeading");
  if (rodeLeadDeg !== null && Math.abs(rodeLeadDeg) > 90) cautions.push("rodeLeadsAstern");
  return cautions;
}

/** Pull in a gust, or in any wind from the mean to it that pulls harder; yawed, the wind's part grows as the side comes into view. */
function peakPull(
  c: Float64Array,
  input: z.output<typeof lieInput>,
  yaw: Range3<Degrees>,
): Range3<Newtons> {
  const { gust = "nearLand", windMps, windFromDeg } = input;
  const gustMps = windMps * (typeof gust === "number" ? gust : GUSTS[gust]);
  const at = (speedMps: number, fromDeg = windFromDeg) => {
    const out = new Float64Array(LIE.length);
    run(c, input, speedMps, out, fromDeg);
    return out;
  };
  const inGust = at(gustMps);
  const restDeg = at(0)[LIE.headingDeg]!;
  const all = [at(windMps), inGust];
  let hardestN = Math.max(...all.map((out) => out[LIE.pullN]!));
  overWindsBetween(inGust, windMps, gustMps, windFromDeg, restDeg, (speedMps, fromDeg) => {
    const out = at(speedMps, fromDeg);
    all.push(out);
    const pullN = out[LIE.pullN]!;
    const near = pullN / hardestN;
    hardestN = Math.max(hardestN, pullN);
    return near;
  });
  const most = (deg: number) => {
    const more = sheerFactor(input.vessel, deg) - 1;
    return Math.max(...all.map((out) => out[LIE.pullN]! + out[LIE.windN]! * more));
  };
  return { low: most(0), likely: most(yaw.likely), high: most(yaw.high) };
}

/** Wind force on a vessel yawed by an angle over the force from ahead: front and side each as they show. */
export function sheerFactor(v: Vessel, deg: number): number {
  const angle = Math.min(deg, 90);
  const side =
    (v.windSideCoefficient * v.windageSideM2) / (v.windFrontCoefficient * v.windageFrontM2);
  return Math.max(1, cosDeg(angle) + side * sinDeg(angle));
}
