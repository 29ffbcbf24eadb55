import { bearingOf } from "../core/angles.js";
import type { Range3 } from "../core/judgement.js";
import { timeSteps } from "../core/series.js";
import { fillVessel, type Vessel } from "../lie/vessel.js";
import { GUSTS } from "../lie/tables.js";
import { noWind, windAt } from "../shelter/forecast.js";
import { streamSampler, type StreamVector } from "../stream/kernel.js";
import { streamTurnsUnchecked } from "../stream/turns.js";
import type { TideCurve } from "../tide/curve.js";
import { tideCurve } from "../tide/prepare.js";
import { pressureSurge } from "../tide/pressure.js";
import type { CheckedStay } from "./input.js";

/** What the weather and the water do over the stay: columns at the moments of the plan, NaN where not known. */
export interface Scene {
  timeMs: number[];
  /** Height of tide: with the lower end of error and surge, likely, and with the higher end. */
  tideLowM: Float64Array;
  tideM: Float64Array;
  tideHighM: Float64Array;
  windMps: Float64Array;
  windFromDeg: Float64Array;
  gustMps: Float64Array;
  /** One sigma of the wind's direction. */
  sigmaDeg: Float64Array;
  streamMps: Float64Array;
  streamTowardsDeg: Float64Array;
  vessel: Vessel;
  /** The tide ready to be asked; null where none was given. */
  curve: TideCurve | null;
  surgeM: Range3;
  /** What was taken for granted. */
  assumed: string[];
}

/** Surge as given, or what the pressure makes of it, or none. */
function surgeOf(input: CheckedStay): Range3 {
  if (input.surgeM !== undefined) return input.surgeM;
  if (input.pressureHpa === undefined) return { low: 0, likely: 0, high: 0 };
  const { surgeM } = pressureSurge({ pressureHpa: input.pressureHpa });
  // It may come late or not at all.
  return {
    low: Math.min(0, surgeM),
    likely: surgeM,
    high: Math.max(0, surgeM),
  };
}

const column = (times: readonly number[], of: (t: number) => number): Float64Array =>
  Float64Array.from(times, of);

function tideColumns(times: number[], curve: TideCurve | null, surge: Range3) {
  const height = column(times, (t) => curve?.heightAt(t) ?? NaN);
  return {
    tideM: height.map((h) => h + surge.likely),
    tideLowM: height.map((h, i) => h + surge.low + (curve?.errorLowAt(times[i]!) ?? NaN)),
    tideHighM: height.map((h, i) => h + surge.high + (curve?.errorHighAt(times[i]!) ?? NaN)),
  };
}

function windColumns(times: number[], input: CheckedStay) {
  const wind = noWind();
  const rows = times.map((t) => {
    if (input.forecast !== undefined) windAt(input.forecast, t, wind);
    const exposed = wind.windMps * GUSTS[input.exposure];
    // Beside a row without gusts those of the other are the least that is known.
    const gustMps = Number.isNaN(wind.gustMps)
      ? Math.max(exposed, wind.leastGustMps || 0)
      : wind.gustMps;
    return { ...wind, gustMps: Math.max(wind.windMps, gustMps) };
  });
  return {
    windMps: Float64Array.from(rows, (w) => w.windMps),
    windFromDeg: Float64Array.from(rows, (w) => w.windFromDeg),
    gustMps: Float64Array.from(rows, (w) => w.gustMps),
    sigmaDeg: Float64Array.from(rows, (w) => w.sigmaDeg),
  };
}

function streamColumns(times: number[], input: CheckedStay) {
  const streamMps = new Float64Array(times.length).fill(NaN);
  const streamTowardsDeg = new Float64Array(times.length).fill(NaN);
  if (input.stream === undefined) return { streamMps, streamTowardsDeg };
  const sample = streamSampler(input.stream);
  const v: StreamVector = { eastMps: 0, northMps: 0 };
  times.forEach((t, i) => {
    if (sample(t, v) !== null) return;
    streamMps[i] = Math.sqrt(v.eastMps * v.eastMps + v.northMps * v.northMps);
    streamTowardsDeg[i] = (streamMps[i] ?? 0) > 0 ? bearingOf(v.eastMps, v.northMps) : 0;
  });
  return { streamMps, streamTowardsDeg };
}

/** How the wind comes, in words. */
const EXPOSED: Readonly<Record<CheckedStay["exposure"], string>> = {
  openSea: "those of the open sea",
  nearLand: "those near land",
  underHighLand: "those under high land",
};

/** Defaults that a checked stay rests on, in words. */
function assumedOf(input: CheckedStay, vessel: Vessel): string[] {
  const guessed = vessel.assumed ?? [];
  return [
    ...(guessed.length > 0
      ? [
          `${guessed.length} figures of the vessel from her kind and length (windage, underwater shape and the like)`,
        ]
      : []),
    ...(input.surgeM === undefined && input.pressureHpa === undefined ? ["no surge"] : []),
    ...(input.forecast?.rows.some((r) => r.gustMps === undefined) === true
      ? [`gusts where none are forecast: ${EXPOSED[input.exposure]}`]
      : []),
    ...(input.forecast !== undefined && input.forecast.issuedMs === undefined
      ? ["forecast issued at its first row"]
      : []),
  ];
}

/** Moments of the plan: its steps, and between them what may be the worst: rows of the forecast, turns of the tide, the stream at its strongest. */
function momentsOf({ stay, stepMs, forecast, stream }: CheckedStay, curve: TideCurve | null) {
  const { fromMs, toMs } = stay;
  const running = stream === undefined ? [] : streamTurnsUnchecked(stream, stay);
  return timeSteps(fromMs, toMs, stepMs, [
    ...(forecast?.rows.map((r) => r.timeMs) ?? []),
    ...(curve?.turns(fromMs, toMs) ?? []).map((t) => Math.round(t.timeMs)),
    ...running.filter((t) => t.kind === "greatest").map((t) => Math.round(t.timeMs)),
  ]);
}

/** Lay out the stay's weather and water at the moments of the plan. */
export function sceneOf(input: CheckedStay): Scene {
  const { fromMs, toMs } = input.stay;
  const curve = input.tide === undefined ? null : tideCurve(input.tide, fromMs, toMs);
  const timeMs = momentsOf(input, curve);
  const vessel = fillVessel(input.vessel);
  const surgeM = surgeOf(input);
  return {
    timeMs,
    ...tideColumns(timeMs, curve, surgeM),
    ...windColumns(timeMs, input),
    ...streamColumns(timeMs, input),
    vessel,
    curve,
    surgeM,
    assumed: assumedOf(input, vessel),
  };
}
