import { RAD } from "../core/angles.js";
import type { Position } from "../core/schema.js";
import { E2, EQUATOR_M } from "../geo/ellipsoid.js";

/** A direction or point in earth-centred axes. */
export type Vector = readonly [x: number, y: number, z: number];

/**
 * A flat picture on which lines of sight are straight: positions seen from the centre of the earth on a plane
 * that touches it. A straight line there is a plane cut through the centre of the earth, which leaves the
 * geodesic by under a metre in 50 km, so one picture serves every berth on a coast.
 */
export interface Frame {
  /** Outward direction at the middle of the picture. */
  out: Vector;
  /** Axes of the picture. */
  east: Vector;
  north: Vector;
}

const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Direction of a position from the centre of the earth, not scaled. */
export function towards(latDeg: number, lonDeg: number): Vector {
  const phi = latDeg * RAD;
  const lambda = lonDeg * RAD;
  const cos = Math.cos(phi);
  return [cos * Math.cos(lambda), cos * Math.sin(lambda), (1 - E2) * Math.sin(phi)];
}

/** Frame about a direction. */
export function frameAbout(direction: Vector): Frame {
  const size = Math.sqrt(dot(direction, direction));
  const [x, y, z] = direction.map((c) => c / size) as unknown as Vector;
  const flat = Math.sqrt(x * x + y * y);
  const east: Vector = flat > 1e-12 ? [-y / flat, x / flat, 0] : [0, 1, 0];
  return {
    out: [x, y, z],
    east,
    north: [-z * east[1], z * east[0], x * east[1] - y * east[0]],
  };
}

/** Cosine of the angle from the middle beyond which nothing is drawn: 60°. */
const RIM = 0.5;

/** Point of the picture in metres into `xy[at]`; false, and nothing written, beyond its rim. */
export function project(
  { out, east, north }: Frame,
  latDeg: number,
  lonDeg: number,
  xy: Float64Array,
  at: number,
): boolean {
  const phi = latDeg * RAD;
  const lambda = lonDeg * RAD;
  const cos = Math.cos(phi);
  const x = cos * Math.cos(lambda);
  const y = cos * Math.sin(lambda);
  const z = (1 - E2) * Math.sin(phi);
  const w = x * out[0] + y * out[1] + z * out[2];
  if (!(w > RIM * Math.sqrt(x * x + y * y + z * z))) return false;
  const scale = EQUATOR_M / w;
  xy[at] = scale * (x * east[0] + y * east[1] + z * east[2]);
  xy[at + 1] = scale * (x * north[0] + y * north[1] + z * north[2]);
  return true;
}

/** A berth from which rays are cast over a picture. */
export interface Eye {
  frame: Frame;
  /** Where it lies on the picture, m; NaN beyond the rim. */
  x: number;
  y: number;
  /** Earth-centred place, m. */
  place: Vector;
  /** Metres on the picture of a metre east, and of a metre north. */
  eastX: number;
  eastY: number;
  northX: number;
  northY: number;
  /** Curvature of the earth along the meridian and across it, 1/m. */
  kNorth: number;
  kEast: number;
}

/** The eye at a position. */
export function eyeAt(frame: Frame, { latDeg, lonDeg }: Position): Eye {
  const [sin, cos] = [Math.sin(latDeg * RAD), Math.cos(latDeg * RAD)];
  const [sinL, cosL] = [Math.sin(lonDeg * RAD), Math.cos(lonDeg * RAD)];
  const w2 = 1 - E2 * sin * sin;
  const n = EQUATOR_M / Math.sqrt(w2);
  const place: Vector = [n * cos * cosL, n * cos * sinL, n * (1 - E2) * sin];
  const xy = new Float64Array([NaN, NaN]);
  project(frame, latDeg, lonDeg, xy, 0);
  const [x, y] = [xy[0]!, xy[1]!];
  const w = dot(place, frame.out);
  // The picture moves with the place as the quotient of two linear forms does.
  const moved = (step: Vector, axis: Vector, here: number): number =>
    (EQUATOR_M * dot(step, axis) - here * dot(step, frame.out)) / w;
  const east: Vector = [-sinL, cosL, 0];
  const north: Vector = [-sin * cosL, -sin * sinL, cos];
  return {
    frame,
    x,
    y,
    place,
    eastX: moved(east, frame.east, x),
    eastY: moved(east, frame.north, y),
    northX: moved(north, frame.east, x),
    northY: moved(north, frame.north, y),
    kNorth: w2 / (n * (1 - E2)),
    kEast: 1 / n,
  };
}

/** Unit vector on the picture of a true bearing from the eye, into `dirs[at]`. */
export function rayDirection(eye: Eye, bearingDeg: number, dirs: Float64Array, at: number): void {
  const c = Math.cos(bearingDeg * RAD);
  const s = Math.sin(bearingDeg * RAD);
  const x = c * eye.northX + s * eye.eastX;
  const y = c * eye.northY + s * eye.eastY;
  const size = Math.sqrt(x * x + y * y);
  dirs[at] = x / size;
  dirs[at + 1] = y / size;
}

/** Distance over the earth from the eye to a point of the picture that lies on a true bearing, m. */
export function distanceTo(
  { frame: { out, east, north }, place, kEast, kNorth }: Eye,
  bearingDeg: number,
  x: number,
  y: number,
): number {
  const vx = EQUATOR_M * out[0] + x * east[0] + y * north[0];
  const vy = EQUATOR_M * out[1] + x * east[1] + y * north[1];
  const vz = EQUATOR_M * out[2] + x * east[2] + y * north[2];
  const onEarth = EQUATOR_M / Math.sqrt(vx * vx + vy * vy + (vz * vz) / (1 - E2));
  const dx = vx * onEarth - place[0];
  const dy = vy * onEarth - place[1];
  const dz = vz * onEarth - place[2];
  const chord = Math.sqrt(dx * dx + dy * dy + dz * dz);
  // Curvature along the bearing, by Euler.
  const c = Math.cos(bearingDeg * RAD);
  const k = kEast + (kNorth - kEast) * c * c;
  return (2 / k) * Math.asin(Math.min(1, 0.5 * k * chord));
}
