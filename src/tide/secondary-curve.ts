import { refuse } from "../core/errors.js";
import type { Gap, TideCurve, Unknown } from "./curve.js";
import { applyDifferences, type SecondaryTurn } from "./differences.js";
import { SECONDARY_FLOOR_M, SECONDARY_SHARE } from "./error.js";
import type { Turn } from "./kinds.js";
import { pieceAt } from "./knots.js";
import type { CheckedSecondary } from "./source.js";

/** Turns of both ports side by side. */
interface Pair {
  /** Instants at the secondary port. */
  times: Float64Array;
  /** Heights at the secondary port. */
  heights: Float64Array;
  /** Instants at the standard port. */
  standardTimes: Float64Array;
  /** Heights at the standard port. */
  standardHeights: Float64Array;
  /** What a curve keyed to low water leaves of the standard port's turns between; else nothing. */
  left: Float64Array;
  turns: SecondaryTurn[];
}

/**
 * A secondary port: its turns by the differences, and between them the shape of the standard port's own
 * curve, stretched in time and height from turn to turn.
 */
export function secondaryCurve(
  source: CheckedSecondary,
  standard: TideCurve,
  fromMs: number,
  toMs: number,
): TideCurve {
  const p = pairUp(source, standard, fromMs, toMs);
  const unknownAt = (t: number): Unknown | null => {
    const i = pieceAt(p.times, t);
    return i < 0 ? "outsideTable" : standard.unknownAt(standardTime(p, i, t));
  };
  return {
    datum: source.toDatum?.datum ?? source.datum,
    basis: `secondary port by differences; ${standard.basis} at the standard port`,
    heightAt: (t) => heightAt(p, standard, t),
    errorLowAt: (t) => -errorAt(p, standard.errorLowAt, t),
    errorHighAt: (t) => errorAt(p, standard.errorHighAt, t),
    unknownAt,
    gaps: (from, to) => gapsIn(p, standard, from, to),
    breaks: (from, to) => breaksIn(p, standard, from, to),
    turns: (from, to) =>
      p.turns
        .filter((t) => t.timeMs >= from && t.timeMs <= to)
        .map(({ timeMs, heightM, kind }) => ({ timeMs, heightM, kind })),
    extrapolatedAt: (t) => {
      const i = pieceAt(p.times, t);
      return i >= 0 && (extrapolatedIn(p, i) || standard.extrapolatedAt(standardTime(p, i, t)));
    },
    fill: (from, step, out) => {
      for (let k = 0; k < out.length; k++) out[k] = heightAt(p, standard, from + k * step);
    },
  };
}

/** Error at an instant; a turn belongs to the pieces on both sides, and the larger counts. */
function errorAt(p: Pair, side: (t: number) => number, timeMs: number): number {
  const i = pieceAt(p.times, timeMs);
  if (i < 0) return NaN;
  const theirs = side(standardTime(p, i, timeMs));
  const inPiece = (k: number): number =>
    Math.abs(theirs * scaleOf(p, k)) + SECONDARY_FLOOR_M + SECONDARY_SHARE * rangeOf(p, k);
  return timeMs === p.times[i] && i > 0 ? Math.max(inPiece(i - 1), inPiece(i)) : inPiece(i);
}

const extrapolatedIn = (p: Pair, i: number): boolean =>
  p.turns[i]!.extrapolated || (p.turns[i + 1]?.extrapolated ?? false);

function pairUp(source: CheckedSecondary, standard: TideCurve, fromMs: number, toMs: number): Pair {
  const wanted = source.differences.standardDatum;
  if (wanted !== undefined && wanted !== standard.datum)
    refuse(
      "standard.datum",
      "datum",
      `the differences hold for heights above ${wanted}, the standard port's are above ${standard.datum}`,
    );
  const addM = source.toDatum?.addM ?? 0;
  const pairs = inOrder(
    standard.turns(fromMs, toMs).map((theirs) => {
      const own = applyDifferences(theirs, source.differences);
      return { theirs, own: { ...own, heightM: own.heightM + addM } };
    }),
  );
  const column = (of: (pair: TurnPair) => number) => Float64Array.from(pairs, of);
  return {
    turns: pairs.map((p) => p.own),
    times: column((p) => p.own.timeMs),
    heights: column((p) => p.own.heightM),
    standardTimes: column((p) => p.theirs.timeMs),
    standardHeights: column((p) => p.theirs.heightM),
    left: column(({ theirs }) => {
      const left = theirs.heightM - standard.heightAt(theirs.timeMs);
      return Number.isNaN(left) ? 0 : left;
    }),
  };
}

