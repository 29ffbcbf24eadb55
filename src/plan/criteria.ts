import { known } from "../core/series.js";
import type { Interval, Reason, Severity } from "../core/judgement.js";
import type { Milliseconds } from "../core/units.js";

/** A reason of a plan: what passes which limit, from when to when, and when it is worst. */
export interface PlanReason extends Reason {
  /** When the limit is first passed; absent where the reason does not hang on the hour. */
  fromMs?: Milliseconds;
  /** When it is last passed; the end of the stay where nothing is known from there on. */
  toMs?: Milliseconds;
  /** How often it is passed between these, where more than once. */
  times?: number;
  /** What it is about, e.g. the neighbour or the charted feature. */
  of?: string;
}

/** Values over the stay held against a limit from below: a value that is not above it, or not known, passes it. */
export interface Criterion {
  code: string;
  severity: Severity;
  /** One value a moment; NaN counts as passed, but as not known. */
  values: Float64Array;
  limit: number;
  basis: string;
  of?: string;
}

/** Spans in which values are at or below a limit, crossings by straight lines between moments. Values not known do not count here. */
export function spansBelow(
  timeMs: readonly number[],
  values: Float64Array,
  limit: number,
): Interval[] {
  const spans: Interval[] = [];
  let open: number | null = null;
  for (let i = 0; i < timeMs.length; i++) {
    const below = values[i]! <= limit;
    if (below && open === null) open = crossing(timeMs, values, limit, i);
    if (!below && open !== null) {
      spans.push({ fromMs: open, toMs: crossing(timeMs, values, limit, i) });
      open = null;
    }
  }
  if (open !== null) spans.push({ fromMs: open, toMs: timeMs[timeMs.length - 1]! });
  return spans;
}

/** Instant between moment `i` and the one before at which the limit is passed. */
function crossing(
  timeMs: readonly number[],
  values: Float64Array,
  limit: number,
  i: number,
): number {
  const a = values[i - 1];
  const b = values[i]!;
  if (a === undefined || !Number.isFinite(a) || !Number.isFinite(b)) return timeMs[i]!;
  const part = (limit - a) / (b - a);
  return Math.round(timeMs[i - 1]! + part * (timeMs[i]! - timeMs[i - 1]!));
}

/** The lesser of two; NaN if either is: what is not known stays not known. */
export const lesser = (a: number, b: number): number => (a < b || Number.isNaN(a) ? a : b);

/** Moment of the least known value; -1 where none is known. */
export function leastKnown(values: ArrayLike<number>): number {
  let least = -1;
  for (let i = 0; i < values.length; i++)
    if (!Number.isNaN(values[i]) && (least < 0 || values[i]! < values[least]!)) least = i;
  return least;
}

/** When a limit is last passed: what is not known from there to the end is no end of it. */
function lastOf(timeMs: readonly number[], values: Float64Array, toMs: number): number {
  const unknown = timeMs.every((t, i) => t < toMs || Number.isNaN(values[i]));
  return unknown ? timeMs[timeMs.length - 1]! : toMs;
}

/** The reason a criterion gives; null where the limit is nowhere passed. */
export function judged(timeMs: readonly number[], c: Criterion): PlanReason | null {
  const spans = spansBelow(timeMs, c.values, c.limit);
  const worst = leastKnown(c.values);
  if (spans.length === 0 || worst < 0) return null;
  const value = c.values[worst]!;
  return {
    code: c.code,
    severity: c.severity,
    atMs: timeMs[worst]!,
    value: known(value),
    limit: c.limit,
    basis: c.basis,
    fromMs: spans[0]!.fromMs,
    toMs: lastOf(timeMs, c.values, spans[spans.length - 1]!.toMs),
    ...(spans.length > 1 && { times: spans.length }),
    ...(c.of !== undefined && { of: c.of }),
  };
}

/** The weightiest of some criteria on one quantity that is passed; null where none is. */
export function weightiest(
  timeMs: readonly number[],
  ladder: readonly Criterion[],
): PlanReason | null {
  for (const step of ladder) {
    const found = judged(timeMs, step);
    if (found !== null) return found;
  }
  return null;
}

const ORDER: readonly Severity[] = ["stop", "warning", "caution", "note"];

/** Heaviest first, then by the hour. */
export const byWeight = (a: PlanReason, b: PlanReason): number =>
  ORDER.indexOf(a.severity) - ORDER.indexOf(b.severity) ||
  (a.fromMs ?? -Infinity) - (b.fromMs ?? -Infinity);
