import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import type { Interval } from "../core/judgement.js";
import { instant, interval, metres, range3 } from "../core/schema.js";
import { linearAt } from "../core/series.js";
import type { Metres, Milliseconds } from "../core/units.js";
import type { Gap, TideCurve } from "./curve.js";
import { tideCurve } from "./prepare.js";
import { datumName } from "./difference-table.js";
import { ascending, tideSource } from "./source.js";
import { overSpan, type At, type SpanReport } from "./span.js";

const surgeRow = z
  .strictObject({
    /** Instant. */
    timeMs: instant(),
    /** Surge to expect at the least. */
    low: metres({ min: -10, max: 10 }),
    /** Surge to expect. */
    likely: metres({ min: -10, max: 10 }),
    /** Surge to expect at the most. */
    high: metres({ min: -10, max: 10 }),
  })
  .check(
    z.refine((r) => r.low <= r.likely && r.likely <= r.high, "expected low <= likely <= high"),
  );

/** A stay, the tide there and the charted depth. */
export const depthOverStayInput = z.strictObject({
  /** Tide at the place. */
  tide: tideSource,
  /** The stay. */
  stay: interval,
  /** Charted depth; a drying height is negative. */
  chartedDepthM: metres({ min: -20, max: 12_000 }),
  /** Datum of the charted depth; it must be the tide's. Taken to be so where it is not given. */
  chartDatum: z.optional(datumName),
  /** Surge over the stay, one for all of it or a series that covers it. Default none. */
  surgeM: z.optional(
    z.union([range3, z.array(surgeRow).check(z.minLength(2), z.check(ascending))]),
  ),
  /** Depth under which the intervals are wanted. */
  limitM: z.optional(metres()),
  /** Instant to count the rise from. Default the start of the stay. */
  nowMs: z.optional(instant()),
});
/** A stay, the tide there and the charted depth. */
export type DepthOverStayInput = Given<typeof depthOverStayInput>;
/** The same, with defaults filled in. */
export type CheckedDepthOverStay = z.output<typeof depthOverStayInput>;

/** A depth and when it is reached. */
export interface DepthAt {
  /** Depth of water. */
  depthM: Metres;
  /** Instant, UTC epoch milliseconds. */
  timeMs: Milliseconds;
}

/** Depth over a stay for one reading of the surge and of the error. */
export interface DepthCase {
  /** Least depth; the first instant of it. */
  least: DepthAt;
  /** Greatest depth; the first instant of it. */
  greatest: DepthAt;
  /** Every interval in which the depth is less than the limit; empty where no limit was given. */
  below: Interval[];
}

/** Depth over a stay that the tide is known throughout. */
export interface KnownDepth extends DepthCase {
  /** The tide is known throughout the stay. */
  known: true;
  /** With the lowest surge and the lower end of the error: what to reckon with for depth. */
  low: DepthCase;
  /** With the highest surge and the upper end of the error: what to reckon with for rode. */
  high: DepthCase;
  /** Rise from now to the greatest depth of the stay after it; not negative. */
  riseFromNowM: Metres;
  /** Fall from now to the least depth of the stay after it; not negative. */
  fallFromNowM: Metres;
  /** Datum of tide and charted depth. */
  datum: string;
  /** Rule or method the heights rest on. */
  basis: string;
  /** Heights rest on differences or curves beyond the tabulated ranges somewhere in the stay. */
  extrapolated: boolean;
  /** What was taken for granted. */
  assumed: string[];
}

/** The tide is not known throughout the stay: no least depth can be told. */
export interface UnknownDepth {
  /** The tide is not known throughout the stay. */
  known: false;
  /** Parts of the stay without a height of tide or a surge, and why. */
  missing: (Gap | SurgeGap)[];
  /** What is known of the rest; never the answer for the stay. Null where nothing is. */
  knownPart: DepthCase | null;
  /** Datum of tide and charted depth. */
  datum: string;
}

