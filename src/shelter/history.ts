import { RAD, turnDeg, wrap360 } from "../core/angles.js";
import { type Berth, seaAt, wholeDegree } from "./berth.js";
import { acesAdjustedWind, durationOf } from "./growth.js";
import type { StepScratch } from "./step.js";

/** A wind that shifts by more than this starts a new sea. */
const SHIFT_DEG = 30;
/** Time in which what is left of an old sea falls to 1/e of its height; proposed, not published. */
const DECAY_S = 7200;

/** What the wind has done so far. */
export interface History {
  /** Direction of the wind under which the present sea began; NaN before the first. */
  beganFromDeg: number;
  /** How long the sea of this wind has had to grow; Infinity where its start is not known. */
  durationS: number;
  /** Wind sea of the last step on the forecast wind. */
  seaM: number;
  seaFromDeg: number;
  /** What is left of the sea before the last shift, and where it came from. */
  oldM: number;
  oldFromDeg: number;
}

/** No history: the wind is taken to have blown for as long as the fetch needs. */
export const noHistory = (): History => ({
  beganFromDeg: NaN,
  durationS: Infinity,
  seaM: 0,
  seaFromDeg: 0,
  oldM: 0,
  oldFromDeg: 0,
});

/**
 * Take one more step of wind into account. A shift of more than 30°, at once or by and by, starts a new sea from the
 * part of the old one that runs with it; the rest dies away as a swell, its energy added to what is left already.
 * After a gap in the forecast nothing is known: a full sea.
 */
export function advance(
  history: History,
  berth: Berth,
  windMps: number,
  windFromDeg: number,
  stepS: number,
  room: StepScratch,
): void {
  const shift = Math.abs(turnDeg(history.beganFromDeg, windFromDeg));
  history.oldM *= Math.exp(-stepS / DECAY_S);
  if (!(shift <= 180)) {
    history.durationS = Infinity;
    history.oldM = 0;
    history.beganFromDeg = windFromDeg;
  } else if (shift > SHIFT_DEG) {
    const along = Math.max(0, Math.cos(shift * RAD));
    const left = history.seaM * Math.sqrt(1 - along * along);
    if (left > history.oldM) history.oldFromDeg = history.seaFromDeg;
    history.oldM = Math.sqrt(history.oldM * history.oldM + left * left);
    history.durationS = durationOf(history.seaM * along, acesAdjustedWind(windMps)) + stepS;
    history.beganFromDeg = windFromDeg;
  } else history.durationS += stepS;
  const degree = wholeDegree(windFromDeg);
  if (Number.isNaN(windMps + degree)) return;
  seaAt(berth, windMps, degree, history.durationS, room.blow, room.growth);
  history.seaM = room.growth.hm0M;
  history.seaFromDeg = wrap360(windFromDeg + berth.table.turnDeg[degree]!);
}