/** A turn at both ports. */
interface TurnPair {
  theirs: Turn;
  own: SecondaryTurn;
}

/** Turns of a small pair, such as the dip of a double high water, may run into each other at the secondary port. */
const MERGING_MS = 2 * 3_600_000;

/** Turns in order: a small pair that the differences run together is no pair of turns at the secondary port. */
function inOrder(pairs: readonly TurnPair[]): TurnPair[] {
  const kept: TurnPair[] = [];
  for (const pair of pairs) {
    const before = kept.at(-1);
    if (before === undefined || pair.own.timeMs > before.own.timeMs) kept.push(pair);
    else if (pair.theirs.timeMs - before.theirs.timeMs <= MERGING_MS) kept.pop();
    else
      refuse(
        "differences",
        "order",
        "the time differences put turns of the secondary port out of order",
      );
  }
  return kept;
}

/** Instant at the standard port that answers to one at the secondary port. */
function standardTime(p: Pair, i: number, timeMs: number): number {
  const t0 = p.times[i]!;
  if (timeMs === t0) return p.standardTimes[i]!;
  const part = (timeMs - t0) / (p.times[i + 1]! - t0);
  return p.standardTimes[i]! + part * (p.standardTimes[i + 1]! - p.standardTimes[i]!);
}

const rangeOf = (p: Pair, i: number): number =>
  i + 1 < p.heights.length ? Math.abs(p.heights[i + 1]! - p.heights[i]!) : 0;

/** Range at the secondary port over the range at the standard port; 1 at a standard port's stand. */
function scaleOf(p: Pair, i: number): number {
  if (i + 1 >= p.heights.length) return 1;
  const own = p.heights[i + 1]! - p.heights[i]!;
  const theirs = p.standardHeights[i + 1]! - p.standardHeights[i]!;
  return Math.abs(theirs) > 1e-6 ? own / theirs : 1;
}

function heightAt(p: Pair, standard: TideCurve, timeMs: number): number {
  const i = pieceAt(p.times, timeMs);
  if (i < 0) return NaN;
  if (timeMs === p.times[i]) return p.heights[i]!;
  const part = (timeMs - p.times[i]!) / (p.times[i + 1]! - p.times[i]!);
  const left = p.left[i]! + part * (p.left[i + 1]! - p.left[i]!);
  const h = standard.heightAt(standardTime(p, i, timeMs)) + left;
  return p.heights[i]! + (h - p.standardHeights[i]!) * scaleOf(p, i);
}

function gapsIn(p: Pair, standard: TideCurve, fromMs: number, toMs: number): Gap[] {
  const gaps: Gap[] = [];
  const last = p.times.length - 1;
  const first = p.times[0] ?? Infinity;
  if (fromMs < first) gaps.push({ fromMs, toMs: Math.min(first, toMs), reason: "outsideTable" });
  for (let i = 0; i < last; i++) {
    const [a, b] = [p.times[i]!, p.times[i + 1]!];
    // An instant inside counts as well.
    if (!(a < toMs && b > fromMs)) continue;
    const reason = standard.unknownAt((p.standardTimes[i]! + p.standardTimes[i + 1]!) / 2);
    if (reason !== null)
      gaps.push({ fromMs: Math.max(a, fromMs), toMs: Math.min(b, toMs), reason });
  }
  if (last >= 0 && toMs > p.times[last]!)
    gaps.push({
      fromMs: Math.max(p.times[last]!, fromMs),
      toMs,
      reason: "outsideTable",
    });
  return gaps;
}

/** Turns of the secondary port, and the standard port's own breaks between its turns brought over. */
function breaksIn(p: Pair, standard: TideCurve, fromMs: number, toMs: number): number[] {
  const out: number[] = [];
  for (let i = 0; i < p.times.length; i++) {
    const t = p.times[i]!;
    if (t > fromMs && t < toMs) out.push(t);
    if (i + 1 >= p.times.length || p.times[i + 1]! <= fromMs || t >= toMs) continue;
    const s0 = p.standardTimes[i]!;
    const stretch = (p.times[i + 1]! - t) / (p.standardTimes[i + 1]! - s0);
    for (const s of standard.breaks(s0, p.standardTimes[i + 1]!)) {
      const own = t + (s - s0) * stretch;
      if (own > fromMs && own < toMs) out.push(own);
    }
  }
  return out;
}
