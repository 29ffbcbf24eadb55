import * as C from "./columns.js";
import { guess, perBend } from "./guess.js";
import * as R from "./places.js";
import type { PreparedRode } from "./prepare.js";
import { NO_LOAD, stretchOf, turnOf } from "./span.js";

/** Rows of the two pieces. */
const LOWER = R.startOf(0);
const UPPER = R.startOf(1);
/** What the last step may leave of the height, m, reckoned with a good margin. */
const LAST_THIRD = 1e-17;
const MOST_STEPS = 8;

const cube = (x: number): number => x * x * x;

/**
 * Vertical load at the bow of two pieces on a level bed, the upper one off it: Halley's steps as in
 * the search for any rode, at less cost. Takes height and load from their columns and writes what it
 * found to its own. False where the steps do not arrive, or the upper piece lies down.
 */
export function pairVertical(p: PreparedRode, out: Float64Array): boolean {
  const heightM = out[C.HEIGHT]!;
  const h = out[C.LOAD]!;
  const upperN = p[R.UPPER_N]!;
  const lowerN = p[R.TOTAL_N]! - upperN;
  const upperM = p[UPPER + R.LENGTH]!;
  const upperPerN = p[UPPER + R.M_PER_N]!;
  const upperStrain = p[UPPER + R.STRAIN]!;
  const perN = p[LOWER + R.M_PER_N]!;
  const strain = p[LOWER + R.STRAIN]!;
  const perBendM = perBend(p, h);
  // Vertical load where the pieces join.
  let v = heightM > 0 ? guess(p, out) - upperN : NaN;
  for (let k = 0; k < MOST_STEPS; k++) {
    if (!(v > 0)) return false;
    const lifted = v > lowerN;
    const va = lifted ? v - lowerN : 0;
    const vb = v + upperN;
    const l = lifted ? p[LOWER + R.LENGTH]! : v * perN;
    const ta = lifted ? Math.sqrt(h * h + va * va) : h;
    const t = Math.sqrt(h * h + v * v);
    const tb = Math.sqrt(h * h + vb * vb);
    const perA = lifted ? 1 / ta : 0;
    const perT = 1 / t;
    const perB = 1 / tb;
    const halves = 0.5 * (upperM * (v + vb) * upperStrain + l * (va + v) * strain);
    const over = (upperM * (v + vb)) / (t + tb) + (l * (va + v)) / (ta + t) + halves - heightM;
    const soft = upperM * upperStrain + l * strain;
    const by = (vb * perB - v * perT) * upperPerN + (v * perT - va * perA) * perN + soft;
    const bends = cube(perB) * upperPerN + cube(perT) * (perN - upperPerN) - cube(perA) * perN;
    const bend = h * h * bends + (lifted ? 0 : strain * perN);
    v -= (over * by) / Math.max(0.5 * by * by, by * by - 0.5 * over * bend);
    const bent = over * (h * h + vb * vb) * perBendM;
    if (bent * bent * Math.abs(over) > LAST_THIRD || lifted !== v > lowerN) continue;
    out[C.BOW_VERTICAL] = v + upperN;
    return true;
  }
  return false;
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
  const long = p[LOWER + R.LENGTH]!;
  const strain = p[LOWER + R.STRAIN]!;
  const perN = p[LOWER + R.M_PER_N]!;
  const upM = p[UPPER + R.LENGTH]!;
  const upStrain = p[UPPER + R.STRAIN]!;
  const upPerN = p[UPPER + R.M_PER_N]!;
  const left = v - p[LOWER + R.WEIGHT]! * long;
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
