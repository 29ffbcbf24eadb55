import { known } from "../core/series.js";
import type { ChartedMark } from "../chart/marks-of.js";
import { marksOn } from "../chart/marks-of.js";
import { geodesicInverse } from "../geo/geodesic.js";
import { nauticalMiles } from "../core/units.js";
import { streamTurnsUnchecked } from "../stream/turns.js";
import { checkTimes, type CheckTime } from "../watch/checktimes.js";
import { watchLimits, type WatchLimits } from "../watch/limits.js";
import { watchRota, type WatchRota } from "../watch/rota.js";
import { pickTransits, type PickTransits } from "../watch/transits.js";
import type { Study } from "./study.js";
import type { Interval } from "./types.js";

/** How the stay is to be watched. */
export interface Keeping {
  /** Distance and depth limits over the stay; null where the depth is nowhere known. */
  limits: WatchLimits | null;
  /** When to look how she lies, and at what. */
  checks: CheckTime[];
  /** Who watches when; null where no crew was given. */
  rota: WatchRota | null;
  /** Marks to line up by day. */
  transitsByDay: PickTransits | null;
  /** Marks to line up by night. */
  transitsByNight: PickTransits | null;
}

/** Antenna of a vessel of which nothing is said: abaft the bow by this share of her length (common practice, no source). */
const ANTENNA_SHARE = 0.85;
const MOST_MARKS = 200;
const SEEN_M = nauticalMiles(4);

/** Depth at the anchor moment by moment; null where it is not known. */
const depthsOf = (s: Study): (number | null)[] =>
  Array.from(s.scene.tideM, (t) => known(s.anchorDepth.chartedM + t));

function limitsFor(s: Study): WatchLimits | null {
  const { scene, rode, lie } = s;
  const depthM = depthsOf(s);
  if (depthM.every((d) => d === null)) return null;
  return watchLimits({
    stay: {
      timeMs: scene.timeMs,
      depthM,
      reachM: Array.from(lie.gustReachM, known),
    },
    rode: {
      lengthM: rode.lengthOutM,
      ...(s.input.tackle.lengthSigmaM !== undefined && {
        sigmaM: s.input.tackle.lengthSigmaM,
      }),
    },
    bowHeightM: scene.vessel.bowHeightM,
    antenna: { abaftBowM: ANTENNA_SHARE * scene.vessel.lengthM },
    leastDepthM: scene.vessel.draughtM + s.input.limits.underKeelM,
  });
}

function marksFor(s: Study): ChartedMark[] {
  if (s.chart === null) return [];
  return marksOn(s.chart)
    .filter((m) => !m.floating && geodesicInverse(s.input.position, m.position).distanceM <= SEEN_M)
    .slice(0, MOST_MARKS);
}

function transitsFor(s: Study, marks: readonly ChartedMark[], night: boolean): PickTransits | null {
  if (marks.length < 2) return null;
  return pickTransits({
    marks: marks.map((m, i) => ({
      id: `${i}:${m.name}`,
      position: m.position,
      lit: m.lit === true,
    })),
    position: s.input.position,
    reachM: s.radiusM,
    night,
  });
}

/** The dark where it is cut off at an end of the stay, taken past it: night neither falls nor ends there. */
const pastEnds = ({ fromMs, toMs }: Interval, stay: Interval): Interval => ({
  fromMs: fromMs > stay.fromMs ? fromMs : stay.fromMs - 1,
  toMs: toMs < stay.toMs ? toMs : stay.toMs + 1,
});

function checksFor(s: Study, dark: Interval[]): CheckTime[] {
  const { input, scene } = s;
  const { stay, stream, turningInMs, forecast } = input;
  return checkTimes({
    stay,
    columns: { timeMs: scene.timeMs, depthM: depthsOf(s) },
    tideTurns: scene.curve?.turns(stay.fromMs, stay.toMs) ?? [],
    streamTurns: stream === undefined ? [] : streamTurnsUnchecked(stream, stay),
    wind: (forecast?.rows ?? []).map(({ timeMs, windMps, windFromDeg }) => ({
      timeMs,
      windMps,
      windFromDeg,
    })),
    dark: dark.map((d) => pastEnds(d, stay)),
    ...(turningInMs !== undefined && { turningInMs }),
  });
}

function rotaFor(
  s: Study,
  dark: Interval[],
  checks: CheckTime[],
  limits: WatchLimits | null,
): WatchRota | null {
  const crew = (s.input.crew ?? []).map((c) => c.name);
  if (crew.length === 0) return null;
  const callAt = limits === null ? {} : { distanceM: limits.greatest.distanceM };
  return watchRota({ crew, stay: s.input.stay, dark, checks, callAt });
}

/** Limits, check times, rota and transits of a stay. */
export function keepingOf(s: Study, dark: Interval[]): Keeping {
  const marks = marksFor(s);
  const limits = limitsFor(s);
  const checks = checksFor(s, dark);
  return {
    limits,
    checks,
    rota: rotaFor(s, dark, checks, limits),
    transitsByDay: transitsFor(s, marks, false),
    transitsByNight: transitsFor(s, marks, true),
  };
}
