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

/**
 * Vertical load at the bow of two pieces on a level bed, the upper one off it: Halley's steps as in
 * the search for any rode, at less cost. NaN where they do not arrive, or the upper piece lies down.
 */
export function pairVertical(p: PreparedRode, heightM: number, h: number): number {
  const upperN = p[R.UPPER_N]!;
  const lowerN = p[R.TOTAL_N]! - upperN;
  const upperM = p[UPPER + R.LENGTH]!;
  const upperPerN = p[UPPER + R.M_PER_N]!;
  const upperStrain = p[UPPER + R.STRAIN]!;
  const perN = p[LOWER + R.M_PER_N]!;
  const strain = p[LOWER + R.STRAIN]!;
  const h2 = h * h;
  const bends = perBend(p, h);
  // Vertical load where the pieces join.
  let v = heightM > 0 ? guess(p, heightM, h) - upperN : NaN;
  for (let k = 0; k < MOST_STEPS; k++) {
    if (!(v > 0)) return NaN;
    const lifted = v > lowerN;
    const va = lifted ? v - lowerN : 0;
    const vb = v + upperN;
    const l = lifted ? p[LOWER + R.LENGTH]! : v * perN;
    const ta = lifted ? Math.sqrt(h2 + va * va) : h;
    const t = Math.sqrt(h2 + v * v);
    const tb = Math.sqrt(h2 + vb * vb);
    const perA = lifted ? 1 / ta : 0;
    const perT = 1 / t;
    const perB = 1 / tb;
    const upper = upperM * (v + vb);
    const lower = l * (va + v);
    const rise = upper * (1 / (t + tb) + 0.5 * upperStrain) + lower * (1 / (ta + t) + 0.5 * strain);
    const over = rise - heightM;
    const sine = v * perT;
    const soft = upperM * upperStrain + l * strain;
    const by = (vb * perB - sine) * upperPerN + (sine - va * perA) * perN + soft;
    const bendB = perB * perB * perB * upperPerN;
    const bendT = perT * perT * perT * (perN - upperPerN);
    const bend = h2 * (bendB + bendT - perA * perA * perA * perN) + (lifted ? 0 : strain * perN);
    const square = by * by;
    v -= (over * by) / Math.max(0.5 * square, square - 0.5 * over * bend);
    const bent = over * (h2 + vb * vb) * bends;
    if (bent * bent * Math.abs(over) <= LAST_THIRD && lifted === v > lowerN) return v + upperN;
  }
  return NaN;
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
  const [long, strain] = [p[LOWER + R.LENGTH]!, p[LOWER + R.STRAIN]!];
  const [upM, upStrain] = [p[UPPER + R.LENGTH]!, p[UPPER + R.STRAIN]!];
  const [perN, upPerN] = [p[LOWER + R.M_PER_N]!, p[UPPER + R.M_PER_N]!];
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
  const [sineB, sine, sineA] = [vb / tb, v * perT, va / ta];
  const soft = l * strain + upM * upStrain;
  const lies = long - l;
  const sines = (sineB - sine) * upPerN + (sine - sineA) * perN;
  out[C.REACH] = h * (turn + upTurn + soft + lies * strain) + lies;
  out[C.HEIGHT] = l * (rate + 0.5 * (va + v) * strain) + upM * (upRate + 0.5 * (v + vb) * upStrain);
  out[C.BOW_TENSION] = tb;
  out[C.ANCHOR_HORIZONTAL] = h;
  out[C.ANCHOR_VERTICAL] = va;
  out[C.ON_BOTTOM] = lies;
  out[C.STRETCH] =
    stretchOf(strain, l * (ta + t + (va + v) * rate) + 4 * h * lies, h * h * turn) +
    stretchOf(upStrain, upM * (t + tb + (v + vb) * upRate), h * h * upTurn);
  out[C.LIFTED_SHARE] = NaN;
  out[C.TURNED] = turn + upTurn;
  out[C.SOFT_ON_BOTTOM] = strain * lies;
  out[C.HEIGHT_BY_VERTICAL] = sines + soft;
  out[C.REACH_BY_LOAD] = soft - sines;
  out[C.REACH_BY_VERTICAL] = -h * perT * ((upM * upRate) / tb + (l * rate) / ta);
  return true;
}
