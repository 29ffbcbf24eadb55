import { RAD } from "../core/angles.js";
import type { Hull } from "./vessel.js";

/** How a vessel lies, moment by moment, in columns; a direction that is not known is NaN. */
export interface LieColumns {
  /** Horizontal distance from anchor to bow roller. */
  reachM: Float64Array;
  /** Direction from anchor to bow. */
  pullTowardsDeg: Float64Array;
  /** Where the bow points. */
  headingDeg: Float64Array;
  /** Sheer each side, if any. */
  sheerDeg?: Float64Array;
  /** Yaw each side, if any; as the sheer where it is left out. */
  yawDeg?: Float64Array;
}

/**
 * Room taken moment by moment: a rectangle about its middle, and a margin all round it for what is
 * not known to the metre. Where a direction is not known the rectangle shrinks to a point and the
 * margin holds all that might be.
 */
export interface Room {
  /** Number of moments. */
  count: number;
  /** East of the middle of the hull, m. */
  x: Float64Array;
  /** North of the middle of the hull, m. */
  y: Float64Array;
  /** East part of the heading. */
  ux: Float64Array;
  /** North part of the heading. */
  uy: Float64Array;
  /** Half the length of the rectangle, m. */
  halfLengthM: Float64Array;
  /** Half its breadth, m. */
  halfBeamM: Float64Array;
  /** Margin all round, m. */
  marginM: Float64Array;
  /** Radius about the middle that holds the rectangle and its margin, m. */
  aroundM: Float64Array;
}

/** Columns of a room to be filled. */
export const emptyRoom = (count: number): Room => ({
  count,
  x: new Float64Array(count),
  y: new Float64Array(count),
  ux: new Float64Array(count),
  uy: new Float64Array(count),
  halfLengthM: new Float64Array(count),
  halfBeamM: new Float64Array(count),
  marginM: new Float64Array(count),
  aroundM: new Float64Array(count),
});

/**
 * Fill a room from an anchor on a plane, a hull and how she lies. Sheer and yaw go into the margin
 * as the farthest any part moves: the chord of the arc of the bow, and of the stern about the bow.
 */
export function fillRoom(
  room: Room,
  anchorX: number,
  anchorY: number,
  anchorErrorM: number,
  hull: Hull,
  lie: LieColumns,
): void {
  const half = (hull.aheadM + hull.asternM) / 2;
  const corner = Math.sqrt(half * half + hull.halfBeamM * hull.halfBeamM);
  const aft = (hull.asternM - hull.aheadM) / 2;
  for (let i = 0; i < room.count; i++) {
    const reach = lie.reachM[i]!;
    const pull = lie.pullTowardsDeg[i]! * RAD;
    const head = lie.headingDeg[i]! * RAD;
    const knowsPull = pull === pull;
    const knows = knowsPull && head === head;
    const ux = knows ? Math.sin(head) : 0;
    const uy = knows ? Math.cos(head) : 1;
    const back = knows ? aft : 0;
    const out = knowsPull ? reach : 0;
    room.x[i] = anchorX + out * (knowsPull ? Math.sin(pull) : 0) - back * ux;
    room.y[i] = anchorY + out * (knowsPull ? Math.cos(pull) : 0) - back * uy;
    room.ux[i] = ux;
    room.uy[i] = uy;
    room.halfLengthM[i] = knows ? half : 0;
    room.halfBeamM[i] = knows ? hull.halfBeamM : 0;
    const sheer = (lie.sheerDeg?.[i] ?? 0) * RAD;
    const yaw = lie.yawDeg === undefined ? sheer : lie.yawDeg[i]! * RAD;
    const margin =
      anchorErrorM +
      (knowsPull ? chord(reach, sheer) : reach) +
      (knows ? chord(hull.farthestM, yaw) : hull.farthestM);
    room.marginM[i] = margin;
    room.aroundM[i] = margin + (knows ? corner : 0);
  }
}

const chord = (radius: number, angle: number): number =>
  angle === 0 ? 0 : 2 * radius * Math.sin(Math.min(angle, Math.PI) / 2);

/** Gap between two rooms at one moment each; 0 where they meet, NaN where a figure is missing. */
export function gapAt(a: Room, i: number, b: Room, j: number): number {
  const gap =
    rectangleGap(
      b.x[j]! - a.x[i]!,
      b.y[j]! - a.y[i]!,
      a.ux[i]!,
      a.uy[i]!,
      a.halfLengthM[i]!,
      a.halfBeamM[i]!,
      b.ux[j]!,
      b.uy[j]!,
      b.halfLengthM[j]!,
      b.halfBeamM[j]!,
    ) -
    a.marginM[i]! -
    b.marginM[j]!;
  return gap < 0 ? 0 : gap;
}

