import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { metres, plain } from "../core/schema.js";

/** Input of the luminous intensity. */
export const input = z.strictObject({
  /** Range at which the light is to be seen. */
  rangeM: metres({ above: 0, max: 100_000 }),
  /** Atmospheric transmissivity over a nautical mile; 0.8 unless given, a meteorological visibility of about 13 miles. */
  transmissivity: z._default(plain({ above: 0, max: 1 }), 0.8),
});
/** Input of {@link lightIntensity}. */
export type LightIntensityInput = Given<typeof input>;

/** Intensity a light must have. */
export interface LightIntensity {
  /** Least luminous intensity, candela. */
  intensityCd: number;
  /** The same as the table of the annex prints it: to two figures, below 1 cd to one. */
  printedCd: number;
}

/** Threshold of illuminance at the eye, lux. */
const THRESHOLD_LUX = 2e-7;
/** Square metres in a square nautical mile, as the annex rounds them. */
const SQUARE_MILE = 3.43e6;

/**
 * Least intensity of a light that is to be seen at a range.
 *
 * The law of Allard: I = 3.43e6 T D² K^-D with D in nautical miles, threshold T = 2e-7 lx and
 * transmissivity K. Leaves out glare and background light.
 *
 * *Valid*: at night. *Accuracy*: reproduces the printed table of 1 to 6 miles exactly.
 * @throws InputError for a range that is not positive or a transmissivity outside (0, 1].
 * @source COLREGS 1972, Annex I, 8
 * @example
 * ```ts
 * import { nauticalMiles } from "hawse";
 * import { lightIntensity } from "hawse/signals";
 *
 * console.log(lightIntensity({ rangeM: nauticalMiles(2) }).printedCd);
 * // 4.3
 * ```
 */
export function lightIntensity(given: LightIntensityInput): LightIntensity {
  const { rangeM, transmissivity } = check(input, given);
  const intensityCd = intensityFor(rangeM, transmissivity);
  return { intensityCd, printedCd: Number(intensityCd.toPrecision(intensityCd < 1 ? 1 : 2)) };
}

/** Least intensity in candela for a range in metres. */
export function intensityFor(rangeM: number, transmissivity = 0.8): number {
  const miles = rangeM / 1852;
  const clear = Math.exp(-miles * Math.log(transmissivity));
  return SQUARE_MILE * THRESHOLD_LUX * miles * miles * clear;
}
