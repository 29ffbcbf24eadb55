import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { metres, seconds, speed } from "../core/schema.js";
import type { Metres, Seconds } from "../core/units.js";
import { noGrowth } from "./berth.js";
import { grow, GROWTH_METHODS } from "./growth.js";

/** Input of {@link waveGrowth}. */
export const waveGrowthInput = z.strictObject({
  /** Growth law. */
  method: z.enum(GROWTH_METHODS),
  /** Mean wind at 10 m. */
  windMps: speed({ max: 100 }),
  /** Open water to windward. */
  fetchM: metres({ min: 0 }),
  /** Mean depth along it; deep where left out. Used by the first three laws and by Young & Verhagen. */
  depthM: z.optional(metres({ above: 0 })),
  /** How long the wind has blown; long enough where left out. Used by the first five laws. */
  durationS: z.optional(seconds()),
});

/** Input of {@link waveGrowth}. */
export type WaveGrowthInput = Given<typeof waveGrowthInput>;

/** Sea by one growth law. */
export interface WaveGrowth {
  /** Significant height. */
  hm0M: Metres;
  /** Period as the law gives it. */
  periodS: Seconds;
  /** Which period that is. */
  period: "peak" | "significant";
  /** Time for the fetch to become the limit; null where the law has none. */
  minDurationS: Seconds | null;
}

/**
 * Sea by one published growth law, straight down the wind.
 *
 * Each law with its own wind: drag-adjusted for ACES, the stress factor 0.71 U^1.23 for the Shore Protection Manual,
 * the friction velocity for the Coastal Engineering Manual (period coefficient 0.651 as printed; other printings have
 * 0.751), the wind itself for the rest. Laws over the same fetch differ by 1.4 to 1.5 between lowest and highest.
 *
 * *Valid* for fetch of 0.2 to 120 km and wind of 3 to 25 m/s. *Accuracy*: against an independent library to 0.2 %.
 *
 * @throws InputError for a wind or fetch that is negative.
 * @source ACES Technical Reference 1992; Shore Protection Manual 1984; Coastal Engineering Manual; Wilson 1965;
 * Hasselmann et al. 1973; Kahma & Calkoen 1992; Young & Verhagen 1996
 * @example
 * ```ts
 * import { waveGrowth } from "hawse/shelter";
 *
 * const sea = waveGrowth({ method: "wilson", windMps: 12, fetchM: 1000 });
 * console.log(sea.hm0M.toFixed(2), sea.periodS.toFixed(1), sea.period);
 * // 0.28 1.6 significant
 * ```
 */
export function waveGrowth(input: WaveGrowthInput): WaveGrowth {
  const { method, windMps, fetchM, depthM, durationS } = check(waveGrowthInput, input);
  const sea = noGrowth();
  const blow = {
    windMps,
    cosine: 1,
    fetchM,
    depthM: depthM ?? Infinity,
    durationS: durationS ?? Infinity,
  };
  grow(method, blow, sea);
  return {
    hm0M: sea.hm0M,
    periodS: sea.periodS,
    period: method === "wilson" ? "significant" : "peak",
    minDurationS: Number.isNaN(sea.minDurationS) ? null : sea.minDurationS,
  };
}
