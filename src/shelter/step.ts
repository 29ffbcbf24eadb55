import { turnDeg, wrap360 } from "../core/angles.js";
import { type Berth, noBlow, noGrowth, seaAt, wholeDegree } from "./berth.js";
import {
  asHeadSea,
  beamPart,
  CLASS_LIMITS,
  classOf,
  type ComfortClass,
  normalBelow,
} from "./comfort.js";
import type { Blow, Growth } from "./growth.js";
import { type Density, DIRECTIONS, emptyDensity, normalDensity } from "./spread.js";

/** What a berth meets at one moment; NaN for what is not known. */
export interface Moment {
  /** Mean wind at 10 m. */
  windMps: number;
  /** Direction it blows from. */
  windFromDeg: number;
  /** One sigma of that direction. */
  sigmaDeg: number;
  /** How long it has blown so. */
  durationS: number;
  /** Swell at the berth, and what is left of an older sea; 0 for none. */
  swellM: number;
  /** Where that comes from. */
  swellFromDeg: number;
  /** Heading of the hull; NaN where it lies to each wind as it comes, infinite where it is not known and every sea is taken to be on the beam. */
  headingDeg: number;
  /** Factor of the stream on wind waves. */
  streamFactor: number;
  /** Winds of an ensemble in place of the spread; empty for none. */
  members: readonly { windMps: number; windFromDeg: number }[];
}

/** How the heights are judged. */
export interface Judgement {
  /** Significant height of wind sea and swell together that is held against. */
  limitM: number;
  /** One sigma of the logarithm of the height for a wind of given direction. */
  scatter: number;
}

/** Sea at a berth at one moment; every figure NaN where it is not known. */
export interface Sea {
  /** Wind sea and swell together: root mean square over the directions the wind may take. */
  heightM: number;
  /** Height passed in nine cases of ten, and in one of ten. */
  lowM: number;
  highM: number;
  /** Greatest height over those directions, and the wind direction that brings it. */
  worstM: number;
  worstFromDeg: number;
  /** Wind sea alone, root mean square. */
  windSeaM: number;
  /** Peak period of the part that carries more energy, mean over the directions. */
  periodS: number;
  /** Direction that part comes from, for the forecast wind. */
  fromDeg: number;
  /** Probability that the height passes the limit. */
  overLimit: number;
  /** Probability of a worse class than tolerable, and than poor. */
  poor: number;
  untenable: number;
  /** Class of the expected heights. */
  comfort: ComfortClass;
}

/** Room a step works in, made once for a stay: the winds a moment may bring, and their seas. */
export interface StepScratch {
  blow: Blow;
  growth: Growth;
  density: Density;
  windMps: Float64Array;
  windFromDeg: Float64Array;
  weight: Float64Array;
  height: Float64Array;
  /** Logarithm of the height. */
  log: Float64Array;
}

/** Room for winds of a spread, or of an ensemble of up to `members`. */
export function stepScratch(members = 0): StepScratch {
  const column = (): Float64Array => new Float64Array(Math.max(DIRECTIONS, members));
  return {
    blow: noBlow(),
    growth: noGrowth(),
    density: emptyDensity(),
    windMps: column(),
    windFromDeg: column(),
    weight: column(),
    height: column(),
    log: column(),
  };
}

const [, TOLERABLE, POOR] = CLASS_LIMITS;

/** A {@link Sea} of which nothing is known. */
export const unknownSea = (): Sea => ({
  heightM: NaN,
  lowM: NaN,
  highM: NaN,
  worstM: NaN,
  worstFromDeg: NaN,
  windSeaM: NaN,
  periodS: NaN,
  fromDeg: NaN,
  overLimit: NaN,
  poor: NaN,
  untenable: NaN,
  comfort: "unknown",
});

/** Sums over the winds of one moment. */
interface Sums {
  energy: number;
  period: number;
  beam: number;
  poor: number;
  untenable: number;
  over: number;
}

/** Sea at a berth at one moment, over every direction the wind may take. Unchecked. */
export function stepSea(
  berth: Berth,
  moment: Moment,
  judge: Judgement,
  room: StepScratch,
  out: Sea,
): void {
  const sums: Sums = {
    energy: 0,
    period: 0,
    beam: 0,
    poor: 0,
    untenable: 0,
    over: 0,
  };
  out.worstM = -1;
  const count = layWinds(moment, room);
  for (let i = 0; i < count; i++) addWind(berth, moment, judge, room, sums, out, i);
  if (!(sums.energy + moment.swellM >= 0)) {
    Object.assign(out, unknownSea());
    return;
  }
  summarise(berth, moment, sums, out);
  const low = quantile(room, count, judge.scatter, 0.9);
  const high = quantile(room, count, judge.scatter, 0.1);
  out.lowM = Math.min(out.heightM, low);
  out.highM = Math.max(out.heightM, high);
}

