import * as R from "./places.js";
import type { PreparedRode } from "./prepare.js";
import { log1p } from "../core/elementary.js";

/** A horizontal load so small that the rode hangs as without; its square would be lost. */
export const NO_LOAD = 1e-100;

/**
 * asinh(vb / h) - asinh(va / h) without cancellation: how far a piece turns whose vertical load grows
 * from `va` to `vb` under horizontal load `h`, the tensions at its ends being `ta` and `tb`.
 */
export function turnOf(h: number, va: number, vb: number, ta: number, tb: number): number {
  const both = ta + tb;
  const weight = vb - va;
  const x = weight / both;
  const square = x * x;
  // A piece that hardly turns: 2 atanh(x) by its series, what is left out being below the last digit.
  if (square < 1e-4)
    return 2 * x * (1 + square * (1 / 3 + square * (1 / 5 + square * (1 / 7 + square / 9))));
  const grown = weight * (1 + (va + vb) / both);
  return log1p(va >= 0 ? grown / (va + ta) : (grown / h) * ((ta - va) / h));
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
