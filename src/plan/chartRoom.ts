import { RAD } from "../core/angles.js";
import { onPlane } from "../chart/area.js";
import type { Chart } from "../chart/chart.js";
import type { Position } from "../core/schema.js";
import { nearestOnSegments, pointInRings, rayHit, type BoxTree } from "../geo/boxtree.js";
import { northAt } from "../geo/plane.js";

/** The shore or a danger of a chart as seen from an anchor. */
export interface Charted {
  tree: BoxTree;
  /** What it is: an area counts inside as well, and beyond a line or an area she cannot lie. */
  form: "point" | "line" | "area";
  /** The anchor on the plane of the chart, and how its own plane is turned there. */
  x: number;
  y: number;
  cos: number;
  sin: number;
}

const seenFrom = (
  { plane }: Chart,
  anchor: Position,
  tree: BoxTree,
  form: Charted["form"],
): Charted => {
  const turn = northAt(plane, anchor.latDeg, anchor.lonDeg) * RAD;
  return { tree, form, ...onPlane(plane, anchor), cos: Math.cos(turn), sin: Math.sin(turn) };
};

/** The charted shore as seen from an anchor. */
export const shoreSeen = (chart: Chart, anchor: Position): Charted =>
  seenFrom(chart, anchor, chart.shore, "line");

/** A charted feature as seen from an anchor. */
export const featureSeen = (chart: Chart, anchor: Position, index: number): Charted =>
  seenFrom(chart, anchor, chart.trees[index]!, chart.features[index]!.primitive);

/**
 * Distance of a point, in metres east and north of the anchor, from what is charted: 0 on the ground of an area, and
 * where the straight way from the anchor comes across it.
 */
export function distanceTo(c: Charted, east: number, north: number): number {
  const x = c.x + east * c.cos + north * c.sin;
  const y = c.y + north * c.cos - east * c.sin;
  if (Number.isNaN(x + y)) return NaN;
  if (c.form === "point") return nearestOnSegments(c.tree, x, y);
  if (c.form === "area" && pointInRings(c.tree, x, y)) return 0;
  const [dx, dy] = [x - c.x, y - c.y];
  const off = Math.sqrt(dx * dx + dy * dy);
  if (off > 0 && rayHit(c.tree, c.x, c.y, dx / off, dy / off, off) <= off) return 0;
  return nearestOnSegments(c.tree, x, y);
}
