import * as R from "./places.js";
import type { PreparedRode } from "./prepare.js";
import { NO_LOAD, turnOf } from "./span.js";

// Columns that the kernels write into `out`, a Float64Array of COLUMNS entries.
/** Horizontal distance from the anchor to the bow, m. */
export const REACH = 0;
/** Height of the bow above the anchor, m. */
export const HEIGHT = 1;
/** Horizontal load at the bow, N. */
export const LOAD = 2;
/** Vertical load at the bow, N. */
export const BOW_VERTICAL = 3;
/** Tension at the bow, N. */
export const BOW_TENSION = 4;
/** Horizontal part of the pull on the anchor, N. */
export const ANCHOR_HORIZONTAL = 5;
/** Vertical part of the pull on the anchor, N, upwards. */
export const ANCHOR_VERTICAL = 6;
/** Unstretched rode on the bottom, m. */
export const ON_BOTTOM = 7;
/** Stretch of the whole rode, m. */
export const STRETCH = 8;
/** Share of the weight at the touchdown that is lifted; NaN where none hangs there. */
export const LIFTED_SHARE = 9;
/** Change of reach with horizontal load, m/N. */
export const REACH_BY_LOAD = 10;
/** Change of reach with vertical load, m/N. */
export const REACH_BY_VERTICAL = 11;
/** Change of height with vertical load, m/N. */
export const HEIGHT_BY_VERTICAL = 12;
/** Change of height with horizontal load, m/N. */
export const HEIGHT_BY_LOAD = 13;
/** Change of that change of height with vertical load, m/N²: of use to {@link rise} alone. */
export const BEND = 14;
/** Number of columns. */
export const COLUMNS = 15;

/** No horizontal load: the bow part hangs straight down. */
export const SLACK = 0;
/** Part of the rode lies on the bottom. */
export const GROUNDED = 1;
/** The rode is off the bottom down to the anchor. */
export const LIFTED = 2;
/** The bed stands as high as the bow within the rode's length: there is no such lie. */
export const AGROUND = -1;
/** A float would bring the rode down on the bottom a second time, or up above the bow: outside the model. */
export const FLOATED = -2;

/**
 * Put the rode under a given load at the bow, horizontal and vertical, and write where the bow
 * comes to lie and everything else into `out`; the four columns of change only where `bends` is
 * true. Works down from the bow: a piece hangs until the vertical load falls to that of a line
 * lying along the bed.
 */
export function place(
  p: PreparedRode,
  h: number,
  v: number,
  out: Float64Array,
  bends: boolean,
): void {
  const bedV = h * p[R.TAN]!;
  let vb = v;
  let tb = begin(h, v, out, bends);
  for (let i = p[R.TOP]!; i >= R.PIECES; i -= R.ROW) {
    const l = p[i + R.LENGTH]!;
    const va = vb - p[i + R.WEIGHT]! * l;
    if (va <= bedV && i < p[R.FREE]!) {
      const hangs = vb > bedV ? (vb - bedV) * p[i + R.M_PER_N]! : 0;
      if (hangs > 0) hang(p, i, h, bedV, vb, tb, hangs, out, bends);
      lay(p, i, l - hangs, h * p[R.SEC]!, out, bends);
      return;
    }
    tb = hang(p, i, h, va, vb, tb, l, out, bends);
    vb = va;
    const hung = p[i + R.HUNG]!;
    if (hung === 0) continue;
    vb -= hung;
    if (vb < bedV && i < p[R.FREE]!) {
      // The weight itself is the touchdown: the bed still bears part of it.
      out[LIFTED_SHARE] = (va - bedV) / hung;
      const tension = h * p[R.SEC]! - (bedV - vb) * p[R.DRAG_PER_N]!;
      lay(p, i - R.ROW, p[i - R.ROW + R.LENGTH]!, tension, out, bends);
      return;
    }
    tb = Math.sqrt(h * h + vb * vb);
  }
  out[ANCHOR_HORIZONTAL] = h;
  out[ANCHOR_VERTICAL] = vb;
}

/** Write what is known of the bow, clear what is added up, and answer the tension at the bow. */
function begin(h: number, v: number, out: Float64Array, bends: boolean): number {
  const tension = Math.sqrt(h * h + v * v);
  out[REACH] = 0;
  out[HEIGHT] = 0;
  out[LOAD] = h;
  out[BOW_VERTICAL] = v;
  out[BOW_TENSION] = tension;
  out[ON_BOTTOM] = 0;
  out[STRETCH] = 0;
  out[LIFTED_SHARE] = NaN;
  if (bends) out.fill(0, REACH_BY_LOAD);
  return tension;
}

/**
 * Add `l` metres of the piece at `i`, hanging, whose vertical load grows from `va` to `vb` and whose
 * tension is `tb` at the upper end; answers that at the lower end.
 */
