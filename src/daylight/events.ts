import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { duration, instant, position } from "../core/schema.js";
import { sunCrossings, sunOver } from "../geo/sun.js";
import { placeAndStay, type PlaceAndStay } from "./input.js";
import { LIMITS, type SunEventKind } from "./tables.js";

/** An event of the sun. */
export interface SunEvent {
  /** When. */
  timeMs: number;
  /** Which. */
  kind: SunEventKind;
}

/**
 * Sunrise, sunset and the twilights at a place in a stay, in order of time.
 *
 * Each is a passage of the sun's centre through an altitude (-0° 50', -6°, -12°, -18°), found on
 * the altitude itself, not on a calendar day: near the date line, at midsummer and near the poles
 * no event is lost, doubled or given to the wrong day. Leaves out height of eye, hills and
 * the refraction of the day.
 *
 * *Valid*: any latitude, years 1900 to 2150. *Accuracy*: within 31 s of the tables of the US Naval
 * Observatory, 30 s of it their rounding, and within 6 s of an independent ephemeris to latitude 78 (1990 to 2050);
 * real refraction moves sunset by a minute, and by many near the poles.
 *
 * @throws InputError for a position off the globe or a stay that ends before it starts.
 * @source J. Meeus, Astronomical Algorithms, ch. 25, as computed by suncalc 2, with the parallax, the
 * breadth of the sun on the day and the terms of the planets added
 * @example
 * ```ts
 * import { utc } from "hawse";
 * import { sunEvents } from "hawse/daylight";
 *
 * const events = sunEvents({
 *   position: { latDeg: 50, lonDeg: -4 },
 *   stay: { fromMs: utc("2026-06-01T18:00Z"), toMs: utc("2026-06-01T22:00Z") },
 * });
 * console.log(events.map((e) => `${e.kind} ${new Date(e.timeMs).toISOString().slice(11, 16)}`));
 * // [ 'sunset 20:16', 'civilDusk 20:59' ]
 * ```
 */
export function sunEvents(input: PlaceAndStay): SunEvent[] {
  const { position: p, stay } = check(placeAndStay, input);
  return LIMITS.flatMap((limit) =>
    sunCrossings(p.latDeg, p.lonDeg, stay.fromMs, stay.toMs, limit.altitudeDeg).map(
      ({ timeMs, rising }) => ({
        timeMs,
        kind: rising ? limit.dawn : limit.dusk,
      }),
    ),
  ).sort((a, b) => a.timeMs - b.timeMs);
}

/** Input of `nextSunEvent`. */
export const nextInput = z.strictObject({
  /** Where the vessel lies. */
  position,
  /** Instant after which the event is wanted. */
  afterMs: instant(),
  /** Which event. */
  kind: z.enum(LIMITS.flatMap((l): SunEventKind[] => [l.dawn, l.dusk]) as [SunEventKind]),
  /** How far ahead to look; 25 hours unless given, a day and the most that sunset shifts in one outside the polar circles. */
  withinMs: z._default(duration({ max: 400 * 86_400_000 }), 25 * 3_600_000),
});
/** Input of {@link nextSunEvent}. */
export type NextSunEventInput = Given<typeof nextInput>;

/** The next event of a kind, or where the sun stays instead. */
export type NextSunEvent =
  | {
      /** The event comes in the time looked at. */
      occurs: true;
      /** When. */
      timeMs: number;
    }
  | {
      /** The event does not come in the time looked at. */
      occurs: false;
      /** Where the sun is, against the altitude of the event, at the end of the time looked at. */
      sun: "staysAbove" | "staysBelow";
    };

/**
 * The next sunrise, sunset, dawn or dusk of a kind after an instant; three-valued, since at high
 * latitude it may not come: the sun stays above its altitude, or below.
 *
 * The sun may set and the darkness wanted still never come: each kind is answered for itself.
 *
 * *Valid* and *Accuracy*: as {@link sunEvents}.
 * @throws InputError for a position off the globe or an unknown kind.
 * @source as {@link sunEvents}
 * @example
 * ```ts
 * import { utc } from "hawse";
 * import { nextSunEvent } from "hawse/daylight";
 *
 * const at = { latDeg: 60, lonDeg: 0 };
 * const afterMs = utc("2026-06-21T12:00Z");
 * console.log(nextSunEvent({ position: at, afterMs, kind: "nauticalDusk" }));
 * // { occurs: false, sun: 'staysAbove' }
 * console.log(nextSunEvent({ position: at, afterMs, kind: "sunset" }).occurs);
 * // true
 * ```
 */
export function nextSunEvent(input: NextSunEventInput): NextSunEvent {
  const { position: p, afterMs, kind, withinMs } = check(nextInput, input);
  const limit = LIMITS.find((l) => l.dawn === kind || l.dusk === kind)!;
  const untilMs = afterMs + withinMs;
  const found = sunCrossings(p.latDeg, p.lonDeg, afterMs, untilMs, limit.altitudeDeg).find(
    (c) => c.timeMs > afterMs && c.rising === (limit.dawn === kind),
  );
  if (found) return { occurs: true, timeMs: found.timeMs };
  const above = sunOver(p.latDeg, p.lonDeg, untilMs, limit.altitudeDeg) > 0;
  return { occurs: false, sun: above ? "staysAbove" : "staysBelow" };
}
