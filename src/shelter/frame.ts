import { RAD } from "../core/angles.js";
import type { Position } from "../core/schema.js";
import { E2, EQUATOR_M } from "../geo/ellipsoid.js";

/** A direction or point in earth-centred axes. */
export type Vector = [x: number, y: number, z: number];

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

const along = (a: Vector, p: number, b: Vector, q: number, c: Vector, r: number): Vector => [
  a[0] * p + b[0] * q + c[0] * r,
  a[1] * p + b[1] * q + c[1] * r,
  a[2] * p + b[2] * q + c[2] * r,
];

const unit = (a: Vector): Vector => {
  const size = Math.sqrt(dot(a, a));
  return [a[0] / size, a[1] / size, a[2] / size];
};

/** Direction of a position from the centre of the earth, not scaled. */
export function towards(latDeg: number, lonDeg: number): Vector {
  const phi = latDeg * RAD;
  const lambda = lonDeg * RAD;
  const cos = Math.cos(phi);
  return [cos * Math.cos(lambda), cos * Math.sin(lambda), (1 - E2) * Math.sin(phi)];
}

/** Frame about a direction. */
export function frameAbout(direction: Vector): Frame {
  const out = unit(direction);
  const flat = Math.sqrt(out[0] * out[0] + out[1] * out[1]);
  const east: Vector = flat > 1e-12 ? [-out[1] / flat, out[0] / flat, 0] : [0, 1, 0];
  const north: Vector = [
    out[1] * east[2] - out[2] * east[1],
    out[2] * east[0] - out[0] * east[2],
    out[0] * east[1] - out[1] * east[0],
  ];
  return { out, east, north };
}

/** Cosine of the angle from the middle beyond which nothing is drawn: 60°. */
const RIM = 0.5;

/** Point of the picture in metres into `xy[at]`; false, and nothing written, beyond its rim. */
export function project(frame: Frame, v: Vector, xy: Float64Array, at: number): boolean {
  const w = dot(v, frame.out);
  if (!(w * w > RIM * RIM * dot(v, v) && w > 0)) return false;
  xy[at] = (EQUATOR_M * dot(v, frame.east)) / w;
  xy[at + 1] = (EQUATOR_M * dot(v, frame.north)) / w;
  return true;
}

/** A berth from which rays are cast over a picture. */
export interface Eye {
  frame: Frame;
  /** Where it lies on the picture, m. */
  x: number;
  y: number;
  /** Earth-centred place, m, and the directions east, north and out from the centre there. */
  place: Vector;
  east: Vector;
  north: Vector;
  out: Vector;
  /** Curvature of the earth along the meridian and across it, 1/m. */
  kNorth: number;
  kEast: number;
}

/** The eye at a position. The position must lie within the rim of the picture. */
export function eyeAt(frame: Frame, position: Position): Eye {
  const phi = position.latDeg * RAD;
  const lambda = position.lonDeg * RAD;
  const [sin, cos] = [Math.sin(phi), Math.cos(phi)];
  const [sinL, cosL] = [Math.sin(lambda), Math.cos(lambda)];
  const w2 = 1 - E2 * sin * sin;
  const n = EQUATOR_M / Math.sqrt(w2);
  const place: Vector = [n * cos * cosL, n * cos * sinL, n * (1 - E2) * sin];
  const xy = new Float64Array(2);
  if (!project(frame, place, xy, 0)) xy.fill(NaN);
  return {
    frame,
    x: xy[0]!,
    y: xy[1]!,
    place,
    east: [-sinL, cosL, 0],
    north: [-sin * cosL, -sin * sinL, cos],
    out: unit(place),
    kNorth: w2 / (n * (1 - E2)),
    kEast: 1 / n,
  };
}

/** Curvature of the earth at the eye along a bearing, 1/m (Euler). */
function curvature(eye: Eye, bearingDeg: number): number {
  const c = Math.cos(bearingDeg * RAD);
  return eye.kEast + (eye.kNorth - eye.kEast) * c * c;
}

/** End on the picture of a ray a little longer than `lengthM` on a true bearing, into `xy`. */
export function rayEnd(eye: Eye, bearingDeg: number, lengthM: number, xy: Float64Array): void {
  const a = bearingDeg * RAD;
  const angle = 1.01 * lengthM * curvature(eye, bearingDeg);
  const t = along(eye.north, Math.cos(a), eye.east, Math.sin(a), eye.out, 0);
  const level = unit(along(t, 1, eye.out, -dot(t, eye.out), eye.out, 0));
  project(eye.frame, along(eye.out, Math.cos(angle), level, Math.sin(angle), level, 0), xy, 0);
}

/** Distance over the earth from the eye to a point of the picture that lies on a true bearing, m. */
export function distanceTo(eye: Eye, bearingDeg: number, x: number, y: number): number {
  const { out, east, north } = eye.frame;
  const v = along(out, EQUATOR_M, east, x, north, y);
  const onEarth = EQUATOR_M / Math.sqrt(v[0] * v[0] + v[1] * v[1] + (v[2] * v[2]) / (1 - E2));
  const chord = along(v, onEarth, eye.place, -1, v, 0);
  const k = curvature(eye, bearingDeg);
  return (2 / k) * Math.asin(Math.min(1, 0.5 * k * Math.sqrt(dot(chord, chord))));
}
