import { RAD } from "../core/angles.js";
import { lastAtOrBefore } from "../core/series.js";
import type {
  CheckedStream,
  EllipseStream,
  HourlyStream,
  StreamTurnRow,
  TurnsStream,
} from "./source.js";

/** Why the stream is not known at an instant. */
export type StreamGap = "beforeFirst" | "afterLast" | "gap" | "missingTurn";

/** Where a sampler leaves its answer. */
export interface StreamVector {
  /** Part towards east. */
  eastMps: number;
  /** Part towards north. */
  northMps: number;
}

/** Leaves the stream at an instant in `out`, or says why it is not known; allocates nothing. */
export type StreamSampler = (timeMs: number, out: StreamVector) => StreamGap | null;

/** Vectors at instants; the stream between two of them lies on the straight line between. */
export interface StreamNodes {
  /** Instants, rising. */
  timeMs: Float64Array;
  /** Part towards east at each. */
  eastMps: Float64Array;
  /** Part towards north at each. */
  northMps: Float64Array;
  /** Nodes further apart than this leave the time between unknown. */
  longestGapMs: number;
  /** Half the time a single row is held; nil where the vector is taken between rows. */
  heldMs: number;
}

const HOUR = 3_600_000;
/** The last row of one high water and the first of the next, further apart than this, say nothing of the time between. */
const LONGEST_SEAM_MS = 2 * HOUR;
/** Two turns further apart than this have lost one between them (slack to greatest of a once-daily stream: 6.2 h). */
const LONGEST_QUARTER_MS = 10 * HOUR;
/** The same where the table is one of a twice-daily stream (3.1 h; with a pair of turns lost 9.3 h). */
const TWICE_DAILY_MS = 8 * HOUR;
/** Middle of the intervals of a table below which it is one of a twice-daily stream: halfway from 3.1 h to 6.2 h. */
const TWICE_DAILY_BELOW_MS = 4.65 * HOUR;

/** How far a range lies from mean neaps (0) to mean springs (1). */
export const springPart = (
  s: { springRangeM: number; neapRangeM: number },
  rangeM: number,
): number => (rangeM - s.neapRangeM) / (s.springRangeM - s.neapRangeM);

/** Rate of an hourly row at a range: in proportion between neaps and springs and beyond both, never under nil. */
const rateForRange = (springMps: number, neapMps: number, part: number): number =>
  Math.max(0, neapMps + (springMps - neapMps) * part);

/** The rows of every high water, each at the range of its own tide and on its own side of the middle. */
function hourlyNodes(s: HourlyStream): StreamNodes {
  const t: number[] = [];
  const east: number[] = [];
  const north: number[] = [];
  s.highWaters.forEach(({ timeMs, rangeM }, i) => {
    const part = springPart(s, rangeM);
    const from = middle(s.highWaters[i - 1]?.timeMs ?? -Infinity, timeMs);
    const to = middle(timeMs, s.highWaters[i + 1]?.timeMs ?? Infinity);
    for (const row of s.rows) {
      const at = timeMs + row.hour * HOUR;
      if (!(at > from && at <= to)) continue;
      const rate = rateForRange(row.springMps, row.neapMps, part);
      const towards = (row.towardsDeg ?? 0) * RAD;
      t.push(at);
      east.push(rate * Math.sin(towards));
      north.push(rate * Math.cos(towards));
    }
  });
  return nodes(t, east, north, LONGEST_SEAM_MS, s.between === "step");
}

const middle = (a: number, b: number): number => (a + b) / 2;

const nodes = (
  t: readonly number[],
  east: readonly number[],
  north: readonly number[],
  longestGapMs: number,
  step: boolean,
): StreamNodes => ({
  timeMs: Float64Array.from(t),
  eastMps: Float64Array.from(east),
  northMps: Float64Array.from(north),
  longestGapMs,
  heldMs: step ? HOUR / 2 : 0,
});

