import type { PreparedRode } from "./prepare.js";

/** Horizontal distance that piece `i` covers while its vertical load grows from `va` to `vb` under horizontal load `h`. */
export function spanAcross(p: PreparedRode, i: number, h: number, va: number, vb: number): number {
  // Below this the two roots cannot be told from the loads themselves, and the span is nothing.
  if (!(h > 1e-15 * (vb - va))) return 0;
  const both = Math.sqrt(h * h + va * va) + Math.sqrt(h * h + vb * vb);
  const turn = 2 * Math.atanh((vb - va) / both);
  return h * p.metresPerN[i]! * (turn + (vb - va) * p.strainPerN[i]!);
}

/** Height that piece `i` gains while its vertical load grows from `va` to `vb`. */
export function spanUp(p: PreparedRode, i: number, h: number, va: number, vb: number): number {
  const both = Math.sqrt(h * h + va * va) + Math.sqrt(h * h + vb * vb);
  return vb > va
    ? (vb - va) * p.metresPerN[i]! * (va + vb) * (1 / both + 0.5 * p.strainPerN[i]!)
    : 0;
}
