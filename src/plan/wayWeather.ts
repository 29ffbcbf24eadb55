import { RAD, turnDeg } from "../core/angles.js";
import type { Interval } from "../core/judgement.js";
import type { Position } from "../core/schema.js";
import type { Degrees, Metres, MetresPerSecond, Milliseconds } from "../core/units.js";
import { noWind, windAt, type Forecast } from "../shelter/forecast.js";
import type { StreamSampler } from "../stream/kernel.js";
import type { Track } from "./wayTrack.js";

/** Where the wind comes from as seen from the wheel. */
export type WindOn = "nose" | "beam" | "quarter";

/** Wind and stream on one leg of a passage. */
export interface LegWeather {
  /** Which leg, from 0. */
  leg: number;
  /** When it is begun. */
  fromMs: Milliseconds;
  /** When it is done. */
  toMs: Milliseconds;
  /** Mean wind half way along; null where it is not known. */
  windMps: MetresPerSecond | null;
  /** Direction it comes from, off the bow, to starboard positive; null where it is not known. */
  windOffBowDeg: Degrees | null;
  /** `nose` within 45° of the bow, `quarter` within 45° of the stern, else `beam`; null where not known. */
  windOn: WindOn | null;
  /** Stream along the course, with her positive; null where it is not known. */
  streamWithMps: MetresPerSecond | null;
  /** Stream across the course, to starboard positive; null where it is not known. */
  streamAcrossMps: MetresPerSecond | null;
  /** Whether the stream runs against a wind that raises a sea; null where either is not known. */
  windAgainstStream: boolean | null;
}

/** Beside the bow and the stern within this, the wind is on the nose or the quarter. */
const SECTOR_DEG = 45;
/** Wind and rate from which a stream against the wind makes a steep sea; common practice, no source. */
const STEEP = { windMps: 5, rateMps: 0.5, withinDeg: 60 } as const;

const windOnOf = (offDeg: number): WindOn =>
  Math.abs(offDeg) < SECTOR_DEG ? "nose" : Math.abs(offDeg) > 180 - SECTOR_DEG ? "quarter" : "beam";

/** What the weather of a way is told by. */
export interface WeatherSources {
  forecast: Forecast | undefined;
  stream: StreamSampler | null;
}

/** Wind and stream on each leg for a departure, half way along each. */
export function weatherOn(
  { legs }: Track,
  speedMps: number,
  departMs: number,
  { forecast, stream }: WeatherSources,
): LegWeather[] {
  const wind = noWind();
  const set = { eastMps: 0, northMps: 0 };
  return legs.map(({ startM, lengthM, courseDeg }, leg) => {
    const at = (alongM: number): number => Math.round(departMs + (alongM / speedMps) * 1000);
    const middle = at(startM + lengthM / 2);
    if (forecast === undefined) Object.assign(wind, noWind());
    else windAt(forecast, middle, wind);
    const blows = !Number.isNaN(wind.windMps + wind.windFromDeg);
    const offDeg = turnDeg(courseDeg, wind.windFromDeg);
    const runs = stream !== null && stream(middle, set) === null;
    const [u, v] = [Math.sin(courseDeg * RAD), Math.cos(courseDeg * RAD)];
    // Upwind part of the stream: against the wind it runs the way the wind comes from.
    const [a, b] = [Math.sin(wind.windFromDeg * RAD), Math.cos(wind.windFromDeg * RAD)];
    const upwind = set.eastMps * a + set.northMps * b;
    const rate = Math.sqrt(set.eastMps * set.eastMps + set.northMps * set.northMps);
    return {
      leg,
      fromMs: at(startM),
      toMs: at(startM + lengthM),
      windMps: blows ? wind.windMps : null,
      windOffBowDeg: blows ? offDeg : null,
      windOn: blows ? windOnOf(offDeg) : null,
      streamWithMps: runs ? set.eastMps * u + set.northMps * v : null,
      streamAcrossMps: runs ? set.eastMps * v - set.northMps * u : null,
      windAgainstStream:
        blows && runs
          ? wind.windMps >= STEEP.windMps &&
            rate >= STEEP.rateMps &&
            upwind >= rate * Math.cos(STEEP.withinDeg * RAD)
          : null,
    };
  });
}

/** Light of a passage: the darkest of it. */
export type Light = "day" | "twilight" | "night";

/** Light over a passage, from the hours between sunset and sunrise and those beyond civil twilight. */
export function lightOver(
  passage: Interval,
  down: readonly Interval[],
  dark: readonly Interval[],
): Light {
  const meets = (i: Interval): boolean => i.fromMs <= passage.toMs && i.toMs >= passage.fromMs;
  if (dark.some(meets)) return "night";
  return down.some(meets) ? "twilight" : "day";
}

/** A passage over a track at one departure. */
export interface Passage {
  /** When she leaves. */
  departMs: Milliseconds;
  /** When she is through. */
  arriveMs: Milliseconds;
  /** `open`, `shut`, or `unknown` where something needed is not known. */
  state: "open" | "shut" | "unknown";
  /** Least water under the keel in what is known of the track; null where nothing is, or where a danger shuts it. */
  underKeelLeastM: Metres | null;
  /** Where that is, as distance run. */
  leastAlongM: Metres | null;
  /** Where that is; null as above. */
  leastAt: Position | null;
  /** When she is there. */
  leastAtMs: Milliseconds | null;
  /** The danger over which it is, where it is one. */
  leastOf: string | null;
  /** The darkest of the passage. */
  light: Light;
  /** Wind and stream on each leg. */
  legs: LegWeather[];
}