/** Nodes of rates and sets at instants. */
const seriesNodes = (
  rows: readonly { timeMs: number; rateMps: number; towardsDeg: number }[],
  longestGapMs: number,
): StreamNodes =>
  nodes(
    rows.map((r) => r.timeMs),
    rows.map((r) => r.rateMps * Math.sin(r.towardsDeg * RAD)),
    rows.map((r) => r.rateMps * Math.cos(r.towardsDeg * RAD)),
    longestGapMs,
    false,
  );

/** The vector between two nodes, or the node that is held. */
function sampleNodes(n: StreamNodes, timeMs: number, out: StreamVector): StreamGap | null {
  const { timeMs: t, eastMps: east, northMps: north } = n;
  const last = t.length - 1;
  if (!(timeMs >= t[0]! - n.heldMs)) return "beforeFirst";
  if (!(timeMs <= t[last]! + n.heldMs)) return "afterLast";
  const i = Math.max(0, lastAtOrBefore(t, timeMs));
  const j = Math.min(last, i + 1);
  const span = t[j]! - t[i]!;
  let part = span > 0 ? (timeMs - t[i]!) / span : 0;
  if (part > 0 && !(span <= n.longestGapMs)) return "gap";
  if (n.heldMs > 0) part = part < 0.5 ? 0 : 1;
  out.eastMps = east[i]! + part * (east[j]! - east[i]!);
  out.northMps = north[i]! + part * (north[j]! - north[i]!);
  return null;
}

/** 50, 90 and 100 % of the greatest rate at one, two and three thirds from slack. */
function fiftyNinety(x: number): number {
  if (x <= 1 / 3) return 1.5 * x;
  if (x <= 2 / 3) return 0.5 + 1.2 * (x - 1 / 3);
  return 0.9 + 0.3 * (x - 2 / 3);
}

const rateOf = (t: StreamTurnRow): number => (t.kind === "slack" ? 0 : t.rateMps);

/**
 * Stream a part `x` of the way from the weaker turn of a quarter to its greatest. From slack, and
 * from a least rate square to the greatest (the short axis of an ellipse), the part along the greatest
 * grows as a sine; from a least rate along it (a mean flow that the tide does not overcome), as
 * half a cosine; between these, in proportion. The part across dies away as a cosine.
 */
function quarter(
  weak: StreamTurnRow,
  strong: StreamTurnRow & { kind: "least" | "greatest" },
  x: number,
  rule: TurnsStream["rule"],
  out: StreamVector,
): void {
  const to = strong.towardsDeg * RAD;
  const turn = weak.kind === "slack" ? 0 : weak.towardsDeg * RAD - to;
  const least = rateOf(weak) * Math.cos(turn);
  const mean = weak.kind === "slack" ? 0 : Math.max(0, Math.cos(turn));
  const sine = Math.sin((Math.PI / 2) * x);
  const halfCosine = 0.5 - 0.5 * Math.cos(Math.PI * x);
  const grown = rule === "sine" ? sine + mean * (halfCosine - sine) : fiftyNinety(x);
  const left = rule === "sine" ? Math.cos((Math.PI / 2) * x) : 1 - grown;
  const along = least + (strong.rateMps - least) * grown;
  const across = rateOf(weak) * Math.sin(turn) * left;
  out.eastMps = along * Math.sin(to) + across * Math.cos(to);
  out.northMps = along * Math.cos(to) - across * Math.sin(to);
}

function vectorOf(rateMps: number, towardsDeg: number, out: StreamVector): void {
  out.eastMps = rateMps * Math.sin(towardsDeg * RAD);
  out.northMps = rateMps * Math.cos(towardsDeg * RAD);
}

/**
 * Longest time between two turns of a table that is taken for a real one. The middle interval tells, of two the
 * shorter: one that is itself as long as with a pair lost tells nothing of a once-daily stream.
 */
function longestQuarterMs(times: Float64Array): number {
  const between = times.subarray(1).map((t, i) => t - times[i]!);
  const middleMs = between.sort()[(between.length - 1) >>> 1]!;
  const onceDaily = middleMs >= TWICE_DAILY_BELOW_MS && middleMs <= TWICE_DAILY_MS;
  return onceDaily ? LONGEST_QUARTER_MS : TWICE_DAILY_MS;
}

