import { aboutColumn, UNCERTAIN, type Draws, type Uncertain } from "./doubtSpread.js";

/** How much of the spread of a margin comes from one thing that is not known to the figure. */
export interface DoubtShare {
  /** What is not known to the figure. */
  of: Uncertain;
  /** Part of the variance of the margin it makes by itself, 0 to 1. */
  share: number;
}

/** Cases in a bin at the least; bins at the most. */
const LEAST_IN_BIN = 25;
const MOST_BINS = 24;

/**
 * Part of the variance of `values` that goes with one column: variance of the means of its bins over the whole,
 * less what as many bins of mere chance would show.
 */
function firstOrder(values: Float64Array, share: Float64Array, mean: number, variance: number) {
  const n = values.length;
  const bins = Math.max(2, Math.min(MOST_BINS, Math.floor(n / LEAST_IN_BIN)));
  const sum = new Float64Array(bins);
  const count = new Float64Array(bins);
  for (let i = 0; i < n; i++) {
    const b = Math.min(bins - 1, Math.floor(share[i]! * bins));
    sum[b]! += values[i]! - mean;
    count[b]! += 1;
  }
  let between = 0;
  for (let b = 0; b < bins; b++) if (count[b]! > 0) between += (sum[b]! * sum[b]!) / count[b]!;
  const part = between / n / variance;
  const byChance = (bins - 1) / (n - 1);
  return Math.max(0, (part - byChance) / (1 - byChance));
}

/** Less than this is no more than chance. */
const LEAST_SHARE = 0.01;

/** What drives a margin, the greatest share first; empty where it does not vary. */
export function sharesOf(margins: Float64Array, draws: Draws): DoubtShare[] {
  const values = ranked(margins);
  const n = values.length;
  const mean = values.reduce((a, b) => a + b, 0) / n;
  const variance = values.reduce((a, b) => a + (b - mean) * (b - mean), 0) / n;
  if (!(variance > 1e-12)) return [];
  const total = new Map<Uncertain, number>();
  draws.share.forEach((column, c) => {
    const of = aboutColumn(c);
    total.set(of, (total.get(of) ?? 0) + firstOrder(values, column, mean, variance));
  });
  return UNCERTAIN.map((of) => ({ of, share: Math.min(1, total.get(of) ?? 0) }))
    .filter(({ share }) => share >= LEAST_SHARE)
    .sort((a, b) => b.share - a.share);
}

/** Rank of each value, ties at their middle, scaled to 0..1: a few wild cases do not outweigh the rest. */
function ranked(values: Float64Array): Float64Array {
  const n = values.length;
  const order = Float64Array.from(values).sort();
  const first = new Map<number, number>();
  const last = new Map<number, number>();
  order.forEach((v, i) => {
    if (!first.has(v)) first.set(v, i);
    last.set(v, i);
  });
  return values.map((v) => (first.get(v)! + last.get(v)!) / 2 / Math.max(1, n - 1));
}
