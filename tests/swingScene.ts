import { planeAt } from "../src/geo/plane.js";
import type { SwingMoment } from "../src/swing/index.js";

/** The place, the hour and the lies that the tests of swing share. */
export const T0 = Date.UTC(2026, 5, 1, 18);
export const HOUR = 3_600_000;
export const anchor = { latDeg: 50, lonDeg: -4 };
export const plane = planeAt(anchor);

/** She lies `i` hours after the first, drawn to `pull` and heading into it unless told otherwise. */
export const lie = (
  i: number,
  pull: number | null,
  reachM: number,
  more: Partial<SwingMoment> = {},
) => ({
  timeMs: T0 + i * HOUR,
  reachM,
  pullTowardsDeg: pull,
  headingDeg: pull === null ? null : (pull + 180) % 360,
  ...more,
});
