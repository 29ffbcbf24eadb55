import {
  ANCHOR_HORIZONTAL,
  ANCHOR_VERTICAL,
  BEND,
  BOW_TENSION,
  BOW_VERTICAL,
  HEIGHT,
  HEIGHT_BY_LOAD,
  HEIGHT_BY_VERTICAL,
  LIFTED_SHARE,
  LOAD,
  ON_BOTTOM,
  REACH,
  REACH_BY_LOAD,
  REACH_BY_VERTICAL,
  SOFT_ON_BOTTOM,
  STRETCH,
  TURNED,
} from "./columns.js";
import { placePair } from "./pair.js";
import * as R from "./places.js";
import type { PreparedRode } from "./prepare.js";
import { NO_LOAD, stretchOf, turnOf } from "./span.js";

export * from "./columns.js";

/** Place in a prepared rode as a whole number: engines then reckon places without fractions. */
export const whole = (place: number): number => place | 0;

/**
 * Put the rode under a given load at the bow, horizontal and vertical, and write where the bow
 * comes to lie and everything else into `out` but the columns of change.
 */
export function place(p: PreparedRode, h: number, v: number, out: Float64Array): void {
  out[LOAD] = h;
  out[BOW_VERTICAL] = v;
  out[LIFTED_SHARE] = NaN;
  // Of what leads along the bed, were it there.
  out[ANCHOR_HORIZONTAL] = h * p[R.SEC]!;
  if (!(p[R.PLAIN] === 2 && placePair(p, out))) placeLoaded(p, out);
}

/**
 * {@link place} with the two loads in their columns: engines make objects of numbers that are handed
 * from function to function. Works down from the bow: a piece hangs until the vertical load falls to
 * that of a line lying along the bed.
 */
function placeLoaded(p: PreparedRode, out: Float64Array): void {
  clear(out);
  const h = out[LOAD]!;
  const bedV = h * p[R.TAN]!;
  let vb = out[BOW_VERTICAL]!;
  let tb = Math.sqrt(h * h + vb * vb);
  out[BOW_TENSION] = tb;
  let i = whole(p[R.TOP]!);
  for (; i >= R.PIECES; i -= R.ROW) {
    let l = p[i + R.LENGTH]!;
    let va = vb - p[i + R.WEIGHT]! * l;
    const touches = va <= bedV && i < p[R.FREE]!;
    if (touches) {
      const hangs = vb > bedV ? (vb - bedV) * p[i + R.M_PER_N]! : 0;
      out[ON_BOTTOM] = l - hangs;
      l = hangs;
      va = bedV;
    }
    if (l > 0) tb = hang(p, i, h, va, vb, tb, l, out);
    if (touches) break;
    vb = va;
    const hung = p[i + R.HUNG]!;
    if (hung === 0) continue;
    vb -= hung;
    if (vb < bedV && i < p[R.FREE]!) {
      // The weight itself is the touchdown: the bed still bears part of it.
      out[LIFTED_SHARE] = (va - bedV) / hung;
      out[ANCHOR_HORIZONTAL]! -= (bedV - vb) * p[R.DRAG_PER_N]!;
      i -= R.ROW;
      out[ON_BOTTOM] = p[i + R.LENGTH]!;
      break;
    }
    tb = Math.sqrt(h * h + vb * vb);
  }
  if (i >= R.PIECES) lay(p, i, out);
  else {
    out[ANCHOR_HORIZONTAL] = h;
    out[ANCHOR_VERTICAL] = vb;
  }
}

/** Clear what is added up. */
function clear(out: Float64Array): void {
  out[REACH] = 0;
  out[HEIGHT] = 0;
  out[ON_BOTTOM] = 0;
  out[STRETCH] = 0;
  out[REACH_BY_LOAD] = 0;
  out[REACH_BY_VERTICAL] = 0;
  out[HEIGHT_BY_VERTICAL] = 0;
  out[TURNED] = 0;
  out[SOFT_ON_BOTTOM] = 0;
}

