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
  /** Heading of the hull; NaN where it lies to each wind as it comes. */
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

/** Room a step works in, made once for a stay. */
export interface StepScratch {
  blow: Blow;
  growth: Growth;
  density: Density;
  height: Float64Array;
  weight: Float64Array;
}

/** Room for winds of a spread, or of an ensemble of up to `members`. */
export const stepScratch = (members = 0): StepScratch => ({
  blow: noBlow(),
  growth: noGrowth(),
  density: emptyDensity(),
  height: new Float64Array(Math.max(DIRECTIONS, members)),
  weight: new Float64Array(Math.max(DIRECTIONS, members)),
});

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

/** Sea at a berth at one moment, over every direction the wind may take. Unchecked; nothing is allocated in it but a few numbers. */
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
  const count =
    moment.members.length > 0
      ? overMembers(berth, moment, judge, room, sums, out)
      : overSpread(berth, moment, judge, room, sums, out);
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

function overSpread(
  berth: Berth,
  moment: Moment,
  judge: Judgement,
  room: StepScratch,
  sums: Sums,
  out: Sea,
): number {
  normalDensity(moment.sigmaDeg, room.density);
  const { offsetDeg, weight } = room.density;
  for (let i = 0; i < DIRECTIONS; i++)
    addWind(
      berth,
      moment,
      judge,
      room,
      sums,
      out,
      i,
      weight[i]!,
      moment.windMps,
      moment.windFromDeg + offsetDeg[i]!,
    );
  return DIRECTIONS;
}

function overMembers(
  berth: Berth,
  moment: Moment,
  judge: Judgement,
  room: StepScratch,
  sums: Sums,
  out: Sea,
): number {
  const { members } = moment;
  for (let i = 0; i < members.length; i++)
    addWind(
      berth,
      moment,
      judge,
      room,
      sums,
      out,
      i,
      1 / members.length,
      members[i]!.windMps,
      members[i]!.windFromDeg,
    );
  return members.length;
}

function addWind(
  berth: Berth,
  moment: Moment,
  { limitM, scatter }: Judgement,
  { blow, growth, height, weight }: StepScratch,
  sums: Sums,
  out: Sea,
  i: number,
  share: number,
  windMps: number,
  windFromDeg: number,
): void {
  const degree = wholeDegree(windFromDeg);
  seaAt(berth, windMps, degree, moment.durationS, blow, growth);
  const h = growth.hm0M * moment.streamFactor;
  const turn = berth.table.turnDeg[degree]!;
  const off = Number.isNaN(moment.headingDeg)
    ? turn
    : turnDeg(moment.headingDeg, windFromDeg + turn);
  const beam = beamPart(off);
  const onSwell = swellBeam(moment, windFromDeg);
  const both = Math.sqrt(h * h + moment.swellM * moment.swellM);
  height[i] = both;
  weight[i] = share;
  const energy = share * h * h;
  sums.energy += energy;
  sums.period += energy * growth.periodS;
  sums.beam += energy * beam;
  sums.over += share * chance(both, limitM, scatter);
  const t = asHeadSea(TOLERABLE!, h, beam, moment.swellM, onSwell);
  const p = asHeadSea(POOR!, h, beam, moment.swellM, onSwell);
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
  { height, weight }: StepScratch,
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
      if (height[i]! > 0)
        above += weight[i]! * normalBelow((Math.log(height[i]!) - middle) / scatter);
    if (above > passed) low = middle;
    else high = middle;
  }
  return Math.exp(0.5 * (low + high));
}
