import { wrap180 } from "../core/angles.js";
import { readOr, refuse } from "../core/errors.js";
import type { Position } from "../core/schema.js";
import { eachPath, type Geometry, type LonLat } from "../geo/geojson.js";

/** Vertices of lines and rings in order. */
export interface ShorePaths {
  /** Longitude and latitude of each vertex in turn. */
  lonLat: Float64Array;
  /** First vertex of each path, and the number of vertices at the end. */
  starts: number[];
  /** The first path of each area, and the one after its last. */
  areas: readonly (readonly [number, number])[];
}

/** Paths of a GeoJSON coast; anything in it that is not lines or areas is refused, as is a coordinate that is not one. */
export const readShore = (geojson: unknown, path: string): ShorePaths =>
  readOr(path, "invalid_type", "not GeoJSON lines or polygons", () => layOut(geojson, path));

function layOut(geojson: unknown, path: string): ShorePaths {
  const found: (readonly LonLat[])[] = [];
  const starts = [0];
  const areas: [number, number][] = [];
  let count = 0;
  for (const geometry of geometriesOf(geojson).flatMap(partsOf)) {
    const from = found.length;
    eachPath(geometry, (kind, vertices) => {
      if (kind === "point" || (kind === "line" && vertices.length === 0)) return;
      const whole = kind === "ring" ? closeRing(vertices) : vertices;
      found.push(whole);
      count += whole.length;
      starts.push(count);
    });
    if (geometry.type === "Polygon") areas.push([from, found.length]);
  }
  if (count === 0) refuse(path, "too_small", "holds no line or polygon");
  const lonLat = new Float64Array(2 * count);
  let at = 0;
  for (const vertices of found)
    for (const v of vertices) {
      const lon = v[0]!;
      const lat = v[1]!;
      if (!isPlace(lon, lat)) refuse(path, "invalid_coordinate", notAPlace(at / 2));
      lonLat[at++] = lon;
      lonLat[at++] = lat;
    }
  return { lonLat, starts, areas };
}

/** A list in the place of a number would be compared as text, however deep it is. */
const isPlace = (lon: unknown, lat: unknown): boolean =>
  typeof lon === "number" && typeof lat === "number" && Math.abs(lon) <= 540 && Math.abs(lat) <= 90;

const notAPlace = (vertex: number): string =>
  `vertex ${vertex} is not a longitude and latitude in degrees`;

function geometriesOf(geojson: unknown): Geometry[] {
  const node = geojson as {
    type: string;
    features: unknown[];
    geometry: unknown;
  };
  if (node.type === "FeatureCollection") return node.features.flatMap(geometriesOf);
  if (node.type === "Feature") return node.geometry === null ? [] : [node.geometry as Geometry];
  return [node as unknown as Geometry];
}

/** A geometry in parts of which each is one area at most. */
function partsOf(geometry: Geometry): Geometry[] {
  if (geometry.type === "GeometryCollection") return geometry.geometries.flatMap(partsOf);
  if (geometry.type !== "MultiPolygon") return [geometry];
  return geometry.coordinates.map((coordinates) => ({ type: "Polygon", coordinates }));
}

/** Whether an area holds a position, however far it reaches: by the rings' crossings of the meridian to the north. */
export function areaHolds(
  { lonLat, starts }: ShorePaths,
  [from, to]: readonly [number, number],
  { latDeg, lonDeg }: Position,
): boolean {
  let odd = false;
  for (let p = from; p < to; p++)
    for (let v = starts[p]! + 1; v < starts[p + 1]!; v++) {
      const a = wrap180(lonLat[2 * v - 2]! - lonDeg);
      const b = wrap180(lonLat[2 * v]! - lonDeg);
      // A step of more than half a turn goes round by the other side of the earth.
      if (a < 0 === b < 0 || Math.abs(b - a) > 180) continue;
      const [here, there] = [lonLat[2 * v - 1]!, lonLat[2 * v + 1]!];
      if (here + ((there - here) * a) / (a - b) > latDeg) odd = !odd;
    }
  return odd;
}

/** A ring whose last vertex is its first. */
function closeRing(ring: readonly LonLat[]): readonly LonLat[] {
  const [first, last] = [ring[0]!, ring[ring.length - 1]!];
  return first[0] === last[0] && first[1] === last[1] ? ring : [...ring, first];
}
