import { RAD, turnDeg } from "../core/angles.js";
import { atan2, cosDeg, sinDeg } from "../core/elementary.js";
import { LIE } from "./kernel.js";

/** Headings looked at lie no further apart, degrees: between two of them the pull bends by about a fifth of a per cent. */
const STEP_DEG = 5;
/** At a first look, no further than this; the pull is then known to a tenth. */
const LOOK_DEG = 30;
/** Where at a first look no pull comes this near the hardest known, none goes beyond it. */
const NEAR = 0.8;
/** Wind straight against the rest leaves the vessel no side to turn by; it is taken as this far round, degrees. */
const MOST_DEG = 179;

/**
 * Looks at winds between a mean wind and its gust, for blowing against stream or waves a gust turns the vessel round,
 * and across both she pulls harder than at either end. They lay her on even headings from that of the mean wind to that
 * of the gust; there are none where wind and rest come from the same half, and few where no pull comes near the hardest.
 *
 * `gust` is what the kernel wrote for the gust, `restDeg` the heading without wind; `look` tells how a wind's pull stands
 * to the hardest known before. Without `closely` the first look is all. Unknown figures make no winds.
 */
export function overWindsBetween(
  gust: Float64Array,
  meanMps: number,
  gustMps: number,
  windFromDeg: number,
  restDeg: number,
  look: (windMps: number, windFromDeg: number) => number,
  closely = true,
): void {
  const off = turnDeg(restDeg, windFromDeg);
  const apart = Math.min(MOST_DEG, Math.abs(off));
  if (!(apart > 90 && gustMps > meanMps)) return;
  const wind = gust[LIE.windMomentShare]!;
  const turn = gust[LIE.settled]!;
  const along = cosDeg(turnDeg(gust[LIE.headingDeg]!, windFromDeg));
  // Turning moments as the sides of a triangle: wind and rest make what is left.
  const ratio = wind / Math.sqrt(wind * wind + turn * turn - 2 * wind * turn * along);
  const headingAt = (r: number) => atan2(r * sinDeg(apart), 1 + r * cosDeg(apart)) / RAD;
  const part = meanMps / gustMps;
  const from = headingAt(ratio * part * part);
  const round = headingAt(ratio) - from;
  const fromDeg = apart < MOST_DEG ? windFromDeg : restDeg + Math.sign(off) * MOST_DEG;
  const pass = (stepDeg: number): number => {
    const steps = Math.ceil(round / stepDeg);
    let most = 0;
    for (let k = 1; k < steps; k++) {
      const heading = from + (round * k) / steps;
      const windMps = gustMps * Math.sqrt(sinDeg(heading) / sinDeg(apart - heading) / ratio);
      if (windMps > meanMps && windMps < gustMps) most = Math.max(most, look(windMps, fromDeg));
    }
    return most;
  };
  if (round > LOOK_DEG && (pass(LOOK_DEG) <= NEAR || !closely)) return;
  if (closely) pass(STEP_DEG);
}