/** Part of the stay that the surge series does not reach. */
export interface SurgeGap {
  /** Start, UTC epoch milliseconds. */
  fromMs: Milliseconds;
  /** End, UTC epoch milliseconds. */
  toMs: Milliseconds;
  /** The surge is not known there. */
  reason: "outsideSurge";
}

/** Depth over a stay. */
export type DepthOverStay = KnownDepth | UnknownDepth;

/**
 * Least and greatest depth over a whole stay, when they are reached, and every interval under a limit.
 *
 * Depth is charted depth plus height of tide plus surge. All turns of the stay are looked at, not only the next low
 * water, and instants at a limit are found by root-finding on each rise and fall. Waves, swell and a charted
 * depth that is itself in error are left out.
 *
 * *Valid*: the tide must be known throughout; else the answer says which parts are missing and gives no least depth.
 *
 * *Accuracy*: instants at a limit within a second of the tide as given; `low` and `high` add the 95 % error of the
 * heights and the spread of the surge.
 *
 * @throws InputError when an input is not well formed, datums differ without a stated shift, or now lies outside the stay.
 * @source Common practice: depth = charted depth + height of tide
 * @example
 * ```ts
 * import { hours, utc } from "hawse";
 * import { depthOverStay } from "hawse/tide";
 *
 * const fromMs = utc("2026-06-01T03:00Z");
 * const heights = [4.2, 0.9, 4.0, 0.4];
 * const turns = heights.map((heightM, i) => ({ timeMs: fromMs + hours(6.2 * i), heightM }));
 * const depth = depthOverStay({
 *   tide: { kind: "turns", turns, datum: "LAT" },
 *   stay: { fromMs, toMs: fromMs + hours(18.6) },
 *   chartedDepthM: 1.5,
 *   limitM: 2,
 * });
 * console.log(depth.known && depth.least.depthM.toFixed(2));
 * // 1.90
 * ```
 */
export function depthOverStay(input: DepthOverStayInput): DepthOverStay {
  return depthOver(check(depthOverStayInput, input));
}

/** Depth over a stay from checked input. */
export function depthOver(input: CheckedDepthOverStay): DepthOverStay {
  const { stay, tide } = input;
  const curve = tideCurve(tide, stay.fromMs, stay.toMs);
  if (input.chartDatum !== undefined && input.chartDatum !== curve.datum)
    refuse(
      "chartDatum",
      "datum",
      `the charted depth is below ${input.chartDatum}, the tide above ${curve.datum}: give the shift as tide.toDatum`,
    );
  const nowMs = input.nowMs ?? stay.fromMs;
  if (!(nowMs >= stay.fromMs && nowMs <= stay.toMs))
    refuse("nowMs", "outside", "expected an instant of the stay");
  const missing = [...curve.gaps(stay.fromMs, stay.toMs), ...surgeGaps(input.surgeM, stay)];
  if (missing.length > 0)
    return {
      known: false,
      missing,
      knownPart: knownPartOf(input, curve, missing),
      datum: curve.datum,
    };
  return knownDepth(input, curve, nowMs);
}

type Surge = CheckedDepthOverStay["surgeM"];
type Side = "low" | "likely" | "high";

function knownDepth(input: CheckedDepthOverStay, curve: TideCurve, nowMs: number): KnownDepth {
  const { fromMs, toMs } = input.stay;
  const likely = caseOf(input, curve, "likely", fromMs, toMs);
  const rest = caseOf(input, curve, "likely", nowMs, toMs);
  const now = depthFunction(input, curve, "likely")(nowMs);
  return {
    known: true,
    ...likely,
    low: caseOf(input, curve, "low", fromMs, toMs),
    high: caseOf(input, curve, "high", fromMs, toMs),
    riseFromNowM: Math.max(0, rest.greatest.depthM - now),
    fallFromNowM: Math.max(0, now - rest.least.depthM),
    datum: curve.datum,
    basis: curve.basis,
    extrapolated: [fromMs, ...curve.breaks(fromMs, toMs), toMs].some((t) =>
      curve.extrapolatedAt(t),
    ),
    assumed: [
      ...(input.chartDatum === undefined ? [`the charted depth is below ${curve.datum}`] : []),
      ...(input.surgeM === undefined ? ["no surge"] : []),
    ],
  };
}

