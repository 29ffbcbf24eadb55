import { RAD, bearingOf, wrap360 } from "../core/angles.js";
import type { WatchEvent } from "../watch/events.js";
import type {
  HeadingReading,
  Nmea0183Content,
  PositionReading,
  RevolutionsReading,
  WindAngleReading,
} from "./reading.js";
import type { NmeaState } from "./state.js";

/** What the caller says about the sender. */
export interface Sender {
  /** First or second receiver. */
  receiver: 0 | 1;
  /** Depth of the transducer below the waterline, where the sounder does not say. */
  transducerDepthM: number | null;
  /** Range error of one satellite taken, m. */
  rangeErrorM: number;
  /** When the text came, by the clock of the caller. */
  receivedMs: number | null;
}

const DAY = 86_400_000;
/** How long a value stands for the present, ms. */
const LASTS = {
  track: 2500,
  hdop: 10_000,
  heading: 5000,
  poor: 3000,
  source: 30_000,
};

/** Whether something noted at an instant still stands at another. */
const stands = (atMs: number | null, nowMs: number, lastsMs: number): boolean =>
  Math.abs(nowMs - (atMs ?? NaN)) <= lastsMs;

/** The present for sentences that carry no time: the receiver's, carried on by the caller's clock. */
function present(st: NmeaState, by: Sender): number | null {
  if (st.timeMs === null) return by.receivedMs;
  const passed = (by.receivedMs ?? NaN) - (st.timeReceivedMs ?? NaN);
  return passed > 0 ? st.timeMs + passed : st.timeMs;
}

/** Instant of a time of day: on the day on which it lies nearest to the present; null where that is not known. */
function instantOf(st: NmeaState, by: Sender, seconds: number): number | null {
  const near = present(st, by);
  if (near === null) return null;
  const at = Math.round(seconds * 1000);
  return at + Math.round((near - at) / DAY) * DAY;
}

/** Note the receiver's time. */
export function tick(st: NmeaState, by: Sender, timeMs: number): void {
  st.timeMs = timeMs;
  st.timeReceivedMs = by.receivedMs;
}

/** Note speed or course told apart: the one that is not told stays while it still stands. */
export function noteTrack(
  st: NmeaState,
  timeMs: number,
  sogMps: number | null,
  cogDeg: number | null,
): void {
  if (sogMps === null && cogDeg === null) return;
  const fresh = stands(st.trackMs, timeMs, LASTS.track);
  st.sogMps = sogMps ?? (fresh ? st.sogMps : null);
  st.cogDeg = cogDeg ?? (fresh ? st.cogDeg : null);
  st.trackMs = timeMs;
}

/** Add to `out` what a sentence tells the watch, and note in `st` what later ones need. */
export function eventsOf(r: Nmea0183Content, st: NmeaState, by: Sender, out: WatchEvent[]): void {
  switch (r.type) {
    case "GGA":
    case "RMC":
    case "GLL":
      position(r, st, by, out);
      break;
    case "ZDA":
      if (r.timeMs !== null && !st.daySure) tick(st, by, r.timeMs);
      clock(st, by, r.timeMs, out);
      break;
    default: {
      const timeMs = present(st, by);
      if (timeMs !== null) told(r, st, by, timeMs, out);
    }
  }
}

/** Time alone: it lets the watch judge silence. Before the first fix a receiver's date is not believed. */
function clock(st: NmeaState, by: Sender, timeMs: number | null, out: WatchEvent[]): void {
  if (timeMs === null || st.fixMs === null) return;
  if (Math.abs(timeMs - st.fixMs) > 366 * DAY) return;
  tick(st, by, timeMs);
  if (timeMs !== st.fixMs) out.push({ kind: "clock", timeMs });
}

function position(r: PositionReading, st: NmeaState, by: Sender, out: WatchEvent[]): void {
  if (r.valid && r.timeMs !== null) st.daySure = true;
  if (r.variationDeg !== null) st.variationDeg = r.variationDeg;
  // A position whose date is empty or impossible is dated like that of a sentence that has none.
  const timeMs =
    (r.valid ? r.timeMs : null) ??
    (r.secondsOfDay === null ? null : instantOf(st, by, r.secondsOfDay));
  if (timeMs === null) return;
  if (r.type === "GGA" && !r.valid) st.poorMs = timeMs;
  if (!r.valid) {
    clock(st, by, timeMs, out);
    return;
  }
  tick(st, by, timeMs);
  if (r.type === "RMC") {
    st.sogMps = r.sogMps;
    st.cogDeg = r.cogTrueDeg;
    st.trackMs = timeMs;
  }
  if ((r.hdop ?? 0) > 0) {
    st.hdop = r.hdop;
    st.hdopMs = timeMs;
  }
  passFix(r.latDeg!, r.lonDeg!, st, by, timeMs, out);
}

/** Hand on a position, unless the receiver has lately called its positions poor: one fix an instant, the first speaks for the others. */
export function passFix(
  latDeg: number,
  lonDeg: number,
  st: NmeaState,
  by: Sender,
  timeMs: number,
  out: WatchEvent[],
): void {
  if (timeMs === st.fixMs || stands(st.poorMs, timeMs, LASTS.poor)) return;
  st.fixMs = timeMs;
  const moving = stands(st.trackMs, timeMs, LASTS.track);
  const sharp = stands(st.hdopMs, timeMs, LASTS.hdop);
  out.push({
    kind: "fix",
    timeMs,
    latDeg,
    lonDeg,
    ...(sharp && { sigmaM: (st.hdop! * by.rangeErrorM) / Math.SQRT2 }),
    ...(moving && st.sogMps !== null && { sogMps: st.sogMps }),
    ...(moving && st.cogDeg !== null && { cogDeg: st.cogDeg }),
    ...(by.receiver === 1 && { receiver: 1 }),
  });
}

