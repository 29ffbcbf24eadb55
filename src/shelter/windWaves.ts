import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { RAD, turnDeg } from "../core/angles.js";
import { check } from "../core/check.js";
import type { Range3, Reason } from "../core/judgement.js";
import { direction, metres, seconds, speed } from "../core/schema.js";
import type { Degrees, Metres, Seconds } from "../core/units.js";
import { type FetchMethod, fetchMethodSchema, fetchOver } from "./effectiveFetch.js";
import { fanSchema, type FetchFan } from "./fan.js";
import { type Blow, BRACKET, grow, growAlike, type Growth, type GrowthMethod } from "./growth.js";

/** Input of {@link windWaves}. */
export const windWavesInput = z.strictObject({
  /** Open water round the berth. */
  fan: fanSchema,
  /** Mean wind at 10 m over 10 to 90 minutes; not the gusts, which raise no sea. */
  windMps: speed({ max: 100 }),
  /** Direction the wind blows from. */
  windFromDeg: direction(),
  /** How long it has blown so; long enough for the whole fetch where left out, the unsafe side. */
  durationS: z.optional(seconds()),
  /** Mean depth of water along the fetch, tide included; deep where left out, the unsafe side. */
  depthM: z.optional(metres({ above: 0 })),
  /** Definition of fetch; restricted where left out. */
  fetchMethod: z._default(fetchMethodSchema, "restricted"),
  /** Open water taken beyond the end of the chart or coast; up to the fan's limit where left out. */
  pastEdgeM: z.optional(metres({ min: 0 })),
});

/** Input of {@link windWaves}. */
export type WindWavesInput = Given<typeof windWavesInput>;

/** Sea raised by a wind at a berth. */
export interface WindWaves {
  /** Significant wave height. */
  hm0M: Metres;
  /** Least, chosen and greatest height of three published growth laws for the same fetch. */
  hm0RangeM: Range3<Metres>;
  /** Peak period. */
  periodS: Seconds;
  /** Direction the waves come from. */
  fromDeg: Degrees;
  /** Fetch used. */
  fetchM: Metres;
  /** Definition of fetch used. */
  fetchMethod: FetchMethod;
  /** What keeps the sea from growing higher. */
  limitedBy: "calm" | "fetch" | "duration" | "depth" | "wind";
  /** Time the wind must blow for the fetch to be the limit. */
  minDurationS: Seconds;
  /** Growth law behind `hm0M` and `periodS`. */
  method: GrowthMethod;
  /** Height and period by each law of the bracket. */
  methods: {
    /** The method. */
    method: GrowthMethod;
    hm0M: Metres;
    periodS: Seconds;
  }[];
  /** What limits the trust in it. */
  reasons: Reason[];
}

/**
 * Sea that a wind raises at a berth over its fetch.
 *
 * The growth laws of the Shore Protection Manual as ACES uses them: limited by fetch, by how long the wind has
 * blown and by depth, over the restricted fetch, so that waves may come from off the wind. Young & Verhagen and
 * Kahma & Calkoen for the same fetch give the bracket. Leaves out swell, stream, wave set-up, weed, boat wakes and
 * the lee of high land: the wind is the one given.
 *
 * *Valid* for fetch below 120 km and a wind steady within 2.5 m/s and 15°. The depth form over a restricted fetch
 * joins two published forms and is proposed, not published. *Accuracy*: plan on ±30 % in height and ±20 % in period
 * for the right wind; printed ACES examples to their digits.
 *
 * @throws InputError for a fan that is not one or a wind that is negative.
 * @source ACES v1.07 Technical Reference, 1992, 1-1; Young & Verhagen 1996; Kahma & Calkoen 1992
 * @example
 * ```ts
 * import { windWaves } from "hawse/shelter";
 *
 * const bearingsDeg = Array.from({ length: 36 }, (_, i) => 10 * i);
 * const fan = { bearingsDeg, fetchM: bearingsDeg.map(() => 2000), ends: bearingsDeg.map(() => "coast" as const) };
 * const sea = windWaves({ fan, windMps: 10, windFromDeg: 240 });
 * console.log(sea.hm0M.toFixed(2), sea.periodS.toFixed(1), sea.limitedBy);
 * // 0.26 1.8 fetch
 * ```
 */
export function windWaves(input: WindWavesInput): WindWaves {
  return windWavesChecked(check(windWavesInput, input));
}

/** {@link windWaves} for input that has been checked. */
export function windWavesChecked({
  fan,
  windMps,
  windFromDeg,
  durationS = Infinity,
  depthM = Infinity,
  fetchMethod,
  pastEdgeM,
}: z.output<typeof windWavesInput>): WindWaves {
  const fetch = fetchOver(fan, windFromDeg, fetchMethod, pastEdgeM);
  const cosine = Math.cos(turnDeg(windFromDeg, fetch.waveFromDeg) * RAD);
  const blow = { windMps, cosine, fetchM: fetch.fetchM, depthM, durationS };
  const main: GrowthMethod = fetchMethod === "restricted" ? "acesRestricted" : "acesOpen";
  const methods = [main, ...BRACKET].map((method) => {
    const sea: Growth = { hm0M: 0, periodS: 0, minDurationS: 0 };
    growAlike(method, main, blow, sea);
    return { method, hm0M: sea.hm0M, periodS: sea.periodS };
  });
  const heights = methods.map((m) => m.hm0M);
  const { hm0M, periodS } = methods[0]!;
  return {
    hm0M,
    hm0RangeM: {
      low: Math.min(...heights),
      likely: hm0M,
      high: Math.max(...heights),
    },
    periodS,
    fromDeg: fetch.waveFromDeg,
    fetchM: fetch.fetchM,
    fetchMethod,
    ...limitOf(main, blow, hm0M),
    method: main,
    methods,
    reasons: reasonsOf(fan, fetch.fetchM),
  };
}

/** What holds the sea down: the condition without which it would be clearly higher. */
function limitOf(
  method: GrowthMethod,
  blow: Blow,
  hm0M: number,
): Pick<WindWaves, "limitedBy" | "minDurationS"> {
  const sea: Growth = { hm0M: 0, periodS: 0, minDurationS: 0 };
  const gain = (change: Partial<Blow>): number => {
    grow(method, { ...blow, ...change }, sea);
    return sea.hm0M / hm0M;
  };
  const byDepth = gain({ depthM: Infinity });
  const byTime = gain({ durationS: Infinity });
  const byFetch = gain({ fetchM: 2 * blow.fetchM });
  grow(method, blow, sea);
  const { minDurationS } = sea;
  if (hm0M === 0) return { limitedBy: "calm", minDurationS };
  if (blow.durationS < minDurationS && byTime >= byDepth)
    return { limitedBy: "duration", minDurationS };
  if (byDepth > CLEARLY) return { limitedBy: "depth", minDurationS };
  return { limitedBy: byFetch > CLEARLY ? "fetch" : "wind", minDurationS };
}

/** A sea this much higher without a limit is held down by it. */
const CLEARLY = 1.05;

/** Fetch beyond which the growth laws were not fitted: 75 statute miles (ACES Technical Reference 1-1). */
const LONGEST_FITTED_M = 75 * 1609.344;

function reasonsOf(fan: FetchFan, fetchM: number): Reason[] {
  const basis = "ACES Technical Reference (1992) 1-1, stated limits";
  const beyond: Reason = {
    code: "waves.fetchBeyondFit",
    severity: "caution",
    value: fetchM,
    limit: LONGEST_FITTED_M,
    basis,
  };
  return fetchM <= LONGEST_FITTED_M ? fan.reasons : [...fan.reasons, beyond];
}
