import { timeSteps } from "../core/series.js";
import { type Berth, prepareBerth } from "./berth.js";
import type { FetchFan } from "./fan.js";
import { between, directionBetween } from "./forecast.js";
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
  // Between two rows of tide the higher of them, so that no bank dries early.
  const height = Math.max(found.a.heightAboveDatumM, found.b.heightAboveDatumM);
  return levels.find((level) => level.upToM >= height) ?? most;
}

/** Swell at a berth: height, period, and where it comes from. */
export interface SwellNow {
  hm0M: number;
  periodS: number;
  fromDeg: number;
}

const CALM: SwellNow = { hm0M: 0, periodS: 0, fromDeg: 0 };
const UNKNOWN: SwellNow = { hm0M: NaN, periodS: NaN, fromDeg: NaN };

/** Swell at the berth at an instant: reckoned at the rows beside it and taken between them. None where no swell was given. */
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
  return {
    hm0M: a.hm0M + found.part * (b.hm0M - a.hm0M),
    periodS: a.periodS + found.part * (b.periodS - a.periodS),
    fromDeg: directionBetween(a.fromDeg, b.fromDeg, found.part),
  };
}
