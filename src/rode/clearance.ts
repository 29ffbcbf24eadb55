import { BOW_VERTICAL, HEIGHT, LOAD, REACH } from "./kernel.js";
import type { PreparedRode } from "./prepare.js";
import { spanAcross, spanUp } from "./span.js";

/** Rounding allowed when the rode is held against the bed, per metre of rode. */
const ROUNDING = 1e-9;

/**
 * Whether the rode laid in `out` stays clear of the bed between its touchdown and the bow. Without
 * floats it always does; a float lets the part above it sag.
 */
export function clears(p: PreparedRode, out: Float64Array): boolean {
  const h = out[LOAD]!;
  const bedV = h * p.tan;
  const allowed = -ROUNDING * p.totalM;
  let above = out[HEIGHT]! - p.tan * out[REACH]!;
  let vb = out[BOW_VERTICAL]!;
  for (let i = p.count - 1; i >= p.firstFree; i--) {
    const va = vb - p.weightNPerM[i]! * p.lengthM[i]!;
    // The lowest point of a piece is where it runs along the bed, else its lower end.
    const sags = va < bedV && vb > bedV;
    if (sags && !(above - gain(p, i, h, bedV, vb) >= allowed)) return false;
    above -= gain(p, i, h, va, vb);
    if (!(above >= allowed)) return false;
    vb = va - p.hungN[i]!;
  }
  return true;
}

/** Height above the bed that piece `i` gains while its vertical load grows from `va` to `vb`. */
const gain = (
  p: PreparedRode,
  i: number,
  h: number,
  va: number,
  vb: number,
): number => spanUp(p, i, h, va, vb) - p.tan * spanAcross(p, i, h, va, vb);
