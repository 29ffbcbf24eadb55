import { turnDeg, wrap360 } from "../core/angles.js";
import { lastAtOrBefore } from "../core/series.js";
import { hours } from "../core/units.js";
import { GUSTS } from "../lie/tables.js";
import type { Forecast } from "./input.js";

/** Wind at one instant; every figure NaN where the forecast does not reach. */
export interface Wind {
  windMps: number;
  windFromDeg: number;
  gustMps: number;
  /** One sigma of the direction. */
  sigmaDeg: number;
}

/** Wind at an instant, written into `out`. */
export type WindSampler = (timeMs: number, out: Wind) => void;

/** A {@link Wind} to be filled. */
export const noWind = (): Wind => ({
  windMps: NaN,
  windFromDeg: NaN,
  gustMps: NaN,
  sigmaDeg: NaN,
});

const LIGHT_MPS = 5;
const FRESH_MPS = 10;

/**
 * One sigma of the forecast direction by mean wind and lead time: 18° in a fresh wind within a day, 28° in a
 * moderate one or a day later, 45° in light airs or beyond two days.
 *
 * @source common practice; forecast errors of 22 to 49° (mean absolute) over thirty days at land stations
 */
export function directionSigma(windMps: number, leadMs: number): number {
  if (!(windMps >= LIGHT_MPS) || !(leadMs < hours(48))) return 45;
  return windMps >= FRESH_MPS && leadMs < hours(24) ? 18 : 28;
}

/** Sampler of a checked forecast: speed along a straight line, direction the shorter way round. */
export function windSampler(
  forecast: Forecast,
  exposure: keyof typeof GUSTS,
  startMs: number,
): WindSampler {
  const { rows, issuedMs = startMs } = forecast;
  const times = rows.map((r) => r.timeMs);
  const gusts = rows.map((r) => r.gustMps ?? r.windMps * GUSTS[exposure]);
  return (t, out) => {
    const i = lastAtOrBefore(times, t);
    const j = i >= 0 && times[i] === t ? i : i + 1;
    const a = rows[i];
    const b = rows[j];
    if (
      a === undefined ||
      b === undefined ||
      !(times[j]! - times[i]! <= forecast.longestGapMs)
    ) {
      Object.assign(out, noWind());
      return;
    }
    const part = i === j ? 0 : (t - times[i]!) / (times[j]! - times[i]!);
    out.windMps = a.windMps + part * (b.windMps - a.windMps);
    out.windFromDeg = wrap360(
      a.windFromDeg + part * turnDeg(a.windFromDeg, b.windFromDeg),
    );
    out.gustMps = Math.max(
      out.windMps,
      gusts[i]! + part * (gusts[j]! - gusts[i]!),
    );
    out.sigmaDeg =
      forecast.directionSigmaDeg ?? directionSigma(out.windMps, t - issuedMs);
  };
}
