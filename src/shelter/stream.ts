import { WAVE_GRAVITY_MPS2 } from "./linear.js";

/** What a stream does to waves. */
export interface OnStream {
  /** Factor on their height; never credited below 1. */
  factor: number;
  /** Whether it would stop them, so that they break. */
  blocked: boolean;
}

/** Factor taken where the theory fails, near and beyond blocking; proposed, not published. */
const BLOCKED_FACTOR = 2;

/**
 * Deep-water waves that run on to a stream: height by the conservation of wave action, stopped by a contrary stream
 * of a quarter of their speed. A stream that is not known is taken to stop them.
 *
 * @param alongMps stream along the waves; negative runs against them.
 * @source Longuet-Higgins & Stewart 1961: H/H₀ = √(c₀²/(c(c + 2U))), from memory
 */
export function onStream(periodS: number, alongMps: number): OnStream {
  if (alongMps >= 0) return { factor: 1, blocked: false };
  const c0 = (WAVE_GRAVITY_MPS2 * periodS) / (2 * Math.PI);
  const inner = 1 + (4 * alongMps) / c0;
  if (!(inner > 0)) return { factor: BLOCKED_FACTOR, blocked: true };
  const c = 0.5 * c0 * (1 + Math.sqrt(inner));
  const factor = Math.sqrt((c0 * c0) / (c * (c + 2 * alongMps)));
  return { factor: Math.min(factor, BLOCKED_FACTOR), blocked: false };
}
