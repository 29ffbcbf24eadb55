import type { Paths } from "../geo/boxtree.js";

/**
 * First segment met by each of many rays from one point, without an index: one pass over the
 * vertices, each given the sector between two rays that it lies in. Only a segment whose ends lie
 * in different sectors can meet a ray. A vertex that stays in the sector of the one before is told by two products. Directions need not be ordered or of equal step.
 *
 * @param dirs east and north part of each ray in turn, unit vectors.
 * @param distance distance to the hit of each ray; its value on entry is the greatest looked at.
 * @param vertex vertex at which the segment hit starts; -1 for none.
 */
export function castAll(
  { xy, starts }: Paths,
  x: number,
  y: number,
  dirs: Float64Array,
  distance: Float64Array,
  vertex: Int32Array,
): void {
  const fan = sectorsOf(dirs);
  const { edges } = fan;
  vertex.fill(-1);
  for (let p = 1; p < starts.length; p++) {
    const end = starts[p]!;
    let v = starts[p - 1]!;
    let ax = xy[2 * v]! - x;
    let ay = xy[2 * v + 1]! - y;
    let a = sectorOf(fan, ax, ay);
    for (v++; v < end; v++) {
      const bx = xy[2 * v]! - x;
      const by = xy[2 * v + 1]! - y;
      const e = 2 * a;
      const stays =
        edges[e]! * by - edges[e + 1]! * bx > 0 && bx * edges[e + 3]! - by * edges[e + 2]! > 0;
      if (!stays) {
        const b = sectorOf(fan, bx, by);
        meetBetween(fan, a, b, ax, ay, bx, by, distance, vertex, v - 1);
        a = b;
      }
      ax = bx;
      ay = by;
    }
  }
}

/** Rays in order of angle, with four more along the axes: no sector is wider than a quarter turn. */
interface Sectors {
  /** East and north part of each ray, those along the axes last. */
  dirs: Float64Array;
  /** Ray numbers in order of angle. */
  order: Int32Array;
  /** Angle measure of each ray in that order, ascending. */
  measure: Float64Array;
  /** Directions in that order, the last before the first and the first after the last: sector s lies between entries s and s + 1. */
  edges: Float64Array;
}

const AXES = [1, 0, 0, 1, -1, 0, 0, -1];

/** Measure that grows with the angle anticlockwise from south, from -1 to 3. */
function diamond(x: number, y: number): number {
  const t = y / (Math.abs(x) + Math.abs(y));
  return x >= 0 ? t : 2 - t;
}

function sectorsOf(rays: Float64Array): Sectors {
  const dirs = Float64Array.of(...rays, ...AXES);
  const count = dirs.length / 2;
  const own = Float64Array.from({ length: count }, (_, i) =>
    diamond(dirs[2 * i]!, dirs[2 * i + 1]!),
  );
  // An array sorts bearings that are in order already in one pass.
  const order = Int32Array.from([...own.keys()].sort((i, j) => own[i]! - own[j]!));
  const edges = new Float64Array(2 * count + 4);
  [order[count - 1]!, ...order, order[0]!].forEach((ray, s) => {
    edges.set(dirs.subarray(2 * ray, 2 * ray + 2), 2 * s);
  });
  return { dirs, order, measure: own.sort(), edges };
}

/** How many rays lie at or below the angle of a point. */
function sectorOf({ measure }: Sectors, x: number, y: number): number {
  const d = diamond(x, y);
  let low = 0;
  let high = measure.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (measure[middle]! <= d) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Part of either of its products below which the sign of a cross product is one of rounding. */
const ROUNDING = 1e-14;

/**
 * Meet the rays between two sectors, the short way round as a segment seen from a point goes. Of one seen end on
 * neither that way nor the place is told by its cross product: the fewest rays meet it, between its ends.
 */
function meetBetween(
  { dirs, order }: Sectors,
  a: number,
  b: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  distance: Float64Array,
  vertex: Int32Array,
  at: number,
): void {
  const count = order.length;
  const cross = ax * by - ay * bx;
  const ahead = (b - a + count) % count;
  const endOn = Math.abs(cross) <= ROUNDING * Math.abs(ax * by);
  const left = endOn ? 2 * ahead < count : cross > 0;
  const from = left ? a : b;
  const steps = left ? ahead : (a - b + count) % count;
  for (let k = 0; k < steps; k++) {
    const ray = order[(from + k) % count]!;
    if (ray >= distance.length) continue;
    const dx = dirs[2 * ray]!;
    const dy = dirs[2 * ray + 1]!;
    const pa = ax * dx + ay * dy;
    const pb = bx * dx + by * dy;
    const met = cross / (dx * (by - ay) - dy * (bx - ax));
    const d = Math.max(0, Math.min(Math.max(met, Math.min(pa, pb)), Math.max(pa, pb)));
    if (d < distance[ray]!) {
      distance[ray] = d;
      vertex[ray] = at;
    }
  }
}
