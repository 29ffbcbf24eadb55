import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { chartSchema } from "../chart/query.js";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import type { Interval, Reason } from "../core/judgement.js";
import { duration, instant, interval, metres, position, range3, speed } from "../core/schema.js";
import { timeSteps } from "../core/series.js";
import type { Metres, MetresPerSecond, Milliseconds } from "../core/units.js";
import { darknessUnchecked, type Darkness } from "../daylight/darkness.js";
import { planeAt } from "../geo/plane.js";
import { fillVessel, vesselSketch } from "../lie/vessel.js";
import { forecastSchema } from "../shelter/forecast.js";
import { streamSampler } from "../stream/kernel.js";
import { streamSource } from "../stream/source.js";
import { tideCurve } from "../tide/prepare.js";
import { tideSource } from "../tide/source.js";
import { sameDatum } from "./ground.js";
import { depthsAlong, hazardsAlong, type WayDepth, type WayHazard } from "./wayDepth.js";
import { marksAlong, steeringMarks, type SteerBy, type WayMark } from "./wayMarks.js";
import { reasonsOf, unknownsOfWay } from "./wayReasons.js";
import { hoursShut, placesOf, pruned, underKeelAt, type Way } from "./wayShut.js";
import { positionAlong, trackOf, type Leg, type Track } from "./wayTrack.js";
import {
  lightOver,
  weatherOn,
  type Light,
  type Passage,
  type WeatherSources,
} from "./wayWeather.js";

/** A way out, the water on it and the hours it is asked about. */
export const wayOutInput = z
  .strictObject({
    /** Points of the track, from the berth to open water. */
    route: z.array(position).check(z.minLength(2), z.maxLength(200)),
    /** The chart, as `readChart` gives it; without one no depth is known. */
    chart: z.optional(chartSchema),
    /** Tide at the place, on the datum of the chart. */
    tide: z.optional(tideSource),
    /** Surge over the hours asked about; none unless given. */
    surgeM: z.optional(range3),
    /** The vessel, as far as her figures are known; her draught decides. */
    vessel: vesselSketch,
    /** One departure. */
    at: z.optional(instant()),
    /** Departures from one instant to another; the last is the one meant. */
    stay: z.optional(interval),
    /** Step of the departures shown; half an hour unless given. */
    stepMs: z._default(duration({ min: 60_000, max: 21_600_000 }), 1_800_000),
    /** Speed over the ground; 2 m/s unless given. */
    speedMps: z._default(speed({ above: 0, max: 20 }), 2),
    /** Water wanted under the keel; 0.5 m unless given (common practice, no source). */
    underKeelM: z._default(metres({ min: 0, max: 20 }), 0.5),
    /** How far she may stray to either side of the track; 10 m unless given (common practice, no source). */
    asideM: z._default(metres({ min: 0, max: 500 }), 10),
    /** How far to either side dangers are told; 100 m unless given. */
    corridorM: z._default(metres({ min: 0, max: 2000 }), 100),
    /** Wind forecast. */
    forecast: z.optional(forecastSchema),
    /** Tidal stream. */
    stream: z.optional(streamSource),
  })
  .check(
    z.refine((i) => (i.at === undefined) !== (i.stay === undefined), "expected either at or stay"),
  );
/** Input of {@link wayOut}. */
export type WayOutInput = Given<typeof wayOutInput>;
/** The same, with defaults filled in. */
export type CheckedWay = z.output<typeof wayOutInput>;

/** Departures step by step, one array a quantity. */
export interface Departures {
  /** When she leaves. */
  timeMs: Milliseconds[];
  /** Least water under the keel in what is known of the track; null where nothing is, or where a danger shuts it. */
  underKeelLeastM: (Metres | null)[];
  /** Where that is, as distance run. */
  leastAlongM: (Metres | null)[];
  /** Whether the way is open, shut, or something needed is not known. */
  state: Passage["state"][];
  /** The darkest of the passage. */
  light: Light[];
  /** Strongest wind on the nose of any leg; 0 where there is none, null where the wind is not known. */
  windOnNoseMps: (MetresPerSecond | null)[];
  /** Strongest stream against her on any leg; 0 where there is none, null where the stream is not known. */
  streamAgainstMps: (MetresPerSecond | null)[];
}

