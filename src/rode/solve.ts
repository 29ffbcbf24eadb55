import {
  AGROUND,
  GROUNDED,
  HEIGHT,
  HEIGHT_BY_VERTICAL,
  LIFTED,
  ON_BOTTOM,
  LIFTED_SHARE,
  SLACK,
  TOUCHES_TWICE,
  lay,
  place,
} from "./kernel.js";
import { clears } from "./clearance.js";
import type { PreparedRode } from "./prepare.js";

/** A step this small against the load above the bed leaves an error of about its square. */
const LAST_STEP = 1e-7;
const MOST_STEPS = 300;

/**
 * Lay a prepared rode to a horizontal load. Fills `out` (columns in `kernel.ts`) and answers the
 * state: {@link SLACK}, {@link GROUNDED} or {@link LIFTED}; or a negative number where there is no
 * such lie, and then `out` holds NaN.
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
  return v === v ? settle(p, loadN, v, out) : refused(p, out);
}

/** Write the lie under known loads, and name its state. */
export function settle(
  p: PreparedRode,
  loadN: number,
  v: number,
  out: Float64Array,
): number {
  place(p, loadN, v, out);
  if (p.firstFree < p.count && !clears(p, out)) return refused(p, out);
  const lifted = out[ON_BOTTOM] === 0 && !(out[LIFTED_SHARE]! >= 0);
  return lifted ? LIFTED : loadN > 0 ? GROUNDED : SLACK;
}

function refused(p: PreparedRode, out: Float64Array): number {
  out.fill(NaN);
  return p.firstFree < p.count ? TOUCHES_TWICE : AGROUND;
}

/** Vertical load at the bow that holds it at the height; NaN where none does. */
function verticalFor(
  p: PreparedRode,
  heightM: number,
  h: number,
  out: Float64Array,
): number {
  const bedV = h * p.tan;
  let low = bedV + p.floatedN;
  if (p.count === 1 && p.tan === 0) {
    const w = p.weightNPerM[0]!;
    const strain = p.strainPerN[0]!;
    const b = 1 + h * strain;
    const d =
      (2 * w * heightM) / (b + Math.sqrt(b * b + 2 * w * heightM * strain));
    const v = Math.sqrt(d * (d + 2 * h));
    if (v <= w * p.totalM) return v;
  }
  if (p.firstFree < p.count || p.tan !== 0 || !(heightM > 0)) {
    rise(p, h, low, out);
    if (!(out[HEIGHT]! < heightM)) return out[HEIGHT] === heightM ? low : NaN;
  }
  let high = Infinity;
  let v = Math.max(guess(p, heightM, h), low + 1e-9 * Math.abs(p.totalN));
  for (let i = 0; i < MOST_STEPS; i++) {
    rise(p, h, v, out);
    const over = out[HEIGHT]! - heightM;
    if (over > 0) high = v;
    else low = v;
    const next = v - over / out[HEIGHT_BY_VERTICAL]!;
    const step = Math.abs(next - v);
    if (next > low && next < high) {
      v = next;
      if (step <= LAST_STEP * (v - bedV)) return v;
    } else {
      // Rounding may put the last step just outside.
      if (step <= 4e-16 * (Math.abs(v) + h) || over === 0) return v;
      v =
        high < Infinity ? 0.5 * (low + high) : bedV + 3 * (v - bedV) + h * 1e-3;
      if (v === low || v === high) return v;
    }
  }
  return v;
}

/** Vertical load to start from: lowest piece a catenary, the others straight; or a taut straight line. */
function guess(p: PreparedRode, heightM: number, h: number): number {
  const above =
    p.totalM > heightM ? p.totalM * p.totalM - heightM * heightM : 0;
  if (above === 0) return p.totalN + (heightM - p.totalM) / p.stretchPerN;
  const span = Math.sqrt(above);
  const taut = (h * heightM) / span + p.totalN - p.meanBelowN;
  const bedV = h * p.tan;
  if (taut - p.totalN > bedV) return taut;
  const w = p.weightNPerM[0]!;
  const up = p.upperM;
  const free = Math.max(heightM - p.tan * span, 0.01 * heightM);
  const joint =
    w * (Math.sqrt(up * up + free * free + (2 * h * free) / w) - up);
  return bedV + p.upperN + joint;
}

/** Height of the bow and its change with vertical load: the part of {@link place} that the search needs. */
function rise(p: PreparedRode, h: number, v: number, out: Float64Array): void {
  const bedV = h * p.tan;
  let height = 0;
  let by = 0;
  let vb = v;
  let tb = Math.sqrt(h * h + vb * vb);
  let sb = tb > 0 ? vb / tb : 0;
  for (let piece = p.count - 1; piece >= 0; piece--) {
    const strain = p.strainPerN[piece]!;
    const perN = p.metresPerN[piece]!;
    let l = p.lengthM[piece]!;
    const va = vb - p.weightNPerM[piece]! * l;
    if (va <= bedV && piece < p.firstFree) {
      const hangs = vb > bedV ? (vb - bedV) * perN : 0;
      const ta = h / p.cos;
      if (hangs > 0) {
        const sum = bedV + vb;
        height += hangs * sum * (1 / (ta + tb) + 0.5 * strain);
        by += (sb - p.sin) * perN + hangs * strain;
      }
      out[HEIGHT] = height;
      out[HEIGHT_BY_VERTICAL] = by;
      if (p.sin !== 0) lay(p, piece, l - hangs, ta, out);
      return;
    }
    const ta = Math.sqrt(h * h + va * va);
    const sa = ta > 0 ? va / ta : 0;
    height += l * (va + vb) * (1 / (ta + tb) + 0.5 * strain);
    by += (sb - sa) * perN + l * strain;
    const hung = p.hungN[piece]!;
    vb = va;
    tb = ta;
    sb = sa;
    if (hung === 0) continue;
    vb -= hung;
    tb = Math.sqrt(h * h + vb * vb);
    sb = vb / tb;
    if (vb < bedV && piece <= p.firstFree) {
      out[HEIGHT] = height;
      out[HEIGHT_BY_VERTICAL] = by;
      if (p.sin !== 0)
        lay(
          p,
          piece - 1,
          p.lengthM[piece - 1]!,
          h / p.cos - (bedV - vb) * p.dragPerN,
          out,
        );
      return;
    }
  }
  out[HEIGHT] = height;
  out[HEIGHT_BY_VERTICAL] = by;
}
