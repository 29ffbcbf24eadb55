import type { PreparedRode } from "./prepare.js";

/** Columns that the kernels write into `out`, a Float64Array of {@link COLUMNS} entries. */
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
/** A float would bring the rode down on the bottom a second time: outside the model. */
export const TOUCHES_TWICE = -2;

/**
 * Put the rode under a given load at the bow, horizontal and vertical, and write where the bow
 * comes to lie and everything else into `out`. Works down from the bow: a piece hangs until the
 * vertical load falls to that of a line lying along the bed.
 */
export function place(
  p: PreparedRode,
  h: number,
  v: number,
  out: Float64Array,
): void {
  const bedV = h * p.tan;
  let reach = 0;
  let height = 0;
  let stretch = 0;
  let byLoad = 0;
  let byVertical = 0;
  let heightBy = 0;
  let vb = v;
  let tb = Math.sqrt(h * h + vb * vb);
  let sb = tb > 0 ? vb / tb : 0;
  let piece = p.count - 1;
  let grounded = 0;
  let share = NaN;
  let bedTension = h / p.cos;
  out[BOW_TENSION] = tb;
  for (; piece >= 0; piece--) {
    const w = p.weightNPerM[piece]!;
    const perN = p.metresPerN[piece]!;
    const strain = p.strainPerN[piece]!;
    let l = p.lengthM[piece]!;
    let va = vb - w * l;
    let ta: number;
    let sa: number;
    const touches = va <= bedV && piece < p.firstFree;
    if (touches) {
      grounded = l;
      l = vb > bedV ? (vb - bedV) * perN : 0;
      grounded -= l;
      va = bedV;
      ta = bedTension;
      sa = p.sin;
    } else {
      ta = Math.sqrt(h * h + va * va);
      sa = ta > 0 ? va / ta : 0;
    }
    if (l > 0) {
      const sum = va + vb;
      const rate = sum / (ta + tb);
      const wl = vb - va;
      const turn =
        va >= 0
          ? Math.log1p((wl * (1 + rate)) / (va + ta))
          : 2 * Math.atanh(wl / (ta + tb));
      const x = h > 0 ? h * turn * perN : 0;
      reach += x + h * l * strain;
      height += l * (rate + 0.5 * sum * strain);
      stretch += 0.5 * strain * (0.5 * l * (ta + tb + sum * rate) + h * x);
      byLoad += (turn - sb + sa) * perN + l * strain;
      byVertical -= (h * l * rate) / (ta * tb);
      heightBy += (sb - sa) * perN + l * strain;
    }
    if (touches) break;
    const hung = p.hungN[piece]!;
    vb = va;
    tb = ta;
    sb = sa;
    if (hung === 0) continue;
    vb -= hung;
    if (vb < bedV && piece <= p.firstFree) {
      // The weight itself is the touchdown: the bed still bears part of it.
      share = (va - bedV) / hung;
      bedTension -= (bedV - vb) * p.dragPerN;
      piece--;
      grounded = p.lengthM[piece]!;
      break;
    }
    tb = Math.sqrt(h * h + vb * vb);
    sb = vb / tb;
  }
  out[LOAD] = h;
  out[BOW_VERTICAL] = v;
  out[REACH] = reach;
  out[HEIGHT] = height;
  out[STRETCH] = stretch;
  out[REACH_BY_LOAD] = byLoad;
  out[REACH_BY_VERTICAL] = byVertical;
  out[HEIGHT_BY_LOAD] = byVertical;
  out[HEIGHT_BY_VERTICAL] = heightBy;
  out[LIFTED_SHARE] = share;
  out[ON_BOTTOM] = 0;
  out[ANCHOR_HORIZONTAL] = h;
  out[ANCHOR_VERTICAL] = vb;
  if (piece >= 0) lay(p, piece, grounded, bedTension, out);
}

/** Add the part on the bottom, `grounded` metres of `piece` and all below it, to what hangs. */
export function lay(
  p: PreparedRode,
  piece: number,
  grounded: number,
  topTension: number,
  out: Float64Array,
): void {
  const drag = p.dragPerN;
  let onBottom = 0;
  let stretch = 0;
  let tension = Math.max(0, topTension);
  let soft = 0;
  let l = grounded;
  for (let i = piece; ;) {
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
  const length = onBottom + stretch;
  out[ON_BOTTOM] = onBottom;
  out[REACH]! += p.cos * length;
  out[HEIGHT]! += p.sin * length;
  out[STRETCH]! += stretch;
  const cd = drag * soft;
  out[REACH_BY_LOAD]! += soft - p.sin * cd;
  out[REACH_BY_VERTICAL]! += p.cos * cd;
  out[HEIGHT_BY_LOAD]! += p.tan * (soft - p.sin * cd);
  out[HEIGHT_BY_VERTICAL]! += p.sin * cd;
  out[ANCHOR_HORIZONTAL] = tension * p.cos;
  out[ANCHOR_VERTICAL] = tension * p.sin;
}