/** A way out at every hour asked about. */
export interface WayOut {
  /** Version of this form. */
  version: 1;
  /** Length of the track. */
  lengthM: Metres;
  /** Time it takes. */
  passageMs: Milliseconds;
  /** Its legs, with the turn on to each. */
  legs: Leg[];
  /** Charted depth along it, part by part. */
  depths: WayDepth[];
  /** Strip either side of the track whose depth counts. */
  asideM: Metres;
  /** Corridor either side of the track in which dangers are told. */
  corridorM: Metres;
  /** Dangers in the corridor, in the order they are passed. */
  hazards: WayHazard[];
  /** Marks along it, in the order they are passed; null without a chart. */
  marks: WayMark[] | null;
  /** Fixed marks on the line of a leg, to steer by; null without a chart. */
  steerBy: SteerBy[] | null;
  /** Departures step by step. */
  departures: Departures;
  /** The departure meant: the one asked about, or the end of the stay. */
  meant: Passage;
  /** Departures for which the way is shut: the water falls short of what is wanted. */
  shut: Interval[];
  /** Departures for which it is open: enough water known all along it. */
  open: Interval[];
  /** Departures for which it is not known whether it is open. */
  unknownHours: Interval[];
  /** Least water under the keel of all departures, in what is known; null where nothing is. */
  least: {
    /** Least water under the keel on the way. */
    underKeelM: Metres;
    /** Leaving then. */
    departMs: Milliseconds;
  } | null;
  /** What speaks against the departure meant, or is to be minded on it. */
  reasons: Reason[];
  /** What is not known, as codes. */
  unknown: string[];
  /** Defaults and guesses it rests on. */
  assumed: string[];
  /** Rules and sources. */
  basis: string[];
}

/**
 * The way out of a berth by day and night: least water under the keel along the track with place and hour, dangers
 * beside it, turns, marks, light, wind and stream, and the hours at which it is shut.
 *
 * At each departure the height of tide is taken at the moment each part of the track is run; the depth is the shoalest
 * charted in a strip either side, its error, surge and error of tide on the low side. Instants of shutting by root-finding.
 * Leaves out waves, squat, leeway and the stream's effect on the time taken, other vessels, and everything not charted.
 *
 * *Valid*: tracks of up to some 50 km, at a steady speed over the ground. *Accuracy*: places to 25 m or 1/400 of the
 * track, times to a second of the tide as given, depths as charted.
 *
 * It advises; the chart, local rules and the skipper decide.
 *
 * @throws InputError with every issue: unknown or missing fields, figures out of range, datums that differ.
 * @source IHO S-57 edition 3.1 for the chart; the strip and the water wanted: common practice, no source
 * @example
 * ```ts
 * import { readChart } from "hawse/chart";
 * import { wayOut } from "hawse/plan";
 * const ring = (w: number, e: number) => [[w, 40], [e, 40], [e, 40.02], [w, 40.02], [w, 40]];
 * const area = (w: number, e: number, properties: object) => ({ type: "Feature", properties, geometry: { type: "Polygon", coordinates: [ring(w, e)] } });
 * const layer = (...features: object[]) => ({ type: "FeatureCollection", features });
 * const chart = readChart({
 *   M_COVR: layer(area(-30.02, -30, { CATCOV: 1 })),
 *   M_QUAL: layer(area(-30.02, -30, { CATZOC: 1 })),
 *   DEPARE: layer(area(-30.01, -30, { DRVAL1: 2, DRVAL2: 5 }), area(-30.02, -30.01, { DRVAL1: 5, DRVAL2: 10 })),
 * }, { soundingDatum: "LAT" });
 * const noon = Date.UTC(2026, 5, 1, 12);
 * const heights = [4, 0.3, 4.1];
 * const way = wayOut({
 *   route: [{ latDeg: 40.01, lonDeg: -30.002 }, { latDeg: 40.01, lonDeg: -30.018 }],
 *   chart,
 *   tide: { kind: "turns", datum: "LAT", turns: heights.map((heightM, i) => ({ timeMs: noon + 22_320_000 * i, heightM })) },
 *   vessel: { kind: "yacht", lengthM: 10, draughtM: 2 },
 *   stay: { fromMs: noon, toMs: noon + 43_200_000 },
 * });
 * console.log(way.shut.length, (way.least?.underKeelM ?? NaN).toFixed(1), way.meant.state);
 * // 1 -0.2 open
 * ```
 */
export function wayOut(input: WayOutInput): WayOut {
  return wayOutChecked(check(wayOutInput, input));
}

/** {@link wayOut} for input that has been checked. */
export function wayOutChecked(input: CheckedWay): WayOut {
  const { chart } = input;
  const span = input.stay ?? { fromMs: input.at!, toMs: input.at! };
  const track = trackOf(input.route, chart?.plane ?? planeAt(input.route[0]!));
  if (track.legs.length === 0) refuse("route", "order", "its points are all in one place");
  const depths = chart === undefined ? [] : depthsAlong(chart, track, input.asideM);
  const hazards = chart === undefined ? [] : hazardsAlong(chart, track, input.corridorM);
  const way = wayOf(input, track, depths, hazards, span);
  const hours = hoursShut(way, span);
  const passages = passagesOf(input, track, way, span);
  const meant = passages.at(-1)!;
  const marks = chart === undefined ? null : marksAlong(chart, track);
  const unknown = unknownsOfWay(input, way, depths, passages);
  const { asideM, corridorM } = input;
  return {
    version: 1,
    lengthM: track.lengthM,
    passageMs: passMsOf(way),
    legs: track.legs,
    depths,
    asideM,
    corridorM,
    hazards,
    marks,
    steerBy: chart === undefined ? null : steeringMarks(chart, track),
    departures: departuresOf(passages),
    meant,
    shut: hours.shut,
    open: hours.open,
    unknownHours: hours.unknown,
    least:
      hours.least === null || !Number.isFinite(hours.least.value)
        ? null
        : { underKeelM: hours.least.value, departMs: Math.round(hours.least.timeMs) },
    reasons: reasonsOf(input, way, hazards, marks, meant),
    unknown,
    assumed: assumedOf(input),
    basis: basisOf(way),
  };
}

