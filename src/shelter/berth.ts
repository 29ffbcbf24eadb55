import { RAD, wrap360 } from "../core/angles.js";
import { fetchByDegree, type FetchTable, restrictedTable, straightTable } from "./effective.js";
import type { FetchFan } from "./fan.js";
import { type Blow, grow, type Growth } from "./growth.js";

/** Definition of fetch over a whole stay. */
export type StayFetch = "restricted" | "straight";

/** A berth made ready for the sea of any wind: everything that does not change from hour to hour. */
export interface Berth {
  method: "acesRestricted" | "acesOpen";
  /** Fetch to use and turn of the waves off the wind, for each whole degree of wind. */
  table: FetchTable;
  /** Cosine of that turn. */
  cosine: Float64Array;
  /** Mean depth along the fetch; Infinity for deep. */
  depthM: number;
}

/** Berth from its fan. */
export function prepareBerth(
  fan: FetchFan,
  fetchMethod: StayFetch,
  depthM: number,
  pastEdgeM?: number,
): Berth {
  const byDegree = fetchByDegree(fan, pastEdgeM);
  const restricted = fetchMethod === "restricted";
  const table = restricted ? restrictedTable(byDegree) : straightTable(byDegree);
  return {
    method: restricted ? "acesRestricted" : "acesOpen",
    table,
    cosine: table.turnDeg.map((turn) => Math.cos(turn * RAD)),
    depthM,
  };
}

/** A {@link Blow} to be filled. */
export const noBlow = (): Blow => ({
  windMps: NaN,
  cosine: 1,
  fetchM: 0,
  depthM: Infinity,
  durationS: Infinity,
});

/** A {@link Growth} to be filled. */
export const noGrowth = (): Growth => ({
  hm0M: NaN,
  periodS: NaN,
  minDurationS: NaN,
});

/** Whole degree of a direction; NaN for none. */
export const wholeDegree = (deg: number): number => Math.round(wrap360(deg)) % 360;

/** Sea of a wind at a berth, into `out`; its direction is the wind's turned by the table. */
export function seaAt(
  berth: Berth,
  windMps: number,
  degree: number,
  durationS: number,
  blow: Blow,
  out: Growth,
): void {
  blow.windMps = windMps;
  blow.cosine = berth.cosine[degree]!;
  blow.fetchM = berth.table.fetchM[degree]!;
  blow.depthM = berth.depthM;
  blow.durationS = durationS;
  grow(berth.method, blow, out);
}
