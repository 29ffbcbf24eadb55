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
  const { edges, narrow } = fan;
  vertex.fill(-1);
  for (let p = 0; p + 1 < starts.length; p++) {
    const end = starts[p + 1]!;
    let v = starts[p]!;
    let ax = xy[2 * v]! - x;
    let ay = xy[2 * v + 1]! - y;
    let a = sectorOf(fan, ax, ay);
    for (v++; v < end; v++) {
      const bx = xy[2 * v]! - x;
      const by = xy[2 * v + 1]! - y;
      const e = 4 * a;
      const stays =
        narrow &&
        edges[e]! * by - edges[e + 1]! * bx > 0 &&
        bx * edges[e + 3]! - by * edges[e + 2]! > 0;
      if (!stays) {
        const b = sectorOf(fan, bx, by);
        if (a !== b) {
          meetBetween(fan, a, b, ax, ay, bx, by, dirs, distance, vertex, v - 1);
          a = b;
        }
      }
      ax = bx;
      ay = by;
    }
  }
}

/** Rays in order of angle, with a coarse table into them. */
interface Sectors {
  /** Ray numbers in order of angle. */
  order: Int32Array;
  /** Angle measure of each ray in that order, ascending. */
  measure: Float64Array;
  /** For each bin of the measure, how many rays lie below the bin. */
  below: Int32Array;
  /** For each sector the directions of the rays on both sides of it, clockwise one first. */
  edges: Float64Array;
  /** Whether every sector is narrower than half a turn. */
  narrow: boolean;
}

/** Bins of the table; more than rays, so that a bin seldom holds two. */
const BINS = 2048;

/** Measure that grows with the angle anticlockwise from east, in [0, 4). */
function diamond(x: number, y: number): number {
  const s = Math.abs(x) + Math.abs(y);
  const t = s > 0 ? y / s : 0;
  return x >= 0 ? (y >= 0 ? t : 4 + t) : 2 - t;
}

function sectorsOf(dirs: Float64Array): Sectors {
  const count = dirs.length / 2;
  const own = (i: number): number => diamond(dirs[2 * i]!, dirs[2 * i + 1]!);
  const order = Int32Array.from({ length: count }, (_, i) => i).sort((i, j) => own(i) - own(j));
  const measure = Float64Array.from(order, own);
  const below = new Int32Array(BINS + 1);
  let n = 0;
  for (let bin = 0; bin <= BINS; bin++) {
    while (n < count && measure[n]! < (4 * bin) / BINS) n++;
    below[bin] = n;
  }
  const edges = new Float64Array(4 * (count + 1));
  let widest = 0;
  for (let s = 0; s <= count; s++) {
    const [low, high] = [(s + count - 1) % count, s % count];
    edges.set(dirs.subarray(2 * order[low]!, 2 * order[low]! + 2), 4 * s);
    edges.set(dirs.subarray(2 * order[high]!, 2 * order[high]! + 2), 4 * s + 2);
    const width = measure[high]! - measure[low]!;
    widest = Math.max(widest, width > 0 ? width : width + 4);
  }
  return { order, measure, below, edges, narrow: widest < 2 };
}

/** How many rays lie at or below the angle of a point. */
function sectorOf(fan: Sectors, x: number, y: number): number {
  const d = diamond(x, y);
  let n = fan.below[(d * (BINS / 4)) | 0]!;
  while (n < fan.measure.length && fan.measure[n]! <= d) n++;
  return n;
}

/** Meet the rays between two sectors, the short way round as a segment seen from a point goes. */
function meetBetween(
  fan: Sectors,
  a: number,
  b: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  dirs: Float64Array,
  distance: Float64Array,
  vertex: Int32Array,
  at: number,
): void {
  const count = fan.order.length;
  const cross = ax * by - ay * bx;
  const from = cross >= 0 ? a : b;
  const to = cross >= 0 ? b : a;
  const steps = to >= from ? to - from : to - from + count;
  for (let k = 0; k < steps; k++) {
    const ray = fan.order[(from + k) % count]!;
    const dx = dirs[2 * ray]!;
    const dy = dirs[2 * ray + 1]!;
    const d = cross / (dx * (by - ay) - dy * (bx - ax));
    if (d >= 0 && d < distance[ray]!) {
      distance[ray] = d;
      vertex[ray] = at;
    }
  }
}
