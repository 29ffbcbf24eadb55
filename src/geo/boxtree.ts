import { type Boxes, cutRuns, type Lap, lapsOf, spread } from "./boxes.js";
import { crossedOddly, insidePaths } from "./polygon.js";

/**
 * Lines and rings on a plane. A path is the vertices from `starts[i]` to `starts[i + 1]`; its
 * segments join neighbours, a ring repeats its first vertex, a single vertex is a point.
 */
export interface Paths {
  /** East and north of each vertex in turn, m. */
  xy: Float64Array;
  /** First vertex of each path, and the number of vertices at the end. */
  starts: Int32Array;
  /** Where the paths are polygons one after another: the outer ring of each, its holes after it. */
  outer?: readonly number[];
}

/** Boxes over runs of neighbouring segments: a complete tree, root at 1, children of n at 2n and 2n + 1. */
export interface BoxTree extends Paths, Boxes {
  /** Polygons that may overlap; left out where none do. */
  laps?: readonly Lap[];
}

/** Where a search ended. */
export interface Found {
  /** Vertex at which the segment found starts, -1 where nothing was found. */
  vertex: number;
  /** East of the point found, m. */
  x: number;
  /** North of the point found, m. */
  y: number;
}

/** A {@link Found} to be filled. */
export const nothingFound = (): Found => ({ vertex: -1, x: 0, y: 0 });

/** Segments to a run: the leaves of the tree. */
const RUN = 16;

/** Tree over paths, whose coordinates must be finite. */
export function buildBoxTree({ xy, starts, outer = [] }: Paths): BoxTree {
  const laps = lapsOf(xy, starts, outer);
  return { xy, starts, ...spread(xy, cutRuns(starts, RUN)), ...(laps.length > 0 && { laps }) };
}

/**
 * Distance from a point to the nearest segment, or Infinity when none lies within `limit`; NaN
 * for a point that is not one. The point found goes into `out`.
 */
export function nearestOnSegments(
  tree: BoxTree,
  x: number,
  y: number,
  limit = Infinity,
  out: Found = nothingFound(),
): number {
  if (!(x - x === 0 && y - y === 0)) return NaN;
  return Math.sqrt(search(tree, x, y, limit * limit, out));
}

/**
 * Distance along a ray to the first segment it meets or touches, or Infinity when there is none
 * within `limit`; NaN for a ray that is not one. `dx, dy` is a unit vector.
 */
export function rayHit(
  tree: BoxTree,
  x: number,
  y: number,
  dx: number,
  dy: number,
  limit = Infinity,
  out: Found = nothingFound(),
): number {
  if (!(x - x === 0 && y - y === 0 && dx - dx === 0 && dy - dy === 0)) return NaN;
  return searchRay(tree, x, y, dx, dy, limit, out);
}

/**
 * Nearest segment by depth-first search, nearer child first: the square of its distance. `pending` keeps one bit
 * a level for siblings still to be seen, so nothing is allocated.
 */
function search(tree: BoxTree, x: number, y: number, limit: number, out: Found): number {
  const { boxes, leafAt } = tree;
  let best = Math.min(limit, Number.MAX_VALUE);
  let node = 1;
  let pending = 0;
  out.vertex = -1;
  for (;;) {
    let d = toBox(boxes, node, x, y);
    while (d <= best && node < leafAt) {
      const l = toBox(boxes, 2 * node, x, y);
      const r = toBox(boxes, 2 * node + 1, x, y);
      const leftFirst = l <= r;
      node = 2 * node + (leftFirst ? 0 : 1);
      d = leftFirst ? l : r;
      pending = 2 * pending + ((leftFirst ? r : l) <= best ? 1 : 0);
    }
    if (d <= best) best = nearestInRun(tree, node - leafAt, x, y, best, out);
    while ((pending & 1) === 0) {
      if (pending === 0) return out.vertex < 0 ? Infinity : best;
      pending >>>= 1;
      node >>>= 1;
    }
    pending -= 1;
    node ^= 1;
  }
}

/** Square of the distance to a box. */
function toBox(boxes: Float64Array, node: number, x: number, y: number): number {
  const i = 4 * node;
  const x0 = boxes[i]! - x;
  const y0 = boxes[i + 1]! - y;
  const x1 = boxes[i + 2]! - x;
  const y1 = boxes[i + 3]! - y;
  const gx = x0 > 0 ? x0 : x1 < 0 ? -x1 : 0;
  const gy = y0 > 0 ? y0 : y1 < 0 ? -y1 : 0;
  return gx * gx + gy * gy;
}

