import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { plain } from "../core/schema.js";
import { gaussianAt, gaussianBelow } from "./statistics.js";

/** Schema of {@link cusumRunLength}. */
export const cusumInput = z.strictObject({
  /** Allowance (reference value) a sample, in standard deviations. */
  allowanceSigma: plain({ min: 0, max: 5 }),
  /** Decision limit, in standard deviations. */
  limitSigma: plain({ above: 0, max: 20 }),
  /** Shift of the mean to be found; 0 gives the time between false alarms. It is 0 unless given. */
  shiftSigma: z._default(plain({ min: -10, max: 10 }), 0),
  /** Watch one side or both; one unless given. */
  sides: z._default(z.literal([1, 2]), 1),
  /** `exact` solves the integral equation; `siegmund` is the closed approximation; `exact` unless given. */
  method: z._default(z.enum(["exact", "siegmund"]), "exact"),
});
/** Input of {@link cusumRunLength}. */
export type CusumInput = Given<typeof cusumInput>;

/**
 * Mean number of samples until a cumulative sum of independent Gaussian samples passes its limit.
 *
 * For choosing the limit of a rule before it is tried on nights. Errors of a position receiver last
 * for minutes: count one sample per few correlation times, never one per fix.
 * *Valid*: independent samples of unit variance, sum started at zero. *Accuracy*: exact form 1e-9
 * relative against 200-node quadrature; the approximation within 1 % for limits of 4 and more.
 *
 * @throws InputError when a figure is out of range.
 * @source E. S. Page, Biometrika 41 (1954); D. Siegmund, Sequential Analysis, 1985 (approximation, from memory)
 * @example
 * ```ts
 * import { cusumRunLength } from "hawse/watch";
 * const samples = cusumRunLength({ allowanceSigma: 0.5, limitSigma: 4, sides: 2 });
 * console.log(samples.toFixed(1));
 * // 167.7
 * ```
 */
export function cusumRunLength(input: CusumInput): number {
  const q = check(cusumInput, input);
  const one = q.method === "exact" ? pageRunLength : siegmundRunLength;
  const up = one(q.allowanceSigma, q.limitSigma, q.shiftSigma);
  if (q.sides === 1) return up;
  const down = one(q.allowanceSigma, q.limitSigma, -q.shiftSigma);
  return 1 / (1 / up + 1 / down);
}

/** Siegmund's approximation, one side. */
export function siegmundRunLength(k: number, h: number, shift: number): number {
  const b = h + 1.166;
  const x = 2 * (shift - k) * b;
  // (exp(-x) + x - 1) / (2 drift²), written so that a drift near nought keeps its figures.
  return Math.abs(x) < 1e-4 ? b * b * (1 - x / 3) : (2 * b * b * (Math.expm1(-x) + x)) / (x * x);
}

const NODES = 96;

/** Page's integral equation, one side, by Gauss and Legendre's nodes. */
export function pageRunLength(k: number, h: number, shift: number): number {
  const { x, w } = legendre(NODES);
  const drift = shift - k;
  const at = x.map((v) => (h * (v + 1)) / 2);
  at.push(0);
  const n = NODES + 1;
  const rows = at.map((u) => {
    const row = Array.from<number>({ length: n + 1 });
    for (let j = 0; j < NODES; j++) row[j] = -(w[j]! * h * 0.5) * gaussianAt(at[j]! - u - drift);
    row[NODES] = -gaussianBelow(-u - drift);
    row[n] = 1;
    return row;
  });
  for (let i = 0; i < n; i++) rows[i]![i]! += 1;
  return solve(rows, n)[NODES]!;
}

/** Gaussian elimination with row exchange; the right side stands in column n. */
export function solve(rows: number[][], n: number): number[] {
  for (let i = 0; i < n; i++) {
    let best = i;
    for (let r = i + 1; r < n; r++)
      if (Math.abs(rows[r]![i]!) > Math.abs(rows[best]![i]!)) best = r;
    [rows[i], rows[best]] = [rows[best]!, rows[i]!];
    const top = rows[i]!;
    for (let r = i + 1; r < n; r++) {
      const row = rows[r]!;
      const f = row[i]! / top[i]!;
      for (let c = i; c <= n; c++) row[c]! -= f * top[c]!;
    }
  }
  const out = Array.from<number>({ length: n });
  for (let i = n - 1; i >= 0; i--) {
    let v = rows[i]![n]!;
    for (let c = i + 1; c < n; c++) v -= rows[i]![c]! * out[c]!;
    out[i] = v / rows[i]![i]!;
  }
  return out;
}

/** Nodes and weights of Gauss and Legendre on -1..1. */
function legendre(n: number): { x: number[]; w: number[] } {
  const x: number[] = [];
  const w: number[] = [];
  for (let i = 1; i <= n; i++) {
    let t = Math.cos((Math.PI * (i - 0.25)) / (n + 0.5));
    let slope = 1;
    for (let step = 0; step < 8; step++) {
      let p0 = 1;
      let p1 = t;
      for (let j = 2; j <= n; j++) [p0, p1] = [p1, ((2 * j - 1) * t * p1 - (j - 1) * p0) / j];
      slope = (n * (t * p1 - p0)) / (t * t - 1);
      t -= p1 / slope;
    }
    x.push(t);
    w.push(2 / ((1 - t * t) * slope * slope));
  }
  return { x, w };
}

/** Schema of {@link sequentialTest}. */
export const sequentialInput = z.strictObject({
  /** Share of false alarms allowed. */
  falseAlarmShare: plain({ above: 0, max: 0.49 }),
  /** Share of misses allowed. */
  missShare: plain({ above: 0, max: 0.49 }),
  /** Shift of the mean to be told from none, in standard deviations. */
  shiftSigma: plain({ above: 0, max: 10 }),
});
/** Input of {@link sequentialTest}. */
export type SequentialInput = Given<typeof sequentialInput>;
/** Answer of {@link sequentialTest}. */
export interface SequentialTest {
  /** Log-likelihood ratio at which the shift is accepted. */
  upperLog: number;
  /** Log-likelihood ratio at which no shift is accepted. */
  lowerLog: number;
  /** Mean samples to a decision when the shift is there. */
  samplesShifted: number;
  /** Mean samples to a decision when it is not. */
  samplesUnshifted: number;
}

/**
 * Limits and mean length of the sequential test of a shifted mean against none.
 *
 * Wald's limits, which neglect the overshoot of the last sample; samples independent and Gaussian.
 * *Valid*: small shares. *Accuracy*: exact for the formulas.
 *
 * @throws InputError when a share or shift is out of range.
 * @source A. Wald, Sequential Analysis, 1947 (from memory)
 * @example
 * ```ts
 * import { sequentialTest } from "hawse/watch";
 * const t = sequentialTest({ falseAlarmShare: 0.01, missShare: 0.05, shiftSigma: 1 });
 * console.log(t.upperLog.toFixed(3), t.samplesShifted.toFixed(2));
 * // 4.554 8.35
 * ```
 */
export function sequentialTest(input: SequentialInput): SequentialTest {
  const q = check(sequentialInput, input);
  const [a, b] = [q.falseAlarmShare, q.missShare];
  const upperLog = Math.log((1 - b) / a);
  const lowerLog = Math.log(b / (1 - a));
  const gain = (q.shiftSigma * q.shiftSigma) / 2;
  return {
    upperLog,
    lowerLog,
    samplesShifted: ((1 - b) * upperLog + b * lowerLog) / gain,
    samplesUnshifted: -(a * upperLog + (1 - a) * lowerLog) / gain,
  };
}