/** Surge at an instant. */
function surgeFunction(surge: Surge, side: Side): (t: number) => number {
  if (surge === undefined) return () => 0;
  if (!Array.isArray(surge)) return () => surge[side];
  const times = surge.map((r) => r.timeMs);
  const values = surge.map((r) => r[side]);
  return (t) => linearAt(times, values, t);
}

function depthFunction(
  input: CheckedDepthOverStay,
  curve: TideCurve,
  side: Side,
): (t: number) => number {
  const surge = surgeFunction(input.surgeM, side);
  const charted = input.chartedDepthM;
  if (side === "likely") return (t) => charted + curve.heightAt(t) + surge(t);
  const error = side === "low" ? curve.errorLowAt : curve.errorHighAt;
  return (t) => charted + curve.heightAt(t) + error(t) + surge(t);
}

/** Parts of each rise and fall looked at where error or surge change along it. */
const PARTS = 12;

function caseOf(
  input: CheckedDepthOverStay,
  curve: TideCurve,
  side: Side,
  fromMs: number,
  toMs: number,
): DepthCase {
  const rows = Array.isArray(input.surgeM) ? input.surgeM : [];
  const coarse = [
    fromMs,
    ...curve.breaks(fromMs, toMs),
    ...rows.map((r) => r.timeMs).filter((t) => t > fromMs && t < toMs),
    toMs,
  ].sort((a, b) => a - b);
  const parts = side === "likely" && rows.length === 0 ? 1 : PARTS;
  const knots = coarse.flatMap((t, i) => divided(t, coarse[i + 1], parts));
  return depthCase(overSpan(depthFunction(input, curve, side), knots, input.limitM ?? null));
}

const divided = (from: number, to: number | undefined, parts: number): number[] =>
  to === undefined
    ? [from]
    : Array.from({ length: parts }, (_, k) => from + ((to - from) * k) / parts);

const depthAt = (at: At): DepthAt => ({ depthM: at.value, timeMs: at.timeMs });

const depthCase = (r: SpanReport): DepthCase => ({
  least: depthAt(r.least),
  greatest: depthAt(r.greatest),
  below: r.below,
});

function surgeGaps(surge: Surge, stay: Interval): SurgeGap[] {
  if (!Array.isArray(surge)) return [];
  const first = surge[0]!.timeMs;
  const last = surge.at(-1)!.timeMs;
  const gaps: SurgeGap[] = [];
  if (stay.fromMs < first)
    gaps.push({
      fromMs: stay.fromMs,
      toMs: Math.min(first, stay.toMs),
      reason: "outsideSurge",
    });
  if (stay.toMs > last)
    gaps.push({
      fromMs: Math.max(last, stay.fromMs),
      toMs: stay.toMs,
      reason: "outsideSurge",
    });
  return gaps;
}

/** Least and greatest over what lies between the missing parts. */
function knownPartOf(
  input: CheckedDepthOverStay,
  curve: TideCurve,
  missing: readonly Interval[],
): DepthCase | null {
  const sorted = [...missing].sort((a, b) => a.fromMs - b.fromMs);
  const parts: DepthCase[] = [];
  let from = input.stay.fromMs;
  for (const gap of [...sorted, { fromMs: input.stay.toMs, toMs: Infinity }]) {
    if (gap.fromMs > from) parts.push(caseOf(input, curve, "likely", from, gap.fromMs));
    from = Math.max(from, gap.toMs);
  }
  if (parts.length === 0) return null;
  return parts.reduce((a, b) => ({
    least: b.least.depthM < a.least.depthM ? b.least : a.least,
    greatest: b.greatest.depthM > a.greatest.depthM ? b.greatest : a.greatest,
    below: [...a.below, ...b.below],
  }));
}
