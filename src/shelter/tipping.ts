import { turnDeg, wrap360 } from "../core/angles.js";
import { type Berth, noBlow, noGrowth, seaAt, wholeDegree } from "./berth.js";
import { asHeadSea, beamPart, CLASS_LIMITS } from "./comfort.js";
import { levelAt, type PreparedStay } from "./prepareStay.js";
import type { Step } from "./run.js";
import type { Shelter, SeaTipping } from "./shelterTypes.js";

const POOR = CLASS_LIMITS[2]!;
/** Strongest wind looked at. */
const STRONGEST_MPS = 40;
const TURN_STEP_DEG = 5;

/** Least turn of the wind, and least rise of it, that make the berth untenable at some hour of the stay. */
export function tippingOf(stay: PreparedStay, steps: readonly Step[]): Shelter["toUntenable"] {
  let turn: SeaTipping | null = null;
  let rise: SeaTipping | null = null;
  let leastRise = Infinity;
  for (const step of steps) {
    if (step.sea.comfort === "unknown") continue;
    const { berth } = levelAt(stay, step.timeMs);
    const byTurn = turnToUntenable(berth, step, Math.abs(turn?.turnDeg ?? 181));
    if (byTurn !== null) turn = byTurn;
    const windMps = windToUntenable(berth, step, step.wind.windMps + leastRise);
    if (windMps === null) continue;
    leastRise = windMps - step.wind.windMps;
    rise = {
      atMs: step.timeMs,
      turnDeg: null,
      windMps,
      windFromDeg: step.wind.windFromDeg,
    };
  }
  return { turn, rise };
}

/** Whether a wind makes an hour untenable, with its swell, once it has blown long enough. */
function untenable(
  berth: Berth,
  { moment }: Step,
  windMps: number,
  fromDeg: number,
  room: Room,
): boolean {
  const degree = wholeDegree(fromDeg);
  seaAt(berth, windMps, degree, Infinity, room.blow, room.growth);
  const h = room.growth.hm0M * moment.streamFactor;
  const turn = berth.table.turnDeg[degree]!;
  const heading = Number.isNaN(moment.headingDeg) ? fromDeg : moment.headingDeg;
  const felt = asHeadSea(
    POOR,
    h,
    beamPart(turnDeg(heading, fromDeg + turn)),
    moment.swellM,
    beamPart(turnDeg(heading, moment.swellFromDeg)),
  );
  return !(felt <= POOR.headM);
}

interface Room {
  blow: ReturnType<typeof noBlow>;
  growth: ReturnType<typeof noGrowth>;
}

function turnToUntenable(berth: Berth, step: Step, lessThanDeg: number): SeaTipping | null {
  const room = { blow: noBlow(), growth: noGrowth() };
  const { windMps, windFromDeg } = step.wind;
  for (let turn = 0; turn < lessThanDeg; turn += TURN_STEP_DEG)
    for (const signed of [turn, -turn])
      if (untenable(berth, step, windMps, windFromDeg + signed, room))
        return {
          atMs: step.timeMs,
          turnDeg: signed,
          windMps,
          windFromDeg: wrap360(windFromDeg + signed),
        };
  return null;
}

/** Least wind, from the forecast direction, that makes an hour untenable; null where none below `lessThanMps` does. */
function windToUntenable(berth: Berth, step: Step, lessThanMps: number): number | null {
  const room = { blow: noBlow(), growth: noGrowth() };
  const { windMps, windFromDeg } = step.wind;
  let low = windMps;
  let high = Math.min(STRONGEST_MPS, lessThanMps);
  if (untenable(berth, step, low, windFromDeg, room)) return low < lessThanMps ? low : null;
  if (!(high > low) || !untenable(berth, step, high, windFromDeg, room)) return null;
  for (let k = 0; k < 12; k++) {
    const middle = 0.5 * (low + high);
    if (untenable(berth, step, middle, windFromDeg, room)) high = middle;
    else low = middle;
  }
  return high;
}
