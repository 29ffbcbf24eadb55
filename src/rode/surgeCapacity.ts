import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import { bracketedRoot } from "../core/roots.js";
import { kilograms, speed } from "../core/schema.js";
import type { Joules, Metres, Newtons } from "../core/units.js";
import { checkWeights, load, rodeFields } from "./input.js";
import { BOW_TENSION, COLUMNS, REACH } from "./kernel.js";
import { refuseLie } from "./layRode.js";
import { prepareRode } from "./prepare.js";
import { solveForward } from "./solve.js";

/** Input of {@link surgeCapacity}. */
export const surgeCapacitySchema = z.strictObject({
  ...rodeFields,
  /** Steady horizontal load before the surge. */
  loadFromN: load(),
  /** Horizontal load up to which the energy is asked for. */
  loadToN: z.optional(load()),
  /** A surge of the vessel whose peak load is asked for. */
  surge: z.optional(
    z.strictObject({
      /** Mass of the vessel with the water she carries along: 5 to 10 % more than her displacement (from memory). */
      vesselMassKg: kilograms(),
      /** Speed away from the anchor as the surge begins; 0 when left out. A wave surge of amplitude a and period T has 2 pi a / T. */
      speedMps: z.optional(speed({ max: 20 })),
      /** Steady force of the gust on the vessel while she falls back; `loadFromN` when left out. */
      gustLoadN: z.optional(load()),
    }),
  ),
});
/** Input of {@link surgeCapacity}. */
export type SurgeCapacityInput = Given<typeof surgeCapacitySchema>;

/** What a rise of load takes out of the vessel. */
export interface SurgeWork {
  /** Horizontal load at the end. */
  loadN: Newtons;
  /** Tension at the bow at the end. */
  bowTensionN: Newtons;
  /** Work done on the rode from `loadFromN`. */
  energyJ: Joules;
  /** Reach gained. */
  reachGainM: Metres;
}

/** What the rode can take up. */
export interface SurgeCapacity {
  /** Work to `loadToN`; null where it was not given. */
  toLoad: SurgeWork | null;
  /** The peak of the surge; null where none was given. */
  peak: SurgeWork | null;
}

/**
 * The energy a rode takes up as the load on it rises, and the peak load when a vessel is brought up
 * from a gust or a wave's surge.
 *
 * Work is the integral of load over reach through the states of {@link layRode}. At the peak the
 * vessel stands still: the work on the rode equals her energy at the start and what the gust's
 * force adds on the way. Left out: damping by the chain's drag through the water (the true peak is
 * lower), waves that keep pushing, snatch loads of a slack rode jerked tight, and stiffening of rope
 * under quick cycles (the true peak is higher: give the stiffness of `ropeStiffness`, `quickN`).
 *
 * *Valid*: as {@link layRode}. *Accuracy*: 1e-6 against integration of the cable equations.
 *
 * @throws InputError as {@link layRode}, or where neither `loadToN` nor `surge` is given.
 * @source Work and energy of the elastic catenary, own derivation
 * @example
 * ```ts
 * import { chain, surgeCapacity } from "hawse/rode";
 *
 * const { toLoad } = surgeCapacity({
 *   segments: [{ ...chain(10), lengthM: 40 }],
 *   bowHeightAboveAnchorM: 8,
 *   loadFromN: 500,
 *   loadToN: 5000,
 * });
 * console.log(toLoad?.energyJ.toFixed(0));
 * // 1578
 * ```
 */
export function surgeCapacity(input: SurgeCapacityInput): SurgeCapacity {
  const asked = check(surgeCapacitySchema, input);
  checkWeights(asked);
  if (asked.loadToN === undefined && asked.surge === undefined)
    refuse("", "one_of", "expected loadToN or surge");
  return surgeCapacityUnchecked(asked);
}

/** {@link surgeCapacity} for input that has been checked. */
export function surgeCapacityUnchecked(asked: z.output<typeof surgeCapacitySchema>): SurgeCapacity {
  const p = prepareRode(asked);
  const out = new Float64Array(COLUMNS);
  const from = asked.loadFromN;
  const reachAt = (loadN: number) => {
    const state = solveForward(p, asked.bowHeightAboveAnchorM, loadN, out);
    if (state < 0) refuseLie(state);
    return out[REACH]!;
  };
  const reach0 = reachAt(from);
  // Each work goes on from that of the next lower load that is known.
  const known = [{ loadN: from, reach: reach0, energyJ: 0 }];
  const workTo = (loadN: number): SurgeWork => {
    const reach = reachAt(loadN);
    const bowTensionN = out[BOW_TENSION]!;
    const last = known.findLast((k) => k.loadN <= loadN)!;
    const energyJ =
      last.energyJ +
      last.loadN * (reach - last.reach) +
      integrate((n) => reach - reachAt(n), last.loadN, loadN, last.energyJ);
    known.push({ loadN, reach, energyJ });
    known.sort((k, l) => k.loadN - l.loadN);
    return { loadN, bowTensionN, energyJ, reachGainM: reach - reach0 };
  };
  return {
    toLoad: asked.loadToN === undefined ? null : workTo(asked.loadToN),
    peak: asked.surge === undefined ? null : peakOf(from, asked.surge, workTo),
  };
}

/** The load at which the rode has taken up all of the vessel's energy. */
function peakOf(
  from: number,
  surge: NonNullable<SurgeCapacityInput["surge"]>,
  workTo: (loadN: number) => SurgeWork,
): SurgeWork {
  const { vesselMassKg, speedMps = 0, gustLoadN = from } = surge;
  const start = 0.5 * vesselMassKg * speedMps * speedMps;
  const surplus = (loadN: number) => {
    const { energyJ, reachGainM } = workTo(loadN);
    return energyJ - gustLoadN * reachGainM - start;
  };
  const low = Math.max(from, gustLoadN);
  let high = 2 * low + 1;
  while (surplus(high) < 0) high *= 2;
  return workTo(bracketedRoot(surplus, low, high, 1e-9 * high));
}

/** Times an interval is halved at most, and how many of them are left when halves that agree are believed: a kink may hide from a few points. */
const DEEPEST = 24;
const LOOKED_AT = 21;

/**
 * Integral by adaptive Simpson's rule, over the root of the way from `a`: reach changes fastest where there
 * is hardly a load. Good to 1e-8 of itself, or of the `sum` it is added to.
 */
function integrate(f: (x: number) => number, a: number, b: number, sum: number): number {
  const g = (t: number) => 2 * (b - a) * t * f(a + (b - a) * t * t);
  const g0 = g(0);
  const gm = g(0.5);
  const g1 = g(1);
  const whole = (g0 + 4 * gm + g1) / 6;
  return refine(g, 0, 1, g0, gm, g1, whole, Math.max(Math.abs(whole), sum) * 1e-8, DEEPEST);
}

function refine(
  f: (x: number) => number,
  a: number,
  b: number,
  fa: number,
  fm: number,
  fb: number,
  whole: number,
  allowed: number,
  depth: number,
): number {
  const m = (a + b) / 2;
  const fl = f((a + m) / 2);
  const fr = f((m + b) / 2);
  const left = ((m - a) / 6) * (fa + 4 * fl + fm);
  const right = ((b - m) / 6) * (fm + 4 * fr + fb);
  const change = left + right - whole;
  if (depth === 0 || (depth < LOOKED_AT && Math.abs(change) <= 15 * allowed))
    return left + right + change / 15;
  return (
    refine(f, a, m, fa, fl, fm, left, allowed / 2, depth - 1) +
    refine(f, m, b, fm, fr, fb, right, allowed / 2, depth - 1)
  );
}
