import { RAD, turnDeg } from "../core/angles.js";
import { circleAround } from "../geo/circle.js";
import { convexHull } from "../geo/hull.js";
import type { LieColumns } from "./kernel.js";
import { EITHER_WAY_DEG, TURN_STEP_DEG } from "./tables.js";
import type { Hull } from "./vessel.js";

/** Points fixed to a hull: ahead of the bow roller and to starboard, m, in turn. */
export type Body = readonly number[];

/** The corners of the rectangle about a hull. */
export const cornersOf = (h: Hull): Body => [
  h.aheadM,
  h.halfBeamM,
  h.aheadM,
  -h.halfBeamM,
  -h.asternM,
  -h.halfBeamM,
  -h.asternM,
  h.halfBeamM,
];

/** Everywhere a body may come, as points about the anchor, east and north. */
export interface Swept {
  /** Points whose convex hull, widened by `sagM`, holds all of it. */
  points: Float64Array;
  /** Greatest sag of a chord between two points, m. */
  sagM: number;
}

interface Brush extends Swept {
  /** Numbers in use of `points`. */
  used: number;
  body: Body;
  /** Greatest distance of the body from the roller. */
  farM: number;
}

/** How she lies at one moment; directions NaN where not known. */
interface Lie {
  reachM: number;
  pullDeg: number;
  headDeg: number;
  sheerDeg: number;
  yawDeg: number;
}

/** Points the body comes to at the moments and, where asked, on its way from each to the next. */
export function sweepBody(body: Body, lie: LieColumns, between: boolean): Swept {
  const brush = brushOf(body, lie.reachM.length);
  let last: Lie | undefined;
  for (let i = 0; i < lie.reachM.length; i++) {
    const sheerDeg = lie.sheerDeg?.[i] ?? 0;
    const now = {
      reachM: lie.reachM[i]!,
      pullDeg: lie.pullTowardsDeg[i]!,
      headDeg: lie.headingDeg[i]!,
      sheerDeg,
      yawDeg: lie.yawDeg?.[i] ?? sheerDeg,
    };
    if (between && last !== undefined) turnBetween(brush, last, now);
    rest(brush, now);
    last = now;
  }
  return { points: brush.points.subarray(0, brush.used), sagM: brush.sagM };
}

const brushOf = (body: Body, moments: number): Brush => ({
  points: new Float64Array(body.length * moments),
  used: 0,
  sagM: 0,
  body,
  farM: farthestFrom(body),
});

/** Add a point. */
function put(b: Brush, x: number, y: number): void {
  if (b.used === b.points.length) {
    const more = new Float64Array(2 * b.used + 64);
    more.set(b.points);
    b.points = more;
  }
  b.points[b.used++] = x;
  b.points[b.used++] = y;
}

/** The body at one lie, sheer and yaw and what is not known included. */
function rest(b: Brush, { reachM, pullDeg, headDeg, sheerDeg, yawDeg }: Lie) {
  if (!(pullDeg - pullDeg === 0)) {
    disc(b, 0, 0, reachM + b.farM);
    return;
  }
  if (sheerDeg === 0 && yawDeg === 0 && headDeg - headDeg === 0) {
    stamp(b, reachM, pullDeg, headDeg);
    return;
  }
  const across = stepsIn(b, 2 * sheerDeg, reachM);
  const turns = stepsIn(b, 2 * yawDeg, b.farM);
  for (let i = 0; i <= across; i++) {
    const pull = pullDeg + sheerDeg * part(i, across);
    if (headDeg - headDeg === 0)
      for (let j = 0; j <= turns; j++) stamp(b, reachM, pull, headDeg + yawDeg * part(j, turns));
    else discAtBow(b, reachM, pull);
  }
}

/** From -1 to 1 in steps; 0 where there is one place only. */
const part = (i: number, steps: number): number => (steps === 0 ? 0 : (2 * i) / steps - 1);

/** Steps in which a turn at a radius is followed; what the chords cut off is remembered. */
function stepsIn(b: Brush, turnDeg: number, radiusM: number): number {
  const steps = Math.ceil(Math.abs(turnDeg) / TURN_STEP_DEG);
  if (steps > 0) {
    const step = (turnDeg / steps) * RAD;
    b.sagM = Math.max(b.sagM, ((radiusM + b.farM) * step * step) / 8);
  }
  return steps;
}

