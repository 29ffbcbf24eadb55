import type { Geometry, LonLat } from "../geo/geojson.js";
import type { Chart } from "./chart.js";

/** Box on the plane: west, south, east, north, m. */
export type Box = readonly [number, number, number, number];

/** Vertices above which a shape is cut to the box it is wanted in. */
const WHOLE_UP_TO = 400;

type Vertex = [x: number, y: number, lonDeg: number, latDeg: number];

const vertexAt = ({ lonLat, trees }: Chart, index: number, v: number): Vertex => {
  const { xy } = trees[index]!;
  return [xy[2 * v]!, xy[2 * v + 1]!, lonLat[2 * v]!, lonLat[2 * v + 1]!];
};

/** A ring cut to one side of a line across an axis (Sutherland and Hodgman). */
function cutSide(ring: readonly Vertex[], axis: 0 | 1, limit: number, sign: 1 | -1): Vertex[] {
  const out: Vertex[] = [];
  for (const [i, b] of ring.entries()) {
    const a = ring[(i + ring.length - 1) % ring.length]!;
    const da = sign * (a[axis] - limit);
    const db = sign * (b[axis] - limit);
    if (da < 0 !== db < 0) {
      const t = da / (da - db);
      out.push(a.map((p, k) => p + t * (b[k]! - p)) as Vertex);
    }
    if (db >= 0) out.push(b);
  }
  return out;
}

/** A ring cut to a box. */
function cutRing(ring: readonly Vertex[], [x0, y0, x1, y1]: Box): Vertex[] {
  return cutSide(cutSide(cutSide(cutSide(ring, 0, x0, 1), 0, x1, -1), 1, y0, 1), 1, y1, -1);
}

/** Runs of a line whose segments come near a box; they may reach beyond it. */
function cutLine(line: readonly Vertex[], [x0, y0, x1, y1]: Box): Vertex[][] {
  const runs: Vertex[][] = [];
  let open = false;
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1]!, line[i]!];
    const meets =
      Math.min(a[0], b[0]) <= x1 &&
      Math.max(a[0], b[0]) >= x0 &&
      Math.min(a[1], b[1]) <= y1 &&
      Math.max(a[1], b[1]) >= y0;
    if (meets && !open) runs.push([a]);
    if (meets) runs.at(-1)!.push(b);
    open = meets;
  }
  return runs;
}

const positions = (path: readonly Vertex[]): LonLat[] => path.map((v) => [v[2], v[3]]);

/** Paths of a feature as vertices. */
function pathsOf(chart: Chart, index: number): Vertex[][] {
  const { starts } = chart.trees[index]!;
  return Array.from({ length: starts.length - 1 }, (_, p) =>
    Array.from({ length: starts[p + 1]! - starts[p]! }, (__, k) =>
      vertexAt(chart, index, starts[p]! + k),
    ),
  );
}

/**
 * Shape of a feature as GeoJSON; a large one cut to a box, so that its sides along the box are not
 * its own. The rings of an area stand in one polygon and go by the even-odd rule, but for polygons that may overlap.
 */
export function drawingOf(chart: Chart, index: number, box: Box): Geometry {
  const { primitive } = chart.features[index]!;
  const { starts, laps = [] } = chart.trees[index]!;
  const cut = starts.at(-1)! - starts[0]! > WHOLE_UP_TO;
  const paths = pathsOf(chart, index);
  if (primitive === "point")
    return {
      type: "MultiPoint",
      coordinates: paths.map((p) => positions(p)[0]!),
    };
  if (primitive === "line")
    return {
      type: "MultiLineString",
      coordinates: (cut ? paths.flatMap((p) => cutLine(p, box)) : paths).map(positions),
    };
  const rings = (own: Vertex[][]): LonLat[][] =>
    (cut
      ? own
          .map((p) => cutRing(p.slice(0, -1), box))
          .filter((r) => r.length > 2)
          .map((r) => [...r, r[0]!])
      : own
    ).map(positions);
  if (laps.length === 0) return { type: "Polygon", coordinates: rings(paths) };
  const apart = paths.filter((_, p) => !laps.some((l) => p >= l.from && p < l.to));
  const areas = [apart, ...laps.map((l) => paths.slice(l.from, l.to))].map(rings);
  return { type: "MultiPolygon", coordinates: areas.filter((a) => a.length > 0) };
}