/** Sentences without a time of their own. */
function told(
  r: Exclude<Nmea0183Content, PositionReading | { type: "ZDA" }>,
  st: NmeaState,
  by: Sender,
  timeMs: number,
  out: WatchEvent[],
): void {
  switch (r.type) {
    case "VTG":
      if (r.sogMps === null) break;
      st.sogMps = r.sogMps;
      st.cogDeg = r.cogTrueDeg;
      st.trackMs = timeMs;
      break;
    case "HDT":
    case "HDG":
      heading(trueHeading(r, st), 2, st, timeMs, out);
      break;
    case "VHW":
      heading(r.headingTrueDeg, 1, st, timeMs, out);
      break;
    case "DBT":
    case "DPT":
      depth(r.depthBelowTransducerM, r.offsetM, st, by, timeMs, out);
      break;
    case "MWD":
      wind(r.speedMps, r.directionTrueDeg, 2, st, timeMs, out);
      break;
    case "MWV":
      windFromBow(r, st, timeMs, out);
      break;
    case "RPM":
      engine(r, timeMs, out);
      break;
    case "XDR":
  }
}

/** True heading of a compass: with the variation it gives, or the latest a receiver gave. */
function trueHeading(r: HeadingReading, st: NmeaState): number | null {
  const variation = r.variationDeg ?? st.variationDeg;
  if (r.headingTrueDeg !== null || r.headingMagneticDeg === null || variation === null)
    return r.headingTrueDeg;
  return wrap360(r.headingMagneticDeg + variation);
}

/** Whether a source of this rank speaks, or is silent beside a nearer one heard lately. */
const outranked = (rank: number, held: number, heldMs: number | null, timeMs: number): boolean =>
  rank < held && stands(heldMs, timeMs, LASTS.source);

function heading(
  headingDeg: number | null,
  rank: number,
  st: NmeaState,
  timeMs: number,
  out: WatchEvent[],
): void {
  if (headingDeg === null) return;
  if (outranked(rank, st.headingRank, st.headingMs, timeMs)) return;
  st.headingDeg = headingDeg;
  st.headingMs = timeMs;
  st.headingRank = rank;
  out.push({ kind: "heading", timeMs, headingDeg });
}

/** Surface to bottom: below the transducer and the transducer's own depth. A depth of nil is a sounder without an echo. */
function depth(
  belowM: number | null,
  offsetM: number | null,
  st: NmeaState,
  by: Sender,
  timeMs: number,
  out: WatchEvent[],
): void {
  // A negative offset speaks of the keel and says nothing of the waterline.
  if ((offsetM ?? 0) > 0) st.transducerDepthM = offsetM;
  const transducerM = by.transducerDepthM ?? st.transducerDepthM;
  const below = belowM ?? 0;
  if (!(below > 0) || transducerM === null) return;
  out.push({
    kind: "depth",
    timeMs,
    depthM: Math.min(12_000, below + transducerM),
  });
}

function wind(
  windMps: number | null,
  windFromDeg: number | null,
  rank: number,
  st: NmeaState,
  timeMs: number,
  out: WatchEvent[],
): void {
  if (windMps === null || windFromDeg === null || windMps > 100) return;
  if (outranked(rank, st.windRank, st.windMs, timeMs)) return;
  st.windMs = timeMs;
  st.windRank = rank;
  out.push({ kind: "wind", timeMs, windMps, windFromDeg });
}

/** Wind by its angle from the bow, turned by the heading; what the vessel's own way adds to it is taken off. */
function windFromBow(
  { angleDeg, speedMps, reference }: WindAngleReading,
  st: NmeaState,
  timeMs: number,
  out: WatchEvent[],
): void {
  if (angleDeg === null || speedMps === null) return;
  if (!stands(st.headingMs, timeMs, LASTS.heading)) return;
  const fromDeg = wrap360(st.headingDeg! + angleDeg);
  if (reference === "T") {
    wind(speedMps, fromDeg, 1, st, timeMs, out);
    return;
  }
  if (!stands(st.trackMs, timeMs, LASTS.heading) || st.sogMps === null) return;
  // Without a course only a vessel all but stopped can be reckoned with.
  if (st.cogDeg === null && st.sogMps > ALL_BUT_STOPPED_MPS) return;
  const way = st.cogDeg === null ? 0 : st.sogMps;
  const cog = (st.cogDeg ?? 0) * RAD;
  // Air over the ground is air over the vessel and the vessel over the ground.
  const east = -speedMps * Math.sin(fromDeg * RAD) + way * Math.sin(cog);
  const north = -speedMps * Math.cos(fromDeg * RAD) + way * Math.cos(cog);
  const windMps = Math.sqrt(east * east + north * north);
  wind(windMps, bearingOf(-east, -north), 3, st, timeMs, out);
}

const ALL_BUT_STOPPED_MPS = 0.3;

/** Engine stopped, ahead or astern; turning with no pitch stated tells no direction. */
function engine(
  { revolutionsPerMin, pitchPercent }: RevolutionsReading,
  timeMs: number,
  out: WatchEvent[],
): void {
  if (revolutionsPerMin === null) return;
  const tell = (what: "stopped" | "ahead" | "astern") => {
    out.push({ kind: "engine", timeMs, engine: what });
  };
  const pitch = pitchPercent ?? 0;
  if (revolutionsPerMin === 0) tell("stopped");
  else if (pitch < 0) tell("astern");
  else if (pitch > 0) tell("ahead");
}
