import type { Room } from "../swing/kernel.js";
import { distanceTo, type Charted } from "./chartRoom.js";
import { lesser } from "./criteria.js";
import { LIES } from "./columns.js";

/** Room at each moment: least over the fan of winds, and under the forecast wind alone. NaN where not known. */
export interface Margin {
  fanM: Float64Array;
  forecastM: Float64Array;
}

/**
 * Gather a value for every direction and lie of every moment into a {@link Margin}. Lies that are not
 * settled count over the fan, where she may lie anywhere, but not as the lie that is forecast.
 */
export function marginOf(
  start: Int32Array,
  of: (i: number) => number,
  settled: (i: number) => boolean,
): Margin {
  const n = start.length - 1;
  const fanM = new Float64Array(n).fill(Infinity);
  const forecastM = new Float64Array(n).fill(Infinity);
  for (let m = 0; m < n; m++) {
    const from = start[m]!;
    for (let i = from; i < start[m + 1]!; i++) {
      const value = of(i);
      fanM[m] = lesser(fanM[m]!, value);
      if (i < from + LIES && settled(i)) forecastM[m] = lesser(forecastM[m]!, value);
    }
  }
  return { fanM, forecastM };
}

/** Whether how she lies is settled. */
export const isSettled = (room: Room, i: number): boolean => room.halfLengthM[i]! > 0;

/** Radius about the middle of the hull that holds it and its margin. */
const around = (room: Room, i: number): number =>
  Math.sqrt(room.halfLengthM[i]! * room.halfLengthM[i]! + room.halfBeamM[i]! * room.halfBeamM[i]!) +
  room.marginM[i]!;

/** Room from the hull, as a circle about its middle, to the charted shore or a charted danger; 0 where it reaches or is beyond it. */
export const marginToCharted = (charted: Charted, room: Room, start: Int32Array): Margin =>
  marginOf(
    start,
    (i) => Math.max(0, distanceTo(charted, room.x[i]!, room.y[i]!) - around(room, i)),
    (i) => isSettled(room, i),
  );
