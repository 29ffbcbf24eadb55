import { readOr, refuse } from "../core/errors.js";
import { eachPath, type Geometry, type LonLat } from "../geo/geojson.js";

/** Vertices of lines and rings in order. */
export interface ShorePaths {
  /** Longitude and latitude of each vertex in turn. */
  lonLat: Float64Array;
  /** First vertex of each path, and the number of vertices at the end. */
  starts: number[];
  /** Whether every path is a ring of an area. */
  closed: boolean;
}

/** Paths of a GeoJSON coast; anything in it that is not lines or areas is refused, as is a coordinate that is not one. */
export const readShore = (geojson: unknown, path: string): ShorePaths =>
  readOr(path, "invalid_type", "not GeoJSON lines or polygons", () => layOut(geojson, path));

function layOut(geojson: unknown, path: string): ShorePaths {
  const found: (readonly LonLat[])[] = [];
  const starts = [0];
  let closed = true;
  let count = 0;
  for (const geometry of geometriesOf(geojson))
    eachPath(geometry, (kind, vertices) => {
      if (kind === "point") return;
      if (kind === "line") closed = false;
      const whole = kind === "ring" ? closeRing(vertices) : vertices;
      found.push(whole);
      count += whole.length;
      starts.push(count);
    });
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
  return { lonLat, starts, closed };
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

/** A ring whose last vertex is its first. */
function closeRing(ring: readonly LonLat[]): readonly LonLat[] {
  const [first, last] = [ring[0]!, ring[ring.length - 1]!];
  return first[0] === last[0] && first[1] === last[1] ? ring : [...ring, first];
}
