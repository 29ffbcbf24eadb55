import { refuse } from "../core/errors.js";
import { eachPath, type Geometry, type LonLat } from "../geo/geojson.js";

/** Vertices of lines and rings in order, longitude and latitude in turn. */
export interface ShorePaths {
  lonLat: number[];
  /** First vertex of each path, and the number of vertices at the end. */
  starts: number[];
  /** Whether every path is a ring of an area. */
  closed: boolean;
}

/** Paths of a GeoJSON coast; anything in it that is not lines or areas is refused, as is a coordinate that is not one. */
export function readShore(geojson: unknown, path: string): ShorePaths {
  const out: ShorePaths = { lonLat: [], starts: [0], closed: true };
  try {
    for (const geometry of geometriesOf(geojson)) addGeometry(geometry, out);
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    refuse(path, "invalid_type", "not GeoJSON lines or polygons");
  }
  const bad = out.lonLat.findIndex((v, i) => !(Math.abs(v) <= (i % 2 === 0 ? 540 : 90)));
  if (bad >= 0)
    refuse(
      path,
      "invalid_coordinate",
      `vertex ${Math.floor(bad / 2)} is not a longitude and latitude in degrees`,
    );
  if (out.starts.length === 1) refuse(path, "too_small", "holds no line or polygon");
  return out;
}

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

function addGeometry(geometry: Geometry, out: ShorePaths): void {
  eachPath(geometry, (kind, vertices) => {
    if (kind === "point") return;
    if (kind === "line") out.closed = false;
    addPath(vertices, out);
    const [first, last] = [vertices[0]!, vertices[vertices.length - 1]!];
    if (kind === "ring" && (first[0] !== last[0] || first[1] !== last[1])) addPath([first], out);
    out.starts.push(out.lonLat.length / 2);
  });
}

function addPath(vertices: readonly LonLat[], out: ShorePaths): void {
  for (const v of vertices) out.lonLat.push(v[0]!, v[1]!);
}
