import { RAD, wrap360 } from "../core/angles.js";
import type { WatchEvent } from "../watch/events.js";
import { eventsOf, type Sender } from "./events.js";
import type { Nmea0183Content } from "./reading.js";
import type { NmeaState } from "./state.js";

/** What a delta held. */
export interface DeltaRead {
  /** Events for the watch. */
  events: WatchEvent[];
  /** To be handed to the next reading. */
  state: NmeaState;
  /** Values of paths that are read, refused for their form or range, and updates without a time. */
  refused: number;
}

/** Values of one update by their path. */
export type Found = ReadonlyMap<string, unknown>;

/** Values of one update by path; null where missing, or of a form or range that cannot be, which is counted. */
export interface Taker {
  /** A number in a span. */
  number: (path: string, min: number, max: number) => number | null;
  /** Radians, as degrees in [0, 360). */
  angle: (path: string) => number | null;
}

/** A taker of the values of an update. */
export function taker(found: Found, out: DeltaRead): Taker {
  const number = (path: string, min: number, max: number): number | null => {
    const value = found.get(path);
    if (value === undefined) return null;
    if (typeof value === "number" && value >= min && value <= max) return value;
    out.refused++;
    return null;
  };
  const angle = (path: string): number | null => {
    const value = number(path, -2 * Math.PI - 1e-6, 2 * Math.PI + 1e-6);
    return value === null ? null : wrap360(value / RAD);
  };
  return { number, angle };
}

/** Heading, wind, depth and engine, by way of what the same instruments say in NMEA 0183. */
export function readInstruments(out: DeltaRead, by: Sender, found: Found): void {
  const take = taker(found, out);
  const tell = (content: Nmea0183Content) => {
    eventsOf(content, out.state, by, out.events);
  };
  const headingTrueDeg = take.angle("navigation.headingTrue");
  const headingMagneticDeg = take.angle("navigation.headingMagnetic");
  tell({
    type: "HDG",
    headingTrueDeg,
    headingMagneticDeg,
    deviationDeg: null,
    variationDeg: null,
  });
  readWind(take, tell);
  readDepth(take, tell, out);
  readEngines(found, out);
}

function readWind({ number, angle }: Taker, tell: (content: Nmea0183Content) => void): void {
  const speed = (leaf: string) => number(`environment.wind.${leaf}`, 0, 100);
  const overGround = speed("speedOverGround");
  const overWater = speed("speedTrue");
  const fromBow = (leaf: string, reference: "R" | "T", speedMps: number | null) => {
    const angleDeg = angle(`environment.wind.${leaf}`);
    tell({ type: "MWV", valid: true, angleDeg, reference, speedMps });
  };
  fromBow("angleApparent", "R", speed("speedApparent"));
  tell({
    type: "MWD",
    directionTrueDeg: angle("environment.wind.directionTrue"),
    directionMagneticDeg: null,
    speedMps: overGround ?? overWater,
  });
  fromBow("angleTrueGround", "T", overGround);
  fromBow("angleTrueWater", "T", overWater);
}

function readDepth(
  { number }: Taker,
  tell: (content: Nmea0183Content) => void,
  { events, state }: DeltaRead,
): void {
  const depth = (leaf: string) => number(`environment.depth.${leaf}`, 0, 12_000);
  const depthM = depth("belowSurface");
  const depthBelowTransducerM = depth("belowTransducer");
  const offsetM = depth("surfaceToTransducer");
  if (depthM !== null && depthM > 0) events.push({ kind: "depth", timeMs: state.timeMs!, depthM });
  else tell({ type: "DPT", depthBelowTransducerM, offsetM });
}

const GEARS = new Map<unknown, "ahead" | "astern" | "stopped">([
  ["Forward", "ahead"],
  ["Reverse", "astern"],
  ["Neutral", "stopped"],
]);

function readEngines(found: Found, out: DeltaRead): void {
  for (const [path, value] of found) {
    if (!/^propulsion\.[^.]{1,60}\.transmission\.gear$/.test(path)) continue;
    const engine = GEARS.get(value);
    const timeMs = out.state.timeMs!;
    if (engine) out.events.push({ kind: "engine", timeMs, engine });
    else out.refused++;
  }
}
