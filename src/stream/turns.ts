import * as z from "zod/mini";
import { bearingOf } from "../core/angles.js";
import { check } from "../core/check.js";
import { bracketedRoot } from "../core/roots.js";
import { interval as intervalSchema } from "../core/schema.js";
import type { Interval } from "../core/judgement.js";
import { nodesOf, sampleEllipses, type StreamNodes } from "./kernel.js";
import {
  streamSource,
  type CheckedStream,
  type EllipseStream,
  type StreamSource,
  type TurnsStream,
} from "./source.js";

/** A turn of the stream. */
export interface StreamTurn {
  /** When. */
  timeMs: number;
  /** Slack water; the least rate of a stream that does not cease; or the greatest rate. */
  kind: "slack" | "least" | "greatest";
  /** Rate at that time, m/s. */
  rateMps: number;
  /** Set at that time, true; at slack the set that follows. */
  towardsDeg: number;
}

/** A least rate up to this, 0.1 kn, counts as slack: tables print no finer. */
const SLACK_MPS = 0.1 * (1852 / 3600);

const input = z.strictObject({
  source: streamSource,
  interval: intervalSchema,
});

/**
 * Slack waters, least rates and greatest rates of a stream in an interval, in order of time.
 *
 * Turns of a table are given back as they stand; those of rows, series and ellipses are found
 * where the rate ceases to fall or to rise. A least rate above 0.1 kn is `least`: there is no
 * slack. Gaps of the source yield no turn, and a steady stream has none.
 *
 * *Valid*: within the source. *Accuracy*: that of {@link streamAt}; times from hourly rows are no
 * better than a quarter of an hour, since the vector runs straight between rows.
 *
 * @throws InputError as {@link streamAt}, and for an interval that ends before it starts.
 * @source Definition; the limit of slack is half of common printing, common practice, no source.
 * @example
 * ```ts
 * import { utc } from "hawse";
 * import { streamTurns } from "hawse/stream";
 *
 * const at = utc("2026-06-01T12:00Z");
 * const turns = streamTurns(
 *   {
 *     kind: "ellipse",
 *     constituents: [
 *       {
 *         speedDegPerHour: 28.9841042,
 *         semiMajorMps: 0.8,
 *         semiMinorMps: 0.2,
 *         majorTowardsDeg: 90,
 *         greatestAtMs: at,
 *       },
 *     ],
 *   },
 *   { fromMs: at + 1, toMs: at + 6 * 3600e3 },
 * );
 * console.log(turns.map((t) => `${t.kind} ${t.rateMps.toFixed(2)}`));
 * // [ 'least 0.20' ]
 * ```
 */
export function streamTurns(source: StreamSource, interval: Interval): StreamTurn[] {
  const checked = check(input, { source, interval });
  return streamTurnsUnchecked(checked.source, checked.interval);
}

/** {@link streamTurns} for input already checked. */
export function streamTurnsUnchecked(s: CheckedStream, { fromMs, toMs }: Interval): StreamTurn[] {
  if (s.kind === "steady") return [];
  const all =
    s.kind === "turns"
      ? tableTurns(s)
      : s.kind === "ellipse"
        ? ellipseTurns(s, fromMs, toMs)
        : nodeTurns(nodesOf(s));
  return all.filter((t) => t.timeMs >= fromMs && t.timeMs <= toMs);
}

const tableTurns = (s: TurnsStream): StreamTurn[] =>
  s.turns.map((t, i) => {
    if (t.kind !== "slack") return { ...t };
    const next = s.turns[i + 1];
    const previous = s.turns[i - 1];
    const towardsDeg =
      next && next.kind !== "slack"
        ? next.towardsDeg
        : previous && previous.kind !== "slack"
          ? (previous.towardsDeg + 180) % 360
          : 0;
    return { timeMs: t.timeMs, kind: "slack", rateMps: 0, towardsDeg };
  });

/** A turn from the vector found there and the vector a little later. */
function turnOf(
  timeMs: number,
  least: boolean,
  east: number,
  north: number,
  eastAfter: number,
  northAfter: number,
): StreamTurn {
  const rateMps = Math.sqrt(east * east + north * north);
  const slack = least && rateMps <= SLACK_MPS;
  return {
    timeMs,
    kind: slack ? "slack" : least ? "least" : "greatest",
    rateMps,
    towardsDeg: slack ? bearingOf(eastAfter, northAfter) : bearingOf(east, north),
  };
}

/** Where rate changes from falling to rising or back, for vectors on straight lines between nodes. */
function nodeTurns(n: StreamNodes): StreamTurn[] {
  const out: StreamTurn[] = [];
  let was = 0;
  for (let i = 0; i + 1 < n.timeMs.length; i++) {
    const span = n.timeMs[i + 1]! - n.timeMs[i]!;
    if (span > n.longestGapMs) {
      was = 0;
      continue;
    }
    const [e0, n0, e1, n1] = [n.eastMps[i]!, n.northMps[i]!, n.eastMps[i + 1]!, n.northMps[i + 1]!];
    const [de, dn] = [e1 - e0, n1 - n0];
    const length2 = de * de + dn * dn;
    if (length2 === 0) continue;
    // The rate along a line is least at one point of it, and rises away from there on both sides.
    const part = -(e0 * de + n0 * dn) / length2;
    const at = (x: number, least: boolean) =>
      turnOf(n.timeMs[i]! + x * span, least, e0 + x * de, n0 + x * dn, e1, n1);
    const first = part > 0 ? -1 : 1;
    const last = part >= 1 ? -1 : 1;
    if (was * first < 0) out.push(at(0, was < 0));
    if (first < last) out.push(at(part, true));
    was = last;
  }
  return out;
}

/** Turns of ellipses: where the rate of change of the rate passes through nil. */
function ellipseTurns(s: EllipseStream, fromMs: number, toMs: number): StreamTurn[] {
  const v = { eastMps: 0, northMps: 0 };
  const d = { eastMps: 0, northMps: 0 };
  const slope = (t: number): number => {
    sampleEllipses(s, t, v, d);
    return v.eastMps * d.eastMps + v.northMps * d.northMps;
  };
  const fastest = Math.max(...s.constituents.map((c) => c.speedDegPerHour));
  // The slope goes round twice as fast as the stream, and faster still where ellipses meet.
  const step = (360 / fastest / 48) * 3_600_000;
  const greatest = s.constituents.reduce((sum, c) => sum + c.semiMajorMps, 0);
  // A stream that goes round at one rate has no turns but those of rounding.
  const nothing = (1e-12 * greatest * greatest) / step;
  const out: StreamTurn[] = [];
  let [was, before] = [0, 0];
  // Looked at on the same instants whatever the interval, so that a turn on a seam of two falls to both alike.
  for (let k = Math.floor(fromMs / step) - 1; (k - 2) * step < toMs; k++) {
    const now = slope(k * step);
    if (!(Math.abs(now) > nothing)) continue;
    if (before * now < 0) {
      const at = bracketedRoot(slope, was, k * step, 1);
      slope(at);
      const { eastMps, northMps } = v;
      slope(at + step);
      out.push(turnOf(Math.round(at), before < 0, eastMps, northMps, v.eastMps, v.northMps));
    }
    [was, before] = [k * step, now];
  }
  return out;
}
