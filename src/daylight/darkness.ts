import { check } from "../core/check.js";
import type { Interval } from "../core/judgement.js";
import { sunBelow } from "../geo/sun.js";
import { placeAndStay, type PlaceAndStay } from "./input.js";
import { LIMITS } from "./tables.js";

/** When the sun lies below one altitude in a stay. */
export interface DarkHours {
  /** Never, for part of the stay, or throughout it. */
  state: "never" | "partly" | "throughout";
  /** When, cut off at the ends of the stay. */
  intervals: Interval[];
  /** Sum of the intervals, ms. */
  totalMs: number;
}

/** The dark hours of a stay. */
export interface Darkness {
  /** Sunset to sunrise: when lights are owed. */
  sunsetToSunrise: DarkHours;
  /** Sun 6° below the horizon and lower: outlines on the water can no longer be made out. */
  beyondCivil: DarkHours;
  /** Sun 12° below and lower: the horizon is gone, and with it unlit transits. */
  beyondNautical: DarkHours;
  /** Sun 18° below and lower: as dark as it gets without moon. */
  beyondAstronomical: DarkHours;
}

/**
 * The dark hours of a stay at a place, as intervals: sunset to sunrise, and beyond each twilight.
 *
 * Found by the passages of the sun through each altitude over the whole stay. At high latitude
 * each is answered for itself: the sun may set and nautical darkness never come. Leaves out
 * moon, cloud and hills.
 *
 * *Valid* and *Accuracy*: as `sunEvents`.
 * @throws InputError for a position off the globe or a stay that ends before it starts.
 * @source US Naval Observatory, definitions of rise, set and twilight
 * @example
 * ```ts
 * import { toHours, utc } from "hawse";
 * import { darkness } from "hawse/daylight";
 *
 * const dark = darkness({
 *   position: { latDeg: 60, lonDeg: 0 },
 *   stay: { fromMs: utc("2026-06-21T12:00Z"), toMs: utc("2026-06-22T12:00Z") },
 * });
 * console.log(dark.sunsetToSunrise.state, toHours(dark.sunsetToSunrise.totalMs).toFixed(1));
 * // partly 5.1
 * console.log(dark.beyondNautical);
 * // { state: 'never', intervals: [], totalMs: 0 }
 * ```
 */
export function darkness(given: PlaceAndStay): Darkness {
  const { position: p, stay } = check(placeAndStay, given);
  return darknessUnchecked(p.latDeg, p.lonDeg, stay);
}

/** {@link darkness} for input already checked. */
export function darknessUnchecked(latDeg: number, lonDeg: number, stay: Interval): Darkness {
  const [horizon, civil, nautical, astronomical] = LIMITS.map((l) =>
    darkHours(latDeg, lonDeg, stay, l.altitudeDeg),
  );
  return {
    sunsetToSunrise: horizon!,
    beyondCivil: civil!,
    beyondNautical: nautical!,
    beyondAstronomical: astronomical!,
  };
}

/** When the sun lies below an altitude; touching it counts as dark. */
function darkHours(
  latDeg: number,
  lonDeg: number,
  { fromMs, toMs }: Interval,
  altitudeDeg: number,
): DarkHours {
  const intervals = sunBelow(latDeg, lonDeg, fromMs, toMs, altitudeDeg);
  const totalMs = intervals.reduce((sum, i) => sum + i.toMs - i.fromMs, 0);
  const partly = totalMs === toMs - fromMs ? "throughout" : "partly";
  return {
    state: intervals.length === 0 ? "never" : partly,
    intervals,
    totalMs,
  };
}
