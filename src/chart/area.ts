import * as z from "zod/mini";
import { metres, position, type Position } from "../core/schema.js";
import {
  type BoxTree,
  buildBoxTree,
  forSegmentsNear,
  nearestOnSegments,
  pointInRings,
} from "../geo/boxtree.js";
import { type Plane, toPlane } from "../geo/plane.js";
import { segmentToSegment2 } from "../geo/polygon.js";

/** Greatest reach of a question, m. */
const REACH_M = 50_000;

/** Schema of an {@link Area}. */
export const areaSchema = z.union([
  z.strictObject({
    /** Middle of the circle. */
    centre: position,
    /** Radius of the circle. */
    radiusM: metres({ min: 0, max: REACH_M }),
  }),
  z.array(position).check(z.minLength(3), z.maxLength(10_000)),
]);

/** The water asked about: a circle, or the corners of a polygon in order (the last joins the first). */
export type Area = z.infer<typeof areaSchema>;

/** An {@link Area} laid on the plane of a chart. */
export interface PlaneArea {
  /** Middle: of the circle, or of the polygon's box. */
  x: number;
  y: number;
  /** Radius of the circle; 0 for a polygon. */
  radius: number;
  /** Edges of the polygon; null for a circle. */
  ring: BoxTree | null;
  /** Box that holds the area. */
  box: readonly [number, number, number, number];
}

const vertex = new Float64Array(2);

/** A position on the plane of a chart. */
export function onPlane(plane: Plane, { latDeg, lonDeg }: Position) {
  toPlane(plane, latDeg, lonDeg, vertex, 0);
  return { x: vertex[0]!, y: vertex[1]! };
}

/** An area on the plane of a chart, widened by a margin where it is a circle. */
export function layArea(plane: Plane, area: Area): PlaneArea {
  if (!Array.isArray(area)) {
    const { x, y } = onPlane(plane, area.centre);
    const r = area.radiusM;
    return { x, y, radius: r, ring: null, box: [x - r, y - r, x + r, y + r] };
  }
  const xy = new Float64Array(2 * area.length + 2);
  const box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i <= area.length; i++) {
    const { latDeg, lonDeg } = area[i % area.length]!;
    toPlane(plane, latDeg, lonDeg, xy, 2 * i);
    box[0] = Math.min(box[0], xy[2 * i]!);
    box[1] = Math.min(box[1], xy[2 * i + 1]!);
    box[2] = Math.max(box[2], xy[2 * i]!);
    box[3] = Math.max(box[3], xy[2 * i + 1]!);
  }
  const ring = buildBoxTree({
    xy,
    starts: Int32Array.of(0, area.length + 1),
  });
  return {
    x: (box[0] + box[2]) / 2,
    y: (box[1] + box[3]) / 2,
    radius: 0,
    ring,
    box,
  };
}

/** Distance from a point to an area, 0 inside. */
export function pointToArea(area: PlaneArea, x: number, y: number): number {
  if (area.ring === null) {
    const dx = x - area.x;
    const dy = y - area.y;
    return Math.max(0, Math.sqrt(dx * dx + dy * dy) - area.radius);
  }
  return pointInRings(area.ring, x, y) ? 0 : nearestOnSegments(area.ring, x, y);
}

/** First vertex of any path of a tree. */
const anyVertex = (tree: BoxTree): number => {
  for (let leaf = 0; leaf < tree.leafAt; leaf++)
    if (tree.last[leaf]! >= 0) return tree.first[leaf]!;
  return -1;
};

/**
 * Distance from a feature's edges, or, for an area feature, from the ground it covers, to an area;
 * 0 where they meet, Infinity beyond `limit`.
 */
export function treeToArea(
  area: PlaneArea,
  tree: BoxTree,
  filled: boolean,
  limit = Infinity,
): number {
  if (area.ring === null) {
    if (filled && pointInRings(tree, area.x, area.y)) return 0;
    const d = nearestOnSegments(tree, area.x, area.y, limit + area.radius);
    return d === Infinity ? d : Math.max(0, d - area.radius);
  }
  const [ring, v] = [area.ring, anyVertex(tree)];
  if (v < 0) return Infinity;
  if (pointInRings(ring, tree.xy[2 * v]!, tree.xy[2 * v + 1]!)) return 0;
  if (filled && pointInRings(tree, ring.xy[0]!, ring.xy[1]!)) return 0;
  return edgesApart(area, ring, tree, limit);
}

/** Last vertex of the run that holds vertex `v` as the start of a segment, or `v` for a lone point. */
const endOf = (tree: BoxTree, v: number): number => {
  const { starts } = tree;
  let [low, high] = [0, starts.length - 1];
  while (high - low > 1) {
    const mid = (low + high) >>> 1;
    if (starts[mid]! <= v) low = mid;
    else high = mid;
  }
  return v + 1 < starts[low + 1]! ? v + 1 : v;
};

/** Least distance between the edges of two trees, Infinity beyond `limit`. */
function edgesApart(area: PlaneArea, ring: BoxTree, tree: BoxTree, limit: number): number {
  const most = Math.min(limit * limit, Number.MAX_VALUE);
  let best = Infinity;
  const [x0, y0, x1, y1] = area.box;
  const a = tree.xy;
  const b = ring.xy;
  const reach = Math.min(limit, REACH_M);
  forSegmentsNear(tree, x0 - reach, y0 - reach, x1 + reach, y1 + reach, (v) => {
    const w = endOf(tree, v);
    for (let i = 0; i + 3 < b.length; i += 2) {
      const d2 = segmentToSegment2(
        a[2 * v]!,
        a[2 * v + 1]!,
        a[2 * w]!,
        a[2 * w + 1]!,
        b[i]!,
        b[i + 1]!,
        b[i + 2]!,
        b[i + 3]!,
      );
      if (d2 <= most && d2 < best) best = d2;
    }
  });
  return Math.sqrt(best);
}