/** The way from one lie to the next: the shorter way round at every reach between, or all round where either way is possible. */
function turnBetween(b: Brush, from: Lie, to: Lie): void {
  const most = Math.max(from.reachM, to.reachM);
  const least = Math.min(from.reachM, to.reachM);
  const pull = turnDeg(from.pullDeg, to.pullDeg);
  const head = turnDeg(from.headDeg, to.headDeg);
  if (!(Math.abs(pull) <= EITHER_WAY_DEG)) {
    disc(b, 0, 0, most + b.farM);
    return;
  }
  const turns = Math.abs(head) <= EITHER_WAY_DEG;
  const steps = Math.max(1, stepsIn(b, Math.max(Math.abs(pull), turns ? Math.abs(head) : 0), most));
  const sheerDeg = Math.max(from.sheerDeg, to.sheerDeg);
  const yawDeg = Math.max(from.yawDeg, to.yawDeg);
  for (let k = turns ? 1 : 0; k <= (turns ? steps - 1 : steps); k++) {
    const pullDeg = from.pullDeg + (pull * k) / steps;
    const headDeg = turns ? from.headDeg + (head * k) / steps : NaN;
    const lie = { pullDeg, headDeg, sheerDeg, yawDeg };
    rest(b, { ...lie, reachM: most });
    if (least < most) rest(b, { ...lie, reachM: least });
  }
}

/** The body at one place and heading. */
function stamp(b: Brush, reachM: number, pullDeg: number, headDeg: number) {
  const x = reachM * Math.sin(pullDeg * RAD);
  const y = reachM * Math.cos(pullDeg * RAD);
  const ux = Math.sin(headDeg * RAD);
  const uy = Math.cos(headDeg * RAD);
  for (let k = 0; k < b.body.length; k += 2) {
    const ahead = b.body[k]!;
    const starboard = b.body[k + 1]!;
    put(b, x + ahead * ux + starboard * uy, y + ahead * uy - starboard * ux);
  }
}

const discAtBow = (b: Brush, reachM: number, pullDeg: number): void => {
  disc(b, reachM * Math.sin(pullDeg * RAD), reachM * Math.cos(pullDeg * RAD), b.farM);
};

function disc(b: Brush, x: number, y: number, radius: number): void {
  const ring = circleAround(x, y, radius);
  for (let i = 0; i < ring.length; i += 2) put(b, ring[i]!, ring[i + 1]!);
}

/** Convex polygon that holds the convex hull of some points with a border of the given width. */
export function hullWithBorder(points: ArrayLike<number>, borderM: number): Float64Array {
  const hull = convexHull(points);
  if (!(borderM > 0)) return hull;
  const ring = circleAround(0, 0, borderM, 36);
  const wide = new Float64Array((hull.length * ring.length) / 2);
  let at = 0;
  for (let i = 0; i < hull.length; i += 2)
    for (let k = 0; k < ring.length; k += 2) {
      wide[at++] = hull[i]! + ring[k]!;
      wide[at++] = hull[i + 1]! + ring[k + 1]!;
    }
  return convexHull(wide);
}

/** Greatest distance from the origin of any vertex. */
export function farthestFrom(points: ArrayLike<number>): number {
  let far2 = 0;
  for (let i = 0; i < points.length; i += 2)
    far2 = Math.max(far2, points[i]! * points[i]! + points[i + 1]! * points[i + 1]!);
  return Math.sqrt(far2);
}

/** Greatest distance from the origin of a convex ring in each of `count` equal sectors, the first from north clockwise. */
export function sectorRadii(ring: ArrayLike<number>, count: number): Float64Array {
  const radii = new Float64Array(count);
  const width = 360 / count;
  const reach = (sector: number, r: number) => {
    const s = ((sector % count) + count) % count;
    if (r > radii[s]!) radii[s] = r;
  };
  const n = ring.length;
  for (let i = 0; i < n; i += 2) {
    const x = ring[i]!;
    const y = ring[i + 1]!;
    const deg = Math.atan2(x, y) / RAD;
    reach(Math.floor(deg / width), Math.sqrt(x * x + y * y));
    for (let k = 0; k < count; k++) {
      const t = crossing(x, y, ring[(i + 2) % n]!, ring[(i + 3) % n]!, k * width);
      reach(k, t);
      reach(k - 1, t);
    }
  }
  return radii;
}

/** How far along a bearing from the origin a segment is crossed; 0 where it is not. */
function crossing(ax: number, ay: number, bx: number, by: number, bearingDeg: number): number {
  const dx = Math.sin(bearingDeg * RAD);
  const dy = Math.cos(bearingDeg * RAD);
  const sa = dx * ay - dy * ax;
  const sb = dx * by - dy * bx;
  if (sa === sb || !(sa <= 0 ? sb >= 0 : sb <= 0)) return 0;
  const u = sa / (sa - sb);
  return (ax + u * (bx - ax)) * dx + (ay + u * (by - ay)) * dy;
}
