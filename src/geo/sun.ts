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
const REFRACTION_DEG = (0.0002967 / Math.tan(0.00312536 / 0.08901179)) * (180 / Math.PI);
/**
 * Horizontal parallax of the sun, which suncalc leaves out: the observer stands so much nearer the edge of the light.
 *
 * @source Astronomical Almanac: 8.794 seconds of arc at the mean distance
 */
const PARALLAX_DEG = 8.794 / 3600;

const DAY = 86_400_000;
/** Degrees the earth turns in a day against the stars, and the sun moves among them. */
const [TURN_DEG, SUN_DEG] = [360.98564737, 0.98564737];
/** Midday of the last day of 1899, from which the terms below count. */
const EPOCH_MS = Date.UTC(1899, 11, 31, 12);
const RAD = Math.PI / 180;

/**
 * What the planets and the moon add to the sun's longitude, and the second term of nutation, degrees: suncalc's series
 * stops short of them. By turns: Venus twice, Jupiter, the moon, a long period.
 *
 * @source J. Meeus, Astronomical Formulae for Calculators, ch. 18 (from memory; held against an
 * independent ephemeris in the tests)
 */
function perturbation(timeMs: number): number {
  const t = (timeMs - EPOCH_MS) / (36525 * DAY);
  return (
    0.00134 * Math.cos((153.23 + 22518.7541 * t) * RAD) +
    0.00154 * Math.cos((216.57 + 45037.5082 * t) * RAD) +
    0.002 * Math.cos((312.69 + 32964.3577 * t) * RAD) +
    0.00179 * Math.sin((350.74 + 445267.1142 * t) * RAD) +
    0.00178 * Math.sin((231.19 + 20.2 * t) * RAD) -
    0.00037 * Math.sin((2 * 279.697 + 2 * 36000.7689 * t) * RAD)
  );
}

/**
 * Altitude of the sun's centre without refraction, degrees. Above the horizon, too, the refraction
 * of the horizon is taken off, which leaves it up to half a degree low there: every event of
 * the sun lies below.
 */
function sunAltitude(latDeg: number, lonDeg: number, timeMs: number): number {
  // A sun further on by so much is the sun of a little later, over an earth that has not turned.
  const laterDays = perturbation(timeMs) / SUN_DEG;
  const at = new Date(timeMs + laterDays * DAY);
  const { altitude } = getPosition(at, latDeg, lonDeg - TURN_DEG * laterDays);
  return altitude - REFRACTION_DEG - PARALLAX_DEG;
}

/**
 * How much wider than 16' half the sun's breadth is, degrees: 959.63 seconds of arc at the mean distance.
 *
 * @source Astronomical Almanac, semidiameter of the sun; distance by the first term of the ellipse
 */
function widerBy(timeMs: number): number {
  const anomaly = (358.476 + 35999.0498 * ((timeMs - EPOCH_MS) / (36525 * DAY))) * RAD;
  return (959.63 / (1 - 0.0167 * Math.cos(anomaly)) - 960) / 3600;
}

/** How far the sun stands above one of the limits, degrees; for sunset, its upper edge as broad as it is on the day. */
export const sunOver = (
  latDeg: number,
  lonDeg: number,
  timeMs: number,
  altitudeDeg: number,
): number =>
  sunAltitude(latDeg, lonDeg, timeMs) -
  altitudeDeg +
  (altitudeDeg === SUNSET_DEG ? widerBy(timeMs) : 0);

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
  const f = (t: number) => sunOver(latDeg, lonDeg, t, altitudeDeg);
  const out: Crossing[] = [];
  const piece = (t0: number, f0: number, t1: number, f1: number) => {
    if (f0 > 0 === f1 > 0) return;
    const timeMs = Math.round(bracketedRoot(f, t0, t1, 1));
    if (timeMs >= fromMs && timeMs <= toMs) out.push({ timeMs, rising: f1 > 0 });
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
function extreme(f: (t: number) => number, from: number, to: number, sign: number): number {
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
  let below = !(sunOver(latDeg, lonDeg, fromMs, altitudeDeg) > 0);
  let since = fromMs;
  for (const c of sunCrossings(latDeg, lonDeg, fromMs, toMs, altitudeDeg)) {
    if (below && c.rising) out.push({ fromMs: since, toMs: c.timeMs });
    below = !c.rising;
    since = c.timeMs;
  }
  if (below) out.push({ fromMs: since, toMs });
  return out;
}
