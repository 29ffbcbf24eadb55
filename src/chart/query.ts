import * as z from "zod/mini";
import type { Made } from "../core/given.js";
import type { Position } from "../core/schema.js";
import type { Metres } from "../core/units.js";
import {
  type BoxTree,
  type Found,
  forSegmentsNear,
  nearestOnSegments,
  pointInRings,
} from "../geo/boxtree.js";
import { positionOf } from "../geo/plane.js";
import { pointToArea, treeToArea, type PlaneArea } from "./area.js";
import { textOf } from "./attributes.js";
import type { Chart, ChartFeature, Primitive } from "./chart.js";
import { CLASS_OF, type ClassUse } from "./classes.js";

/** Schema of a {@link Chart}: what `readChart` gave. */
export const chartSchema = z.custom<Made<Chart>>(
  (value: unknown) =>
    typeof value === "object" &&
    value !== null &&
    "version" in value &&
    value.version === 1 &&
    "lonLat" in value &&
    value.lonLat instanceof Float64Array,
  "expected a chart as readChart gives it, not one that went through JSON",
);

/** Which chart object a finding rests on. */
export interface FeatureRef {
  /** Name of the feature: LNAM where the chart has one. */
  id: string;
  /** Class acronym. */
  acronym: string;
  /** Name of the class. */
  className: string;
  /** Whether it is a point, lines or an area. */
  primitive: Primitive;
  /** Name of the object; null where it has none. */
  objectName: string | null;
  /** Name of the cell; empty where none is given. */
  cell: string;
  /** Compilation scale of the cell as the number after 1:; null where not given. */
  scale: number | null;
  /** Date of the source as charted (year, year and month, or date); null where not given. */
  sourceDate: string | null;
  /** Place of the feature in `chart.features`. */
  index: number;
}

/** What a finding says of the feature it rests on. */
export function refOf(chart: Chart, index: number): FeatureRef {
  const { id, acronym, primitive, cell, attributes } = chart.features[index]!;
  const { name, scale } = chart.cells[cell]!;
  return {
    id,
    acronym,
    className: CLASS_OF.get(acronym)?.name ?? acronym,
    primitive,
    objectName: textOf(attributes["OBJNAM"]),
    cell: name,
    scale,
    sourceDate: textOf(attributes["SORDAT"]),
    index,
  };
}

/** Whether features of a class serve a use. */
export const serves = (feature: ChartFeature, use: ClassUse): boolean =>
  CLASS_OF.get(feature.acronym)?.uses.includes(use) === true;

/** Wanted features whose boxes come within a margin of an area's box, in the order of the chart. */
export function near(
  chart: Chart,
  { box }: PlaneArea,
  marginM: Metres,
  wanted: (feature: ChartFeature) => boolean,
): number[] {
  const found: number[] = [];
  const [x0, y0, x1, y1] = box;
  const m = marginM;
  forSegmentsNear(chart.boxes, x0 - m, y0 - m, x1 + m, y1 + m, (vertex) => {
    if (wanted(chart.features[vertex >>> 1]!)) found.push(vertex >>> 1);
  });
  return found.sort((a, b) => a - b);
}

/** Whether the box of a feature comes within a margin of an area's box. */
export function boxesMeet(
  { boxes: { xy } }: Chart,
  index: number,
  { box }: PlaneArea,
  marginM: Metres,
): boolean {
  const i = 4 * index;
  return (
    xy[i]! <= box[2] + marginM &&
    xy[i + 2]! >= box[0] - marginM &&
    xy[i + 1]! <= box[3] + marginM &&
    xy[i + 3]! >= box[1] - marginM
  );
}

/** Distance from a feature, or the ground it covers, to an area; Infinity beyond `limitM`. */
export function apart(chart: Chart, index: number, area: PlaneArea, limitM: Metres): number {
  const tree = chart.trees[index]!;
  const { primitive } = chart.features[index]!;
  if (primitive === "point") {
    let best = Infinity;
    for (let p = 0; p + 1 < tree.starts.length; p++) {
      const v = tree.starts[p]!;
      best = Math.min(best, pointToArea(area, tree.xy[2 * v]!, tree.xy[2 * v + 1]!));
    }
    return best <= limitM ? best : Infinity;
  }
  return treeToArea(area, tree, primitive === "area", limitM);
}

