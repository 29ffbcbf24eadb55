import * as C from "./columns.js";
import * as R from "./places.js";
import type { PreparedRode } from "./prepare.js";
import { NO_LOAD, stretchOf, turnOf } from "./span.js";

/** 64 times the square of what the last step may leave of the height, 1e-13 m. */
const LAST = 6.4e-25;
const MOST_STEPS = 8;

const cube = (x: number): number => x * x * x;

/**
 * Lay two pieces on a level bed, the upper one off it, height and load standing in their columns: what
 * `place` writes. False where {@link pairVertical} does not arrive.
 */
export function layPair(p: PreparedRode, out: Float64Array): boolean {
  if (!pairVertical(p, out)) return false;
  out[C.LIFTED_SHARE] = NaN;
  out[C.ANCHOR_HORIZONTAL] = out[C.LOAD]!;
  return placePair(p, out);
}

/** Write the vertical load to start from where the two pieces join to the column of that at the bow. */
function guessJoint(p: PreparedRode, out: Float64Array): void {
  const h = out[C.LOAD]!;
  const upperM = p[R.SECOND + R.LENGTH]!;
  const lowerN = p[R.TOTAL_N]! - p[R.UPPER_N]!;
  // The height at which the lower piece is just off the bed, the upper one being straight.
  const v = lowerN + 0.5 * p[R.UPPER_N]!;
  const t = Math.sqrt(h * h + v * v);
  const perN = p[R.PIECES + R.M_PER_N]!;
  const stretch =
    upperM * v * p[R.SECOND + R.STRAIN]! + 0.5 * lowerN * lowerN * perN * p[R.PIECES + R.STRAIN]!;
  if ((out[C.HEIGHT]! - stretch) * t > upperM * v + perN * t * (t - h)) guessLifted(p, out);
  else guessGrounded(p, out);
}

/**
 * Both hang nearly straight: the weight below a point counts by its mean over the stretched length,
 * and its variance.
 */
function guessLifted(p: PreparedRode, out: Float64Array): void {
  const heightM = out[C.HEIGHT]!;
  const h = out[C.LOAD]!;
  const lower = p[R.PIECES + R.LENGTH]!;
  const upper = p[R.SECOND + R.LENGTH]!;
  const chord =
    heightM /
    (lower + upper + h * (lower * p[R.PIECES + R.STRAIN]! + upper * p[R.SECOND + R.STRAIN]!));
  const square = chord * chord;
  const pulled = h * (1 + square * (0.5 + 0.375 * square));
  const drawn = lower * (1 + pulled * p[R.PIECES + R.STRAIN]!);
  const longM = drawn + upper * (1 + pulled * p[R.SECOND + R.STRAIN]!);
  const per = 1 / longM;
  const c = drawn * per;
  const upperN = p[R.UPPER_N]!;
  const lowerN = p[R.TOTAL_N]! - upperN;
  const total = lowerN + upperN;
  const spread =
    0.25 * (upperN * upperN + c * (lowerN * lowerN - upperN * upperN)) +
    0.75 * c * (1 - c) * total * total;
  const v = heightM * Math.sqrt((h * h) / (longM * longM - heightM * heightM) + spread * per * per);
  out[C.BOW_VERTICAL] = v + 0.5 * (c * total - upperN);
}

/**
 * The upper one is straight and the lower one a catenary from the bed: the height is a polynomial in
 * the tangent of half the angle that the straight one makes with the bed. A step of Halley's from what
 * its first three terms give.
 */
function guessGrounded(p: PreparedRode, out: Float64Array): void {
  const heightM = out[C.HEIGHT]!;
  const h = out[C.LOAD]!;
  const upperM = p[R.SECOND + R.LENGTH]!;
  const half = 0.5 * p[R.UPPER_N]!;
  const perN = p[R.PIECES + R.M_PER_N]!;
  const strain = h * p[R.PIECES + R.STRAIN]!;
  const soft = h * upperM * p[R.SECOND + R.STRAIN]!;
  const free = upperM - half * perN;
  const a = 2 * h * perN;
  const one = free + soft;
  const two = a + a * strain;
  const three = 2 * (soft - free);
  const four = heightM + two + a * strain;
  const u = heightM / (one + Math.sqrt(one * one + two * heightM));
  const over = u * (2 * one + u * (two + u * (three + u * four))) - heightM;
  const by = 2 * one + u * (2 * two + u * (3 * three + u * 4 * four));
  const bend = two + u * (3 * three + u * 6 * four);
  const under = by * by - over * bend;
  const up = u * under - over * by;
  out[C.BOW_VERTICAL] = (2 * h * up * under) / (under * under - up * up) - half;
}

/** Whether a miss of the height is so little that its bend is a small part of its change. */
const isNear = (over: number, by: number, bend: number): boolean =>
  Math.abs(over * bend) < 0.1 * by * by;

/** Step that takes a height which is over by `over` to what is asked: of the third order, or Halley's from afar. */
const stepFor = (over: number, by: number, bend: number, third: number): number =>
  isNear(over, by, bend)
    ? (over * (by * by - 0.5 * over * bend)) /
      (by * (by * by - over * bend) - 0.5 * over * over * third)
    : (over * by) / Math.max(0.5 * by * by, by * by - 0.5 * over * bend);

/** Whether the fourth order of what a step leaves is little enough: in all rodes tried it was not more. */
function arrives(step: number, by: number, bend: number, per2: number): boolean {
  const step2 = step * step;
  const by2 = by * by;
  return cube(step2 * (bend * bend + 4 * by2 * per2)) * step2 <= LAST * by2 * by2;
}

