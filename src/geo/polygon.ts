/**
 * Shapes on a plane. A ring is flat coordinates east, north, east, north …; whether its first
 * vertex is repeated at the end does not matter here.
 */
export type Flat = ArrayLike<number>;

/** Area of a ring, m²; positive when it runs anticlockwise. */
export function ringArea(ring: Flat): number {
  const n = ring.length;
  if (n < 6) return 0;
  // About the first vertex, so that a ring far from the origin loses no digits.
  const x0 = ring[0]!;
  const y0 = ring[1]!;
  let twice = 0;
  for (let i = 2; i + 3 < n; i += 2)
    twice += (ring[i]! - x0) * (ring[i + 3]! - y0) - (ring[i + 2]! - x0) * (ring[i + 1]! - y0);
  return twice / 2;
}

/** Whether a line due east from a point crosses an edge, its lower end counted in and its upper end out. */
export const crossesEast = (
  x: number,
  y: number,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
): boolean => y0 > y !== y1 > y && x < x0 + ((y - y0) / (y1 - y0)) * (x1 - x0);

/** Whether a point lies in a ring, by the even-odd rule; on the very edge it may fall either way. */
export function pointInRing(ring: Flat, x: number, y: number): boolean {
  const n = ring.length;
  let inside = false;
  let x0 = ring[n - 2]!;
  let y0 = ring[n - 1]!;
  for (let i = 0; i < n; i += 2) {
    const x1 = ring[i]!;
    const y1 = ring[i + 1]!;
    if (crossesEast(x, y, x0, y0, x1, y1)) inside = !inside;
    x0 = x1;
    y0 = y1;
  }
  return inside;
}

/** Whether a line due east from a point crosses the segments from vertex `a` to `b` an odd number of times. */
export function crossedOddly(
  xy: Float64Array,
  a: number,
  b: number,
  x: number,
  y: number,
): boolean {
  let odd = false;
  let x0 = xy[2 * a]!;
  let y0 = xy[2 * a + 1]!;
  for (let v = a + 1; v <= b; v++) {
    const x1 = xy[2 * v]!;
    const y1 = xy[2 * v + 1]!;
    if (crossesEast(x, y, x0, y0, x1, y1)) odd = !odd;
    x0 = x1;
    y0 = y1;
  }
  return odd;
}

/** Whether a point lies inside the rings from one path to before another, by the even-odd rule. */
export function insidePaths(
  { xy, starts }: { xy: Float64Array; starts: Int32Array },
  from: number,
  to: number,
  x: number,
  y: number,
): boolean {
  let odd = false;
  for (let p = from; p < to; p++)
    if (crossedOddly(xy, starts[p]!, starts[p + 1]! - 1, x, y)) odd = !odd;
  return odd;
}

/** Square of the distance from a point to a segment. */
export function pointToSegment2(
  x: number,
  y: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
): number {
  const ex = bx - ax;
  const ey = by - ay;
  const e2 = ex * ex + ey * ey;
  let u = e2 > 0 ? ((x - ax) * ex + (y - ay) * ey) / e2 : 0;
  u = u < 0 ? 0 : u > 1 ? 1 : u;
  const px = x - ax - u * ex;
  const py = y - ay - u * ey;
  return px * px + py * py;
}

/** Square of the least distance between segments a–b and c–d; 0 where they cross or touch. */
export function segmentToSegment2(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): number {
  const side = (px: number, py: number) => (bx - ax) * (py - ay) - (by - ay) * (px - ax);
  const other = (px: number, py: number) => (dx - cx) * (py - cy) - (dy - cy) * (px - cx);
  if (side(cx, cy) * side(dx, dy) < 0 && other(ax, ay) * other(bx, by) < 0) return 0;
  return Math.min(
    pointToSegment2(ax, ay, cx, cy, dx, dy),
    pointToSegment2(bx, by, cx, cy, dx, dy),
    pointToSegment2(cx, cy, ax, ay, bx, by),
    pointToSegment2(dx, dy, ax, ay, bx, by),
  );
}

/** Distance from a point to the edge of a ring; NaN for an empty ring or a point that is not one. */
export function pointToRing(ring: Flat, x: number, y: number): number {
  const n = ring.length;
  let best = Infinity;
  let ax = ring[n - 2]!;
  let ay = ring[n - 1]!;
  for (let i = 0; i < n; i += 2) {
    const bx = ring[i]!;
    const by = ring[i + 1]!;
    const d = pointToSegment2(x, y, ax, ay, bx, by);
    if (!(d >= best)) best = d;
    ax = bx;
    ay = by;
  }
  return n > 0 ? Math.sqrt(best) : NaN;
}

/** Least distance between two filled rings; 0 where they overlap or touch, NaN where one is empty. */
export function ringToRing(a: Flat, b: Flat): number {
  if (a.length === 0 || b.length === 0) return NaN;
  if (pointInRing(a, b[0]!, b[1]!) || pointInRing(b, a[0]!, a[1]!)) return 0;
  let best = Infinity;
  let ax = a[a.length - 2]!;
  let ay = a[a.length - 1]!;
  for (let i = 0; i < a.length; i += 2) {
    let cx = b[b.length - 2]!;
    let cy = b[b.length - 1]!;
    for (let j = 0; j < b.length; j += 2) {
      const d = segmentToSegment2(ax, ay, a[i]!, a[i + 1]!, cx, cy, b[j]!, b[j + 1]!);
      if (!(d >= best)) best = d;
      cx = b[j]!;
      cy = b[j + 1]!;
    }
    ax = a[i]!;
    ay = a[i + 1]!;
  }
  return Math.sqrt(best);
}

/** Whether a disc meets a filled ring; true also for figures that are missing. */
export function discMeetsRing(ring: Flat, x: number, y: number, radius: number): boolean {
  return pointInRing(ring, x, y) || !(pointToRing(ring, x, y) > radius);
}