/** Position of a point found on a feature: that of the vertex for a point feature, else reckoned back from the plane. */
export const positionFound = (
  { features, lonLat, plane }: Chart,
  index: number,
  { vertex, x, y }: Found,
): Position =>
  features[index]!.primitive === "point"
    ? { latDeg: lonLat[2 * vertex + 1]!, lonDeg: lonLat[2 * vertex]! }
    : positionOf(plane, x, y);

/** Whether an area feature covers a point. */
export const covers = (chart: Chart, index: number, x: number, y: number): boolean =>
  chart.features[index]!.primitive === "area" && pointInRings(chart.trees[index]!, x, y);

/** A point of an area, to tell where it lies when no edge crosses it. */
export const somewhereIn = ({ ring, x, y }: PlaneArea): [number, number] =>
  ring === null ? [x, y] : [ring.xy[0]!, ring.xy[1]!];

/** Whether an area feature holds all of an area. */
export function holdsAll(chart: Chart, index: number, area: PlaneArea): boolean {
  const [x, y] = somewhereIn(area);
  if (!covers(chart, index, x, y)) return false;
  const tree = chart.trees[index]!;
  return area.ring === null
    ? !(nearestOnSegments(tree, x, y, area.radius) < area.radius)
    : treeToArea(area, tree, false, 0) > 0;
}

/** How far to either side of an edge to look for what lies there, m. */
const BESIDE_M = 0.05;
/** Distance between the places along an edge that are looked at, m, and their greatest number. */
const STEP_M = 0.5;
const MOST_STEPS = 400;

/**
 * Whether some edge of a tree has, within an area, a side on which `known` does not hold. Gaps
 * narrower than half a metre may be missed.
 */
export function endsWithin(
  edges: BoxTree,
  area: PlaneArea,
  known: (x: number, y: number) => boolean,
): boolean {
  let ends = false;
  const { xy } = edges;
  const [x0, y0, x1, y1] = area.box;
  forSegmentsNear(edges, x0, y0, x1, y1, (v, w) => {
    if (ends) return;
    const part = clip(xy, v, w, area.box);
    const ex = xy[2 * w]! - xy[2 * v]!;
    const ey = xy[2 * w + 1]! - xy[2 * v + 1]!;
    const length = Math.sqrt(ex * ex + ey * ey);
    if (part === null || !(length > 0)) return;
    const steps = Math.min(MOST_STEPS, Math.ceil((length * (part[1] - part[0])) / STEP_M) + 1);
    const [nx, ny] = [(-ey / length) * BESIDE_M, (ex / length) * BESIDE_M];
    for (let i = 0; i <= steps && !ends; i++) {
      const t = part[0] + ((part[1] - part[0]) * i) / steps;
      const x = xy[2 * v]! + t * ex;
      const y = xy[2 * v + 1]! + t * ey;
      if (pointToArea(area, x, y) <= 0) ends = !known(x + nx, y + ny) || !known(x - nx, y - ny);
    }
  });
  return ends;
}

/** The part of a segment within a box, from 0 at its first end to 1 at its second; null where none is. */
function clip(
  xy: Float64Array,
  v: number,
  w: number,
  box: readonly [number, number, number, number],
): [number, number] | null {
  let [t0, t1] = [0, 1];
  for (const axis of [0, 1]) {
    const a = xy[2 * v + axis]!;
    const e = xy[2 * w + axis]! - a;
    if (e === 0) continue;
    const p = (box[axis]! - a) / e;
    const q = (box[axis + 2]! - a) / e;
    t0 = Math.max(t0, Math.min(p, q));
    t1 = Math.min(t1, Math.max(p, q));
  }
  return t0 <= t1 ? [t0, t1] : null;
}