/**
 * Vertical load at the bow of two pieces on a level bed, the upper one off it: steps as in the search
 * for any rode, of one order more and at less cost. Takes height and load from their columns and
 * writes what it found to its own. False where the steps do not arrive, or the upper piece lies down.
 */
export function pairVertical(p: PreparedRode, out: Float64Array): boolean {
  guessJoint(p, out);
  for (let k = 0; k < MOST_STEPS; k++) {
    if (!(out[C.BOW_VERTICAL]! > 0)) return false;
    if (!stepJoint(p, out)) continue;
    out[C.BOW_VERTICAL]! += p[R.UPPER_N]!;
    return true;
  }
  return false;
}

/** A step of the vertical load where the pieces join, which stands in the column of that at the bow; whether it was the last. */
function stepJoint(p: PreparedRode, out: Float64Array): boolean {
  const h = out[C.LOAD]!;
  const v = out[C.BOW_VERTICAL]!;
  const upperN = p[R.UPPER_N]!;
  const lowerN = p[R.TOTAL_N]! - upperN;
  const upperM = p[R.SECOND + R.LENGTH]!;
  const upperPerN = p[R.SECOND + R.M_PER_N]!;
  const upperStrain = p[R.SECOND + R.STRAIN]!;
  const perN = p[R.PIECES + R.M_PER_N]!;
  const strain = p[R.PIECES + R.STRAIN]!;
  const lifted = v > lowerN;
  const va = lifted ? v - lowerN : 0;
  const vb = v + upperN;
  const l = lifted ? p[R.PIECES + R.LENGTH]! : v * perN;
  const ta = lifted ? Math.sqrt(h * h + va * va) : h;
  const t = Math.sqrt(h * h + v * v);
  const tb = Math.sqrt(h * h + vb * vb);
  const perA = lifted ? 1 / ta : 0;
  const perT = 1 / t;
  const perB = 1 / tb;
  const halves = 0.5 * (upperM * (v + vb) * upperStrain + l * (va + v) * strain);
  const rise = (upperM * (v + vb)) / (t + tb) + (l * (va + v)) / (ta + t) + halves;
  const over = rise - out[C.HEIGHT]!;
  const sinA = va * perA;
  const sinT = v * perT;
  const sinB = vb * perB;
  const soft = upperM * upperStrain + l * strain;
  const by = (sinB - sinT) * upperPerN + (sinT - sinA) * perN + soft;
  const cubeA = cube(perA) * perN;
  const cubeT = cube(perT) * (perN - upperPerN);
  const cubeB = cube(perB) * upperPerN;
  const bend = h * h * (cubeB + cubeT - cubeA) + (lifted ? 0 : strain * perN);
  const third = h * h * (sinB * perB * cubeB + sinT * perT * cubeT - sinA * perA * cubeA);
  const step = stepFor(over, by, bend, third);
  const next = v - step;
  out[C.BOW_VERTICAL] = next;
  if (!(isNear(over, by, bend) && lifted === next > lowerN)) return false;
  return arrives(step, by, bend, perT * perT + perA * perA);
}

/**
 * What `place` writes, and the changes within what hangs, at less cost, for two pieces on a level bed
 * with nothing hung on them. False, and nothing written, where the upper one touches the bottom.
 */
export function placePair(p: PreparedRode, out: Float64Array): boolean {
  const h = out[C.LOAD]!;
  const vb = out[C.BOW_VERTICAL]!;
  const v = vb - p[R.UPPER_N]!;
  if (!(v > 0 && h > NO_LOAD)) return false;
  const long = p[R.PIECES + R.LENGTH]!;
  const strain = p[R.PIECES + R.STRAIN]!;
  const perN = p[R.PIECES + R.M_PER_N]!;
  const upM = p[R.SECOND + R.LENGTH]!;
  const upStrain = p[R.SECOND + R.STRAIN]!;
  const upPerN = p[R.SECOND + R.M_PER_N]!;
  const left = v - p[R.PIECES + R.WEIGHT]! * long;
  const va = left > 0 ? left : 0;
  const l = left > 0 ? long : v * perN;
  const tb = Math.sqrt(h * h + vb * vb);
  const t = Math.sqrt(h * h + v * v);
  const ta = left > 0 ? Math.sqrt(h * h + va * va) : h;
  const turn = turnOf(h, va, v, ta, t) * perN;
  const upTurn = turnOf(h, v, vb, t, tb) * upPerN;
  const rate = (va + v) / (ta + t);
  const upRate = (v + vb) / (t + tb);
  const perT = 1 / t;
  const soft = l * strain + upM * upStrain;
  const lies = long - l;
  const sines = (vb / tb - v * perT) * upPerN + (v * perT - va / ta) * perN;
  out[C.REACH] = h * (turn + upTurn + soft + lies * strain) + lies;
  out[C.HEIGHT] = l * (rate + 0.5 * (va + v) * strain) + upM * (upRate + 0.5 * (v + vb) * upStrain);
  out[C.BOW_TENSION] = tb;
  out[C.ANCHOR_VERTICAL] = va;
  out[C.ON_BOTTOM] = lies;
  out[C.STRETCH] =
    stretchOf(strain, l * (ta + t + (va + v) * rate) + 4 * h * lies, h * h * turn) +
    stretchOf(upStrain, upM * (t + tb + (v + vb) * upRate), h * h * upTurn);
  out[C.TURNED] = turn + upTurn;
  out[C.SOFT_ON_BOTTOM] = strain * lies;
  out[C.HEIGHT_BY_VERTICAL] = sines + soft;
  out[C.REACH_BY_LOAD] = soft - sines;
  out[C.REACH_BY_VERTICAL] = -h * perT * ((upM * upRate) / tb + (l * rate) / ta);
  return true;
}
