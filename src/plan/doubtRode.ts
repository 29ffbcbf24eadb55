import { RAD } from "../core/angles.js";
import type { Segment } from "../rode/input.js";
import { ANCHOR_HORIZONTAL, ANCHOR_VERTICAL, COLUMNS, LIFTED, REACH } from "../rode/kernel.js";
import { prepareRode, type PreparedRode } from "../rode/prepare.js";
import { solveForward } from "../rode/solve.js";

/** Evenly spaced knots of one coordinate. */
interface Knots {
  from: number;
  step: number;
  count: number;
}

/** Reach and pull angle of a rode by length, height of the bow and pull, for reading off. */
export interface RodeTable {
  lengths: Knots;
  heights: Knots;
  /** Pull at which the coordinate of the pull stands at one half. */
  halfN: number;
  reachM: Float64Array;
  angleDeg: Float64Array;
  /** The rode at each length; null until it is asked for. */
  rodes: (PreparedRode | null)[];
  segmentsAt: (lengthM: number) => Segment[];
  /** Whether the pulls of a length and height have been worked out, row by row. */
  filled: Uint8Array;
  /** Scratch for one solution. */
  solved: Float64Array;
  /** Where the last reading was: index of its lowest corner, parts of the way to the next ones. */
  spot: { at: number; u: number; v: number; w: number };
}

const LENGTHS = 5;
const HEIGHTS = 6;
/** Knots of pull / (pull + half), the last at {@link LAST}. */
const PULLS = 65;
const LAST = 0.985;

const knots = (from: number, to: number, count: number): Knots => ({
  from,
  step: (to - from) / (count - 1),
  count,
});

/** A rode to be tabulated over spans of its length and of the height of the bow above the bed, row by row as they are asked for. */
export function tableOf(
  segmentsAt: (lengthM: number) => Segment[],
  [shortM, longM]: readonly [number, number],
  [lowM, highM]: readonly [number, number],
): RodeTable {
  const weight = segmentsAt(longM)[0]!.weightInWaterNPerM;
  const reachM = new Float64Array(LENGTHS * HEIGHTS * PULLS);
  return {
    lengths: knots(shortM, longM, LENGTHS),
    heights: knots(lowM, highM, HEIGHTS),
    halfN: 4 * weight * Math.max(highM, 1),
    reachM,
    angleDeg: new Float64Array(reachM.length),
    rodes: new Array<null>(LENGTHS).fill(null),
    segmentsAt,
    filled: new Uint8Array(LENGTHS * HEIGHTS),
    solved: new Float64Array(COLUMNS),
    spot: { at: 0, u: 0, v: 0, w: 0 },
  };
}

/** Work out the pulls of one length and height, unless they have been. */
function fillRow(t: RodeTable, i: number, j: number): void {
  const row = i * HEIGHTS + j;
  if (t.filled[row] === 1) return;
  t.filled[row] = 1;
  const lengthM = t.lengths.from + i * t.lengths.step;
  const rode = (t.rodes[i] ??= prepareRode({ segments: t.segmentsAt(lengthM) }));
  const heightM = t.heights.from + j * t.heights.step;
  for (let k = 0; k < PULLS; k++) {
    const part = (LAST * k) / (PULLS - 1);
    const state = solveForward(rode, heightM, (t.halfN * part) / (1 - part), t.solved);
    const reachM = t.solved[REACH]!;
    const lead = Math.atan2(t.solved[ANCHOR_VERTICAL]!, t.solved[ANCHOR_HORIZONTAL]!) / RAD;
    t.reachM[row * PULLS + k] = reachM;
    t.angleDeg[row * PULLS + k] = state === LIFTED ? lead : 0 * reachM;
  }
}

/** Coordinate among knots, held inside them. */
function along({ from, step, count }: Knots, x: number): number {
  const at = step > 0 ? (x - from) / step : 0;
  return at > 0 ? Math.min(at, count - 1) : at === at ? 0 : NaN;
}

function find(t: RodeTable, lengthM: number, heightM: number, pullN: number): void {
  const a = along(t.lengths, lengthM);
  const b = along(t.heights, heightM);
  const part = pullN / (pullN + t.halfN);
  const c = Math.min((part / LAST) * (PULLS - 1), PULLS - 1);
  const i = Math.min(Math.floor(a), LENGTHS - 2);
  const j = Math.min(Math.floor(b), HEIGHTS - 2);
  const k = Math.min(Math.floor(c), PULLS - 2);
  if (!(a >= 0 && b >= 0)) {
    t.spot.w = NaN;
    return;
  }
  fillRow(t, i, j);
  fillRow(t, i, j + 1);
  // Exactly at a length, the next one is not read.
  if (a > i) {
    fillRow(t, i + 1, j);
    fillRow(t, i + 1, j + 1);
  }
  t.spot.at = (i * HEIGHTS + j) * PULLS + k;
  t.spot.u = a - i;
  t.spot.v = b - j;
  t.spot.w = c - k;
}

/** Read along one row, from its knot `n`. */
const row = (y: Float64Array, n: number, w: number): number => y[n]! + w * (y[n + 1]! - y[n]!);

/** Read between two rows that are neighbours in height. */
function sheet(y: Float64Array, n: number, v: number, w: number): number {
  const near = row(y, n, w);
  return near + v * (row(y, n + PULLS, w) - near);
}

function between({ spot }: RodeTable, y: Float64Array): number {
  const { at, u, v, w } = spot;
  const near = sheet(y, at, v, w);
  return u === 0 ? near : near + u * (sheet(y, at + HEIGHTS * PULLS, v, w) - near);
}

/** Reach and angle read off the table into `out`, in this order; NaN where there is no such lie. */
export function readTable(
  t: RodeTable,
  lengthM: number,
  heightM: number,
  pullN: number,
  out: Float64Array,
): void {
  find(t, lengthM, heightM, pullN);
  out[0] = between(t, t.reachM);
  out[1] = between(t, t.angleDeg);
}
