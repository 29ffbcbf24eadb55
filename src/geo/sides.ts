import { wrap180 } from "../core/angles.js";
import type { LonLat } from "./geojson.js";
import { type Plane, toPlane } from "./plane.js";

/** Longest segment that is laid on the plane without a look at how far its middle strays, m. */
const STRAIGHT_M = 400;
/** How far a straight line of the chart may stray from its picture on the plane, m. */
const STRAY_M = 0.02;

const at = new Float64Array(2);

/** How many pieces a segment wants so that none strays: a line straight in longitude and latitude bends on the plane. */
function piecesOf(plane: Plane, a: LonLat, b: LonLat, ax: number, ay: number): number {
  toPlane(plane, b[1]!, b[0]!, at, 0);
  const dx = at[0]! - ax;
  const dy = at[1]! - ay;
  if (dx * dx + dy * dy < STRAIGHT_M * STRAIGHT_M) return 1;
  const mx = ax + dx / 2;
  const my = ay + dy / 2;
  const lon = a[0]! + wrap180(b[0]! - a[0]!) / 2;
  toPlane(plane, (a[1]! + b[1]!) / 2, lon, at, 0);
  const stray = Math.sqrt((at[0]! - mx) * (at[0]! - mx) + (at[1]! - my) * (at[1]! - my));
  return Math.min(1000, Math.max(1, Math.ceil(Math.sqrt(stray / STRAY_M))));
}

/**
 * Visit the inner vertices that keep a side straight in longitude and latitude (RFC 7946, 3.1.1) on its picture, in
 * order from `a`, which lies at `ax, ay` of the plane; the same ones whichever way the side runs.
 */
export function eachBetween(
  plane: Plane,
  a: LonLat,
  b: LonLat,
  ax: number,
  ay: number,
  visit: (lonDeg: number, latDeg: number) => void,
): void {
  const pieces = piecesOf(plane, a, b, ax, ay);
  if (pieces === 1) return;
  const turned = a[0]! > b[0]! || (a[0] === b[0] && a[1]! > b[1]!);
  const [p, q] = turned ? [b, a] : [a, b];
  const dLon = wrap180(q[0]! - p[0]!);
  for (let i = 1; i < pieces; i++) {
    const part = (turned ? pieces - i : i) / pieces;
    visit(p[0]! + part * dLon, p[1]! + part * (q[1]! - p[1]!));
  }
}
