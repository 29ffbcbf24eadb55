import {
  AGROUND,
  BEND,
  BOW_VERTICAL,
  GROUNDED,
  HEIGHT,
  HEIGHT_BY_VERTICAL,
  LIFTED,
  ON_BOTTOM,
  LOAD,
  SLACK,
  FLOATED,
  place,
  placeAndChange,
  rise,
  whole,
} from "./kernel.js";
import { clears } from "./clearance.js";
import { guess, perBend } from "./guess.js";
import { layPair, pairVertical } from "./pair.js";
import * as R from "./places.js";
import { layOne, liftOne, tensionGained, verticalOf } from "./single.js";
import type { PreparedRode } from "./prepare.js";

/** What a last step may miss the height by, m, reckoned with a good margin. */
const LAST_MISS = 1e-13;
/** The same for a step of the third order, of which less is known. */
const LAST_THIRD = 1e-17;
const MOST_STEPS = 300;

/**
 * Lay a prepared rode to a horizontal load. Fills `out` (columns in `columns.ts`) and answers the
 * state: {@link SLACK}, {@link GROUNDED} or {@link LIFTED}; or a negative number where there is no
 * such lie, and then `out` holds NaN. The columns of change are not to be read.
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
  out[HEIGHT] = heightM;
  out[LOAD] = loadN;
  const plain = layPlain(p, out);
  if (plain !== NOT_PLAIN) return plain;
  const v = verticalFor(p, heightM, loadN, out);
  if (Number.isNaN(v)) return refused(p, out);
  place(p, loadN, v, out);
  return stateOf(p, out);
}

/** No state: the lie is one for the search. */
export const NOT_PLAIN = -9;

/**
 * {@link solveForward} for a rode of one or two plain pieces, as far as it goes in closed form or by
 * few steps, height and load standing in their columns. Of what `settle` works out it needs no more
 * than the weights.
 */
export function layPlain(p: PreparedRode, out: Float64Array): number {
  const pieces = p[R.PLAIN]!;
  if (pieces === 1) {
    if (layOne(p, out)) return out[LOAD]! > 0 ? GROUNDED : SLACK;
    return liftOne(p, out) ? LIFTED : NOT_PLAIN;
  }
  if (!(pieces === 2 && layPair(p, out))) return NOT_PLAIN;
  return out[ON_BOTTOM] === 0 ? LIFTED : GROUNDED;
}

/** State of the lie that {@link place} wrote. */
export function stateOf(p: PreparedRode, out: Float64Array): number {
  if (hasFloats(p) && !clears(p, out)) return refused(p, out);
  // A weight at the touchdown has rode below it, which lies.
  return out[ON_BOTTOM] === 0 ? LIFTED : out[LOAD]! > 0 ? GROUNDED : SLACK;
}

/** Leave no figures behind, and say why there is no lie. */
export function refused(p: PreparedRode, out: Float64Array): number {
  out.fill(NaN);
  return hasFloats(p) ? FLOATED : AGROUND;
}

/** Whether anything floats on the rode. */
export const hasFloats = (p: PreparedRode): boolean => p[R.FREE]! <= p[R.TOP]!;

/** Vertical load at the bow that holds it at the height; NaN where none does. */
export function verticalFor(
  p: PreparedRode,
  heightM: number,
  h: number,
  out: Float64Array,
): number {
  const level = p[R.TAN] === 0;
  if (level && p[R.TOP] === R.PIECES) {
    const v = verticalOf(tensionGained(p, heightM, h), h);
    if (v <= p[R.TOTAL_N]!) return v;
  }
  if (p[R.PLAIN] === 2) {
    out[HEIGHT] = heightM;
    out[LOAD] = h;
    if (pairVertical(p, out)) return out[BOW_VERTICAL]!;
  }
  const low = lowestVertical(p, h);
  if (hasFloats(p) || !level || !(heightM > 0)) {
    place(p, h, low, out);
    if (!(out[HEIGHT]! < heightM)) return out[HEIGHT] === heightM ? low : NaN;
  }
  return search(p, heightM, h, low, out);
}

/** Least vertical load at the bow that a rode under load `h` can have. */
export const lowestVertical = (p: PreparedRode, h: number): number =>
  h * p[R.TAN]! + p[R.FLOATED_N]!;

/**
 * Search for the vertical load above `low`, by Halley's steps. A step goes no further than the next
 * mark, where the touchdown leaves a piece and the curve bends anew, and stays within what is known
 * to hold the root.
 */
function search(
  p: PreparedRode,
  heightM: number,
  h: number,
  low: number,
  out: Float64Array,
): number {
  const bedV = h * p[R.TAN]!;
  const bend = perBend(p, h);
  out[HEIGHT] = heightM;
  out[LOAD] = h;
  let [v, high] = [guess(p, out), Infinity];
  if (!(v > low)) v = low + 1e-3 * (h + p[R.UPPER_N]!);
  // At a mark the bend is that of one side, which may not be the one the root lies on; the guess may be one.
  let onMark = v === bedV + p[R.UPPER_N]!;
  for (let i = 0; i < MOST_STEPS; i++) {
    out[BOW_VERTICAL] = v;
    rise(p, out);
    if (p[R.TAN] !== 0) placeAndChange(p, h, v, out);
    const over = out[HEIGHT] - heightM;
    if (over > 0) high = v;
    else low = v;
    const by = out[HEIGHT_BY_VERTICAL]!;
    const step = over / by;
    let next = v - step;
    // What the bend makes of the miss: Newton's step errs by about that, Halley's by its share in the
    // miss once more, but for a mark on its way. Reckoned by the whole rode and by what hangs, which
    // bends most where the bow is close above the bed.
    const bent = Math.max(over * over * (h * h + v * v) * bend, step * step * Math.abs(out[BEND]!));
    const last = (!onMark && bent <= LAST_MISS) || Math.abs(over) <= 1e-12 * heightM;
    if (last && next >= low && next <= high) return next;
    const halley = v - step / Math.max(0.5, 1 - 0.5 * step * (out[BEND]! / by));
    const mark = withinMark(p, v - bedV, halley - bedV);
    const third = !onMark && bent * bent <= LAST_THIRD * Math.abs(over);
    onMark = mark !== halley - bedV;
    next = onMark ? bedV + mark : halley;
    if (third && !onMark && next > low && next < high) return next;
    if (!(next > low && next < high))
      next = high < Infinity ? 0.5 * (low + high) : bedV + 3 * (v - bedV);
    if (next === low || next === high) return next;
    v = next;
  }
  return v;
}

/** `to`, or the mark that lies next to `from` on the way there. */
function withinMark(p: PreparedRode, from: number, to: number): number {
  const first = whole(p[R.TOP]!) + R.ROW;
  let i = first;
  if (to > from) {
    while (p[i]! <= from) i++;
    return Math.min(to, p[i]!);
  }
  while (p[i]! < from) i++;
  return i > first ? Math.max(to, p[i - 1]!) : to;
}
