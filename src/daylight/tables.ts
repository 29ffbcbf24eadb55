import { CIVIL_DEG, SUNSET_DEG } from "../geo/sun.js";

/** An altitude of the sun's centre at which the light changes its name. */
export interface LightLimit {
  /** Altitude without refraction, degrees. */
  altitudeDeg: number;
  /** Event as the sun rises through it. */
  dawn: "sunrise" | "civilDawn" | "nauticalDawn" | "astronomicalDawn";
  /** Event as the sun sinks through it. */
  dusk: "sunset" | "civilDusk" | "nauticalDusk" | "astronomicalDusk";
}

/**
 * The four limits, for an eye at sea level.
 *
 * @source US Naval Observatory, definitions of rise, set and twilight (zenith 90.8333, 96, 102, 108 degrees).
 */
export const LIMITS: readonly LightLimit[] = [
  { altitudeDeg: SUNSET_DEG, dawn: "sunrise", dusk: "sunset" },
  { altitudeDeg: CIVIL_DEG, dawn: "civilDawn", dusk: "civilDusk" },
  { altitudeDeg: -12, dawn: "nauticalDawn", dusk: "nauticalDusk" },
  { altitudeDeg: -18, dawn: "astronomicalDawn", dusk: "astronomicalDusk" },
];

/** An event of the sun. */
export type SunEventKind = LightLimit["dawn"] | LightLimit["dusk"];
