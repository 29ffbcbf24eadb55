import { RAD } from "../core/angles.js";
import { AIR_KG_PER_M3, GRAVITY_MPS2, SEA_WATER_KG_PER_M3 } from "../core/constants.js";
import {
  FORM_COEFFICIENT,
  GROUNDED_CROSS_COEFFICIENT,
  PROPELLER_COEFFICIENT,
  SEA_WATER_VISCOSITY_M2_PER_S,
  SHALLOW_EXPONENT,
} from "./tables.js";
import type { Vessel } from "./vessel.js";
import { atan2, cosDeg, exp, log, sinDeg } from "../core/elementary.js";

/** Places in the result of {@link lieKernel}; an enumeration, for the builder writes its numbers where they are used. */
export enum LIE {
  /** Resultant force on the vessel, N. */
  pullN = 0,
  /** Direction of that force, degrees; NaN where there is none. */
  pullTowardsDeg = 1,
  /** Heading, degrees; NaN where nothing turns the vessel. */
  headingDeg = 2,
  /** Wind force, N. */
  windN = 3,
  /** Stream force, N. */
  streamN = 4,
  /** Mean wave drift force, N. */
  waveN = 5,
  /** How firmly the heading is set, 0..1: the turning moment left over the sum of its parts. */
  settled = 6,
  /** Share of the wind in the sum of the turning moments, 0..1. */
  windMomentShare = 7,
  /** Wind, stream and waves each as from ahead, added up, N: what a pull is to be measured against. */
  headOnN = 8,
  /** East and north of the heading by the cross-flow law, see {@link crossFlowHeading}. */
  crossFlowEast = 9,
  crossFlowNorth = 10,
  /** Number of places. */
  length = 11,
}

/** Places of the coefficients. */
const enum C {
  WindFront,
  WindSide,
  WindLever,
  StreamEnds,
  StreamSkin,
  Reynolds,
  StreamSide,
  SideCoefficient,
  StreamLever,
  Draught,
  WaveEnds,
  WaveSide,
  WaveLever,
  Length,
}

/** Direction in [0, 360) of a vector; as `bearingOf`, without its costly remainder. */
function bearing(east: number, north: number): number {
  const deg = atan2(east, north) / RAD;
  if (!(deg < 0)) return deg + 0;
  // A tiny negative angle may round up to 360.
  return deg + 360 < 360 ? deg + 360 : 0;
}

/** Pressure of a flow on a unit area with coefficient 1, Pa. */
export const dynamicPressure = (speedMps: number, density: number): number =>
  0.5 * density * speedMps * speedMps;

/** Skin friction coefficient of a smooth hull by the ITTC 1957 line; held at its value for a Reynolds number of 1e5 below that. */
export function frictionCoefficient(reynolds: number): number {
  const d = log(Math.max(reynolds, 1e5)) / Math.LN10 - 2;
  return 0.075 / (d * d);
}

/** Wetted area of hulls by displacement, m² (UFC 4-159-03, Eq. 18: S = 1.7 T L + D/(T γ)). */
export const wettedArea = (
  waterlineM: number,
  draughtM: number,
  displacementKg: number,
  hulls = 1,
  density = SEA_WATER_KG_PER_M3,
): number => hulls * 1.7 * draughtM * waterlineM + displacementKg / (density * draughtM);

/**
 * Beam-on stream coefficient in shoal water: C0 + (C1 - C0) (T/d)^K (UFC 4-159-03, Eq. 11).
 * Deeper than the water is taken as touching.
 */
export function crossStreamCoefficient(
  deep: number,
  draughtM: number,
  depthM: number,
  grounded: number = GROUNDED_CROSS_COEFFICIENT,
  exponent: number = SHALLOW_EXPONENT,
): number {
  const ratio = Math.min(1, draughtM / depthM);
  const power = exponent === 2 ? ratio * ratio : exp(exponent * log(ratio));
  return deep + (grounded - deep) * power;
}

/** The coefficients of a vessel that {@link lieKernel} works with; computed once, used for any weather. */
export function lieCoefficients(v: Vessel): Float64Array {
  const c = new Float64Array(C.Length);
  const [air, water] = [AIR_KG_PER_M3 / 2, SEA_WATER_KG_PER_M3 / 2];
  c[C.WindFront] = air * v.windFrontCoefficient * v.windageFrontM2;
  c[C.WindSide] = air * v.windSideCoefficient * v.windageSideM2;
  c[C.WindLever] = v.windCentreAftOfBowM;
  c[C.StreamEnds] =
    water *
    (FORM_COEFFICIENT * v.immersedBeamM * v.hullDraughtM +
      PROPELLER_COEFFICIENT * v.propellerAreaM2);
  c[C.StreamSkin] = water * wettedArea(v.waterlineM, v.hullDraughtM, v.displacementKg, v.hulls);
  c[C.Reynolds] = v.waterlineM / SEA_WATER_VISCOSITY_M2_PER_S;
  c[C.StreamSide] = water * v.lateralPlaneM2;
  c[C.SideCoefficient] = v.streamSideCoefficient;
  c[C.StreamLever] = v.lateralCentreAftOfBowM;
  c[C.Draught] = v.draughtM;
  c[C.WaveEnds] = (SEA_WATER_KG_PER_M3 * GRAVITY_MPS2 * v.beamM) / 16;
  c[C.WaveSide] = (SEA_WATER_KG_PER_M3 * GRAVITY_MPS2 * v.waterlineM) / 16;
  c[C.WaveLever] = v.lengthM / 2;
  return c;
}

