import { refuse } from "../core/errors.js";
import * as z from "zod/mini";
import { wrap360 } from "../core/angles.js";
import { check } from "../core/check.js";
import { degrees, instant, metres, speed } from "../core/schema.js";
import type { WatchEvent } from "../watch/events.js";

const input = z.strictObject({
  coords: z.strictObject({
    latitude: degrees({ min: -90, max: 90 }),
    longitude: degrees({ min: -180, max: 180 }),
    accuracy: metres({ min: 0 }),
    speed: z.nullable(speed({ min: 0, max: 100 })),
    heading: z.nullable(degrees({ min: -360, max: 360 })),
  }),
  timestamp: instant(),
  accuracyShare: z.literal([0.95, 0.68]),
});

/** A position as a browser or a telephone hands it over; other fields are not looked at. */
export interface GeolocationFix {
  /** Where and how fast. */
  coords: {
    /** Degrees, WGS 84. */
    latitude: number;
    /** Degrees, WGS 84. */
    longitude: number;
    /** Radius that holds the stated share of fixes, m. */
    accuracy: number;
    /** Course over the ground, true; null, NaN or -1 where there is none. */
    heading?: number | null;
    /** Speed over the ground, m/s; null, NaN or -1 where there is none. */
    speed?: number | null;
  };
  /** Epoch ms. */
  timestamp: number;
}

/** Whether a speed or course says that there is none. */
const isNone = (x: number): boolean => Number.isNaN(x) || x === -1;

/** Radius over the spread of one axis that holds a share of a circular Gaussian. */
const radiusOf = (share: number): number => Math.sqrt(-2 * Math.log(1 - share));

/**
 * A watch event from a position of the W3C geolocation interface.
 *
 * The interface states its accuracy at 95 %, native telephones commonly at 68 % (from memory):
 * the convention is named by `accuracyShare`, since the two differ by a factor of 1.62, more than any tuning
 * of a watch. Errors are taken as Gaussian and alike in both axes. Leaves out altitude.
 *
 * *Valid*: fixes of a satellite receiver; a position from radio masts states its accuracy, and the
 * watch will find it too poor. *Accuracy*: the spread is exact for the model.
 * @throws InputError for a position off the globe, or one without time or accuracy.
 * @source W3C Geolocation, section on coordinates: accuracy at the 95 % confidence level
 * @example
 * ```ts
 * import { eventFromGeolocation } from "hawse/feed";
 *
 * const fix = eventFromGeolocation({
 *   coords: { latitude: 50.1, longitude: -5.2, accuracy: 5, heading: null, speed: 0 },
 *   timestamp: 1780300800000,
 * });
 * console.log(fix.kind === "fix" && fix.sigmaM?.toFixed(2));
 * // 2.04
 * ```
 */
export function eventFromGeolocation(
  fix: GeolocationFix,
  accuracyShare: 0.95 | 0.68 = 0.95,
): WatchEvent {
  // What a browser hands over is no plain object: its fields are taken one by one.
  const coords = (fix as Partial<GeolocationFix> | null | undefined)?.coords;
  if (typeof coords !== "object" || (coords as unknown) === null)
    refuse("coords", "invalid_type", "expected a position of the geolocation interface");
  // Telephones say -1 where they know neither; browsers say null, older ones NaN.
  const course = coords.heading ?? NaN;
  const way = coords.speed ?? NaN;
  const { latitude, longitude, accuracy } = coords;
  const checked = check(input, {
    coords: {
      latitude,
      longitude,
      accuracy,
      speed: isNone(way) ? null : way,
      heading: isNone(course) ? null : course,
    },
    timestamp: fix.timestamp,
    accuracyShare,
  });
  const c = checked.coords;
  const sigmaM = c.accuracy / radiusOf(checked.accuracyShare);
  return {
    kind: "fix",
    timeMs: checked.timestamp,
    latDeg: c.latitude,
    lonDeg: c.longitude,
    // A radius of nil is no statement; one beyond a kilometre is the widest a fix can tell.
    ...(sigmaM > 0 && { sigmaM: Math.min(1000, sigmaM) }),
    ...(c.speed !== null && { sogMps: c.speed }),
    ...(c.heading !== null && { cogDeg: wrap360(c.heading) }),
  };
}
