import {
  type BoxTree,
  type Found,
  forSegmentsNear,
  nearestOnSegments,
  nothingFound,
  pointInRings,
} from "./boxtree.js";
import { type Flat, pointInRing, pointToRing, segmentToSegment2 } from "./polygon.js";

/**
 * Least distance between a filled ring and the edges of a tree, or the ground the tree's rings
 * cover; 0 where they meet, Infinity where nothing lies within `limit`, NaN for a ring that is not
 * one. The point of the tree that is nearest goes into `out`.
 */
export function ringToTree(
  ring: Flat,
  tree: BoxTree,
  covered: boolean,
  limit = Infinity,
  out: Found = nothingFound(),
): number {
  let best = limit;
  const own = nothingFound();
  out.vertex = -1;
  for (let i = 0; i < ring.length; i += 2) {
    const x = ring[i]!;
    const y = ring[i + 1]!;
    if (!(x - x === 0 && y - y === 0)) return NaN;
    if (covered && pointInRings(tree, x, y)) return here(out, x, y);
    const d = nearestOnSegments(tree, x, y, best, own);
    if (d > best) continue;
    best = d;
    Object.assign(out, own);
  }
  if (ring.length === 0) return NaN;
  return Math.sqrt(edges(ring, tree, best, out));
}

const here = (out: Found, x: number, y: number): number => {
  out.x = x;
  out.y = y;
  return 0;
};

/** Square of the least distance from a filled ring to the edges of a tree not beyond `limit`, `out` holding the best so far. */
function edges(ring: Flat, tree: BoxTree, limit: number, out: Found): number {
  let best = Math.min(limit * limit, Number.MAX_VALUE);
  const [x0, y0, x1, y1] = boxOf(ring);
  const { xy } = tree;
  const see = (v: number, w: number): void => {
    const ax = xy[2 * v]!;
    const ay = xy[2 * v + 1]!;
    const bx = xy[2 * w]!;
    const by = xy[2 * w + 1]!;
    const d2 = segmentToRing2(ring, ax, ay, bx, by);
    // The same distance found again from the other side is not nearer for being rounded otherwise.
    if (!(d2 < best * (1 - 1e-12) || (d2 <= best && out.vertex < 0))) return;
    best = d2;
    out.vertex = v;
    touch(ring, ax, ay, bx, by, d2, out);
  };
  forSegmentsNear(tree, x0 - limit, y0 - limit, x1 + limit, y1 + limit, see);
  return out.vertex < 0 ? Infinity : best;
}

/** Square of the least distance from a segment to a filled ring. */
function segmentToRing2(ring: Flat, ax: number, ay: number, bx: number, by: number): number {
  const n = ring.length;
  let d2 = pointInRing(ring, ax, ay) ? 0 : Infinity;
  for (let i = 0; i < n && d2 > 0; i += 2)
    d2 = Math.min(
      d2,
      segmentToSegment2(
        ax,
        ay,
        bx,
        by,
        ring[i]!,
        ring[i + 1]!,
        ring[(i + 2) % n]!,
        ring[(i + 3) % n]!,
      ),
    );
  return d2;
}

/** Where a segment is nearest to a ring, given the square of that distance and that no corner of the ring is nearer to it. */
function touch(
  ring: Flat,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  d2: number,
  out: Found,
): void {
  const n = ring.length;
  const enough = Math.sqrt(d2) * (1 + 1e-12);
  out.x = ax;
  out.y = ay;
  if (pointInRing(ring, ax, ay) || pointToRing(ring, ax, ay) <= enough) return;
  out.x = bx;
  out.y = by;
  if (d2 > 0 || pointInRing(ring, bx, by)) return;
  for (let i = 0; i < n; i += 2) {
    const px = ring[i]!;
    const py = ring[i + 1]!;
    const ex = ring[(i + 2) % n]! - px;
    const ey = ring[(i + 3) % n]! - py;
    const sa = ex * (ay - py) - ey * (ax - px);
    const sb = ex * (by - py) - ey * (bx - px);
    const u = sa / (sa - sb);
    const x = ax + u * (bx - ax);
    const y = ay + u * (by - ay);
    const t = ((x - px) * ex + (y - py) * ey) / (ex * ex + ey * ey);
    if (u >= 0 && u <= 1 && t >= 0 && t <= 1) {
      out.x = x;
      out.y = y;
      return;
    }
  }
}

/** Box of a ring: least east, least north, greatest east, greatest north. */
export function boxOf(ring: Flat): [number, number, number, number] {
  const box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < ring.length; i += 2) {
    box[0] = Math.min(box[0], ring[i]!);
    box[1] = Math.min(box[1], ring[i + 1]!);
    box[2] = Math.max(box[2], ring[i]!);
    box[3] = Math.max(box[3], ring[i + 1]!);
  }
  return box;
}