/**
 * Add `l` metres of the piece at `i`, hanging, whose vertical load grows from `va` to `vb` and whose
 * tension is `tb` at the upper end; answers that at the lower end. The change of reach with horizontal
 * load lacks the turn.
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
): number {
  const ta = Math.sqrt(h * h + va * va);
  const strain = p[i + R.STRAIN]!;
  const perN = p[i + R.M_PER_N]!;
  const sum = va + vb;
  const both = ta + tb;
  const rate = sum / both;
  const pulled = h > NO_LOAD;
  const turned = pulled ? turnOf(h, va, vb, ta, tb) * perN : Infinity;
  const across = pulled ? h * turned : 0;
  const soft = l * strain;
  out[TURNED]! += turned;
  out[REACH]! += across + h * soft;
  out[HEIGHT]! += l * (rate + 0.5 * sum * strain);
  out[STRETCH]! += stretchOf(strain, l * (both + sum * rate), h * across);
  const per = ta > 0 ? 1 / (ta * tb) : 0;
  const sines = (ta > 0 ? (vb * ta - va * tb) * per : vb / tb - p[R.SIN]!) * perN;
  out[HEIGHT_BY_VERTICAL]! += sines + soft;
  out[REACH_BY_LOAD]! += soft - sines;
  out[REACH_BY_VERTICAL]! -= h * l * rate * per;
  return ta;
}

/**
 * Add what lies on the bottom: of the piece at `top` the metres that stand in ON_BOTTOM, and all below
 * it. The tension where it begins stands in ANCHOR_HORIZONTAL.
 */
function lay(p: PreparedRode, top: number, out: Float64Array): void {
  const drag = p[R.DRAG_PER_N]!;
  let onBottom = 0;
  let stretch = 0;
  let soft = 0;
  let tension = Math.max(0, out[ANCHOR_HORIZONTAL]!);
  let l = out[ON_BOTTOM]!;
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
  out[SOFT_ON_BOTTOM] = soft;
  out[ANCHOR_HORIZONTAL] = tension * p[R.COS]!;
  out[ANCHOR_VERTICAL] = tension * p[R.SIN]!;
}

/**
 * Height that the hanging part of the rode spans, how it changes with the vertical load at the bow
 * and how that change changes: on a level bed without friction all that the search for that load
 * needs, at less cost than {@link placeAndChange}. Takes the two loads from their columns, for they
 * are many times changed.
 */
export function rise(p: PreparedRode, out: Float64Array): void {
  const h = out[LOAD]!;
  const bedV = h * p[R.TAN]!;
  let height = 0;
  let change = 0;
  let bend = 0;
  let vb = out[BOW_VERTICAL]!;
  let tb = Math.sqrt(h * h + vb * vb);
  for (let i = whole(p[R.TOP]!); i >= R.PIECES; i -= R.ROW) {
    const perN = p[i + R.M_PER_N]!;
    const strain = p[i + R.STRAIN]!;
    const end = vb - p[i + R.WEIGHT]! * p[i + R.LENGTH]!;
    const touches = end <= bedV && i < p[R.FREE]!;
    const va = touches ? bedV : end;
    const l = touches ? (vb - bedV) * perN : p[i + R.LENGTH]!;
    if (!(l > 0)) break;
    const ta = touches ? h * p[R.SEC]! : Math.sqrt(h * h + va * va);
    const sum = l * (va + vb);
    const per = ta > 0 ? 1 / (ta * tb) : 0;
    const perA = per * tb;
    const perB = ta > 0 ? per * ta : 1 / tb;
    height += sum / (ta + tb) + 0.5 * sum * strain;
    change += (vb * perB - (ta > 0 ? va * perA : p[R.SIN]!)) * perN + l * strain;
    bend += h * h * perB * perB * perB * perN;
    bend += (touches ? strain : -h * h * perA * perA * perA) * perN;
    if (touches) break;
    const hung = p[i + R.HUNG]!;
    vb = va - hung;
    if (vb < bedV && i < p[R.FREE]!) break;
    tb = hung === 0 ? ta : Math.sqrt(h * h + vb * vb);
  }
  out[HEIGHT] = height;
  out[HEIGHT_BY_VERTICAL] = change;
  out[BEND] = bend;
}

/** {@link place}, and the columns of change too. */
export function placeAndChange(p: PreparedRode, h: number, v: number, out: Float64Array): void {
  place(p, h, v, out);
  const soft = out[SOFT_ON_BOTTOM]!;
  const held = p[R.DRAG_PER_N]! * soft;
  const drawn = soft - p[R.SIN]! * held;
  out[REACH_BY_LOAD]! += out[TURNED]! + drawn;
  out[HEIGHT_BY_LOAD] = out[REACH_BY_VERTICAL]! + p[R.TAN]! * drawn;
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