const passMsOf = ({ lengthM, speedMps }: Way): number => (lengthM / speedMps) * 1000;

function wayOf(
  input: CheckedWay,
  track: Track,
  depths: readonly WayDepth[],
  hazards: readonly WayHazard[],
  span: Interval,
): Way {
  const passMs = (track.lengthM / input.speedMps) * 1000;
  const curve =
    input.tide === undefined ? null : tideCurve(input.tide, span.fromMs, span.toMs + passMs);
  const datum = input.chart?.soundingDatum.name;
  if (curve !== null && datum !== undefined && !sameDatum(datum, curve.datum))
    refuse(
      "tide.datum",
      "datum",
      `the chart's depths are below ${datum}, the tide above ${curve.datum}: give the shift as tide.toDatum`,
    );
  return {
    ...placesOf(depths, hazards, input.asideM),
    curve,
    surgeLowM: input.surgeM?.low ?? 0,
    draughtM: fillVessel(input.vessel).draughtM,
    speedMps: input.speedMps,
    lengthM: track.lengthM,
    needM: input.underKeelM,
  };
}

/** Whether a departure is open, by what is known of the water. */
function stateOf(way: Way, underM: number): Passage["state"] {
  if (way.blockedBy.length > 0 || underM < way.needM) return "shut";
  return way.whole && underM >= way.needM ? "open" : "unknown";
}

function passagesOf(input: CheckedWay, track: Track, given: Way, span: Interval): Passage[] {
  const { latDeg, lonDeg } = track.legs[0]!.from;
  const way = pruned(given, span);
  const passMs = passMsOf(way);
  const until = { fromMs: span.fromMs, toMs: span.toMs + passMs };
  const dark = darknessUnchecked(latDeg, lonDeg, until);
  const sources: WeatherSources = {
    forecast: input.forecast,
    stream: input.stream === undefined ? null : streamSampler(input.stream),
  };
  return timeSteps(span.fromMs, span.toMs, input.stepMs).map((t) =>
    passageAt(way, track, t, dark, sources),
  );
}

function passageAt(
  way: Way,
  track: Track,
  departMs: number,
  dark: Darkness,
  sources: WeatherSources,
): Passage {
  const { valueM, place } = underKeelAt(way, departMs);
  const known = Number.isFinite(valueM) && way.blockedBy.length === 0;
  const passage = { fromMs: departMs, toMs: departMs + passMsOf(way) };
  const { sunsetToSunrise, beyondCivil } = dark;
  const at = known && place !== null ? place.fromM : null;
  return {
    departMs,
    arriveMs: Math.round(passage.toMs),
    state: stateOf(way, valueM),
    underKeelLeastM: known ? valueM : null,
    leastAlongM: at,
    leastAt: at === null ? null : positionAlong(track, at),
    leastAtMs: at === null ? null : Math.round(departMs + (at / way.speedMps) * 1000),
    leastOf: known ? (place?.of ?? null) : null,
    light: lightOver(passage, sunsetToSunrise.intervals, beyondCivil.intervals),
    legs: weatherOn(track, way.speedMps, departMs, sources),
  };
}

/** The greatest of some figures, no less than 0; null where one is not known. */
const greatest = (values: readonly (number | null)[]): number | null =>
  values.reduce<number | null>((a, v) => (a === null || v === null ? null : Math.max(a, v)), 0);

const departuresOf = (passages: readonly Passage[]): Departures => ({
  timeMs: passages.map((p) => p.departMs),
  underKeelLeastM: passages.map((p) => p.underKeelLeastM),
  leastAlongM: passages.map((p) => p.leastAlongM),
  state: passages.map((p) => p.state),
  light: passages.map((p) => p.light),
  windOnNoseMps: passages.map((p) =>
    greatest(p.legs.map((l) => (l.windOn === "nose" || l.windOn === null ? l.windMps : 0))),
  ),
  streamAgainstMps: passages.map((p) =>
    greatest(p.legs.map((l) => (l.streamWithMps === null ? null : 0 - l.streamWithMps))),
  ),
});

const assumedOf = (input: CheckedWay): string[] => [
  ...(input.vessel.draughtM === undefined ? ["her draught, from her kind and length"] : []),
  ...(input.surgeM === undefined ? ["no surge"] : []),
  "a steady speed over the ground, and no waves",
];

const basisOf = (way: Way): string[] => [
  "charted depth less its error, with tide and surge on the low side",
  ...(way.curve === null ? [] : [way.curve.basis]),
  "water wanted, strip and corridor as given: common practice, no source",
];
