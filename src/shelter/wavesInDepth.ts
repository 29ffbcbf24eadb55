import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { RAD } from "../core/angles.js";
import { check } from "../core/check.js";
import { degrees, metres, seconds } from "../core/schema.js";
import type { Degrees, Metres, MetresPerSecond } from "../core/units.js";
import {
  breakingHeight,
  groupRatio,
  refractedSine,
  refraction,
  shoaling,
  WAVE_GRAVITY_MPS2,
  waveNumberTimesDepth,
} from "./linear.js";

/** Input of {@link wavesInDepth}. */
export const wavesInDepthInput = z.strictObject({
  /** Wave period. */
  periodS: seconds({ above: 0 }),
  /** Depth of water. */
  depthM: metres({ above: 0 }),
  /** Height in deep water; 1 m where left out. */
  deepHeightM: z._default(metres({ min: 0 }), 1),
  /** Angle between crests and contours in deep water; square on where left out. */
  deepAngleDeg: z._default(degrees({ min: 0, max: 89 }), 0),
});

/** Input of {@link wavesInDepth}. */
export type WavesInDepthInput = Given<typeof wavesInDepthInput>;

/** Waves of one period in a depth. */
export interface WavesInDepth {
  /** Length from crest to crest. */
  wavelengthM: Metres;
  /** Speed of the crests. */
  celerityMps: MetresPerSecond;
  /** Speed of the energy. */
  groupMps: MetresPerSecond;
  /** Ratio of the two. */
  groupRatio: number;
  /** Shoaling factor from deep water. */
  shoalingFactor: number;
  /** Refraction factor over straight parallel contours. */
  refractionFactor: number;
  /** Angle between crests and contours here. */
  angleDeg: Degrees;
  /** Height here, at most the breaking height. */
  heightM: Metres;
  /** Height at which an individual wave breaks. */
  breakingHeightM: Metres;
}

/**
 * Waves of one period brought into a depth: length, speed, and what becomes of their height.
 *
 * Linear theory, Snell's law over straight parallel contours, and breaking at 0.78 of the depth. Leaves out shoals,
 * bottom friction and the stream.
 *
 * *Valid* for waves well below breaking. *Accuracy*: the exact dispersion relation, to rounding.
 *
 * @throws InputError for a period or depth that is not one.
 * @source ACES v1.07 Technical Reference, 1992, 2-1 and 3-1; Coastal Engineering Manual II-1 and II-3
 * @example
 * ```ts
 * import { wavesInDepth } from "hawse/shelter";
 *
 * const waves = wavesInDepth({ periodS: 10, depthM: 3 });
 * console.log(waves.wavelengthM.toFixed(1), waves.celerityMps.toFixed(2));
 * // 53.2 5.32
 * ```
 */
export function wavesInDepth(input: WavesInDepthInput): WavesInDepth {
  const { periodS, depthM, deepHeightM, deepAngleDeg } = check(wavesInDepthInput, input);
  const omega = (2 * Math.PI) / periodS;
  const kd = waveNumberTimesDepth((omega * omega * depthM) / WAVE_GRAVITY_MPS2);
  const wavelengthM = (2 * Math.PI * depthM) / kd;
  const celerityMps = wavelengthM / periodS;
  const angle = deepAngleDeg * RAD;
  const shoalingFactor = shoaling(kd);
  const refractionFactor = refraction(kd, angle);
  const free = deepHeightM * shoalingFactor * refractionFactor;
  return {
    wavelengthM,
    celerityMps,
    groupMps: groupRatio(kd) * celerityMps,
    groupRatio: groupRatio(kd),
    shoalingFactor,
    refractionFactor,
    angleDeg: Math.asin(refractedSine(kd, angle)) / RAD,
    heightM: Math.min(free, breakingHeight(depthM)),
    breakingHeightM: breakingHeight(depthM),
  };
}
