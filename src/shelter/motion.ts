import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { GRAVITY_MPS2 } from "../core/constants.js";
import { metres, seconds } from "../core/schema.js";
import { feet, type Metres, type Seconds } from "../core/units.js";
import { rollPeriod, sicknessDose, sicknessIncidence, waveFollowingAccel } from "./comfort.js";
import { BERTH_WAVE_FT, GOOD_CLIMATE, MOTION_LIMITS, type MotionLimitRow } from "./tables.js";

/** Input of {@link motion}. */
export const motionInput = z.strictObject({
  /** Significant wave height. */
  hm0M: metres({ min: 0 }),
  /** Peak period. */
  periodS: seconds({ above: 0 }),
  /** How the waves meet the hull. */
  encounter: z.enum(["head", "oblique", "beam"]),
  /** Time aboard; two hours where left out. */
  exposureS: z._default(seconds(), 7200),
});

/** Input of {@link motion}. */
export type MotionInput = Given<typeof motionInput>;

/** What waves do to the people aboard, held against published limits. */
export interface Motion {
  /** Root-mean-square vertical acceleration of a hull that follows the waves, an upper bound, m/s². */
  verticalAccelMps2: number;
  /** Motion sickness dose value over the time, m/s^1.5, without weighting for frequency: an upper bound. */
  sicknessDoseMps15: number;
  /** Per cent taken ill in two hours (O'Hanlon & McCauley 1974). */
  sicknessPerCent: number;
  /** Activities whose limit of vertical acceleration is passed (NORDFORSK 1987, from memory). */
  hinders: MotionLimitRow["activity"][];
  /** Height of a good harbour for this encounter and period, not to be passed but once a week; from memory. */
  goodHarbourM: Metres;
  /** Greatest height called acceptable at a small-craft berth, by the craft (MIL-HDBK-1025/5). */
  acceptableBerthM: { low: Metres; high: Metres };
}

/**
 * What waves at a berth do to the people aboard, by published limits.
 *
 * Vertical motion of a hull that follows the waves, which is the most it can be where waves are shorter than a few
 * hull lengths; sickness by two published rules; and the heights that harbour standards call good. Leaves out roll,
 * which long waves on the beam bring and short ones in step with the hull.
 *
 * *Valid* for waves of 1 to 20 s. *Accuracy*: upper bounds; limits from memory where said.
 *
 * @throws InputError for a height or period that is not one.
 * @source ISO 2631-1; O'Hanlon & McCauley 1974; NORDFORSK 1987; Mercer, Isaacson & Mulcahy 1982; MIL-HDBK-1025/5
 * @example
 * ```ts
 * import { motion } from "hawse/shelter";
 *
 * const aboard = motion({ hm0M: 0.3, periodS: 3, encounter: "head" });
 * console.log(aboard.verticalAccelMps2.toFixed(3), aboard.goodHarbourM);
 * // 0.329 0.15
 * ```
 */
export function motion(input: MotionInput): Motion {
  const { hm0M, periodS, encounter, exposureS } = check(motionInput, input);
  const accel = waveFollowingAccel(hm0M, periodS);
  const row = GOOD_CLIMATE.find(
    (r) =>
      r.encounter === encounter &&
      periodS >= r.fromS &&
      !(r.belowS !== null && periodS >= r.belowS),
  )!;
  return {
    verticalAccelMps2: accel,
    sicknessDoseMps15: sicknessDose(accel, exposureS),
    sicknessPerCent: sicknessIncidence(accel, 1 / periodS),
    hinders: MOTION_LIMITS.filter((m) => !(accel <= m.verticalAccelG * GRAVITY_MPS2)).map(
      (m) => m.activity,
    ),
    goodHarbourM: row.onceAWeekM,
    acceptableBerthM: {
      low: feet(BERTH_WAVE_FT.min),
      high: feet(BERTH_WAVE_FT.max),
    },
  };
}

/** Input of {@link naturalRoll}. */
export const naturalRollInput = z.strictObject({
  /** Greatest beam at the waterline. */
  beamM: metres({ above: 0 }),
  /** Draught of the hull. */
  draughtM: metres({ above: 0 }),
  /** Length on the waterline. */
  waterlineM: metres({ above: 0 }),
  /** Metacentric height. */
  metacentricHeightM: metres({ above: 0 }),
});

/** Input of {@link naturalRoll}. */
export type NaturalRollInput = Given<typeof naturalRollInput>;

/**
 * Natural roll period of a hull, to see whether waves rock it in step.
 *
 * The approximation of the Intact Stability Code for ships. Leaves out the keel's inertia and drag and more than one hull.
 *
 * *Valid* for ships. *Accuracy*: 25 % or worse for ballasted keel hulls; useless for multihulls.
 *
 * @throws InputError for a figure that is not above zero.
 * @source IMO Intact Stability Code 2008, 2.3.4
 * @example
 * ```ts
 * import { naturalRoll } from "hawse/shelter";
 *
 * console.log(naturalRoll({ beamM: 3.5, draughtM: 1.8, waterlineM: 10, metacentricHeightM: 1 }).toFixed(2));
 * // 2.89
 * ```
 */
export function naturalRoll(input: NaturalRollInput): Seconds {
  const hull = check(naturalRollInput, input);
  return rollPeriod(hull.beamM, hull.draughtM, hull.waterlineM, hull.metacentricHeightM);
}
