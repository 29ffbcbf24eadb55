import {
  AGROUND,
  GROUNDED,
  HEIGHT,
  HEIGHT_BY_VERTICAL,
  LIFTED,
  ON_BOTTOM,
  LIFTED_SHARE,
  LOAD,
  SLACK,
  FLOATED,
  place,
  rise,
} from "./kernel.js";
import { clears } from "./clearance.js";
import type { PreparedRode } from "./prepare.js";

/** Square of the miss in height, per metre of bend, after which one more step misses by 1e-12 m or so. */
const LAST_MISS = 1e-13;
const MOST_STEPS = 300;

/**
 * Lay a prepared rode to a horizontal load. Fills `out` (columns in `kernel.ts`) and answers the
 * state: {@link SLACK}, {@link GROUNDED} or {@link LIFTED}; or a negative number where there is no
 * such lie, and then `out` holds NaN. The columns of change are left at 0.
 *
 * The height of the bow grows steadily with its vertical load through every branch (rode hanging,
 * rope or chain at the touchdown, weight partly lifted, all off the bottom), so one guarded Newton
 * search in that load finds them all.
 */
export function solveForward(
  p: PreparedRode,
  heightM: number,
  loadN: number,
  out: Float64Array,
): number {
  const v = verticalFor(p, heightM, loadN, out);
  if (Number.isNaN(v)) return refused(p, out);
  place(p, loadN, v, out, false);
  return stateOf(p, out);
}

/** State of the lie that {@link place} wrote. */
export function stateOf(p: PreparedRode, out: Float64Array): number {
  if (p.firstFree < p.count && !clears(p, out)) return refused(p, out);
  const lifted = out[ON_BOTTOM] === 0 && !(out[LIFTED_SHARE]! >= 0);
  return lifted ? LIFTED : out[LOAD]! > 0 ? GROUNDED : SLACK;
}

/** Leave no figures behind, and say why there is no lie. */
export function refused(p: PreparedRode, out: Float64Array): number {
  out.fill(NaN);
  return p.firstFree < p.count ? FLOATED : AGROUND;
}

/** Vertical load at the bow that holds it at the height; NaN where none does. */
export function verticalFor(
  p: PreparedRode,
  heightM: number,
  h: number,
  out: Float64Array,
): number {
  if (p.count === 1 && p.tan === 0) {
    const v = grounded(p, heightM, h);
    if (v <= p.totalN) return v;
  }
  const low = lowestVertical(p, h);
  if (p.firstFree < p.count || p.tan !== 0 || !(heightM > 0)) {
    place(p, h, low, out, false);
    if (!(out[HEIGHT]! < heightM)) return out[HEIGHT] === heightM ? low : NaN;
  }
  return search(p, heightM, h, low, out);
}

/** Least vertical load at the bow that a rode under load `h` can have. */
export const lowestVertical = (p: PreparedRode, h: number): number => h * p.tan + p.floatedN;

/** Vertical load of one piece rising from a level bed: a closed form. */
function grounded(p: PreparedRode, heightM: number, h: number): number {
  const w = 2 * p.weightNPerM[0]! * heightM;
  const strain = p.strainPerN[0]!;
  const b = 1 + h * strain;
  const d = w / (b + Math.sqrt(b * b + w * strain));
  return Math.sqrt(d * (d + 2 * h));
}

/**
 * Newton search for the vertical load above `low`. A step goes no further than the next mark, where
 * the touchdown leaves a piece and the curve bends anew, and stays within what is known to hold the
 * root.
 */
function search(
  p: PreparedRode,
  heightM: number,
  h: number,
  low: number,
  out: Float64Array,
): number {
  const bedV = h * p.tan;
  // A Newton step errs by about miss² (t / h)² over twice the length in which the rode bends.
  const close = LAST_MISS * h * h * Math.min(h * p.leastMetresPerN, p.totalM);
  const enough = 1e-12 * heightM;
  let high = Infinity;
  let v = guess(p, heightM, h);
  if (!(v > low)) v = low + 1e-3 * (h + p.upperN);
  for (let i = 0; i < MOST_STEPS; i++) {
    if (p.tan === 0) rise(p, h, v, out);
    else place(p, h, v, out, true);
    const over = out[HEIGHT]! - heightM;
    if (over > 0) high = v;
    else low = v;
    let next = v - over / out[HEIGHT_BY_VERTICAL]!;
    const last = over * over * (h * h + v * v) <= close || Math.abs(over) <= enough;
    if (last && next >= low && next <= high) return next;
    next = bedV + withinMark(p.marksN, v - bedV, next - bedV);
    if (!(next > low && next < high))
      next = high < Infinity ? 0.5 * (low + high) : bedV + 3 * (v - bedV);
    if (next === low || next === high) return next;
    v = next;
  }
  return v;
}

/** `to`, or the mark that lies next to `from` on the way there. */
function withinMark(marks: Float64Array, from: number, to: number): number {
  let i = 0;
  if (to > from) {
    while (marks[i]! <= from) i++;
    return Math.min(to, marks[i]!);
  }
  while (marks[i]! < from) i++;
  return i > 0 ? Math.max(to, marks[i - 1]!) : to;
}

/**
 * Vertical load to start from. Either the lowest piece is a catenary from the bed and the others are
 * straight, or the whole is nearly a straight line; both with the stretch of the horizontal load.
 */
function guess(p: PreparedRode, heightM: number, h: number): number {
  const longM = p.totalM + h * p.stretchPerN;
  const above = longM * longM - heightM * heightM;
  if (!(above > 0)) return p.totalN + (heightM - p.totalM) / p.stretchPerN;
  const span = Math.sqrt(above);
  const bedV = h * p.tan;
  const taut = (h * heightM) / span - p.meanBelowN;
  if (taut > bedV) return taut + p.totalN;
  const perN = p.metresPerN[0]!;
  const up = p.upperM + h * p.upperStretchPerN;
  const over = heightM - p.tan * span;
  const free = over > 0.01 * heightM ? over : 0.01 * heightM;
  const square = up * (up - p.upperN * perN) + free * (free + 2 * h * perN);
  const joint = square > up * up ? Math.sqrt(square) - up : 0;
  return bedV + p.upperN + p.weightNPerM[0]! * joint;
}
