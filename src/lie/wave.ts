import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { GRAVITY_MPS2, SEA_WATER_KG_PER_M3 } from "../core/constants.js";
import type { Source } from "../core/judgement.js";
import { metres, seconds, share } from "../core/schema.js";
import type { Metres, Newtons, Seconds } from "../core/units.js";

const hull = {
  /** Width of the hull across the waves: the beam from ahead, the length from abeam. */
  widthM: metres({ above: 0, max: 100 }),
  /** Share of the wave height thrown back by the hull; worked out from period and draught where they are given, else 1. */
  reflection: z.optional(share()),
  /** Wave period. */
  periodS: z.optional(seconds({ above: 0 })),
  /** Draught of the hull, for waves of known period. */
  draughtM: z.optional(metres({ above: 0 })),
};

export const waveLoadInput = z.union([
  z.strictObject({
    ...hull,
    /** Significant height of irregular waves. */
    significantHeightM: metres({ min: 0, max: 20 }),
  }),
  z.strictObject({
    ...hull,
    /** Amplitude of regular waves, half their height. */
    amplitudeM: metres({ min: 0, max: 10 }),
  }),
]);

/** Mean drift force of waves. */
export interface WaveLoad {
  /** Mean force in the direction the waves run, N. */
  forceN: Newtons;
  /** Share of the wave height thrown back. */
  reflection: number;
  /** True where the share is the upper bound for want of period and draught. */
  bound: boolean;
  /** The formula and its source. */
  basis: Source;
}

/**
 * Mean drift force of waves on a hull.
 *
 * Momentum of the waves thrown back: 1/2 ρ g a² R² per metre of width in regular waves, 1/16 ρ g Hs² R² in
 * irregular ones. The share R comes from the part of the wave energy that runs above the hull's draught;
 * without period and draught it is 1, the most that can be. Leaves out snatching, which is no steady load
 * and is far larger: see the surge of the rode.
 *
 * *Valid*: deep water, waves not breaking. *Accuracy*: an upper estimate for a hull free to rise and fall.
 *
 * @throws InputError when a figure is missing, out of range or unknown.
 * @source Maruo's form of the mean drift force, from memory; power transmission theory for the share, from memory
 * @example
 * ```ts
 * import { waveLoad } from "hawse";
 * const load = waveLoad({ significantHeightM: 0.5, widthM: 3.8, periodS: 3, draughtM: 0.55 });
 * console.log(Math.round(load.forceN), load.reflection.toFixed(2));
 * // 232 0.62
 * ```
 */
export function waveLoad(input: Given<typeof waveLoadInput>): WaveLoad {
  const i = check(waveLoadInput, input);
  const reflection = i.reflection ?? reflectedShare(i.periodS, i.draughtM);
  const square =
    "amplitudeM" in i
      ? (i.amplitudeM * i.amplitudeM) / 2
      : (i.significantHeightM * i.significantHeightM) / 16;
  return {
    forceN: SEA_WATER_KG_PER_M3 * GRAVITY_MPS2 * square * reflection * reflection * i.widthM,
    reflection,
    bound: i.reflection === undefined && reflection === 1,
    basis: {
      title: "mean wave drift by reflected momentum (Maruo)",
      provenance: "memory",
    },
  };
}

/** Share of a deep-water wave's height that a hull of this draught throws back: sqrt(1 - exp(-2kT)), 1 where not known. */
export function reflectedShare(periodS: Seconds | undefined, draughtM: Metres | undefined): number {
  if (periodS === undefined || draughtM === undefined) return 1;
  const frequency = (2 * Math.PI) / periodS;
  const waveNumber = (frequency * frequency) / GRAVITY_MPS2;
  return Math.sqrt(-Math.expm1(-2 * waveNumber * draughtM));
}
