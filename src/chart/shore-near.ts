import { bearingOf } from "../core/angles.js";
import { check } from "../core/check.js";
import { position, type Position } from "../core/schema.js";
import type { Degrees, Metres } from "../core/units.js";
import { nearestOnSegments, nothingFound, pointInRings } from "../geo/boxtree.js";
import { positionOf } from "../geo/plane.js";
import { onPlane } from "./area.js";
import { lastAtOrBefore } from "../core/series.js";
import type { Chart, ChartFeature } from "./chart.js";
import { cellsAt } from "./ground.js";
import { chartSchema, near, refOf, type FeatureRef } from "./query.js";

/** Answer of {@link shoreNear}. */
export interface ShoreNear {
  /** Distance to the nearest charted shore; 0 on land, null where none is charted. */
  distanceM: Metres | null;
  /** No shore is nearer than this: the distance, or that to the edge of the chart where it is nearer; 0 outside the chart. */
  atLeastM: Metres;
  /** Bearing of the nearest shore; null where none is charted or on land. */
  bearingDeg: Degrees | null;
  /** Nearest point of the shore; null where none is charted. */
  position: Position | null;
  /** Whether the position is on charted land. */
  onLand: boolean;
  /** The feature: coastline, land or a structure of the shore; null where none is charted. */
  feature: FeatureRef | null;
}

const isLand = (f: ChartFeature): boolean => f.acronym === "LNDARE" && f.primitive === "area";

/** Land that holds a point; -1 where none does. */
function landAt(chart: Chart, x: number, y: number): number {
  const spot = { x, y, radius: 0, ring: null, box: [x, y, x, y] as const };
  return near(chart, spot, 0, isLand).find((i) => pointInRings(chart.trees[i]!, x, y)) ?? -1;
}

/**
 * How far off the nearest charted shore is.
 *
 * Shore is the nearest of coastline, land and shore structures that are not always under water; the
 * edges at which the chart or its areas are cut off are not shore. Where the edge of the chart is
 * nearer than the shore, only that far is known to be free of it (`atLeastM`).
 *
 * *Valid*: anywhere on the chart. *Accuracy*: 1e-4 of the distance at 150 km from the middle of the
 * chart, and the error of the chart itself.
 *
 * @throws InputError where the chart or the position is none.
 * @source IHO S-57 edition 3.1: COALNE, LNDARE, SLCONS with WATLEV
 * @example
 * ```ts
 * import { readChart, shoreNear } from "hawse/chart";
 * const coast = { type: "Feature", properties: {}, geometry: { type: "LineString", coordinates: [[-30, 39.9], [-30, 40.1]] } };
 * const chart = readChart({ COALNE: { type: "FeatureCollection", features: [coast] } }, { soundingDatum: 23 });
 * const { distanceM, bearingDeg } = shoreNear(chart, { latDeg: 40, lonDeg: -30.01 });
 * console.log(distanceM?.toFixed(1), bearingDeg?.toFixed(1));
 * // 853.9 90.0
 * ```
 */
export function shoreNear(chart: Chart, at: Position): ShoreNear {
  return shoreFrom(check(chartSchema, chart), check(position, at));
}

/** {@link shoreNear} of an input that is already checked. */
export function shoreFrom(chart: Chart, at: Position): ShoreNear {
  const { x, y } = onPlane(chart.plane, at);
  const land = landAt(chart, x, y);
  if (land >= 0)
    return {
      distanceM: 0,
      atLeastM: 0,
      bearingDeg: null,
      position: { ...at },
      onLand: true,
      feature: refOf(chart, land),
    };
  const out = nothingFound();
  const d = nearestOnSegments(chart.shore, x, y, Infinity, out);
  const edge = cellsAt(chart, x, y).size > 0 ? nearestOnSegments(chart.coverageEdges, x, y, d) : 0;
  const atLeastM = Math.min(d, edge);
  if (out.vertex < 0)
    return {
      distanceM: null,
      atLeastM: Number.isFinite(atLeastM) ? atLeastM : 0,
      bearingDeg: null,
      position: null,
      onLand: false,
      feature: null,
    };
  const path = lastAtOrBefore(chart.shore.starts, out.vertex);
  return {
    distanceM: d,
    atLeastM,
    bearingDeg: d > 0 ? bearingOf(out.x - x, out.y - y) : null,
    position: positionOf(chart.plane, out.x, out.y),
    onLand: false,
    feature: refOf(chart, chart.shoreFeature[path]!),
  };
}
