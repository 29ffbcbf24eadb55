import type { Position } from "../core/schema.js";
import { wrap180 } from "../core/angles.js";
import { eachPath, type Geometry, type LonLat } from "../geo/geojson.js";
import { type Plane, toPlane } from "../geo/plane.js";
import { eachBetween } from "../geo/sides.js";
import type { Primitive } from "./chart.js";

/** Vertices and paths being put together. */
export interface Draft {
  plane: Plane;
  lonLat: number[];
  xy: number[];
  starts: number[];
  /** Outer rings among the paths. */
  outer: number[];
}

/** An empty draft on a plane. */
export const newDraft = (plane: Plane): Draft => ({
  plane,
  lonLat: [],
  xy: [],
  starts: [0],
  outer: [],
});

/** What a geometry is drawn with; null where it holds something else, or coordinates that are none. */
export function primitiveOf(geometry: Geometry): Primitive | null {
  const kinds = new Set<Primitive | null>();
  try {
    eachPath(geometry, (path, coordinates) => {
      const own = path === "ring" ? "area" : path;
      kinds.add(coordinates.length >= LEAST[own] && allLonLat(coordinates) ? own : null);
    });
  } catch {
    return null;
  }
  const [kind] = kinds;
  return kinds.size === 1 ? kind! : null;
}

/** Fewest vertices of a path. */
const LEAST: Readonly<Record<Primitive, number>> = {
  point: 1,
  line: 2,
  area: 3,
};

/** Whether every entry is a longitude and a latitude; unlike `every`, a hole in the list is none. */
function allLonLat(coordinates: readonly LonLat[]): boolean {
  for (const [lon, lat] of coordinates as readonly (readonly unknown[])[])
    if (!(isWithin(lon, 360) && isWithin(lat, 90))) return false;
  return true;
}

const isWithin = (value: unknown, most: number): boolean =>
  typeof value === "number" && Math.abs(value) <= most;

const at = new Float64Array(2);

function push(draft: Draft, lonDeg: number, latDeg: number): void {
  toPlane(draft.plane, latDeg, lonDeg, at, 0);
  draft.lonLat.push(lonDeg, latDeg);
  draft.xy.push(at[0]!, at[1]!);
}

/** Add the inner vertices of a segment from the last vertex laid. */
function pushBetween(draft: Draft, a: LonLat, b: LonLat): void {
  const { plane, xy } = draft;
  eachBetween(plane, a, b, xy[xy.length - 2]!, xy[xy.length - 1]!, (lon, lat) => {
    push(draft, lon, lat);
  });
}

/** Lay a path on the plane; a ring that is open is closed. */
export function layPath(draft: Draft, path: readonly LonLat[], ring: boolean, outer = false): void {
  if (outer) draft.outer.push(draft.starts.length - 1);
  const last = path.at(-1)!;
  const closed = path[0]![0] === last[0] && path[0]![1] === last[1];
  for (const [i, p] of path.entries()) {
    if (i > 0) pushBetween(draft, path[i - 1]!, p);
    push(draft, p[0]!, p[1]!);
  }
  if (ring && !closed) {
    pushBetween(draft, last, path[0]!);
    push(draft, path[0]![0]!, path[0]![1]!);
  }
  draft.starts.push(draft.xy.length / 2);
}

/** Middle of the box round all coordinates, longitudes unwrapped about the first. */
export function middleOf(geometries: readonly Geometry[]): Position {
  let first = NaN;
  let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const geometry of geometries)
    eachPath(geometry, (_, path) => {
      for (const p of path) {
        if (Number.isNaN(first)) first = p[0]!;
        const lon = first + wrap180(p[0]! - first);
        if (lon < west) west = lon;
        if (lon > east) east = lon;
        if (p[1]! < south) south = p[1]!;
        if (p[1]! > north) north = p[1]!;
      }
    });
  return Number.isNaN(first)
    ? { latDeg: 0, lonDeg: 0 }
    : { latDeg: (south + north) / 2, lonDeg: wrap180((west + east) / 2) };
}