/** The stream at a row of a table of slack and greatest rate, whatever is missing beside it, and between two. */
function sampleTurns(
  s: TurnsStream,
  times: Float64Array,
  longestMs: number,
  timeMs: number,
  out: StreamVector,
): StreamGap | null {
  const i = lastAtOrBefore(times, timeMs);
  const a = s.turns[i];
  if (a === undefined) return "beforeFirst";
  if (timeMs === a.timeMs) {
    vectorOf(rateOf(a), a.kind === "slack" ? 0 : a.towardsDeg, out);
    return null;
  }
  const b = s.turns[i + 1];
  if (b === undefined) return "afterLast";
  const span = b.timeMs - a.timeMs;
  if (span > longestMs) return "gap";
  const x = (timeMs - a.timeMs) / span;
  if (b.kind === "greatest" && a.kind !== "greatest") quarter(a, b, x, s.rule, out);
  else if (a.kind === "greatest" && b.kind !== "greatest") quarter(b, a, 1 - x, s.rule, out);
  else return "missingTurn";
  return null;
}

/** Radians in a millisecond of a constituent's speed in degrees an hour. */
const radPerMs = (speedDegPerHour: number): number => (speedDegPerHour * RAD) / HOUR;

/**
 * Ellipses and mean flow at an instant. With `rates`, also how fast each part changes, in m/s per millisecond.
 */
export function sampleEllipses(
  s: EllipseStream,
  timeMs: number,
  out: StreamVector,
  rates?: StreamVector,
): null {
  let [east, north, dEast, dNorth] = [s.meanEastMps, s.meanNorthMps, 0, 0];
  for (const c of s.constituents) {
    const w = radPerMs(c.speedDegPerHour);
    const angle = w * (timeMs - c.greatestAtMs);
    const along = c.semiMajorMps * Math.cos(angle);
    const across = c.semiMinorMps * Math.sin(angle);
    const dAlong = -w * c.semiMajorMps * Math.sin(angle);
    const dAcross = w * c.semiMinorMps * Math.cos(angle);
    const sin = Math.sin(c.majorTowardsDeg * RAD);
    const cos = Math.cos(c.majorTowardsDeg * RAD);
    // The short axis lies 90 degrees anticlockwise of the long one: west of north.
    east += along * sin - across * cos;
    north += along * cos + across * sin;
    dEast += dAlong * sin - dAcross * cos;
    dNorth += dAlong * cos + dAcross * sin;
  }
  out.eastMps = east;
  out.northMps = north;
  if (rates) {
    rates.eastMps = dEast;
    rates.northMps = dNorth;
  }
  return null;
}

/** A sampler for a checked source; what can be worked out once is worked out here. */
export function streamSampler(s: CheckedStream): StreamSampler {
  switch (s.kind) {
    case "steady": {
      const v = { eastMps: 0, northMps: 0 };
      vectorOf(s.rateMps, s.towardsDeg, v);
      return (_, out) => {
        out.eastMps = v.eastMps;
        out.northMps = v.northMps;
        return null;
      };
    }
    case "ellipse":
      return (timeMs, out) => sampleEllipses(s, timeMs, out);
    case "turns": {
      const times = Float64Array.from(s.turns, (t) => t.timeMs);
      const longestMs = longestQuarterMs(times);
      return (timeMs, out) => sampleTurns(s, times, longestMs, timeMs, out);
    }
    default: {
      const n = nodesOf(s);
      return (timeMs, out) => sampleNodes(n, timeMs, out);
    }
  }
}

/** Nodes of a source given by rows. */
export const nodesOf = (s: Extract<CheckedStream, { kind: "hourly" | "series" }>): StreamNodes =>
  s.kind === "hourly" ? hourlyNodes(s) : seriesNodes(s.rows, s.longestGapMs);
