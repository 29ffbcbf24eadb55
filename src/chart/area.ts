import * as z from "zod/mini";
import { metres, position, type Position } from "../core/schema.js";
import { type BoxTree, buildBoxTree, nearestOnSegments, pointInRings } from "../geo/boxtree.js";
import { ringToTree } from "../geo/clearance.js";
import { type Plane, toPlane } from "../geo/plane.js";

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
  return ringToTree(area.ring.xy, tree, filled, limit);
}
