import { RAD, turnDeg } from "../core/angles.js";
import { atan2, cosDeg, sinDeg } from "../core/elementary.js";
import { LIE } from "./kernel.js";

/** A wind between a mean wind and its gust. */
interface WindBetween {
  windMps: number;
  windFromDeg: number;
}

/** Headings looked at lie no further apart, degrees: between two of them the pull bends by about a fifth of a per cent. */
const STEP_DEG = 5;
/** Wind straight against the rest leaves the vessel no side to turn by; it is taken as this far round, degrees. */
const MOST_DEG = 179;

/**
 * Winds between a mean wind and its gust to look at beside the two, for blowing against stream or waves
 * a gust turns the vessel round, and across both she pulls harder than at either end. They lay her on even headings
 * from that of the mean wind to that of the gust; none where wind and rest come from the same half.
 *
 * `gust` is what the kernel wrote for the gust, `restDeg` the heading without wind. Unknown figures make none.
 */
export function windsBetween(
  gust: Float64Array,
  meanMps: number,
  gustMps: number,
  windFromDeg: number,
  restDeg: number,
): WindBetween[] {
  const off = turnDeg(restDeg, windFromDeg);
  const apart = Math.min(MOST_DEG, Math.abs(off));
  if (!(apart > 90 && gustMps > meanMps)) return [];
  const wind = gust[LIE.windMomentShare]!;
  const turn = gust[LIE.settled]!;
  const along = cosDeg(turnDeg(gust[LIE.headingDeg]!, windFromDeg));
  // Turning moments as the sides of a triangle: wind and rest make what is left.
  const ratio = wind / Math.sqrt(wind * wind + turn * turn - 2 * wind * turn * along);
  const headingAt = (r: number) => atan2(r * sinDeg(apart), 1 + r * cosDeg(apart)) / RAD;
  const part = meanMps / gustMps;
  const from = headingAt(ratio * part * part);
  const round = headingAt(ratio) - from;
  const steps = Math.ceil(round / STEP_DEG);
  const fromDeg = apart < MOST_DEG ? windFromDeg : restDeg + Math.sign(off) * MOST_DEG;
  const out: WindBetween[] = [];
  for (let k = 1; k < steps; k++) {
    const heading = from + (round * k) / steps;
    const windMps = gustMps * Math.sqrt(sinDeg(heading) / sinDeg(apart - heading) / ratio);
    if (windMps > meanMps && windMps < gustMps) out.push({ windMps, windFromDeg: fromDeg });
  }
  return out;
}
