/** Runs of neighbouring segments, each with its box. */
interface Leaves {
  /** First vertex of each run. */
  first: Int32Array;
  /** Last vertex of each run; the same as the first for a lone point. */
  last: Int32Array;
}

/** A complete tree of boxes over runs. */
export interface Boxes extends Leaves {
  /** Least east, least north, greatest east, greatest north of each node; node n at 4n. */
  boxes: Float64Array;
  /** Node of the first leaf; leaf i is node `leafAt + i`. An empty leaf has a last vertex of -1. */
  leafAt: number;
}

/** Cut paths into runs of at most `size` segments, evenly within each path. */
export function cutRuns(starts: Int32Array, size: number): Leaves {
  const first: number[] = [];
  const last: number[] = [];
  for (let p = 0; p + 1 < starts.length; p++) {
    const from = starts[p]!;
    const to = starts[p + 1]! - 1;
    if (to < from) continue;
    const runs = Math.max(1, Math.ceil((to - from) / size));
    for (let r = 0; r < runs; r++) {
      first.push(from + Math.floor((r * (to - from)) / runs));
      last.push(from + Math.floor(((r + 1) * (to - from)) / runs));
    }
  }
  return { first: Int32Array.from(first), last: Int32Array.from(last) };
}

/** Tree over runs: halved at the median of their middles, across the wider side, until one is left. */
export function spread(xy: Float64Array, runs: Leaves): Boxes {
  const count = runs.first.length;
  let leafAt = 1;
  while (leafAt < count) leafAt *= 2;
  const boxes = new Float64Array(8 * leafAt);
  for (let i = 0; i < boxes.length; i++) boxes[i] = (i & 2) === 0 ? Infinity : -Infinity;
  const own = runBoxes(xy, runs);
  const order = Int32Array.from({ length: count }, (_, i) => i);
  const first = new Int32Array(leafAt);
  const last = new Int32Array(leafAt).fill(-1);
  const place = (node: number, lo: number, hi: number): void => {
    if (node < leafAt) {
      const mid = (lo + hi + 1) >>> 1;
      if (mid < hi) select(order, own, lo, mid, hi);
      place(2 * node, lo, mid);
      place(2 * node + 1, mid, hi);
      join(boxes, node);
    } else if (lo < hi) {
      const run = order[lo]!;
      first[node - leafAt] = runs.first[run]!;
      last[node - leafAt] = runs.last[run]!;
      for (let k = 0; k < 4; k++) boxes[4 * node + k] = own[4 * run + k]!;
    }
  };
  place(1, 0, count);
  return { boxes, leafAt, first, last };
}

function runBoxes(xy: Float64Array, { first, last }: Leaves): Float64Array {
  const out = new Float64Array(4 * first.length);
  for (let r = 0; r < first.length; r++) {
    let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
    for (let v = first[r]!; v <= last[r]!; v++) {
      const x = xy[2 * v]!;
      const y = xy[2 * v + 1]!;
      if (x < x0) x0 = x;
      if (x > x1) x1 = x;
      if (y < y0) y0 = y;
      if (y > y1) y1 = y;
    }
    out[4 * r] = x0;
    out[4 * r + 1] = y0;
    out[4 * r + 2] = x1;
    out[4 * r + 3] = y1;
  }
  return out;
}

/** The box of a node from those of its children. */
function join(boxes: Float64Array, node: number): void {
  const [n, a, b] = [4 * node, 8 * node, 8 * node + 4];
  boxes[n] = Math.min(boxes[a]!, boxes[b]!);
  boxes[n + 1] = Math.min(boxes[a + 1]!, boxes[b + 1]!);
  boxes[n + 2] = Math.max(boxes[a + 2]!, boxes[b + 2]!);
  boxes[n + 3] = Math.max(boxes[a + 3]!, boxes[b + 3]!);
}

/** Twice the middle of run `r` on an axis: 0 east, 1 north. */
const middle = (own: Float64Array, r: number, axis: number): number =>
  own[4 * r + axis]! + own[4 * r + axis + 2]!;

/** Reorder `order[lo, hi)` so that what stands before `k` is not beyond what stands from `k` on (Hoare's selection). */
function select(order: Int32Array, own: Float64Array, lo: number, k: number, hi: number): void {
  const axis = widerAxis(order, own, lo, hi);
  let [left, right] = [lo, hi - 1];
  while (left < right) {
    const pivot = middle(own, order[(left + right) >>> 1]!, axis);
    let [i, j] = [left, right];
    while (i <= j) {
      while (middle(own, order[i]!, axis) < pivot) i++;
      while (middle(own, order[j]!, axis) > pivot) j--;
      if (i <= j) {
        const t = order[i]!;
        order[i] = order[j]!;
        order[j] = t;
        i++;
        j--;
      }
    }
    if (k <= j) right = j;
    else if (k >= i) left = i;
    else return;
  }
}

function widerAxis(order: Int32Array, own: Float64Array, lo: number, hi: number): number {
  const span = [0, 1].map((axis) => {
    let [least, most] = [Infinity, -Infinity];
    for (let i = lo; i < hi; i++) {
      const m = middle(own, order[i]!, axis);
      if (m < least) least = m;
      if (m > most) most = m;
    }
    return most - least;
  });
  return span[0]! >= span[1]! ? 0 : 1;
}

/** A polygon of several whose box meets that of another, so that the two may overlap. */
export interface Lap {
  /** Its first path. */
  from: number;
  /** The path after its last. */
  to: number;
  /** Least east, least north, greatest east, greatest north. */
  box: Float64Array;
}

/** Of polygons, each from its outer path to the next polygon's, those whose boxes meet. */
export function lapsOf(xy: Float64Array, starts: Int32Array, outer: readonly number[]): Lap[] {
  const end = (i: number) => outer[i + 1] ?? starts.length - 1;
  const own = runBoxes(xy, {
    first: Int32Array.from(outer, (p) => starts[p]!),
    last: Int32Array.from(outer, (_, i) => starts[end(i)]! - 1),
  });
  const byWest = outer.map((_, i) => i).sort((i, j) => own[4 * i]! - own[4 * j]!);
  const met = new Set<number>();
  for (const [k, i] of byWest.entries())
    for (let m = k + 1; m < byWest.length && own[4 * byWest[m]!]! <= own[4 * i + 2]!; m++) {
      const j = byWest[m]!;
      if (own[4 * i + 1]! <= own[4 * j + 3]! && own[4 * j + 1]! <= own[4 * i + 3]!)
        met.add(i).add(j);
    }
  return outer.flatMap((from, i) =>
    met.has(i) ? [{ from, to: end(i), box: own.slice(4 * i, 4 * i + 4) }] : [],
  );
}
