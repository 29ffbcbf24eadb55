import { type Flat, pointToRing } from "./polygon.js";

/**
 * Convex hull, anticlockwise from the westernmost vertex, not closed (Andrew's monotone chain).
 * Points on an edge are dropped, so rounding may leave one outside by some 1e-15 of the
 * coordinates. Of many points those well inside are thrown out first.
 *
 * @source A. M. Andrew, Information Processing Letters 9 (1979) 216–219; S. G. Akl and G. T. Toussaint, Information Processing Letters 7 (1978) 219–222 (throwing out)
 */
export function convexHull(xy: Flat): Float64Array {
  return chain(xy.length > 2 * MANY ? outerPoints(xy) : xy);
}

/** Points from which the throwing out pays. */
const MANY = 400;
/** Points among which the farthest are looked for. */
const SAMPLE = 8000;
/** Directions in which the farthest point is looked for. */
const BINS = 256;

function chain(xy: Flat): Float64Array {
  const n = xy.length / 2;
  const order = Uint32Array.from({ length: n }, (_, i) => i).sort(
    (i, j) => xy[2 * i]! - xy[2 * j]! || xy[2 * i + 1]! - xy[2 * j + 1]!,
  );
  const hull = new Float64Array(4 * n + 4);
  let top = 0;
  const add = (i: number, floor: number): void => {
    const x = xy[2 * i]!;
    const y = xy[2 * i + 1]!;
    if (top > 0 && hull[top - 2] === x && hull[top - 1] === y) return;
    while (top >= floor + 4 && !isLeft(hull, top - 4, top - 2, x, y)) top -= 2;
    hull[top++] = x;
    hull[top++] = y;
  };
  for (const i of order) add(i, 0);
  const upper = top - 2;
  for (let k = n - 2; k >= 0; k--) add(order[k]!, upper);
  // The first vertex has come round again; a lone point needs no second copy.
  return hull.slice(0, Math.max(Math.min(2, 2 * n), top - 2));
}

/** Whether a point lies strictly left of the line from the vertex at `i` to that at `j`. */
function isLeft(xy: Flat, i: number, j: number, x: number, y: number): boolean {
  const ax = xy[i]!;
  const ay = xy[i + 1]!;
  return (xy[j]! - ax) * (y - ay) - (xy[j + 1]! - ay) * (x - ax) > 0;
}

/** A number in [0, 4) that grows anticlockwise with the direction of a vector. */
function quarterTurns(dx: number, dy: number): number {
  const sum = Math.abs(dx) + Math.abs(dy);
  if (!(sum > 0)) return 0;
  if (dy >= 0) return dx >= 0 ? dy / sum : 1 - dx / sum;
  return dx < 0 ? 2 - dy / sum : Math.min(3 + dx / sum, 4 - 1e-15);
}

/** The points not strictly inside the hull of the farthest ones: every vertex of the hull is among them. */
function outerPoints(xy: Flat): Float64Array {
  const inner = chain(farthest(xy));
  const m = inner.length / 2;
  if (m < 3) return Float64Array.from(xy);
  let cx = 0;
  let cy = 0;
  for (let i = 0; i < m; i++) {
    cx += inner[2 * i]! / m;
    cy += inner[2 * i + 1]! / m;
  }
  const { turns, first } = around(inner, cx, cy);
  const within = pointToRing(inner, cx, cy);
  const within2 = within * within * (1 - 1e-9);
  const kept: number[] = [];
  for (let i = 0; i < xy.length; i += 2) {
    const x = xy[i]!;
    const y = xy[i + 1]!;
    if ((x - cx) * (x - cx) + (y - cy) * (y - cy) < within2) continue;
    const t = quarterTurns(x - cx, y - cy);
    let lo = 0;
    let hi = m;
    while (lo < hi) {
      const mid = (lo + hi) >>> 1;
      if (turns[mid]! <= t) lo = mid + 1;
      else hi = mid;
    }
    const from = (first + lo + m - 1) % m;
    if (!isLeft(inner, 2 * from, 2 * ((from + 1) % m), x, y)) kept.push(x, y);
  }
  return Float64Array.from(kept);
}

/** Directions of the vertices of a convex ring from a point inside, ascending from vertex `first`. */
function around(ring: Flat, cx: number, cy: number): { turns: Float64Array; first: number } {
  const m = ring.length / 2;
  const own = Float64Array.from({ length: m }, (_, i) =>
    quarterTurns(ring[2 * i]! - cx, ring[2 * i + 1]! - cy),
  );
  let first = 0;
  for (let i = 1; i < m; i++) if (own[i]! < own[first]!) first = i;
  return {
    turns: Float64Array.from({ length: m }, (_, i) => own[(first + i) % m]!),
    first,
  };
}

/** The farthest point from the middle in each of many directions, of a part of the points where they are very many. */
function farthest(xy: Flat): Float64Array {
  // An odd step, so that it does not keep to the same corner of outlines that come one after another.
  const stride = 2 * (Math.ceil(xy.length / 2 / SAMPLE) | 1);
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < xy.length; i += stride) {
    const x = xy[i]!;
    const y = xy[i + 1]!;
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    if (y > y1) y1 = y;
  }
  const cx = (x0 + x1) / 2;
  const cy = (y0 + y1) / 2;
  const far = new Float64Array(BINS).fill(-1);
  const at = new Int32Array(BINS);
  for (let i = 0; i < xy.length; i += stride) {
    const dx = xy[i]! - cx;
    const dy = xy[i + 1]! - cy;
    const bin = Math.floor(quarterTurns(dx, dy) * (BINS / 4));
    const d = dx * dx + dy * dy;
    if (d > far[bin]!) {
      far[bin] = d;
      at[bin] = i;
    }
  }
  const out: number[] = [];
  for (let b = 0; b < BINS; b++) if (far[b]! >= 0) out.push(xy[at[b]!]!, xy[at[b]! + 1]!);
  return Float64Array.from(out);
}
