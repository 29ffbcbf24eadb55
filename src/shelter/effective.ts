import { RAD, wrap360 } from "../core/angles.js";
import type { FetchFan } from "./fan.js";

/** Bearings further apart than this say nothing of the water between them. */
export const WIDEST_GAP_DEG = 30;

/**
 * Open water at every whole degree, from the rays of a fan by straight lines between them. A ray that did not
 * end at a coast is taken to go on by `pastEdgeM`, at most to the limit.
 */
export function fetchByDegree(
  fan: Pick<FetchFan, "bearingsDeg" | "fetchM" | "ends" | "limitM" | "gaps">,
  pastEdgeM = Infinity,
): Float64Array {
  const taken = takenLengths(fan, pastEdgeM);
  return Float64Array.from({ length: 360 }, (_, deg) => fetchAlong(fan, taken, deg));
}

/** Length each ray is taken for. */
export const takenLengths = (
  { fetchM, ends, limitM }: Pick<FetchFan, "fetchM" | "ends" | "limitM">,
  pastEdgeM: number,
): Float64Array =>
  Float64Array.from(fetchM, (f, i) =>
    ends[i] === "coast" ? f : Math.max(f, Math.min(f + pastEdgeM, limitM)),
  );

/** Open water on any bearing, by straight lines between the rays beside it. */
export function fetchAlong(
  { bearingsDeg, limitM, gaps }: Pick<FetchFan, "bearingsDeg" | "limitM" | "gaps">,
  taken: Float64Array,
  deg: number,
): number {
  const bearing = wrap360(deg);
  const count = bearingsDeg.length;
  let after = 0;
  while (after < count && bearingsDeg[after]! <= bearing) after++;
  const i = (after + count - 1) % count;
  const j = after % count;
  const from = wrap360(bearing - bearingsDeg[i]!);
  if (from === 0) return taken[i]!;
  const gap = wrap360(bearingsDeg[j]! - bearingsDeg[i]!) || 360;
  if (gap > WIDEST_GAP_DEG) return gaps === "land" ? 0 : limitM;
  return taken[i]! + (from / gap) * (taken[j]! - taken[i]!);
}

/** Fetch over the wind as a growth law takes it, for each whole degree of wind direction. */
export interface FetchTable {
  /** Fetch to use, m. */
  fetchM: Float64Array;
  /** How far the waves come from off the wind, degrees clockwise. */
  turnDeg: Float64Array;
}

/** Half of the running mean of the restricted fetch: 15 values in all. */
const HALF_MEAN = 7;

/**
 * Restricted fetch: waves come from where a wind of this direction raises them best, |φ| ≤ 90° off the wind,
 * by the greatest F^0.28 cos^0.44 φ over the running mean of the fetch.
 *
 * @source ACES Technical Reference (1992) 1-1, eq. 26, after Donelan and Smith
 */
export function restrictedTable(byDegree: Float64Array): FetchTable {
  const mean = new Float64Array(360);
  const weight = new Float64Array(360);
  for (let d = 0; d < 360; d++) {
    let sum = 0;
    for (let k = -HALF_MEAN; k <= HALF_MEAN; k++) sum += byDegree[(d + k + 360) % 360]!;
    mean[d] = sum / (2 * HALF_MEAN + 1);
    weight[d] = mean[d]! > 0 ? Math.exp(0.28 * Math.log(mean[d]!)) : 0;
  }
  const offWind = Float64Array.from({ length: 90 }, (_, a) =>
    Math.exp(0.44 * Math.log(Math.cos(a * RAD))),
  );
  const fetchM = new Float64Array(360);
  const turnDeg = new Float64Array(360);
  for (let d = 0; d < 360; d++) {
    const phi = bestTurn(weight, offWind, d);
    turnDeg[d] = phi;
    fetchM[d] = mean[(d + phi + 360) % 360]!;
  }
  return { fetchM, turnDeg };
}

/** Turn off the wind with the greatest product; of equals the least turn, the clockwise one first. */
function bestTurn(weight: Float64Array, offWind: Float64Array, d: number): number {
  let best = weight[d]!;
  let phi = 0;
  for (let a = 1; a < 90; a++) {
    const c = offWind[a]!;
    const right = c * weight[(d + a) % 360]!;
    const left = c * weight[(d - a + 360) % 360]!;
    if (right > best) [best, phi] = [right, a];
    if (left > best) [best, phi] = [left, -a];
  }
  return phi;
}

/** Straight fetch: waves straight down the wind. */
export const straightTable = (byDegree: Float64Array): FetchTable => ({
  fetchM: byDegree,
  turnDeg: new Float64Array(360),
});

/** Mean of radials about the wind, each weighted by a power of its cosine over the sum of cosines to a power. */
export function radialMean(
  along: (deg: number) => number,
  windFromDeg: number,
  { halfDeg, stepDeg, over, under }: RadialRule,
): number {
  let sum = 0;
  let weights = 0;
  for (let a = -halfDeg; a <= halfDeg; a += stepDeg) {
    const c = Math.cos(a * RAD);
    const f = along(windFromDeg + a);
    sum += f * (over === 0 ? 1 : over === 1 ? c : c * c);
    weights += under === 0 ? 1 : c;
  }
  return sum / weights;
}

/** A rule for effective fetch over radials. */
export interface RadialRule {
  halfDeg: number;
  stepDeg: number;
  /** Power of the cosine in the numerator. */
  over: 0 | 1 | 2;
  /** Power of the cosine in the denominator. */
  under: 0 | 1;
}

/** Saville 1954, Shore Protection Manual 1973–77: 15 radials at 6°, component along the wind times the cosine. */
export const SAVILLE: RadialRule = {
  halfDeg: 42,
  stepDeg: 6,
  over: 2,
  under: 1,
};
/** Cosine mean of the same radials: a uniform circle gives its radius. */
export const COSINE_MEAN: RadialRule = {
  halfDeg: 42,
  stepDeg: 6,
  over: 1,
  under: 1,
};
/** Shore Protection Manual 1984: plain mean of nine radials at 3° (from memory). */
export const ARC_MEAN: RadialRule = {
  halfDeg: 12,
  stepDeg: 3,
  over: 0,
  under: 0,
};
