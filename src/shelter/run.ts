import { RAD, turnDeg } from "../core/angles.js";
import { between, directionBetween, noWind, rowsAbout, type Wind, windAt } from "./forecast.js";
import { advance, type History, noHistory } from "./history.js";
import { levelAt, type PreparedStay, type SwellNow, swellNow } from "./prepareStay.js";
import {
  type Moment,
  type Sea,
  type StepScratch,
  stepScratch,
  stepSea,
  unknownSea,
} from "./step.js";
import { onStream } from "./stream.js";

/** One step of a stay as it came out. */
export interface Step {
  timeMs: number;
  wind: Wind;
  swell: SwellNow;
  /** What the berth met. */
  moment: Moment;
  sea: Sea;
  /** Rate of the stream, NaN where it is not known, 0 where none was given. */
  streamMps: number;
  /** Whether the stream would stop the waves. */
  blocked: boolean;
}

/** The wind of this long before the stay is looked at for how long it has blown. */
const LOOK_BACK_MS = 12 * 3_600_000;

/** Reckon every step of a stay. */
export function runStay(stay: PreparedStay): Step[] {
  const { input, times } = stay;
  const most = Math.max(0, ...input.forecast.rows.map((r) => r.members?.length ?? 0));
  const room = stepScratch(most);
  const history = noHistory();
  const first = input.forecast.rows[0]!.timeMs;
  const from = Math.max(first, input.stay.fromMs - LOOK_BACK_MS);
  const back = Math.ceil(Math.max(0, input.stay.fromMs - from) / input.stepMs);
  for (let k = back; k > 0; k--)
    lookBack(stay, input.stay.fromMs - k * input.stepMs, history, room);
  return times.map((timeMs) => stepAt(stay, timeMs, history, room));
}

function lookBack(stay: PreparedStay, timeMs: number, history: History, room: StepScratch): void {
  const wind = noWind();
  windAt(stay.input.forecast, timeMs, wind);
  const { berth } = levelAt(stay, timeMs);
  advance(history, berth, wind.windMps, wind.windFromDeg, stay.input.stepMs / 1000, room);
}

function stepAt(stay: PreparedStay, timeMs: number, history: History, room: StepScratch): Step {
  const wind = noWind();
  windAt(stay.input.forecast, timeMs, wind);
  wind.leastGustMps = hardestGust(stay, timeMs, wind.leastGustMps);
  const level = levelAt(stay, timeMs);
  const { windMps, windFromDeg } = wind;
  const stepS = stay.input.stepMs / 1000;
  advance(history, level.berth, windMps, windFromDeg, stepS, room);
  const swell = swellNow(stay, level, timeMs);
  const stream = streamNow(stay, timeMs);
  const along = turnDeg(stream.towardsDeg, history.seaFromDeg + 180) * RAD;
  const { factor, blocked } = onStream(
    Math.max(room.growth.periodS, SHORTEST_S),
    stream.rateMps * Math.cos(along),
  );
  const moment: Moment = {
    ...wind,
    durationS: history.durationS,
    ...withOldSea(swell, history),
    headingDeg: headingAt(stay, timeMs, stream.rateMps),
    streamFactor: factor,
  };
  const sea = unknownSea();
  if (!Number.isNaN(windMps)) stepSea(level.berth, moment, stay.judge, room, sea);
  applyGustLimit(sea, wind.leastGustMps, stay.input.gustLimitMps);
  const streamMps = stream.rateMps;
  return { timeMs, wind, swell, moment, sea, streamMps, blocked };
}

/** Shortest wind wave put on a stream, s: a ripple of a metre a second. */
const SHORTEST_S = 0.5;

/** Swell together with what is left of older seas, from where the largest comes. */
function withOldSea(
  swell: SwellNow,
  { oldM, oldFromDeg, restM, restFromDeg }: History,
): Pick<Moment, "swellM" | "swellFromDeg"> {
  const [leftM, leftFromDeg] = oldM >= restM ? [oldM, oldFromDeg] : [restM, restFromDeg];
  return {
    swellM: Math.sqrt(swell.hm0M * swell.hm0M + oldM * oldM + restM * restM),
    swellFromDeg: swell.hm0M > leftM ? swell.fromDeg : leftFromDeg,
  };
}

/** The hardest gust known of about a step, that of a row nearer to it than to another among them. */
const hardestGust = ({ input }: PreparedStay, timeMs: number, leastMps: number): number =>
  rowsAbout(input.forecast.rows, timeMs, input.stepMs).reduce(
    (most, r) => Math.max(most, r.windMps, r.gustMps ?? 0),
    leastMps,
  );

/** A gust above the limit makes the hour untenable whatever the sea. */
function applyGustLimit(sea: Sea, gustMps: number, limitMps = Infinity): void {
  if (!(gustMps > limitMps) || sea.comfort === "unknown") return;
  sea.comfort = "untenable";
  sea.untenable = 1;
  sea.poor = 1;
}

/** A stream of this rate may set a vessel across the wind; common practice, no source. */
const SETTING_MPS = 0.5;

/** Heading that is not known: no angle to a sea comes of it, and each is taken to be on the beam. */
const ON_THE_BEAM = Infinity;

/** Heading where it is given; on the beam of every sea, the unsafe side, where it is not known there or a stream runs and none is given; else the wind's, NaN. */
function headingAt({ input }: PreparedStay, timeMs: number, streamMps: number): number {
  if (input.lying !== undefined) {
    const found = between(input.lying, timeMs, input.forecast.longestGapMs);
    if (found !== null) return directionBetween(found.a.headingDeg, found.b.headingDeg, found.part);
    return ON_THE_BEAM;
  }
  return streamMps < SETTING_MPS ? NaN : ON_THE_BEAM;
}

function streamNow(
  { input }: PreparedStay,
  timeMs: number,
): { rateMps: number; towardsDeg: number } {
  if (input.stream === undefined) return { rateMps: 0, towardsDeg: 0 };
  const found = between(input.stream, timeMs, input.forecast.longestGapMs);
  if (found === null) return { rateMps: NaN, towardsDeg: NaN };
  const { a, b, part } = found;
  const east = mix(
    a.rateMps * Math.sin(a.towardsDeg * RAD),
    b.rateMps * Math.sin(b.towardsDeg * RAD),
    part,
  );
  const north = mix(
    a.rateMps * Math.cos(a.towardsDeg * RAD),
    b.rateMps * Math.cos(b.towardsDeg * RAD),
    part,
  );
  return {
    rateMps: Math.sqrt(east * east + north * north),
    towardsDeg: Math.atan2(east, north) / RAD,
  };
}

const mix = (a: number, b: number, part: number): number => a + part * (b - a);
