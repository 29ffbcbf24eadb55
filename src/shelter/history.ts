import { RAD, turnDeg, wrap360 } from "../core/angles.js";
import { type Berth, seaAt, wholeDegree } from "./berth.js";
import { acesAdjustedWind, durationOf } from "./growth.js";
import { WAVE_GRAVITY_MPS2 } from "./linear.js";
import type { StepScratch } from "./step.js";

/** A wind that shifts by more than this starts a new sea. */
const SHIFT_DEG = 30;
/** Longest time in which a sea that nothing raises any more falls to 1/e of its height; proposed, not published. */
const LONGEST_DECAY_S = 7200;
/** The same in times of the run of its waves down the fetch; proposed: what comes from the far shore arrives after one. */
const DECAY_RUNS = 1.5;

/** What the wind has done so far. */
export interface History {
  /** Direction of the wind under which the present sea began; NaN before the first. */
  beganFromDeg: number;
  /** How long the sea of this wind has had to grow; Infinity where its start is not known. */
  durationS: number;
  /** Sea of the wind of the last step on the forecast wind, with what is left of the greater one before it fell. */
  seaM: number;
  /** Where the wind's own sea came from at the last step. */
  seaFromDeg: number;
  /** What is left of the greater sea before this wind fell or went into shelter, and where it comes from. */
  restM: number;
  restFromDeg: number;
  /** Time in which what is left of the sea falls to 1/e. */
  decayS: number;
  /** What is left of the sea before the last shift, where it came from, and the time in which it falls to 1/e. */
  oldM: number;
  oldFromDeg: number;
  oldDecayS: number;
}

/** No history: the wind is taken to have blown for as long as the fetch needs. */
export const noHistory = (): History => ({
  beganFromDeg: NaN,
  durationS: Infinity,
  seaM: 0,
  seaFromDeg: 0,
  restM: 0,
  restFromDeg: 0,
  decayS: LONGEST_DECAY_S,
  oldM: 0,
  oldFromDeg: 0,
  oldDecayS: LONGEST_DECAY_S,
});

/**
 * Take one more step of wind into account. A wind that falls, or goes into shelter, leaves what it has raised to run
 * off. A shift of more than 30°, at once or by and by, starts a new sea from the part of the old one that runs with
 * it; the rest dies away as a swell, its energy added to what is left already. After a gap in the forecast nothing is
 * known: a full sea.
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
  history.oldM *= Math.exp(-stepS / history.oldDecayS);
  if (!(shift <= 180)) {
    history.durationS = Infinity;
    history.seaM = 0;
    history.restM = 0;
    history.oldM = 0;
    history.beganFromDeg = windFromDeg;
  } else if (shift > SHIFT_DEG) {
    const along = Math.max(0, Math.cos(shift * RAD));
    leaveAcross(history, history.seaM * Math.sqrt(1 - along * along));
    history.seaM *= along;
    history.restM *= along;
    history.durationS = durationOf(history.seaM, acesAdjustedWind(windMps)) + stepS;
    history.beganFromDeg = windFromDeg;
  } else history.durationS += stepS;
  const degree = wholeDegree(windFromDeg);
  if (Number.isNaN(windMps + degree)) return;
  seaAt(berth, windMps, degree, history.durationS, room.blow, room.growth);
  raise(history, room, stepS, wrap360(windFromDeg + berth.table.turnDeg[degree]!));
}

/** Add to the old sea what runs across a new wind. */
function leaveAcross(history: History, left: number): void {
  if (left > history.oldM) {
    history.oldFromDeg = history.seaFromDeg;
    history.oldDecayS = history.decayS;
  }
  history.oldM = Math.sqrt(history.oldM * history.oldM + left * left);
}

/** The sea that this step's wind raises, and what is left of a greater one before it. */
function raise(history: History, { blow, growth }: StepScratch, stepS: number, fromDeg: number) {
  const { hm0M, periodS } = growth;
  const gone = 1 - Math.exp((-2 * stepS) / history.decayS);
  const before = history.seaM * history.seaM - gone * history.restM * history.restM;
  const rest = before - hm0M * hm0M;
  if (rest > 0) {
    // What was there before has its own way to run.
    if (history.restM === 0) history.restFromDeg = history.seaFromDeg;
    history.restM = Math.sqrt(rest);
  } else {
    history.restM = 0;
    const groupMps = (WAVE_GRAVITY_MPS2 * periodS) / (4 * Math.PI);
    const decayS = (DECAY_RUNS * blow.fetchM) / groupMps;
    history.decayS = decayS < LONGEST_DECAY_S ? decayS : LONGEST_DECAY_S;
  }
  history.seaM = Math.sqrt(Math.max(before, hm0M * hm0M));
  history.seaFromDeg = fromDeg;
}
