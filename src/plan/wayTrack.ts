import { turnDeg } from "../core/angles.js";
import type { Position } from "../core/schema.js";
import type { Degrees, Metres } from "../core/units.js";
import { geodesicInverse } from "../geo/geodesic.js";
import { positionOf, toPlane, type Plane } from "../geo/plane.js";

/** One straight leg of a track. */
export interface Leg {
  /** Where it starts. */
  from: Position;
  /** Where it ends. */
  to: Position;
  /** Distance run along the track at its start. */
  startM: Metres;
  /** Its length. */
  lengthM: Metres;
  /** Course along it, from true north. */
  courseDeg: Degrees;
  /** Turn on to it from the leg before, to starboard positive; null for the first. */
  turnDeg: Degrees | null;
}

/** A track laid on a plane. */
export interface Track {
  plane: Plane;
  legs: Leg[];
  lengthM: number;
  /** Ends of the legs on the plane: x and y in turn, one pair more than there are legs. */
  xy: Float64Array;
}

/** Legs shorter than this are no legs: the points are one and the same. */
const SAME_PLACE_M = 0.5;

/** A route as legs; points that follow one another in one place count once. */
export function trackOf(route: readonly Position[], plane: Plane): Track {
  const legs: Leg[] = [];
  const points: Position[] = [route[0]!];
  let startM = 0;
  for (const to of route.slice(1)) {
    const from = points.at(-1)!;
    const { distanceM, bearingDeg } = geodesicInverse(from, to);
    if (!(distanceM >= SAME_PLACE_M)) continue;
    const before = legs.at(-1);
    legs.push({
      from,
      to,
      startM,
      lengthM: distanceM,
      courseDeg: bearingDeg,
      turnDeg: before === undefined ? null : turnDeg(before.courseDeg, bearingDeg),
    });
    points.push(to);
    startM += distanceM;
  }
  const xy = new Float64Array(2 * points.length);
  points.forEach((p, i) => {
    toPlane(plane, p.latDeg, p.lonDeg, xy, 2 * i);
  });
  return { plane, legs, lengthM: startM, xy };
}

/** Leg on which a distance run falls. */
export function legAt({ legs }: Track, alongM: number): number {
  let i = 0;
  while (i + 1 < legs.length && legs[i + 1]!.startM <= alongM) i++;
  return i;
}

/** Point of the plane part of the way along a leg, and the direction of the leg. */
export function pointOn(track: Track, leg: number, alongM: number) {
  const { xy } = track;
  const { startM, lengthM } = track.legs[leg]!;
  const [x0, y0] = [xy[2 * leg]!, xy[2 * leg + 1]!];
  const [dx, dy] = [xy[2 * leg + 2]! - x0, xy[2 * leg + 3]! - y0];
  const part = (alongM - startM) / lengthM;
  const size = Math.sqrt(dx * dx + dy * dy);
  return { x: x0 + part * dx, y: y0 + part * dy, ux: dx / size, uy: dy / size };
}

/** Position after a distance run. */
export function positionAlong(track: Track, alongM: number): Position {
  const { x, y } = pointOn(track, legAt(track, alongM), alongM);
  return positionOf(track.plane, x, y);
}

/** Corners of the water within `asideM` of a part of a leg, before and beyond its ends too. */
export function stripOf(
  track: Track,
  leg: number,
  fromM: number,
  toM: number,
  asideM: number,
): Position[] {
  const a = pointOn(track, leg, fromM);
  const b = pointOn(track, leg, toM);
  const [ex, ey] = [a.ux * asideM, a.uy * asideM];
  return [
    positionOf(track.plane, a.x - ex - ey, a.y - ey + ex),
    positionOf(track.plane, a.x - ex + ey, a.y - ey - ex),
    positionOf(track.plane, b.x + ex + ey, b.y + ey - ex),
    positionOf(track.plane, b.x + ex - ey, b.y + ey + ex),
  ];
}

/** Where something stands to a track. */
export interface Beside {
  /** Least distance from the track. */
  offM: Metres;
  /** Distance run when it is nearest. */
  alongM: Metres;
  /** On which hand it is passed; `on` where the track runs over it. */
  side: "port" | "starboard" | "on";
}

/** Where a point of the plane stands to a track. */
export function besideOf(track: Track, x: number, y: number): Beside {
  let best: Beside = { offM: Infinity, alongM: 0, side: "on" };
  track.legs.forEach(({ startM, lengthM }, i) => {
    const { x: x0, y: y0, ux, uy } = pointOn(track, i, startM);
    const run = Math.min(lengthM, Math.max(0, (x - x0) * ux + (y - y0) * uy));
    const [dx, dy] = [x - x0 - run * ux, y - y0 - run * uy];
    const offM = Math.sqrt(dx * dx + dy * dy);
    if (!(offM < best.offM)) return;
    const across = ux * (y - y0) - uy * (x - x0);
    best = { offM, alongM: startM + run, side: across > 0 ? "port" : "starboard" };
  });
  return best.offM > 0 ? best : { ...best, side: "on" };
}