/** Width of the rim round a box for rays, m: a hair wider, so that rounding loses no hit on it. */
const RIM_M = 1e-6;

/** How far along a ray a box is entered, as a function of the box; Infinity for a box the ray misses. */
function entries(
  boxes: Float64Array,
  x: number,
  y: number,
  dx: number,
  dy: number,
): (node: number) => number {
  // A slab across a ray that does not move along its axis: all of it or nothing.
  const ix = dx === 0 ? 1e300 : 1 / dx;
  const iy = dy === 0 ? 1e300 : 1 / dy;
  // Which sides of a box the ray enters by is the same for every box.
  const [inX, outX] = ix > 0 ? [0, 2] : [2, 0];
  const [inY, outY] = iy > 0 ? [1, 3] : [3, 1];
  const [rimX, rimY] = [RIM_M * Math.abs(ix), RIM_M * Math.abs(iy)];
  return (node) => {
    const i = 4 * node;
    const a = (boxes[i + inX]! - x) * ix - rimX;
    const b = (boxes[i + inY]! - y) * iy - rimY;
    const c = (boxes[i + outX]! - x) * ix + rimX;
    const e = (boxes[i + outY]! - y) * iy + rimY;
    const from = a > b ? a : b;
    const to = c < e ? c : e;
    return from <= to && to >= 0 ? (from > 0 ? from : 0) : Infinity;
  };
}

/** First segment along a ray, by the same search. */
function searchRay(
  tree: BoxTree,
  x: number,
  y: number,
  dx: number,
  dy: number,
  limit: number,
  out: Found,
): number {
  const { boxes, leafAt } = tree;
  const enter = entries(boxes, x, y, dx, dy);
  let best = Math.min(limit, Number.MAX_VALUE);
  let node = 1;
  let pending = 0;
  out.vertex = -1;
  for (;;) {
    let d = enter(node);
    while (d <= best && node < leafAt) {
      const l = enter(2 * node);
      const r = enter(2 * node + 1);
      const leftFirst = l <= r;
      node = 2 * node + (leftFirst ? 0 : 1);
      d = leftFirst ? l : r;
      pending = 2 * pending + ((leftFirst ? r : l) <= best ? 1 : 0);
    }
    if (d <= best) best = hitRun(tree, node - leafAt, x, y, dx, dy, best, out);
    while ((pending & 1) === 0) {
      if (pending === 0) return out.vertex < 0 ? Infinity : best;
      pending >>>= 1;
      node >>>= 1;
    }
    pending -= 1;
    node ^= 1;
  }
}

/** Square of the distance to the nearest segment of a run, or `best`. */
function nearestInRun(
  { xy, first, last }: BoxTree,
  run: number,
  x: number,
  y: number,
  best: number,
  out: Found,
): number {
  const end = last[run]!;
  let v = first[run]!;
  let ax = xy[2 * v]!;
  let ay = xy[2 * v + 1]!;
  do {
    const n = v < end ? v + 1 : v;
    const bx = xy[2 * n]!;
    const by = xy[2 * n + 1]!;
    const ex = bx - ax;
    const ey = by - ay;
    const e2 = ex * ex + ey * ey;
    const px = x - ax;
    const py = y - ay;
    const dot = px * ex + py * ey;
    const cross = px * ey - py * ex;
    // The line is no nearer than this, so neither is the segment.
    if (cross * cross <= best * e2 * (1 + 1e-12)) {
      const u = dot > 0 ? (dot < e2 ? dot / e2 : 1) : 0;
      const d2 = (px - u * ex) ** 2 + (py - u * ey) ** 2;
      if (d2 < best || (d2 === best && out.vertex < 0)) {
        best = d2;
        out.vertex = v;
        out.x = ax + u * ex;
        out.y = ay + u * ey;
      }
    }
    ax = bx;
    ay = by;
    v++;
  } while (v < end);
  return best;
}