/** Winds of a moment with their weights: those of the ensemble, else the spread about the forecast. Returns how many. */
function layWinds(moment: Moment, room: StepScratch): number {
  const { members } = moment;
  if (members.length > 0) {
    members.forEach((member, i) => {
      room.windMps[i] = member.windMps;
      room.windFromDeg[i] = member.windFromDeg;
      room.weight[i] = 1 / members.length;
    });
    return members.length;
  }
  normalDensity(moment.sigmaDeg, room.density);
  for (let i = 0; i < DIRECTIONS; i++) {
    room.windMps[i] = moment.windMps;
    room.windFromDeg[i] = moment.windFromDeg + room.density.offsetDeg[i]!;
    room.weight[i] = room.density.weight[i]!;
  }
  return DIRECTIONS;
}

/** Figures of the expected sea from the sums. */
function summarise(berth: Berth, moment: Moment, sums: Sums, out: Sea): void {
  const { energy, period, beam } = sums;
  const { windFromDeg, swellM } = moment;
  out.windSeaM = Math.sqrt(energy);
  out.heightM = Math.sqrt(energy + swellM * swellM);
  out.periodS = energy > 0 ? period / energy : 0;
  out.fromDeg = wrap360(windFromDeg + berth.table.turnDeg[wholeDegree(windFromDeg)]!);
  out.overLimit = sums.over;
  out.poor = sums.poor;
  out.untenable = sums.untenable;
  out.comfort = classOf(
    out.windSeaM,
    energy > 0 ? beam / energy : 0,
    swellM,
    swellBeam(moment, windFromDeg),
  );
}

function addWind(
  berth: Berth,
  moment: Moment,
  { limitM, scatter }: Judgement,
  room: StepScratch,
  sums: Sums,
  out: Sea,
  i: number,
): void {
  const windFromDeg = room.windFromDeg[i]!;
  const share = room.weight[i]!;
  const { growth } = room;
  const degree = wholeDegree(windFromDeg);
  const { durationS, headingDeg, swellM } = moment;
  seaAt(berth, room.windMps[i]!, degree, durationS, room.blow, growth);
  const h = growth.hm0M * moment.streamFactor;
  const turn = berth.table.turnDeg[degree]!;
  const off = Number.isNaN(headingDeg) ? turn : turnDeg(headingDeg, windFromDeg + turn);
  const beam = beamPart(off);
  const onSwell = swellBeam(moment, windFromDeg);
  const both = Math.sqrt(h * h + swellM * swellM);
  room.height[i] = both;
  room.log[i] = Math.log(both);
  const energy = share * h * h;
  sums.energy += energy;
  sums.period += energy * growth.periodS;
  sums.beam += energy * beam;
  sums.over += share * chance(both, limitM, scatter);
  const t = asHeadSea(TOLERABLE!, h, beam, swellM, onSwell);
  const p = asHeadSea(POOR!, h, beam, swellM, onSwell);
  sums.poor += share * chance(t, TOLERABLE!.headM, scatter);
  sums.untenable += share * chance(p, POOR!.headM, scatter);
  if (both > out.worstM) {
    out.worstM = both;
    out.worstFromDeg = wrap360(windFromDeg);
  }
}

/** How far on the beam the swell lies; on the beam where the hull's heading is not known to be off it. */
function swellBeam(moment: Moment, windFromDeg: number): number {
  const heading = Number.isNaN(moment.headingDeg) ? windFromDeg : moment.headingDeg;
  return beamPart(turnDeg(heading, moment.swellFromDeg));
}

/** Probability that a height of log-normal scatter passes a limit; a height that is not known does. */
function chance(heightM: number, limitM: number, scatter: number): number {
  if (heightM === 0) return 0;
  if (!(heightM > 0)) return NaN;
  return normalBelow(Math.log(heightM / limitM) / scatter);
}

/** Height that is passed with a probability, over winds and scatter; by halving, on the logarithm. */
function quantile(
  { height, log, weight }: StepScratch,
  count: number,
  scatter: number,
  passed: number,
): number {
  let [least, most] = [Infinity, 0];
  for (let i = 0; i < count; i++) {
    least = Math.min(least, height[i]!);
    most = Math.max(most, height[i]!);
  }
  if (most === 0) return 0;
  let low = Math.log(Math.max(least, 1e-4)) - 4 * scatter;
  let high = Math.log(most) + 4 * scatter;
  for (let k = 0; k < 16; k++) {
    const middle = 0.5 * (low + high);
    let above = 0;
    for (let i = 0; i < count; i++)
      if (height[i]! > 0) above += weight[i]! * normalBelow((log[i]! - middle) / scatter);
    if (above > passed) low = middle;
    else high = middle;
  }
  return Math.exp(0.5 * (low + high));
}