/**
 * Adds to `out` the force of one agent that comes from the direction (east, north) and meets the hull with
 * `ends` newtons from ahead and `side` newtons from abeam; its size goes to `slot`.
 */
function addForce(
  out: Float64Array,
  slot: number,
  ends: number,
  side: number,
  east: number,
  north: number,
  bowEast: number,
  bowNorth: number,
): void {
  const along = ends * (east * bowEast + north * bowNorth);
  const across = side * (east * bowNorth - north * bowEast);
  out[0]! -= along * bowEast + across * bowNorth;
  out[1]! -= along * bowNorth - across * bowEast;
  out[slot] = Math.sqrt(along * along + across * across);
  out[LIE.headOnN]! += ends;
}

/**
 * How a vessel lies: heading by the sine law of turning moments about the bow, and the resultant force
 * there. Unchecked and allocation-free; results go to `out` at the places of {@link LIE}.
 *
 * `waveM` is the significant height times the share of it that the hull throws back.
 */
export function lieKernel(
  c: Float64Array,
  windMps: number,
  windFromDeg: number,
  streamMps: number,
  streamTowardsDeg: number,
  out: Float64Array,
  depthM = Infinity,
  waveM = 0,
  waveFromDeg = 0,
): void {
  const w2 = windMps * windMps;
  const s2 = streamMps * streamMps;
  const h2 = waveM * waveM;
  const we = sinDeg(windFromDeg);
  const wn = cosDeg(windFromDeg);
  const se = -sinDeg(streamTowardsDeg);
  const sn = -cosDeg(streamTowardsDeg);
  const he = h2 > 0 ? sinDeg(waveFromDeg) : 0;
  const hn = h2 > 0 ? cosDeg(waveFromDeg) : 0;
  const windSide = w2 * c[C.WindSide]!;
  const streamSide = s2 * c[C.StreamSide]! * sideCoefficient(c, depthM);
  const waveSide = h2 * c[C.WaveSide]!;
  const a = windSide * c[C.WindLever]!;
  const b = streamSide * c[C.StreamLever]!;
  const d = waveSide * c[C.WaveLever]!;
  const east = a * we + b * se + d * he;
  const north = a * wn + b * sn + d * hn;
  const turn = Math.sqrt(east * east + north * north);
  // Nothing turns her: forces along the hull then count as from ahead, which cannot be told better.
  const ue = turn > 0 ? east / turn : 0;
  const un = turn > 0 ? north / turn : 1;
  const ends = s2 * streamEnds(c, streamMps * Math.abs(se * ue + sn * un));
  out.fill(0);
  addForce(out, LIE.windN, w2 * c[C.WindFront]!, windSide, we, wn, ue, un);
  addForce(out, LIE.streamN, ends, streamSide, se, sn, ue, un);
  addForce(out, LIE.waveN, h2 * c[C.WaveEnds]!, waveSide, he, hn, ue, un);
  setHeadings(out, turn, a, a + b + d, east, north);
  out[LIE.crossFlowEast] = Math.sqrt(a) * we + Math.sqrt(b) * se + Math.sqrt(d) * he;
  out[LIE.crossFlowNorth] = Math.sqrt(a) * wn + Math.sqrt(b) * sn + Math.sqrt(d) * hn;
}

/** Heading where moments follow the square of the sine, between the directions of two agents, of a result of {@link lieKernel}; NaN where none acts. */
export function crossFlowHeading(out: Float64Array): number {
  const east = out[LIE.crossFlowEast]!;
  const north = out[LIE.crossFlowNorth]!;
  return east === 0 && north === 0 ? NaN : bearing(east, north);
}

const sideCoefficient = (c: Float64Array, depthM: number): number =>
  crossStreamCoefficient(c[C.SideCoefficient]!, c[C.Draught]!, depthM);

/** Stream force from ahead over speed squared: form, propeller and skin. */
const streamEnds = (c: Float64Array, alongMps: number): number =>
  c[C.StreamEnds]! + c[C.StreamSkin]! * frictionCoefficient(alongMps * c[C.Reynolds]!);

function setHeadings(
  out: Float64Array,
  turn: number,
  wind: number,
  sum: number,
  east: number,
  north: number,
): void {
  const e = out[0]!;
  const n = out[1]!;
  const pull = Math.sqrt(e * e + n * n);
  out[LIE.pullN] = pull;
  out[LIE.pullTowardsDeg] = pull > 0 ? bearing(e, n) : NaN;
  out[LIE.headingDeg] = turn > 0 ? bearing(east, north) : NaN;
  out[LIE.settled] = sum > 0 ? turn / sum : 0;
  out[LIE.windMomentShare] = sum > 0 ? wind / sum : 0;
}
