import { BOW_VERTICAL, HEIGHT, LOAD, REACH } from "./kernel.js";
import * as R from "./places.js";
import type { PreparedRode } from "./prepare.js";
import { spanAcross, spanUp } from "./span.js";

/** Rounding allowed when the rode is held against the bed, per metre of rode. */
const ROUNDING = 1e-9;

/**
 * Whether the rode laid in `out` stays clear of the bed between its touchdown and the bow, and
 * nowhere rises above the bow. Without floats it always does; a float lets the part above it sag,
 * and a float that would rise above the bow is on the surface, where it no longer lifts all it can.
 */
export function clears(p: PreparedRode, out: Float64Array): boolean {
  const h = out[LOAD]!;
  const bedV = h * p[R.TAN]!;
  const allowed = -ROUNDING * p[R.TOTAL_M]!;
  let above = out[HEIGHT]! - p[R.TAN]! * out[REACH]!;
  let below = 0;
  let vb = out[BOW_VERTICAL]!;
  if (!(above >= allowed)) return false;
  for (let i = p[R.TOP]!; i >= p[R.FREE]!; i -= R.ROW) {
    const va = vb - p[i + R.WEIGHT]! * p[i + R.LENGTH]!;
    // The lowest point of a piece is where it runs along the bed, else its lower end.
    if (va < bedV && vb > bedV) {
      const lowest = above - spanUp(p, i, h, bedV, vb) + p[R.TAN]! * spanAcross(p, i, h, bedV, vb);
      if (!(lowest >= allowed)) return false;
    }
    const up = spanUp(p, i, h, va, vb);
    above += p[R.TAN]! * spanAcross(p, i, h, va, vb) - up;
    below += up;
    if (!(above >= allowed && below >= allowed)) return false;
    vb = va - p[i + R.HUNG]!;
  }
  return true;
}
