import { WAVE_GRAVITY_MPS2 } from "./linear.js";

/** How a berth feels, from best to worst; `unknown` is never better than `untenable`. */
export type ComfortClass = "comfortable" | "tolerable" | "poor" | "untenable" | "unknown";

/** Greatest significant height of each class, head sea and beam sea; proposed, not published. */
export const CLASS_LIMITS: readonly {
  name: ComfortClass;
  headM: number;
  beamM: number;
}[] = [
  { name: "comfortable", headM: 0.15, beamM: 0.1 },
  { name: "tolerable", headM: 0.3, beamM: 0.15 },
  { name: "poor", headM: 0.6, beamM: 0.3 },
];

/** Off the bow or stern by less than this is a head sea, by more than the other a beam sea; common practice, no source. */
const HEAD_DEG = 30;
const BEAM_DEG = 60;

/** 0 for waves on bow or stern, 1 for waves on the beam, straight between 30° and 60°; NaN counts as the beam. */
export function beamPart(offBowDeg: number): number {
  const off = Math.abs(offBowDeg);
  const fromEnd = off > 90 ? 180 - off : off;
  return fromEnd <= HEAD_DEG
    ? 0
    : fromEnd < BEAM_DEG
      ? (fromEnd - HEAD_DEG) / (BEAM_DEG - HEAD_DEG)
      : 1;
}

/**
 * Height of a head sea as uncomfortable as a wind sea and a swell together, by the limits of a class: energies
 * add, each against its own limit.
 */
export function asHeadSea(
  limit: { headM: number; beamM: number },
  windSeaM: number,
  windBeam: number,
  swellM: number,
  swellBeam: number,
): number {
  const part = 1 - limit.beamM / limit.headM;
  const a = windSeaM / (1 - part * windBeam);
  const b = swellM / (1 - part * swellBeam);
  return Math.sqrt(a * a + b * b);
}

/** Class of a wind sea and a swell together. Anything not a number is `unknown`. */
export function classOf(
  windSeaM: number,
  windBeam: number,
  swellM: number,
  swellBeam: number,
): ComfortClass {
  for (const limit of CLASS_LIMITS)
    if (asHeadSea(limit, windSeaM, windBeam, swellM, swellBeam) <= limit.headM) return limit.name;
  return Number.isNaN(windSeaM + windBeam + swellM + swellBeam) ? "unknown" : "untenable";
}

/** Probability that a standard normal figure is below x (Abramowitz & Stegun 26.2.17, good to 7.5e-8). */
export function normalBelow(x: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(x));
  const poly =
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = 0.3989422804014327 * Math.exp(-0.5 * x * x) * poly;
  return x < 0 ? tail : 1 - tail;
}

/** Root-mean-square vertical acceleration of a hull that follows the waves; an upper bound for short waves. */
export function waveFollowingAccel(hm0M: number, periodS: number): number {
  const omega = (2 * Math.PI) / periodS;
  return (omega * omega * hm0M) / 4;
}

/** Motion sickness dose value of an acceleration over a time, m/s^1.5 (ISO 2631-1); a third of it is the per cent taken ill. */
export const sicknessDose = (rmsAccelMps2: number, exposureS: number): number =>
  rmsAccelMps2 * Math.sqrt(exposureS);

/** Acceleration amplitude at which a tenth are taken ill after a time, 0.1 to 0.315 Hz (ISO 2631). */
export const tenPerCentAmplitude = (exposureS: number): number => 0.5 * Math.sqrt(7200 / exposureS);

/** Per cent taken ill within two hours (O'Hanlon & McCauley 1974); the frequency enters in radians a second. */
export function sicknessIncidence(rmsAccelMps2: number, frequencyHz: number): number {
  if (!(rmsAccelMps2 > 0)) return Number.isNaN(rmsAccelMps2) ? NaN : 0;
  const omega = Math.log10(2 * Math.PI * frequencyHz);
  const worst = -0.819 + 2.32 * omega * omega;
  return 100 * normalBelow((Math.log10(rmsAccelMps2 / WAVE_GRAVITY_MPS2) - worst) / 0.4);
}

/** Natural roll period by the approximation of the IMO Intact Stability Code 2008, 2.3.4; crude for small keel hulls. */
export function rollPeriod(
  beamM: number,
  draughtM: number,
  waterlineM: number,
  metacentricM: number,
): number {
  const c = 0.373 + (0.023 * beamM) / draughtM - (0.043 * waterlineM) / 100;
  return (2 * c * beamM) / Math.sqrt(metacentricM);
}
