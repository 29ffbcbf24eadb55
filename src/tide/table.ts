import { cosineShare, MEAN_INTERVAL_MS, TWELFTHS_SHARE, USUAL_PART } from "./error.js";
import type { Gap, TideCurve, Unknown } from "./curve.js";
import { cubicKnots } from "./cubic.js";
import { median, suspectPieces } from "./gaps.js";
import { withKinds, type Turn } from "./kinds.js";
import {
  knotError,
  knotFill,
  knotHeight,
  knotsOf,
  noKnots,
  pieceAt,
  pushKnot,
  type Knots,
} from "./knots.js";
import { lastAtOrBefore } from "../core/series.js";
import type { CheckedTable } from "./source.js";

/** A table of turns with which pieces between them are known. */
export interface TurnTable {
  turns: Turn[];
  times: Float64Array;
  heights: Float64Array;
  suspect: boolean[];
}

/** Turns of a source above the datum wanted, with the suspect pieces marked. */
function turnTable(source: CheckedTable): TurnTable {
  const addM = source.toDatum?.addM ?? 0;
  const turns = withKinds(source.turns.map((t) => ({ ...t, heightM: t.heightM + addM })));
  return {
    turns,
    times: Float64Array.from(turns, (t) => t.timeMs),
    heights: Float64Array.from(turns, (t) => t.heightM),
    suspect: suspectPieces(source, turns),
  };
}

/** A table of turns, with its rule or curve, made ready. */
export function tableCurve(source: CheckedTable): TideCurve {
  const table = turnTable(source);
  const knots =
    source.kind === "curve" ? cubicKnots(table, source.curve) : ruleKnots(table, source.rule);
  const error = errorsOf(source, table, knots);
  const unknownAt = (t: number): Unknown | null => whyUnknown(knots, t);
  return {
    datum: source.toDatum?.datum ?? source.datum,
    basis: basisOf(source),
    heightAt: (t) => knotHeight(knots, t),
    ...error,
    unknownAt,
    gaps: (from, to) => gapsIn(knots, from, to),
    breaks: (from, to) => inside(knots.times, from, to),
    turns: (from, to) => table.turns.filter((t) => t.timeMs >= from && t.timeMs <= to),
    extrapolatedAt: (t) => knots.beyond[pieceAt(knots.times, t)] === 1,
    fill: (from, step, out) => {
      knotFill(knots, from, step, out);
    },
  };
}

function basisOf(source: CheckedTable): string {
  if (source.kind === "curve")
    return `port curve keyed to ${source.curve.key === "highWater" ? "high" : "low"} water, between tabulated turns`;
  return source.rule === "cosine"
    ? "half-cosine between tabulated turns"
    : "rule of twelfths in sixths of the interval between tabulated turns";
}

const TWELFTHS = [0, 1, 3, 6, 9, 11, 12];

function ruleKnots(table: TurnTable, rule: "cosine" | "twelfths"): Knots {
  const list = noKnots();
  const parts = rule === "cosine" ? 1 : 6;
  const last = table.turns.length - 1;
  for (let i = 0; i < last; i++) {
    const known = !table.suspect[i]!;
    const t0 = table.times[i]!;
    const h0 = table.heights[i]!;
    for (let j = 0; j < (known ? parts : 1); j++)
      pushKnot(list, {
        timeMs: t0 + ((table.times[i + 1]! - t0) * j) / parts,
        heightM: h0 + ((table.heights[i + 1]! - h0) * TWELFTHS[j]!) / 12,
        known,
      });
  }
  pushKnot(list, { ...table.turns[last]!, known: false });
  return knotsOf(list, rule === "cosine" ? "cosine" : "linear");
}

function whyUnknown(knots: Knots, timeMs: number): Unknown | null {
  const i = pieceAt(knots.times, timeMs);
  if (i < 0) return "outsideTable";
  return knots.known[i] === 1 || knots.times[i] === timeMs ? null : "suspectGap";
}

function gapsIn(knots: Knots, fromMs: number, toMs: number): Gap[] {
  const { times, known } = knots;
  const gaps: Gap[] = [];
  const add = (a: number, b: number, reason: Unknown): void => {
    gaps.push({ fromMs: Math.max(a, fromMs), toMs: Math.min(b, toMs), reason });
  };
  const last = times.length - 1;
  // A curve keyed to low water has no knots where the table has no low water.
  const first = times[0] ?? Infinity;
  if (fromMs < first) add(-Infinity, first, "outsideTable");
  for (let i = 0; i < last; i++)
    if (known[i] !== 1 && times[i]! < toMs && times[i + 1]! > fromMs)
      add(times[i]!, times[i + 1]!, "suspectGap");
  if (toMs > times[last]!) add(times[last]!, Infinity, "outsideTable");
  return gaps;
}

/** Entries of an ascending list strictly inside a span. */
export function inside(ascending: Float64Array, fromMs: number, toMs: number): number[] {
  const out: number[] = [];
  for (
    let i = lastAtOrBefore(ascending, fromMs) + 1;
    i < ascending.length && ascending[i]! < toMs;
    i++
  )
    out.push(ascending[i]!);
  return out;
}

/**
 * Errors of a curve that carries its own, else those of the half-cosine: no further than the turns on
 * either side, between which the water only rises or only falls.
 */
function errorsOf(
  source: CheckedTable,
  table: TurnTable,
  knots: Knots,
): Pick<TideCurve, "errorLowAt" | "errorHighAt"> {
  const printed = source.heightStepM / 2;
  if (source.kind === "curve" && source.curve.errorLow !== undefined)
    return {
      errorLowAt: (t) => knotError(knots, knots.low, t) - printed,
      errorHighAt: (t) => knotError(knots, knots.high, t) + printed,
    };
  const { times, heights } = table;
  const mid = midErrors(source, table);
  const errorAt = (t: number, side: Side): number => {
    const i = pieceAt(times, t);
    if (i < 0) return NaN;
    if (i === mid.length) return printed;
    const x = (t - times[i]!) / (times[i + 1]! - times[i]!);
    const error = Math.sin(Math.PI * x) * mid[i]!;
    const beyond = WITHIN * Math.abs(knotHeight(knots, t) - side(heights[i]!, heights[i + 1]!));
    return printed + (beyond < error ? beyond : error);
  };
  return { errorLowAt: (t) => -errorAt(t, Math.min), errorHighAt: (t) => errorAt(t, Math.max) };
}

/** The least water stays that of the turn itself, by a hair. */
const WITHIN = 1 - 1e-10;

/** Of two turns the one that the water does not pass between them. */
type Side = typeof Math.min;

/** Error of the rule in the middle of each interval, m. */
function midErrors(source: CheckedTable, table: TurnTable): Float64Array {
  const { times, heights } = table;
  const pieces = table.turns.length - 1;
  const lengths = Array.from({ length: pieces }, (_, i) => times[i + 1]! - times[i]!);
  const ranges = lengths.map((_, i) => Math.abs(heights[i + 1]! - heights[i]!));
  const usualMs = Math.max(median(lengths), MEAN_INTERVAL_MS);
  const usualM = median(ranges);
  const extra = source.kind === "turns" && source.rule === "twelfths" ? TWELFTHS_SHARE : 0;
  return Float64Array.from(
    ranges,
    (range, i) =>
      cosineShare(source.type, lengths[i]! / usualMs) * (range + USUAL_PART * usualM) +
      extra * range,
  );
}
