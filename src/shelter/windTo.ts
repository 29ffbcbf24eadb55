import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { metres, seconds, speed } from "../core/schema.js";
import type { MetresPerSecond } from "../core/units.js";

/** Input of {@link windTo}. */
export const windToInput = z.strictObject({
  /** Wind as measured or forecast. */
  windMps: speed(),
  /** Height it is for; 10 m where left out. */
  heightM: z._default(metres({ min: 2, max: 60 }), 10),
  /** Time it is a mean over; an hour where left out. */
  averagingS: z._default(seconds({ min: 1, max: 36_000 }), 3600),
  /** Time wanted; an hour where left out. */
  toAveragingS: z._default(seconds({ min: 1, max: 36_000 }), 3600),
});

/** Input of {@link windTo}. */
export type WindToInput = Given<typeof windToInput>;

/** Wind at 10 m over another averaging time. */
export interface WindTo {
  /** Wind at 10 m over the time wanted. */
  windMps: MetresPerSecond;
  /** Factor for height. */
  heightFactor: number;
  /** Factor for averaging time. */
  averagingFactor: number;
  /** Rules used. */
  basis: string[];
}

/**
 * Wind of an averaging time over the wind of an hour, over land (ACES Technical Reference 1-1, eq. 21–22). The
 * printed curves miss the hour itself by a few parts in ten thousand; there the ratio is 1.
 */
function overHourly(averagingS: number): number {
  if (averagingS === 3600) return 1;
  return averagingS <= 3600
    ? 1.277 + 0.296 * Math.tanh(0.9 * Math.log10(45 / averagingS))
    : 1.5334 - 0.15 * Math.log10(averagingS);
}

/** Heights between which the 1/7 rule is stated. */
const RULE_FROM_M = 8;
const RULE_TO_M = 12;
/** Roughness of the sea in a moderate wind, m, from memory. */
const ROUGHNESS_M = 2e-4;

/**
 * Wind at 10 m over the averaging time that is wanted.
 *
 * Height by the 1/7 rule from 8 to 12 m and by the logarithmic law over the sea beyond; averaging time by the
 * curve for open land, which makes gusts over the sea too high: 3 s in 10 min is 1.44 here, and about 1.23 at sea.
 * Leaves out stability.
 *
 * *Valid* for 1 s to 10 h, near neutral air. *Accuracy*: a printed example to its digits; 5 to 10 % at a real mast.
 *
 * @throws InputError for a figure out of range.
 * @source ACES v1.07 Technical Reference, 1992, 1-1, eq. 21–22; Coastal Engineering Manual II-2, eq. II-2-9
 * @example
 * ```ts
 * import { windTo } from "hawse/shelter";
 *
 * const gust = windTo({ windMps: 10, toAveragingS: 3 });
 * console.log(gust.windMps.toFixed(1));
 * // 15.1
 * ```
 */
export function windTo(input: WindToInput): WindTo {
  const { windMps, heightM, averagingS, toAveragingS } = check(windToInput, input);
  const seventh = heightM >= RULE_FROM_M && heightM <= RULE_TO_M;
  const heightFactor = seventh
    ? Math.exp(Math.log(10 / heightM) / 7)
    : Math.log(10 / ROUGHNESS_M) / Math.log(heightM / ROUGHNESS_M);
  const averagingFactor = overHourly(toAveragingS) / overHourly(averagingS);
  return {
    windMps: windMps * heightFactor * averagingFactor,
    heightFactor,
    averagingFactor,
    basis: [
      seventh
        ? "1/7 rule: Coastal Engineering Manual eq. II-2-9"
        : "logarithmic law over the sea, roughness 0.2 mm: from memory",
      "averaging time over land: ACES Technical Reference 1-1, eq. 21–22",
    ],
  };
}
