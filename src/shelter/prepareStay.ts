import { timeSteps } from "../core/series.js";
import { type Berth, prepareBerth } from "./berth.js";
import type { FetchFan } from "./fan.js";
import { between, directionBetween, rowsAbout } from "./forecast.js";
import type { CheckedShelter } from "./shelterInput.js";
import type { Judgement } from "./step.js";
import { swellThrough } from "./swellThrough.js";
import type { SwellAt } from "./swellTypes.js";
import { type Gap, gapsOf } from "./window.js";

/** A fan made ready, with the height of tide up to which it holds. */
export interface Level {
  fan: FetchFan;
  berth: Berth;
  gaps: Gap[];
  /** Height of tide up to which it holds; Infinity where its banks are all covered. */
  upToM: number;
  /** Swell at the berth for each row of swell, reckoned when first asked for. */
  swell: (SwellAt | undefined)[];
}

/** A stay made ready: everything that is worked out once. */
export interface PreparedStay {
  input: CheckedShelter;
  /** Fans by the height of tide up to which they hold, ascending. */
  levels: Level[];
  /** Instants of the answer. */
  times: number[];
  judge: Judgement;
}

/** Growth of height with wind, as a power, in the growth laws over a short fetch: 1 to 1.23; the upper is taken. */
const HEIGHT_BY_WIND = 1.23;

/** Make a stay ready. */
export function prepareStay(input: CheckedShelter): PreparedStay {
  const fans = Array.isArray(input.fan) ? input.fan : [input.fan];
  const levels = fans
    .map((fan) => ({
      fan,
      berth: prepareBerth(fan, input.fetchMethod, input.fetchDepthM ?? Infinity, input.pastEdgeM),
      gaps: gapsOf(fan, input.openM),
      upToM: fan.heightAboveDatumM ?? Infinity,
      swell: [],
    }))
    .sort((a, b) => a.upToM - b.upToM);
  const ensemble = input.forecast.rows.some((r) => r.members !== undefined);
  const wind = ensemble ? 0 : HEIGHT_BY_WIND * input.forecast.speedSigmaShare;
  const scatter = Math.sqrt(input.modelScatter * input.modelScatter + wind * wind);
  return {
    input,
    levels,
    times: timeSteps(input.stay.fromMs, input.stay.toMs, input.stepMs),
    judge: { limitM: input.limitM, scatter },
  };
}

/** Fan for the tide of an instant: the lowest that holds at it, the most open where the tide is not known. */
export function levelAt({ input, levels }: PreparedStay, timeMs: number): Level {
  const most = levels[levels.length - 1]!;
  if (levels.length === 1 || input.tide === undefined) return most;
  const found = between(input.tide, timeMs, input.forecast.longestGapMs);
  if (found === null) return most;
  const height = highestBetween(input.tide, found.a, found.b);
  return levels.find((level) => level.upToM >= height) ?? most;
}

type TideRow = NonNullable<CheckedShelter["tide"]>[number];

/**
 * The highest the tide may stand between two rows, so that no bank dries early: where the rise before them and the
 * fall after them, carried on, meet; at the least the higher row. Two rows alone are taken as they are.
 */
function highestBetween(rows: readonly TideRow[], a: TideRow, b: TideRow): number {
  const [from, to] = [a.heightAboveDatumM, b.heightAboveDatumM];
  const higher = Math.max(from, to);
  if (a === b || rows.length === 2) return higher;
  const i = rows.indexOf(a);
  const up = riseOver(rows[i - 1], a, b.timeMs - a.timeMs);
  const down = riseOver(rows[i + 2], b, b.timeMs - a.timeMs);
  if (up === Infinity) return Math.max(higher, to + down);
  if (down === Infinity) return Math.max(higher, from + up);
  const part = (to + down - from) / (up + down);
  return part > 0 && part < 1 ? Math.max(higher, from + up * part) : higher;
}

/** Rise from a row further off to a nearer one, over a span of time; without bound where there is no such row. */
function riseOver(far: TideRow | undefined, near: TideRow, spanMs: number): number {
  if (far === undefined) return Infinity;
  const rise = near.heightAboveDatumM - far.heightAboveDatumM;
  return (Math.max(0, rise) * spanMs) / Math.abs(near.timeMs - far.timeMs);
}

/** Swell at a berth: height, period, and where it comes from. */
export interface SwellNow {
  hm0M: number;
  periodS: number;
  fromDeg: number;
}

const CALM: SwellNow = { hm0M: 0, periodS: 0, fromDeg: 0 };
const UNKNOWN: SwellNow = { hm0M: NaN, periodS: NaN, fromDeg: NaN };

/**
 * Swell at the berth at a step: reckoned at the rows beside it and taken between them, or that of a row nearer to this
 * step than to another where it is greater. None where no swell was given.
 */
export function swellNow({ input }: PreparedStay, level: Level, timeMs: number): SwellNow {
  const rows = input.swell;
  if (rows === undefined) return CALM;
  const found = between(rows, timeMs, input.forecast.longestGapMs);
  if (found === null) return UNKNOWN;
  const inside = (row: (typeof rows)[number]): SwellAt => {
    const i = rows.indexOf(row);
    return (level.swell[i] ??= swellThrough(level.gaps, row, input.depthM, input.bay));
  };
  const a = inside(found.a);
  const b = inside(found.b);
  const now = {
    hm0M: a.hm0M + found.part * (b.hm0M - a.hm0M),
    periodS: a.periodS + found.part * (b.periodS - a.periodS),
    fromDeg: directionBetween(a.fromDeg, b.fromDeg, found.part),
  };
  return rowsAbout(rows, timeMs, input.stepMs)
    .map(inside)
    .reduce<SwellNow>((most, s) => (s.hm0M > most.hm0M ? s : most), now);
}
