import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { AIR_KG_PER_M3, SEA_WATER_KG_PER_M3 } from "../core/constants.js";
import { metres, speed } from "../core/schema.js";
import type { MetresPerSecond } from "../core/units.js";
import { crossStreamCoefficient, dynamicPressure } from "./kernel.js";
import { vessel } from "./vessel.js";

export const balancingWindInput = z.strictObject({
  /** The vessel. */
  vessel,
  /** Rate of the stream. */
  streamMps: speed({ max: 12 }),
  /** Depth of water; deep unless given. */
  depthM: z.optional(metres({ above: 0 })),
});

/**
 * The wind whose turning moment equals that of a stream: above it the vessel lies more to the wind.
 *
 * Moments about the bow of the whole side, beam-on. Leaves out the same as `lie`.
 *
 * *Valid*: as `lie`. *Accuracy*: square root of the areas' and levers' accuracy, about 20 %.
 *
 * @throws InputError when a figure is missing, out of range or unknown.
 * @source own derivation; 24 kn per knot for a loaded cargo ship, J. T. Idzikowski, Anchoring Practice (2001)
 * @example
 * ```ts
 * import { balancingWind, knots, toKnots, vesselFrom } from "hawse";
 * const wind = (kind: "yacht" | "motorBoat") =>
 *   toKnots(balancingWind({ vessel: vesselFrom({ kind, lengthM: 12 }), streamMps: knots(1) }).windMps);
 * console.log(wind("yacht").toFixed(0), wind("motorBoat").toFixed(0));
 * // 23 12
 * ```
 */
export function balancingWind(input: Given<typeof balancingWindInput>): {
  /** Wind of equal turning moment, m/s. */
  windMps: MetresPerSecond;
} {
  const { vessel: v, streamMps, depthM } = check(balancingWindInput, input);
  const stream =
    dynamicPressure(streamMps, SEA_WATER_KG_PER_M3) *
    v.lateralPlaneM2 *
    crossStreamCoefficient(v.streamSideCoefficient, v.draughtM, depthM ?? Infinity) *
    v.lateralCentreAftOfBowM;
  const windPerSquare =
    dynamicPressure(1, AIR_KG_PER_M3) *
    v.windageSideM2 *
    v.windSideCoefficient *
    v.windCentreAftOfBowM;
  return { windMps: Math.sqrt(stream / windPerSquare) };
}
