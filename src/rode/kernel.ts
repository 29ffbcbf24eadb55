import type { PreparedRode } from "./prepare.js";

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
/** Number of columns. */
export const COLUMNS = 14;

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
  begin(h, v, out);
  const bedV = h * p.tan;
  let vb = v;
  for (let i = p.count - 1; i >= 0; i--) {
    const l = p.lengthM[i]!;
    const va = vb - p.weightNPerM[i]! * l;
    if (va <= bedV && i < p.firstFree) {
      const hangs = vb > bedV ? (vb - bedV) * p.metresPerN[i]! : 0;
      if (hangs > 0) hang(p, i, h, bedV, vb, hangs, out, bends);
      lay(p, i, l - hangs, h * p.sec, out, bends);
      return;
    }
    hang(p, i, h, va, vb, l, out, bends);
    vb = va - p.hungN[i]!;
    if (vb < bedV && i < p.firstFree) {
      // The weight itself is the touchdown: the bed still bears part of it.
      out[LIFTED_SHARE] = (va - bedV) / (va - vb);
      const tension = h * p.sec - (bedV - vb) * p.dragPerN;
      lay(p, i - 1, p.lengthM[i - 1]!, tension, out, bends);
      return;
    }
  }
  out[ANCHOR_HORIZONTAL] = h;
  out[ANCHOR_VERTICAL] = vb;
}

function begin(h: number, v: number, out: Float64Array): void {
  out[REACH] = 0;
  out[HEIGHT] = 0;
  out[LOAD] = h;
  out[BOW_VERTICAL] = v;
  out[BOW_TENSION] = Math.sqrt(h * h + v * v);
  out[ON_BOTTOM] = 0;
  out[STRETCH] = 0;
  out[LIFTED_SHARE] = NaN;
  out[REACH_BY_LOAD] = 0;
  out[REACH_BY_VERTICAL] = 0;
  out[HEIGHT_BY_VERTICAL] = 0;
  out[HEIGHT_BY_LOAD] = 0;
}

/** Add `l` metres of piece `i`, hanging, whose vertical load grows from `va` to `vb`. */
function hang(
  p: PreparedRode,
  i: number,
  h: number,
  va: number,
  vb: number,
  l: number,
  out: Float64Array,
  bends: boolean,
): void {
  const ta = Math.sqrt(h * h + va * va);
  const tb = Math.sqrt(h * h + vb * vb);
  const perN = p.metresPerN[i]!;
  const strain = p.strainPerN[i]!;
  const weight = l * p.weightNPerM[i]!;
  const soft = l * strain;
  const sum = va + vb;
  const both = ta + tb;
  const rate = sum / both;
  // asinh(vb / h) - asinh(va / h) without cancellation.
  const turn =
    va >= 0 ? Math.log1p((weight * (1 + rate)) / (va + ta)) : 2 * Math.atanh(weight / both);
  const across = h > 0 ? h * turn * perN : 0;
  out[REACH]! += across + h * soft;
  out[HEIGHT]! += l * rate + 0.5 * sum * soft;
  out[STRETCH]! += 0.5 * strain * (0.5 * l * (both + sum * rate) + h * across);
  if (!bends) return;
  const bySine = vb / tb - (ta > 0 ? va / ta : p.sin);
  const mixed = h > 0 ? (h * l * rate) / (ta * tb) : 0;
  out[REACH_BY_LOAD]! += (turn - bySine) * perN + soft;
  out[HEIGHT_BY_VERTICAL]! += bySine * perN + soft;
  out[REACH_BY_VERTICAL]! -= mixed;
  out[HEIGHT_BY_LOAD]! -= mixed;
}

/**
 * Height of the bow and its change with vertical load over a level bed, as {@link place} has them,
 * at less cost: all that the search for the vertical load needs.
 */
export function rise(p: PreparedRode, h: number, v: number, out: Float64Array): void {
  let height = 0;
  let by = 0;
  let vb = v;
  let tb = Math.sqrt(h * h + vb * vb);
  for (let i = p.count - 1; i >= 0; i--) {
    const perN = p.metresPerN[i]!;
    const strain = p.strainPerN[i]!;
    let l = p.lengthM[i]!;
    let va = vb - p.weightNPerM[i]! * l;
    const touches = va <= 0 && i < p.firstFree;
    if (touches) {
      va = 0;
      l = vb * perN;
    }
    const ta = Math.sqrt(h * h + va * va);
    if (l > 0) {
      height += l * (va + vb) * (1 / (ta + tb) + 0.5 * strain);
      by += (ta > 0 ? vb / tb - va / ta : 1) * perN + l * strain;
    }
    if (touches) break;
    const hung = p.hungN[i]!;
    vb = va - hung;
    if (vb < 0 && i < p.firstFree) break;
    tb = hung === 0 ? ta : Math.sqrt(h * h + vb * vb);
  }
  out[HEIGHT] = height;
  out[HEIGHT_BY_VERTICAL] = by;
}

/** Add what lies on the bottom: `grounded` metres of piece `top` and all below it. */
function lay(
  p: PreparedRode,
  top: number,
  grounded: number,
  topTension: number,
  out: Float64Array,
  bends: boolean,
): void {
  const drag = p.dragPerN;
  let onBottom = 0;
  let stretch = 0;
  let soft = 0;
  let tension = topTension > 0 ? topTension : 0;
  let l = grounded;
  for (let i = top; ;) {
    const lost = drag * p.weightNPerM[i]!;
    const strain = p.strainPerN[i]!;
    // Friction may take up the whole tension before the end of the piece.
    const tight = lost * l > tension ? tension / lost : l;
    stretch += strain * tight * (tension - 0.5 * lost * tight);
    soft += strain * tight;
    onBottom += l;
    tension = Math.max(0, tension - lost * tight);
    if (--i < 0) break;
    tension = Math.max(0, tension - drag * p.hungN[i + 1]!);
    l = p.lengthM[i]!;
  }
  out[ON_BOTTOM] = onBottom;
  out[REACH]! += p.cos * (onBottom + stretch);
  out[HEIGHT]! += p.sin * (onBottom + stretch);
  out[STRETCH]! += stretch;
  out[ANCHOR_HORIZONTAL] = tension * p.cos;
  out[ANCHOR_VERTICAL] = tension * p.sin;
  if (!bends) return;
  const held = drag * soft;
  out[REACH_BY_LOAD]! += soft - p.sin * held;
  out[HEIGHT_BY_LOAD]! += p.tan * (soft - p.sin * held);
  out[REACH_BY_VERTICAL]! += p.cos * held;
  out[HEIGHT_BY_VERTICAL]! += p.sin * held;
}

/** Change of horizontal load with reach at a steady height of the bow, N/m. */
export function stiffnessOf(out: Float64Array): number {
  const turned = out[HEIGHT_BY_LOAD]!;
  // A rode that lies level all the way to the bow cannot turn.
  const byTurn = turned === 0 ? 0 : (out[REACH_BY_VERTICAL]! * turned) / out[HEIGHT_BY_VERTICAL]!;
  return 1 / (out[REACH_BY_LOAD]! - byTurn);
}