/**
 * Least gap between two rectangles: the second's middle lies at `(dx, dy)` from the first's, unit
 * vectors point along their lengths. Apart, the least distance starts or ends at a corner.
 */
export function rectangleGap(
  dx: number,
  dy: number,
  ux: number,
  uy: number,
  la: number,
  ba: number,
  vx: number,
  vy: number,
  lb: number,
  bb: number,
): number {
  // Turn between the two, and each middle as the other sees it: along, then to starboard.
  const c = ux * vx + uy * vy;
  const s = uy * vx - ux * vy;
  const ax = dx * ux + dy * uy;
  const ay = dx * uy - dy * ux;
  const bx = -(dx * vx + dy * vy);
  const by = -(dx * vy - dy * vx);
  const ac = Math.abs(c);
  const as = Math.abs(s);
  if (
    Math.abs(ax) <= la + lb * ac + bb * as &&
    Math.abs(ay) <= ba + lb * as + bb * ac &&
    Math.abs(bx) <= lb + la * ac + ba * as &&
    Math.abs(by) <= bb + la * as + ba * ac
  )
    return 0;
  return Math.sqrt(
    Math.min(cornersTo(ax, ay, c, s, lb, bb, la, ba), cornersTo(bx, by, c, -s, la, ba, lb, bb)),
  );
}

/** Square of the least distance from the corners of a rectangle at (x, y), turned by (c, s), to one along the axes. */
function cornersTo(
  x: number,
  y: number,
  c: number,
  s: number,
  l: number,
  b: number,
  toL: number,
  toB: number,
): number {
  const lx = l * c;
  const ly = l * s;
  const bx = -b * s;
  const by = b * c;
  return Math.min(
    outside2(x + lx + bx, y + ly + by, toL, toB),
    outside2(x + lx - bx, y + ly - by, toL, toB),
    outside2(x - lx + bx, y - ly + by, toL, toB),
    outside2(x - lx - bx, y - ly - by, toL, toB),
  );
}

function outside2(x: number, y: number, l: number, b: number): number {
  const gx = Math.max(Math.abs(x) - l, 0);
  const gy = Math.max(Math.abs(y) - b, 0);
  return gx * gx + gy * gy;
}

/** The least of some gaps. */
export interface LeastGap {
  /** Least gap, m; Infinity where nothing was compared. */
  gapM: number;
  /** Moment of it, -1 where nothing was compared. */
  i: number;
}

/** A {@link LeastGap} to be filled. */
export const noGap = (): LeastGap => ({ gapM: Infinity, i: -1 });

/** Least gap between two vessels at the same moments (the same place in the columns). A missing figure gives NaN. */
export function leastGapSameTime(a: Room, b: Room, out: LeastGap): void {
  out.gapM = Infinity;
  out.i = -1;
  for (let i = 0; i < a.count && i < b.count; i++) keep(a, b, i, out);
}

/** Keep the gap of one moment if it is the least so far, or not a number. */
function keep(a: Room, b: Room, i: number, out: LeastGap): void {
  const dx = b.x[i]! - a.x[i]!;
  const dy = b.y[i]! - a.y[i]!;
  // As far apart as this the circles round the two leave more than the least so far.
  const apart = out.gapM + a.aroundM[i]! + b.aroundM[i]!;
  const d2 = dx * dx + dy * dy;
  if (d2 >= apart * apart || out.gapM !== out.gapM) return;
  // Neither do the two as they stand along the line between their middles; where those coincide there is no such line.
  const least = (out.gapM + a.marginM[i]! + b.marginM[i]!) * Math.sqrt(d2);
  if (d2 - along(a, i, dx, dy) - along(b, i, dx, dy) > least) return;
  const gap = gapAt(a, i, b, i);
  if (gap >= out.gapM) return;
  out.gapM = gap;
  out.i = i;
}

/** How far a hull reaches from its middle along a vector, times the vector's length. */
const along = (r: Room, i: number, dx: number, dy: number): number =>
  r.halfLengthM[i]! * Math.abs(dx * r.ux[i]! + dy * r.uy[i]!) +
  r.halfBeamM[i]! * Math.abs(dx * r.uy[i]! - dy * r.ux[i]!);
