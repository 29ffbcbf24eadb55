import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import type { Interval } from "../core/judgement.js";
import { bracketedRoot } from "../core/roots.js";
import { interval, speed } from "../core/schema.js";
import { nodesOf, streamSampler, type StreamSampler } from "./kernel.js";
import { streamSource, type CheckedStream } from "./source.js";
import { streamTurnsUnchecked } from "./turns.js";

/** Input of `streamBelow`. */
export const input = z.strictObject({
  /** What is known of the stream. */
  stream: streamSource,
  /** The stay. */
  stay: interval,
  /** Rate up to which the stream counts as weak. */
  limitMps: speed(),
});
/** Input of {@link streamBelow}. */
export type StreamBelowInput = Given<typeof input>;

/** When a stream is weak. */
export interface StreamBelow {
  /** Spans in which the rate is known to be at or below the limit. */
  below: Interval[];
  /** Spans of which the source says nothing: the stream may be anything. */
  unknown: Interval[];
}

/**
 * Spans of a stay in which the stream runs no harder than a limit: slack water with its duration.
 *
 * Roots of rate against limit between the turns of the stream. Hourly rows are taken with the
 * vector between them. What the source does not cover is given apart, never counted as weak.
 *
 * *Valid* and *Accuracy*: as `streamAt`; for a half sine of 6 h the duration is 12 h/π · asin(limit/greatest).
 * @throws InputError as `streamAt`, and for a stay that ends before it starts.
 * @source NOAA Tidal Current Tables, duration of slack (from memory)
 * @example
 * ```ts
 * import { knots, toMinutes, utc } from "hawse";
 * import { streamBelow } from "hawse/stream";
 *
 * const slackMs = utc("2026-06-01T12:00Z");
 * const greatest = { kind: "greatest", rateMps: knots(3) } as const;
 * const { below } = streamBelow({
 *   stream: {
 *     kind: "turns",
 *     turns: [
 *       { ...greatest, timeMs: slackMs - 3 * 3600e3, towardsDeg: 90 },
 *       { kind: "slack", timeMs: slackMs },
 *       { ...greatest, timeMs: slackMs + 3 * 3600e3, towardsDeg: 270 },
 *     ],
 *   },
 *   stay: { fromMs: slackMs - 2 * 3600e3, toMs: slackMs + 2 * 3600e3 },
 *   limitMps: knots(0.5),
 * });
 * console.log(below.map((b) => toMinutes(b.toMs - b.fromMs).toFixed(0)));
 * // [ '38' ]
 * ```
 */
export function streamBelow(given: StreamBelowInput): StreamBelow {
  const { stream, stay, limitMps } = check(input, given);
  return streamBelowUnchecked(stream, stay, limitMps);
}

/** {@link streamBelow} for input already checked. */
export function streamBelowUnchecked(
  given: CheckedStream,
  stay: Interval,
  limitMps: number,
): StreamBelow {
  const s: CheckedStream = given.kind === "hourly" ? { ...given, between: "vector" } : given;
  const sampler = streamSampler(s);
  const out: StreamBelow = { below: [], unknown: [] };
  const at = breaks(s, stay);
  for (let i = 0; i + 1 < at.length; i++) addPiece(out, sampler, at[i]!, at[i + 1]!, limitMps);
  return out;
}

/** Ends of the stay, turns and rows within it: between two of them the rate only rises or only falls, or is unknown throughout. */
function breaks(s: CheckedStream, stay: Interval): number[] {
  const rows = s.kind === "hourly" || s.kind === "series" ? [...nodesOf(s).timeMs] : [];
  const inside = [...rows, ...streamTurnsUnchecked(s, stay).map((t) => t.timeMs)].filter(
    (t) => t > stay.fromMs && t < stay.toMs,
  );
  return [...new Set([stay.fromMs, ...inside, stay.toMs])].sort((a, b) => a - b);
}

function addPiece(
  out: StreamBelow,
  sampler: StreamSampler,
  from: number,
  to: number,
  limitMps: number,
): void {
  const v = { eastMps: 0, northMps: 0 };
  const over = (t: number): number => {
    const gap = sampler(t, v);
    return gap === null
      ? Math.sqrt(v.eastMps * v.eastMps + v.northMps * v.northMps) - limitMps
      : NaN;
  };
  if (Number.isNaN(over((from + to) / 2))) {
    extend(out.unknown, from, to);
    return;
  }
  const [a, b] = [over(from), over(to)];
  if (a <= 0 && b <= 0) extend(out.below, from, to);
  else if (a <= 0 || b <= 0) {
    const root = bracketedRoot(over, from, to, 1);
    if (a <= 0) extend(out.below, from, root);
    else extend(out.below, root, to);
  }
}

/** Add a span to a list, joined to the last where they touch. */
function extend(spans: Interval[], fromMs: number, toMs: number): void {
  const last = spans[spans.length - 1];
  if (last?.toMs === fromMs) last.toMs = toMs;
  else if (toMs > fromMs) spans.push({ fromMs, toMs });
}
