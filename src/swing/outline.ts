import type { Position } from "../core/schema.js";
import { type Plane, positionOf } from "../geo/plane.js";

/** A ring on a plane as positions. */
export function outlineOf(plane: Plane, ring: ArrayLike<number>): Position[] {
  const out: Position[] = [];
  for (let i = 0; i < ring.length; i += 2) out.push(positionOf(plane, ring[i]!, ring[i + 1]!));
  return out;
}
