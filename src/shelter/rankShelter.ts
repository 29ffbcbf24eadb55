import { known } from "../core/series.js";
import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { readOr } from "../core/errors.js";
import type { Reason } from "../core/judgement.js";
import type { Shelter } from "./shelterTypes.js";

/** Input of {@link rankShelter}. */
export const rankShelterInput = z.strictObject({
  /** Berths with what `shelter` said of each, over the same stay and forecast. */
  berths: z
    .array(
      z.strictObject({
        /** What you call the place. */
        name: z.string().check(z.minLength(1)),
        /** Its shelter over the stay. */
        shelter: z.custom<Shelter>(isShelter),
      }),
    )
    .check(z.minLength(1)),
  /** What the stop is for: a lunch stop can be left when it turns bad, a night cannot. */
  purpose: z.enum(["lunch", "night"]),
});

/** Input of {@link rankShelter}. */
export type RankShelterInput = Given<typeof rankShelterInput>;

/** One berth in its place. */
export interface RankedShelter {
  /** What you call the place. */
  name: string;
  /** Its place, 1 the best; equal berths share a place. */
  rank: number;
  /** Whether another berth shares it. */
  tied: boolean;
  /** What makes its riskiest hour. */
  from: "windSea" | "swell" | "gusts" | "calm" | "unknown";
  /** What put it there: the deciding figure against that of the berth before it, and what makes its riskiest hour. */
  reasons: Reason[];
}

function isShelter(value: unknown): boolean {
  return typeof value === "object" && value !== null && "summary" in value;
}

/** A figure berths are ranked by, and how far it may differ between equals. */
interface Key {
  code: string;
  of: (shelter: Shelter) => number;
  /** Equal within this, and within {@link EQUAL_PART} of the larger. */
  equalWithin: number;
  basis: string;
}

/** Model error within which two berths are equal: 15 %; proposed, not published. */
const EQUAL_PART = 0.15;
const EQUAL_CHANCE = 0.03;
const EQUAL_M = 0.03;

const UNKNOWN: Key = {
  code: "rank.unknown",
  of: (s) => (s.summary.unknownHours > 0 ? 1 : 0),
  equalWithin: 0,
  basis: "hours of which nothing is known: behind every berth that is known",
};
const UNTENABLE: Key = {
  code: "rank.untenable",
  of: (s) => s.summary.untenable,
  equalWithin: EQUAL_CHANCE,
  basis: "greatest probability of an untenable hour over the stay",
};
const POOR: Key = {
  code: "rank.poor",
  of: (s) => s.summary.poor,
  equalWithin: EQUAL_CHANCE,
  basis: "greatest probability of an hour worse than tolerable",
};
const MEAN_POOR: Key = {
  code: "rank.meanPoor",
  of: (s) => s.summary.meanPoor,
  equalWithin: EQUAL_CHANCE,
  basis: "mean over the stay of the probability of an hour worse than tolerable",
};
const MEAN_HEIGHT: Key = {
  code: "rank.meanHeight",
  of: (s) => (s.summary.unknownHours > 0 ? Infinity : (s.summary.meanHeightM ?? Infinity)),
  equalWithin: EQUAL_M,
  basis: "mean expected height over the stay, m",
};

const KEYS: Record<RankShelterInput["purpose"], readonly Key[]> = {
  lunch: [UNKNOWN, MEAN_POOR, MEAN_HEIGHT],
  night: [UNKNOWN, UNTENABLE, POOR, MEAN_HEIGHT],
};

type Entry = z.output<typeof rankShelterInput>["berths"][number];