function hang(
  p: PreparedRode,
  i: number,
  h: number,
  va: number,
  vb: number,
  tb: number,
  l: number,
  out: Float64Array,
  bends: boolean,
): number {
  const ta = Math.sqrt(h * h + va * va);
  const perN = p[i + R.M_PER_N]!;
  const strain = p[i + R.STRAIN]!;
  const soft = l * strain;
  const sum = va + vb;
  const both = ta + tb;
  const rate = sum / both;
  const turn = turnOf(h, va, vb, ta, tb);
  const across = h > NO_LOAD ? h * turn * perN : 0;
  out[REACH]! += across + h * soft;
  out[HEIGHT]! += l * rate + 0.5 * sum * soft;
  out[STRETCH]! += 0.5 * strain * (0.5 * l * (both + sum * rate) + h * across);
  if (!bends) return ta;
  const bySine = vb / tb - (ta > 0 ? va / ta : p[R.SIN]!);
  const mixed = h > 0 ? (h * l * rate) / (ta * tb) : 0;
  out[REACH_BY_LOAD]! += (turn - bySine) * perN + soft;
  out[HEIGHT_BY_VERTICAL]! += bySine * perN + soft;
  out[REACH_BY_VERTICAL]! -= mixed;
  out[HEIGHT_BY_LOAD]! -= mixed;
  return ta;
}

/**
 * Height of the bow over a level bed, as {@link place} has it, its change with vertical load and the
 * change of that: all that the search for the vertical load needs.
 */
export function rise(p: PreparedRode, h: number, v: number, out: Float64Array): void {
  let height = 0;
  let by = 0;
  let bend = 0;
  let vb = v;
  let tb = Math.sqrt(h * h + vb * vb);
  for (let i = p[R.TOP]!; i >= R.PIECES; i -= R.ROW) {
    const perN = p[i + R.M_PER_N]!;
    const strain = p[i + R.STRAIN]!;
    let l = p[i + R.LENGTH]!;
    let va = vb - p[i + R.WEIGHT]! * l;
    const touches = va <= 0 && i < p[R.FREE]!;
    if (touches) {
      va = 0;
      l = vb * perN;
    }
    const ta = Math.sqrt(h * h + va * va);
    if (l > 0) {
      const perTb = 1 / tb;
      const perTa = ta > 0 ? 1 / ta : 0;
      const hh = h * h;
      height += l * (va + vb) * (1 / (ta + tb) + 0.5 * strain);
      by += (vb * perTb - va * perTa) * perN + l * strain;
      bend += hh * perTb * perTb * perTb * perN;
      bend += touches ? perN * strain : -hh * perTa * perTa * perTa * perN;
    }
    if (touches) break;
    const hung = p[i + R.HUNG]!;
    vb = va - hung;
    if (vb < 0 && i < p[R.FREE]!) break;
    tb = hung === 0 ? ta : Math.sqrt(h * h + vb * vb);
  }
  out[HEIGHT] = height;
  out[HEIGHT_BY_VERTICAL] = by;
  out[BEND] = bend;
}

/** Add what lies on the bottom: `grounded` metres of the piece at `top` and all below it. */
function lay(
  p: PreparedRode,
  top: number,
  grounded: number,
  topTension: number,
  out: Float64Array,
  bends: boolean,
): void {
  const drag = p[R.DRAG_PER_N]!;
  let onBottom = 0;
  let stretch = 0;
  let soft = 0;
  let tension = topTension > 0 ? topTension : 0;
  let l = grounded;
  for (let i = top; ;) {
    const lost = drag * p[i + R.WEIGHT]!;
    const strain = p[i + R.STRAIN]!;
    // Friction may take up the whole tension before the end of the piece.
    const tight = lost * l > tension ? tension / lost : l;
    stretch += strain * tight * (tension - 0.5 * lost * tight);
    soft += strain * tight;
    onBottom += l;
    tension = Math.max(0, tension - lost * tight);
    i -= R.ROW;
    if (i < R.PIECES) break;
    tension = Math.max(0, tension - drag * p[i + R.ROW + R.HUNG]!);
    l = p[i + R.LENGTH]!;
  }
  out[ON_BOTTOM] = onBottom;
  out[REACH]! += p[R.COS]! * (onBottom + stretch);
  out[HEIGHT]! += p[R.SIN]! * (onBottom + stretch);
  out[STRETCH]! += stretch;
  out[ANCHOR_HORIZONTAL] = tension * p[R.COS]!;
  out[ANCHOR_VERTICAL] = tension * p[R.SIN]!;
  if (!bends) return;
  const held = drag * soft;
  out[REACH_BY_LOAD]! += soft - p[R.SIN]! * held;
  out[HEIGHT_BY_LOAD]! += p[R.TAN]! * (soft - p[R.SIN]! * held);
  out[REACH_BY_VERTICAL]! += p[R.COS]! * held;
  out[HEIGHT_BY_VERTICAL]! += p[R.SIN]! * held;
}

/** Change of horizontal load with reach at a steady height of the bow, N/m. */
export function stiffnessOf(out: Float64Array): number {
  const turned = out[HEIGHT_BY_LOAD]!;
  // A rode that lies level all the way to the bow cannot turn.
  const byTurn = turned === 0 ? 0 : (out[REACH_BY_VERTICAL]! * turned) / out[HEIGHT_BY_VERTICAL]!;
  return 1 / (out[REACH_BY_LOAD]! - byTurn);
}
