import type { Paths } from "./boxtree.js";
import { type Plane, toPlane } from "./plane.js";
import { eachBetween } from "./sides.js";

/** Longitude, latitude and what else a GeoJSON position carries, degrees. */
export type LonLat = readonly number[];

/** A GeoJSON geometry (RFC 7946). */
export type Geometry =
  | { type: "Point"; coordinates: LonLat }
  | { type: "MultiPoint" | "LineString"; coordinates: readonly LonLat[] }
  | {
      type: "MultiLineString" | "Polygon";
      coordinates: readonly (readonly LonLat[])[];
    }
  | {
      type: "MultiPolygon";
      coordinates: readonly (readonly (readonly LonLat[])[])[];
    }
  | { type: "GeometryCollection"; geometries: readonly Geometry[] };

/** What a path of a geometry is: a lone point, a line, or a ring of an area. */
export type PathKind = "point" | "line" | "ring";

/** Call `visit` with every path of a geometry, in its order; a ring comes with its holes after it, which are not outer. */
export function eachPath(
  geometry: Geometry,
  visit: (kind: PathKind, path: readonly LonLat[], outer: boolean) => void,
): void {
  switch (geometry.type) {
    case "Point":
      visit("point", [geometry.coordinates], false);
      break;
    case "MultiPoint":
      for (const p of geometry.coordinates) visit("point", [p], false);
      break;
    case "LineString":
      visit("line", geometry.coordinates, false);
      break;
    case "MultiLineString":
      for (const line of geometry.coordinates) visit("line", line, false);
      break;
    case "Polygon":
      ringsOf(geometry.coordinates, visit);
      break;
    case "MultiPolygon":
      for (const area of geometry.coordinates) ringsOf(area, visit);
      break;
    case "GeometryCollection":
      for (const part of geometry.geometries) eachPath(part, visit);
  }
}

const ringsOf = (
  area: readonly (readonly LonLat[])[],
  visit: Parameters<typeof eachPath>[1],
): void => {
  for (const [i, ring] of area.entries()) visit("ring", ring, i === 0);
};

/** Paths being put together: growable, so that many geometries can go into one tree. */
export interface PathsDraft {
  xy: number[];
  starts: number[];
  outer: number[];
}

/** An empty draft. */
export const draftPaths = (): PathsDraft => ({ xy: [], starts: [0], outer: [] });

const at = new Float64Array(2);

function push({ xy }: PathsDraft, plane: Plane, lonDeg: number, latDeg: number): void {
  toPlane(plane, latDeg, lonDeg, at, 0);
  xy.push(at[0]!, at[1]!);
}

/** Add a vertex, and before it those that keep the side to it from the one before straight in longitude and latitude. */
function sideTo(draft: PathsDraft, plane: Plane, from: LonLat | undefined, to: LonLat): void {
  const { xy } = draft;
  if (from !== undefined)
    eachBetween(plane, from, to, xy[xy.length - 2]!, xy[xy.length - 1]!, (lon, lat) => {
      push(draft, plane, lon, lat);
    });
  push(draft, plane, to[0]!, to[1]!);
}

/** Add the paths of a geometry of the given kinds, laid on a plane; an open ring is closed. */
export function addPaths(
  draft: PathsDraft,
  plane: Plane,
  geometry: Geometry,
  kinds: readonly PathKind[] = ["point", "line", "ring"],
): void {
  eachPath(geometry, (kind, path, outer) => {
    if (!kinds.includes(kind) || path.length === 0) return;
    const { xy } = draft;
    const from = xy.length;
    for (const [i, p] of path.entries()) sideTo(draft, plane, path[i - 1], p);
    const closed = xy[from] === xy[xy.length - 2] && xy[from + 1] === xy[xy.length - 1];
    if (kind === "ring" && !closed) sideTo(draft, plane, path.at(-1), path[0]!);
    if (outer) draft.outer.push(draft.starts.length - 1);
    draft.starts.push(xy.length / 2);
  });
}

/** The finished paths of a draft. */
export const pathsOf = (draft: PathsDraft): Paths => ({
  xy: Float64Array.from(draft.xy),
  starts: Int32Array.from(draft.starts),
  outer: draft.outer,
});

/** Paths of some geometries on a plane. */
export function layPaths(
  plane: Plane,
  geometries: Iterable<Geometry>,
  kinds?: readonly PathKind[],
): Paths {
  const draft = draftPaths();
  for (const g of geometries) addPaths(draft, plane, g, kinds);
  return pathsOf(draft);
}