/**
 * Berths in order for a lunch stop or a night, with the reason for each place.
 *
 * A lunch stop goes by how poor the stay is on the mean, for one bad hour can be left; a night by its worst hour:
 * first the chance of it being untenable, then of being poor, then by the mean sea. What lies within the error of the
 * model is equal, and stays so. A berth with hours not known comes behind every one that is known. Leaves out depth, holding, room and the way out.
 *
 * *Valid* for berths reckoned over the same stay and forecast. *Accuracy*: the order is proposed, not published.
 *
 * @throws InputError for an empty list.
 * @source common practice, no source
 * @example
 * ```ts
 * import { rankShelter, shelter } from "hawse/shelter";
 *
 * const bearingsDeg = Array.from({ length: 36 }, (_, i) => 10 * i);
 * const round = (fetchM: number) => ({
 *   bearingsDeg,
 *   fetchM: bearingsDeg.map(() => fetchM),
 *   ends: bearingsDeg.map(() => "coast" as const),
 * });
 * const stay = { fromMs: Date.UTC(2026, 5, 1, 20), toMs: Date.UTC(2026, 5, 2, 6) };
 * const forecast = {
 *   longestGapMs: 12 * 3_600_000,
 *   rows: [stay.fromMs, stay.toMs].map((timeMs) => ({ timeMs, windMps: 9, windFromDeg: 225 })),
 * };
 * const places = { pool: 300, roads: 9000, basin: 320 };
 * const ranked = rankShelter({
 *   purpose: "night",
 *   berths: Object.entries(places).map(([name, m]) => ({
 *     name,
 *     shelter: shelter({ fan: round(m), stay, forecast }),
 *   })),
 * });
 * console.log(ranked.map((r) => `${r.rank} ${r.name}`).join(", "));
 * // 1 pool, 1 basin, 3 roads
 * ```
 */
export function rankShelter(input: RankShelterInput): RankedShelter[] {
  const { berths, purpose } = check(rankShelterInput, input);
  const rank = (): RankedShelter[] => rankChecked(berths, purpose);
  return readOr("berths", "invalid_type", "expected each shelter as shelter gives it", rank);
}

/** {@link rankShelter} for input that has been checked. */
export function rankChecked(
  berths: readonly Entry[],
  purpose: RankShelterInput["purpose"],
): RankedShelter[] {
  const keys = KEYS[purpose];
  const groups = split(berths, keys);
  let rank = 1;
  return groups.flatMap((group, i) => {
    const other = groups[i - 1] ?? groups[i + 1];
    const placed = group.map((entry) => ({
      name: entry.name,
      rank,
      tied: group.length > 1,
      from: makerOf(entry.shelter),
      reasons: reasonsFor(entry, keys, other?.[0]),
    }));
    rank += group.length;
    return placed;
  });
}

/** Groups of equals, best first: by the first key, then each group by the next. */
function split(entries: readonly Entry[], keys: readonly Key[]): Entry[][] {
  const [key, ...rest] = keys;
  if (key === undefined || entries.length === 1) return [[...entries]];
  const sorted = [...entries].sort((a, b) => compare(key.of(a.shelter), key.of(b.shelter)));
  const groups: Entry[][] = [];
  for (const entry of sorted) {
    const group = groups[groups.length - 1];
    if (group !== undefined && equal(key, group[0]!, entry)) group.push(entry);
    else groups.push([entry]);
  }
  return groups.flatMap((group) => split(group, rest));
}

const compare = (a: number, b: number): number => (a < b ? -1 : a > b ? 1 : 0);

function equal(key: Key, a: Entry, b: Entry): boolean {
  const [x, y] = [key.of(a.shelter), key.of(b.shelter)];
  if (x === y) return true;
  const within = Math.max(key.equalWithin, EQUAL_PART * Math.max(x, y));
  return Number.isFinite(within) && Math.abs(x - y) <= within;
}

function reasonsFor(entry: Entry, keys: readonly Key[], other: Entry | undefined): Reason[] {
  const key =
    keys.find((k) => other !== undefined && !equal(k, other, entry)) ?? keys[keys.length - 1]!;
  const value = key.of(entry.shelter);
  const against = other === undefined ? NaN : key.of(other.shelter);
  const { riskiestHour } = entry.shelter;
  return [
    {
      code: key.code,
      severity: "note",
      atMs: riskiestHour.timeMs,
      value: known(value),
      limit: known(against),
      basis: `${key.basis}, against the berth ranked next to it`,
    },
    {
      code: "rank.from",
      severity: "note",
      atMs: riskiestHour.timeMs,
      value: makerOf(entry.shelter),
      limit: null,
      basis: "what makes the riskiest hour",
    },
  ];
}

/** What makes the riskiest hour of a berth. */
function makerOf({ hours, riskiestHour, reasons }: Shelter): RankedShelter["from"] {
  const i = hours.timeMs.indexOf(riskiestHour.timeMs);
  const windSea = hours.windSeaM[i] ?? null;
  const swell = hours.swellM[i] ?? null;
  if (windSea === null || swell === null || riskiestHour.comfort === "unknown") return "unknown";
  if (reasons.some((r) => r.code === "shelter.gust")) return "gusts";
  if (windSea + swell < 0.02) return "calm";
  return swell > windSea ? "swell" : "windSea";
}
