import * as R from "./places.js";
import type { PreparedRode } from "./prepare.js";
import { logOfRatio } from "../core/elementary.js";

/** A horizontal load so small that the rode hangs as without; its square would be lost. */
export const NO_LOAD = 1e-100;

/**
 * asinh(vb / h) - asinh(va / h) without cancellation, for a load above {@link NO_LOAD}: how far a
 * piece turns whose vertical load grows from `va` to `vb` under horizontal load `h`, the tensions at
 * its ends being `ta` and `tb`.
 */
export function turnOf(h: number, va: number, vb: number, ta: number, tb: number): number {
  return va >= 0 ? logOfRatio(vb + tb, va + ta, vb - va, ta + tb) : turnUp(h, va, vb, ta, tb);
}

/** {@link turnOf} of a piece that hangs below its lower end, as one does that a float bears. */
function turnUp(h: number, va: number, vb: number, ta: number, tb: number): number {
  return vb > 0
    ? logOfRatio((vb + tb) * (ta - va), h * h, vb - va, ta + tb)
    : logOfRatio(ta - va, tb - vb, vb - va, ta + tb);
}

/** Horizontal distance that the piece at `i` covers while its vertical load grows from `va` to `vb` under horizontal load `h`. */
export function spanAcross(p: PreparedRode, i: number, h: number, va: number, vb: number): number {
  if (!(h > NO_LOAD)) return 0;
  const turn = turnOf(h, va, vb, Math.sqrt(h * h + va * va), Math.sqrt(h * h + vb * vb));
  return h * p[i + R.M_PER_N]! * (turn + (vb - va) * p[i + R.STRAIN]!);
}

/** Height that the piece at `i` gains while its vertical load grows from `va` to `vb`. */
export function spanUp(p: PreparedRode, i: number, h: number, va: number, vb: number): number {
  const both = Math.sqrt(h * h + va * va) + Math.sqrt(h * h + vb * vb);
  return vb > va
    ? (vb - va) * p[i + R.M_PER_N]! * (va + vb) * (1 / both + 0.5 * p[i + R.STRAIN]!)
    : 0;
}

/** Stretch of a piece by its strain per newton and the integral of its tension, a quarter of `spread` and half of `turned`. */
export const stretchOf = (strain: number, spread: number, turned: number): number =>
  0.5 * strain * (0.5 * spread + turned);
