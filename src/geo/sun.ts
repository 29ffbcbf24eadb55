import { getPosition } from "suncalc";
import type { Interval } from "../core/judgement.js";
import { bracketedRoot } from "../core/roots.js";

const HOUR = 3_600_000;
/**
 * Altitude of the sun's centre at sunrise and sunset: 34' of refraction and 16' of half its breadth.
 *
 * @source US Naval Observatory, definitions of rise, set and twilight (zenith 90.8333 degrees)
 */
export const SUNSET_DEG = -50 / 60;
/** Altitude at the start and end of civil twilight; same source (zenith 96 degrees). */
export const CIVIL_DEG = -6;
/** Refraction that suncalc adds everywhere below the horizon, degrees: its formula at altitude nil. */
const REFRACTION_DEG =
  (0.0002967 / Math.tan(0.00312536 / 0.08901179)) * (180 / Math.PI);

/**
 * Altitude of the sun's centre without refraction, degrees. Above the horizon, too, the refraction
 * of the horizon is taken off, which leaves it up to half a degree low there: every event of
 * the sun lies below.
 */
export const sunAltitude = (
  latDeg: number,
  lonDeg: number,
  timeMs: number,
): number =>
  getPosition(new Date(timeMs), latDeg, lonDeg).altitude - REFRACTION_DEG;

/** One passage of the sun's centre through an altitude. */
export interface Crossing {
  /** When. */
  timeMs: number;
  /** Whether the sun rises through the altitude; else it sinks through it. */
  rising: boolean;
}

/**
 * Every passage of the sun through an altitude in a span, in order of time. Altitudes are taken
 * every hour, and at the top of each arch and the foot of each trough that an hour might hide, so
 * that no passage hangs on a solar day, and the shortest night or day is found.
 */
export function sunCrossings(
  latDeg: number,
  lonDeg: number,
  fromMs: number,
  toMs: number,
  altitudeDeg: number,
): Crossing[] {
  const f = (t: number) => sunAltitude(latDeg, lonDeg, t) - altitudeDeg;
  const out: Crossing[] = [];
  const piece = (t0: number, f0: number, t1: number, f1: number) => {
    if (f0 > 0 === f1 > 0) return;
    const timeMs = Math.round(bracketedRoot(f, t0, t1, 1));
    if (timeMs >= fromMs && timeMs <= toMs)
      out.push({ timeMs, rising: f1 > 0 });
  };
  let [ta, tb] = [fromMs - 2 * HOUR, fromMs - HOUR];
  let [fa, fb] = [f(ta), f(tb)];
  // An hour more at each end: the neighbours show an arch or trough in the first and last hour.
  while (tb < toMs + HOUR) {
    const tc = tb + HOUR;
    const fc = f(tc);
    const turns = fb > fa !== fc > fb;
    if (turns && fa > 0 === fb > 0 && fb > 0 === fc > 0) {
      const top = extreme(f, ta, tc, fb > fa ? 1 : -1);
      piece(ta, fa, top, f(top));
      piece(top, f(top), tc, fc);
    } else piece(tb, fb, tc, fc);
    [ta, fa, tb, fb] = [tb, fb, tc, fc];
  }
  return out;
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** Where `sign * f` is greatest, by golden section: 30 steps bring two hours down to a few milliseconds. */
function extreme(
  f: (t: number) => number,
  from: number,
  to: number,
  sign: number,
): number {
  let [a, b] = [from, to];
  let [c, d] = [b - GOLDEN * (b - a), a + GOLDEN * (b - a)];
  let [fc, fd] = [sign * f(c), sign * f(d)];
  for (let i = 0; i < 30; i++) {
    if (fc > fd) {
      [b, d, fd] = [d, c, fc];
      c = b - GOLDEN * (b - a);
      fc = sign * f(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + GOLDEN * (b - a);
      fd = sign * f(d);
    }
  }
  return (a + b) / 2;
}

/** Spans in which the sun stands at or below an altitude, cut off at the ends; to touch it counts as below. */
export function sunBelow(
  latDeg: number,
  lonDeg: number,
  fromMs: number,
  toMs: number,
  altitudeDeg: number,
): Interval[] {
  const out: Interval[] = [];
  let below = !(sunAltitude(latDeg, lonDeg, fromMs) > altitudeDeg);
  let since = fromMs;
  for (const c of sunCrossings(latDeg, lonDeg, fromMs, toMs, altitudeDeg)) {
    if (below && c.rising) out.push({ fromMs: since, toMs: c.timeMs });
    below = !c.rising;
    since = c.timeMs;
  }
  if (below) out.push({ fromMs: since, toMs });
  return out;
}