/** Distance along the ray to the first segment of a run that it meets, or `best`. */
function hitRun(
  { xy, first, last }: BoxTree,
  run: number,
  x: number,
  y: number,
  dx: number,
  dy: number,
  best: number,
  out: Found,
): number {
  const end = last[run]!;
  let v = first[run]!;
  let ax = xy[2 * v]! - x;
  let ay = xy[2 * v + 1]! - y;
  // Sides of the ray: neighbours share the value at their vertex, so no ray slips between them.
  let sa = dx * ay - dy * ax;
  do {
    const n = v < end ? v + 1 : v;
    const bx = xy[2 * n]! - x;
    const by = xy[2 * n + 1]! - y;
    const sb = dx * by - dy * bx;
    if (sa <= 0 ? sb >= 0 : sb <= 0) {
      const t = along(ax * dx + ay * dy, bx * dx + by * dy, sa, sb);
      if (t >= 0 && (t < best || (t === best && out.vertex < 0))) {
        best = t;
        out.vertex = v;
        out.x = x + t * dx;
        out.y = y + t * dy;
      }
    }
    ax = bx;
    ay = by;
    sa = sb;
    v++;
  } while (v < end);
  return best;
}

/** How far along the ray a segment crosses it, from the ends' places along and beside it. */
function along(ta: number, tb: number, sa: number, sb: number): number {
  if (sa !== sb) return ta + (tb - ta) * (sa / (sa - sb));
  if (ta < 0 === tb < 0) return ta < tb ? ta : tb;
  return 0;
}

/** The next node in depth-first order when node `n` and all below it are done with; 0 at the end. */
function after(node: number): number {
  while ((node & 1) === 1) node >>>= 1;
  return node === 0 ? 0 : node + 1;
}

/**
 * Whether a point lies inside rings by the even-odd rule: inside a ring and not in one of its holes;
 * in what polygons share it lies inside too. Every path of the tree must be a closed ring. Points on the very
 * edge may fall either way: where that matters, ask for the distance too.
 */
export function pointInRings(tree: BoxTree, x: number, y: number): boolean {
  if (oddlyInside(tree, x, y)) return true;
  return tree.laps?.some((lap) => inLap(tree, lap, x, y)) === true;
}

const inLap = (tree: BoxTree, { from, to, box }: Lap, x: number, y: number): boolean =>
  x >= box[0]! && y >= box[1]! && x <= box[2]! && y <= box[3]! && insidePaths(tree, from, to, x, y);

/** Whether a point lies inside all the rings of a tree taken together by the even-odd rule. */
function oddlyInside(tree: BoxTree, x: number, y: number): boolean {
  const { boxes, leafAt, xy, first, last } = tree;
  let inside = false;
  let node = 1;
  while (node !== 0) {
    const i = 4 * node;
    if (!(boxes[i + 1]! <= y && boxes[i + 3]! > y && boxes[i + 2]! > x)) node = after(node);
    else if (node < leafAt) node *= 2;
    else {
      const a = first[node - leafAt]!;
      const b = last[node - leafAt]!;
      // Of a run wholly to the east only the ends count.
      if (boxes[i]! > x) {
        if (xy[2 * a + 1]! > y !== xy[2 * b + 1]! > y) inside = !inside;
      } else if (crossedOddly(xy, a, b, x, y)) inside = !inside;
      node = after(node);
    }
  }
  return inside;
}

/** Call `visit` with both vertices of every segment whose own box meets the given box; they are the same for a lone point. */
export function forSegmentsNear(
  tree: BoxTree,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  visit: (vertex: number, next: number) => void,
): void {
  const { boxes, leafAt, xy, first, last } = tree;
  let node = 1;
  while (node !== 0) {
    const i = 4 * node;
    const meets =
      boxes[i]! <= x1 && boxes[i + 2]! >= x0 && boxes[i + 1]! <= y1 && boxes[i + 3]! >= y0;
    if (meets && node < leafAt) {
      node *= 2;
      continue;
    }
    const end = last[node - leafAt]!;
    for (let v = first[node - leafAt]!; meets && v <= end; v++) {
      // A run ends in a vertex that starts nothing, unless that vertex is all there is.
      const n = v < end ? v + 1 : v === first[node - leafAt] ? v : -1;
      if (n >= 0 && boxMeets(xy, v, n, x0, y0, x1, y1)) visit(v, n);
    }
    node = after(node);
  }
}

/** Whether the box of the segment between two vertices meets a box. */
const boxMeets = (
  xy: Float64Array,
  v: number,
  n: number,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
): boolean =>
  Math.min(xy[2 * v]!, xy[2 * n]!) <= x1 &&
  Math.max(xy[2 * v]!, xy[2 * n]!) >= x0 &&
  Math.min(xy[2 * v + 1]!, xy[2 * n + 1]!) <= y1 &&
  Math.max(xy[2 * v + 1]!, xy[2 * n + 1]!) >= y0;
