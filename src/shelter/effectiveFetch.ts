import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { wrap360 } from "../core/angles.js";
import { check } from "../core/check.js";
import { direction, metres } from "../core/schema.js";
import type { Degrees, Metres } from "../core/units.js";
import {
  ARC_MEAN,
  COSINE_MEAN,
  fetchAlong,
  fetchByDegree,
  radialMean,
  type RadialRule,
  restrictedTable,
  SAVILLE,
  takenLengths,
} from "./effective.js";
import { fanSchema, type FetchFan } from "./fan.js";

/** Schema of a named definition of fetch. */
export const fetchMethodSchema = z.enum([
  "restricted",
  "straight",
  "saville",
  "cosineMean",
  "arcMean",
]);

/** A named definition of fetch. */
export type FetchMethod = z.infer<typeof fetchMethodSchema>;

/** Input of {@link effectiveFetch}. */
export const effectiveFetchInput = z.strictObject({
  /** Open water round the berth. */
  fan: fanSchema,
  /** Direction the wind blows from. */
  windFromDeg: direction(),
  /** Definition of fetch; restricted where left out. */
  method: z._default(fetchMethodSchema, "restricted"),
  /** Open water taken beyond the end of the chart or coast; up to the fan's limit where left out. */
  pastEdgeM: z.optional(metres({ min: 0 })),
});

/** Input of {@link effectiveFetch}. */
export type EffectiveFetchInput = Given<typeof effectiveFetchInput>;

/** Fetch over a wind by one named definition. */
export interface EffectiveFetch {
  /** Fetch a growth law is to use. */
  fetchM: Metres;
  /** Direction the waves come from. */
  waveFromDeg: Degrees;
  /** Definition used. */
  method: FetchMethod;
  /** Where the definition comes from. */
  basis: string;
}

/** Where each definition of fetch comes from. */
export const FETCH_BASIS: Record<FetchMethod, string> = {
  restricted: "ACES Technical Reference (1992) 1-1, eq. 26",
  straight: "Coastal Engineering Manual II-2-3: straight fetch, no correction for width",
  saville: "Saville 1954; Shore Protection Manual 1977, fig. 3-13",
  cosineMean: "cosine mean over 15 radials, common practice, no source",
  arcMean: "Shore Protection Manual 1984: mean of nine radials at 3°, from memory",
};

/**
 * Fetch over a wind by a named definition, and where its waves come from.
 *
 * "Effective fetch" has at least five meanings, which differ by a factor of two on an indented coast; this gives
 * the one asked for. Restricted fetch alone lets the waves come from off the wind, as they do round a point.
 * Leaves out depth and the shape of the bottom. Wind directions are read to the whole degree for restricted fetch.
 *
 * *Valid* for fetch up to 120 km. *Accuracy*: the printed example of ACES to its printed digits.
 *
 * @throws InputError for a fan that is not one.
 * @source ACES v1.07 Technical Reference, 1992, 1-1; Shore Protection Manual 1977 and 1984
 * @example
 * ```ts
 * import { effectiveFetch } from "hawse/shelter";
 *
 * const bearingsDeg = Array.from({ length: 36 }, (_, i) => 10 * i);
 * const fan = { bearingsDeg, fetchM: bearingsDeg.map(() => 1000), ends: bearingsDeg.map(() => "coast" as const) };
 * console.log(effectiveFetch({ fan, windFromDeg: 90, method: "saville" }).fetchM.toFixed(1));
 * // 909.1
 * ```
 */
export function effectiveFetch(input: EffectiveFetchInput): EffectiveFetch {
  const { fan, windFromDeg, method, pastEdgeM } = check(effectiveFetchInput, input);
  return fetchOver(fan, windFromDeg, method, pastEdgeM);
}

const RULES: Partial<Record<FetchMethod, RadialRule>> = {
  saville: SAVILLE,
  cosineMean: COSINE_MEAN,
  arcMean: ARC_MEAN,
};

/** {@link effectiveFetch} for input that has been checked. */
export function fetchOver(
  fan: FetchFan,
  windFromDeg: number,
  method: FetchMethod,
  pastEdgeM?: number,
): EffectiveFetch {
  const basis = FETCH_BASIS[method];
  if (method === "restricted") {
    const table = restrictedTable(fetchByDegree(fan, pastEdgeM));
    const d = Math.round(windFromDeg) % 360;
    const waveFromDeg = wrap360(windFromDeg + table.turnDeg[d]!);
    return { fetchM: table.fetchM[d]!, waveFromDeg, method, basis };
  }
  const taken = takenLengths(fan, pastEdgeM ?? Infinity);
  const along = (deg: number): number => fetchAlong(fan, taken, deg);
  const rule = RULES[method];
  const fetchM = rule === undefined ? along(windFromDeg) : radialMean(along, windFromDeg, rule);
  return { fetchM, waveFromDeg: wrap360(windFromDeg), method, basis };
}
