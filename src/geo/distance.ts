import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { direction, metres, position, type Position } from "../core/schema.js";
import { type Course, geodesicDirect, geodesicInverse } from "./geodesic.js";

/** Input of {@link distance}. */
export const distanceInput = z.strictObject({
  /** Where the way starts. */
  from: position,
  /** Where it ends. */
  to: position,
});
/** Input of {@link distance}. */
export type DistanceInput = Given<typeof distanceInput>;

/** Input of {@link destination}. */
export const destinationInput = z.strictObject({
  /** Where the way starts. */
  from: position,
  /** First bearing, from true north. */
  bearingDeg: direction(),
  /** Length of the way, up to half round the earth. */
  distanceM: metres({ min: 0, max: 20_003_931 }),
});
/** Input of {@link destination}. */
export type DestinationInput = Given<typeof destinationInput>;

/**
 * Distance and first bearing from one position to another, by the shortest way over WGS 84.
 *
 * The geodesic on the ellipsoid, not a sphere, a rhumb line or a way round land. *Valid*:
 * everywhere; of two antipodal ways of the same length one is given. *Accuracy*: 0.02 mm to
 * 1000 km and 0.2 mm anywhere, against an independent implementation of Karney's method.
 *
 * @throws InputError when a position is none.
 * @source T. Vincenty, Survey Review XXIII (176), 1975
 * @example
 * ```ts
 * import { distance } from "hawse/geo";
 * const way = distance({ from: { latDeg: 50, lonDeg: 179.99 }, to: { latDeg: 50, lonDeg: -179.99 } });
 * console.log(way.distanceM.toFixed(3), way.bearingDeg.toFixed(4));
 * // 1433.915 89.9923
 * ```
 */
export function distance(input: DistanceInput): Course {
  const { from, to } = check(distanceInput, input);
  return geodesicInverse(from, to);
}

/**
 * Position reached from another along a first bearing, by the shortest way over WGS 84.
 *
 * The geodesic on the ellipsoid. *Valid*: everywhere, to half way round the earth. *Accuracy*:
 * 0.02 mm to 1000 km and 0.2 mm anywhere, against an independent implementation of Karney's
 * method. Longitude comes in [-180, 180).
 *
 * @throws InputError when the position, bearing or distance is out of range.
 * @source T. Vincenty, Survey Review XXIII (176), 1975
 * @example
 * ```ts
 * import { destination } from "hawse/geo";
 * const there = destination({ from: { latDeg: 50, lonDeg: 179.99 }, bearingDeg: 90, distanceM: 1433.915 });
 * console.log(there.latDeg.toFixed(6), there.lonDeg.toFixed(6));
 * // 49.999998 -179.990000
 * ```
 */
export function destination(input: DestinationInput): Position {
  const { from, bearingDeg, distanceM } = check(destinationInput, input);
  return geodesicDirect(from, bearingDeg, distanceM);
}
