import { RAD, wrap180, wrap360 } from "../core/angles.js";
import type { Position } from "../core/schema.js";
import { E2, E2_SECOND, EQUATOR_M } from "./ellipsoid.js";
import { geodesicDirect } from "./geodesic.js";

/**
 * A flat picture of the sea about an origin: metres east and north, with distance and bearing
 * from the origin those of the geodesic (azimuthal equidistant on WGS 84). Plain data.
 */
export interface Plane {
  /** Latitude of the origin. */
  latDeg: number;
  /** Longitude of the origin, [-180, 180). */
  lonDeg: number;
  /** Sine of the latitude. */
  sin: number;
  /** Cosine of the latitude; exactly 0 at a pole. */
  cos: number;
  /** Radius of the parallel at the origin, m. */
  parallelM: number;
  /** Distance of the origin from the plane of the equator, m. */
  heightM: number;
  /** Curvature of the meridian, 1/m. */
  curvature: number;
  /** What the curvature loses per square metre of Clairaut's constant, 1/m³. */
  flatter: number;
  /** Metres of longitude to a degree. */
  parallelPerDegM: number;
  /** Metres of latitude: first, second and third power of a degree. */
  m1: number;
  m2: number;
  m3: number;
  /** Convergence of the meridians, 1/m. */
  a: number;
  /** Series coefficients of third order, 1/m². */
  b3: number;
  a6: number;
  ab: number;
  /** The series serves within the root of this, m²; the rigorous way beyond. */
  near2M2: number;
}

/**
 * Plane about an origin. Near the origin (up to 8 km; less towards the poles, where the meridians
 * run together) positions go through a third-order series, beyond it through geocentric
 * coordinates with the arc of the geodesic in place of the chord. Against the geodesic from the
 * origin: 0.01 mm to 10 km, 0.1 mm to 100 km, 5 mm to 300 km, 0.6 m to 1000 km, at every latitude.
 * Between two points that both lie off the origin the picture stretches by no more than about
 * r²/(6 R²) of their distance: 0.03 mm at 2 km, 7 mm at 10 km, 4 m at 100 km.
 */
export function planeAt(origin: Position): Plane {
  const phi = origin.latDeg * RAD;
  const sin = Math.sin(phi);
  const cos = Math.abs(origin.latDeg) === 90 ? 0 : Math.cos(phi);
  const w2 = 1 - E2 * sin * sin;
  const n = EQUATOR_M / Math.sqrt(w2);
  const m = (n * (1 - E2)) / w2;
  const sc = sin * cos;
  const t = Math.abs(sin) / (n * cos);
  const a = -sin / (n * cos);
  const b = -1 / (m * n);
  const polar = cos === 0;
  return {
    latDeg: origin.latDeg,
    lonDeg: wrap180(origin.lonDeg),
    sin,
    cos,
    parallelM: n * cos,
    parallelPerDegM: n * cos * RAD,
    heightM: n * (1 - E2) * sin,
    curvature: 1 / m,
    flatter: E2_SECOND / (n * n * n),
    m1: m * RAD,
    m2: (1.5 * m * E2 * sc * RAD * RAD) / w2,
    m3:
      0.5 * m * E2 * RAD * RAD * RAD * ((1 - 2 * sin * sin) / w2 + (5 * E2 * sc * sc) / (w2 * w2)),
    a: polar ? 0 : a,
    b3: b / 3,
    a6: polar ? 0 : (a * a) / 6,
    ab: polar ? 0 : a * a + b / 3,
    near2M2: polar ? 0 : Math.min(6.4e7, Math.sqrt(2e-5 / (t * t * t))),
  };
}

/**
 * East and north metres of a position, into `out[at]` and `out[at + 1]`. Longitude is unwrapped to
 * within 180° of the origin, so neither side of the antimeridian matters.
 */
export function toPlane(
  plane: Plane,
  latDeg: number,
  lonDeg: number,
  out: Float64Array,
  at: number,
): void {
  let dLon = lonDeg - plane.lonDeg;
  if (!(dLon >= -180 && dLon < 180)) dLon = wrap180(dLon);
  const dLat = latDeg - plane.latDeg;
  const x = plane.parallelPerDegM * dLon;
  const y = dLat * (plane.m1 + dLat * (plane.m2 + dLat * plane.m3));
  const x2 = x * x;
  if (x2 + y * y < plane.near2M2) {
    out[at] = x * (1 + y * (plane.a + y * plane.b3) - x2 * plane.a6);
    out[at + 1] = y - 0.5 * x2 * (plane.a + plane.ab * y);
  } else far(plane, latDeg, dLon * RAD, out, at);
}

/** The rigorous way: chord and normal section from geocentric coordinates, then arc and geodesic bearing. */
function far(plane: Plane, latDeg: number, dl: number, out: Float64Array, at: number): void {
  const phi = latDeg * RAD;
  const sin = Math.sin(phi);
  const cos = Math.cos(phi);
  const w2 = 1 - E2 * sin * sin;
  const n = EQUATOR_M / Math.sqrt(w2);
  const east = n * cos * Math.sin(dl);
  const outward = n * cos * Math.cos(dl) - plane.parallelM;
  const axial = n * (1 - E2) * sin - plane.heightM;
  const north = plane.cos * axial - plane.sin * outward;
  const up = plane.cos * outward + plane.sin * axial;
  const h2 = east * east + north * north;
  if (!(h2 > 0)) {
    // The origin itself, its antipode (no bearing there), or a position that is not one.
    out[at] = h2 === 0 && Math.abs(up) < 1 ? 0 : NaN;
    out[at + 1] = out[at];
    return;
  }
  const h = Math.sqrt(h2);
  const chord = Math.sqrt(h2 + up * up);
  // Clairaut's constant gives the curvature along the line at both ends; their mean serves for the arc.
  const clairaut = (plane.parallelM * east) / h;
  const flatter = plane.flatter + E2_SECOND / (n * n * n);
  const k = 0.5 * (plane.curvature + w2 / (n * (1 - E2)) - flatter * clairaut * clairaut);
  const arc = (2 / k) * Math.asin(Math.min(1, 0.5 * k * chord));
  // The geodesic leaves on the other side of the normal section by this small angle.
  const turn = bend(plane, east / h, north / h, arc);
  const scale = arc / h;
  out[at] = scale * (east - turn * north);
  out[at + 1] = scale * (north + turn * east);
}

function bend(plane: Plane, s: number, c: number, arc: number): number {
  const r = arc / EQUATOR_M;
  return (E2_SECOND / 6) * r * r * plane.cos * plane.cos * s * c;
}

/** Position of a point of the plane; longitude in [-180, 180). */
export function positionOf(plane: Plane, eastM: number, northM: number): Position {
  const distance = Math.sqrt(eastM * eastM + northM * northM);
  const bearing = wrap360(Math.atan2(eastM, northM) / RAD);
  return geodesicDirect(plane, bearing, distance);
}

/**
 * Direction on the plane of true north at a position, degrees clockwise from the plane's own north:
 * what the meridians have turned by on the way there. 0 at the origin and along its meridian.
 */
export function northAt(plane: Plane, latDeg: number, lonDeg: number): number {
  const step = 1e-4;
  const at = new Float64Array(4);
  toPlane(plane, Math.min(90, latDeg + step), lonDeg, at, 0);
  toPlane(plane, Math.max(-90, latDeg - step), lonDeg, at, 2);
  return Math.atan2(at[0]! - at[2]!, at[1]! - at[3]!) / RAD;
}
