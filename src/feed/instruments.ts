import { wrap360 } from "../core/angles.js";
import { dayMs, eastWest, isEmpty, letter, number, secondsOfDay, textOf } from "./fields.js";
import { modeMeasured, modeOf } from "./positions.js";
import type {
  DateReading,
  DepthReading,
  HeadingReading,
  RevolutionsReading,
  TrackReading,
  Transducer,
  TransducerReading,
  WaterSpeedReading,
  WindAngleReading,
  WindDirectionReading,
} from "./reading.js";
import type { Sentence } from "./scan.js";
import {
  A,
  KMH,
  KNOT,
  M,
  MOST,
  STATUTE_MPH,
  T,
  bearing,
  direction,
  orNull,
  speedKnKmh,
  wholeNumber,
  withLetter,
} from "./values.js";

/** VTG. */
export function vtg(s: Sentence): TrackReading {
  const second = isEmpty(s, 2) ? 0 : s.text.charCodeAt(s.at[2]!);
  // The old form has four numbers and no letters.
  if (s.count <= 5 && second !== T)
    return {
      type: "VTG",
      mode: null,
      cogTrueDeg: bearing(s, 1),
      cogMagneticDeg: bearing(s, 2),
      sogMps: orNull(number(s, 3, 0, MOST.sogKn) * KNOT),
    };
  const mode = modeOf(s, 9);
  const vouched = modeMeasured(mode);
  return {
    type: "VTG",
    mode,
    cogTrueDeg: vouched ? direction(s, 1, T) : null,
    cogMagneticDeg: vouched ? direction(s, 3, M) : null,
    sogMps: vouched ? speedKnKmh(s, 5) : null,
  };
}

/** DBT. */
export function dbt(s: Sentence): DepthReading {
  const feet = withLetter(s, 1, 102, 0, MOST.depthM / 0.3048) * 0.3048;
  const metres = withLetter(s, 3, M, 0, MOST.depthM);
  const fathoms = withLetter(s, 5, 70, 0, MOST.depthM / 1.8288) * 1.8288;
  const best = [metres, feet, fathoms].find((d) => !Number.isNaN(d)) ?? NaN;
  // Three ways of saying one depth: where they part by more than their rounding, fields have shifted.
  const apart = (d: number, rounding: number) => Math.abs(d - best) > rounding + 0.02 * best;
  const torn = apart(metres, 0.25) || apart(feet, 0.25) || apart(fathoms, 1);
  if (torn) s.faults++;
  return {
    type: "DBT",
    depthBelowTransducerM: torn ? null : orNull(best),
    offsetM: null,
  };
}

/** DPT. */
export const dpt = (s: Sentence): DepthReading => ({
  type: "DPT",
  depthBelowTransducerM: orNull(number(s, 1, 0, MOST.depthM)),
  offsetM: orNull(number(s, 2, -100, 100)),
});

const WIND_UNITS = new Map([
  ["N", KNOT],
  ["M", 1],
  ["K", KMH],
  ["S", STATUTE_MPH],
]);

/** MWV. */
export function mwv(s: Sentence): WindAngleReading {
  const reference = letter(s, 2);
  const known = reference === 82 || reference === T;
  const unit = WIND_UNITS.get(textOf(s, 4)) ?? NaN;
  const valid = letter(s, 5) === A && known;
  if (!known || Number.isNaN(unit)) s.faults++;
  return {
    type: "MWV",
    valid,
    angleDeg: valid ? bearing(s, 1) : null,
    reference: known ? (reference === T ? "T" : "R") : null,
    speedMps: valid ? orNull(number(s, 3, 0, MOST.windMps / unit) * unit) : null,
  };
}

/** MWD. */
export function mwd(s: Sentence): WindDirectionReading {
  const kn = withLetter(s, 5, 78, 0, MOST.windMps / KNOT) * KNOT;
  const mps = withLetter(s, 7, M, 0, MOST.windMps);
  return {
    type: "MWD",
    directionTrueDeg: direction(s, 1, T),
    directionMagneticDeg: direction(s, 3, M),
    speedMps: orNull(Number.isNaN(kn) ? mps : kn),
  };
}

/** HDT. */
export const hdt = (s: Sentence): HeadingReading => ({
  type: "HDT",
  headingTrueDeg: direction(s, 1, T),
  headingMagneticDeg: null,
  deviationDeg: null,
  variationDeg: null,
});

/** HDG. */
export function hdg(s: Sentence): HeadingReading {
  const sensor = number(s, 1, 0, 360);
  const deviation = isEmpty(s, 2) ? 0 : eastWest(s, 2, MOST.variationDeg);
  const variation = eastWest(s, 4, MOST.variationDeg);
  const turn = (deg: number) => orNull(wrap360(deg));
  return {
    type: "HDG",
    headingTrueDeg: turn(sensor + deviation + variation),
    headingMagneticDeg: turn(sensor + deviation),
    deviationDeg: isEmpty(s, 2) ? null : orNull(deviation),
    variationDeg: orNull(variation),
  };
}

/** VHW. */
export const vhw = (s: Sentence): WaterSpeedReading => ({
  type: "VHW",
  headingTrueDeg: direction(s, 1, T),
  headingMagneticDeg: direction(s, 3, M),
  speedThroughWaterMps: speedKnKmh(s, 5),
});

/** RPM. */
export function rpm(s: Sentence): RevolutionsReading {
  const source = letter(s, 1);
  const known = source === 83 || source === 69;
  const valid = known && letter(s, 5) === A;
  if (!known) s.faults++;
  return {
    type: "RPM",
    valid,
    source: known ? (source === 83 ? "S" : "E") : null,
    number: orNull(wholeNumber(s, 2, 99)),
    revolutionsPerMin: valid ? orNull(number(s, 3, -20_000, 20_000)) : null,
    pitchPercent: valid ? orNull(number(s, 4, -100, 100)) : null,
  };
}

/** ZDA. */
export function zda(s: Sentence): DateReading {
  const seconds = secondsOfDay(s, 1);
  const [day, month, year] = [
    wholeNumber(s, 2, 31),
    wholeNumber(s, 3, 12),
    number(s, 4, 1980, 2199),
  ];
  const told = [day, month, year].every((x) => !Number.isNaN(x));
  const date = told ? dayMs(s, year, month, day) : NaN;
  return { type: "ZDA", timeMs: orNull(Math.round(date + seconds * 1000)) };
}

/** Types of transducer with their units, and the span of the values. */
const TRANSDUCERS = new Map<string, [min: number, max: number]>([
  ["A,D", [-360, 360]],
  ["C,C", [-100, 1000]],
  ["D,M", [-12_000, 12_000]],
  ["F,H", [0, 1e9]],
  ["G,", [-1e9, 1e9]],
  ["H,P", [0, 100]],
  ["I,A", [-1e5, 1e5]],
  ["P,B", [0, 100]],
  ["P,P", [0, 1e7]],
  ["T,R", [-1e6, 1e6]],
  ["U,V", [-1e5, 1e5]],
  ["V,M", [0, 1e6]],
]);

/** XDR. */
export function xdr(s: Sentence): TransducerReading {
  const transducers: Transducer[] = [];
  // Quadruples: a rest of one to three fields has lost its companions.
  if ((s.count - 1) % 4 !== 0) s.faults++;
  for (let i = 1; i + 3 < s.count; i += 4) {
    const type = textOf(s, i);
    const unit = textOf(s, i + 2);
    const name = textOf(s, i + 3);
    if (isEmpty(s, i + 1)) continue;
    const span = TRANSDUCERS.get(`${type},${unit}`);
    const value = span ? number(s, i + 1, span[0], span[1]) : NaN;
    if (!span) s.faults++;
    else if (!Number.isNaN(value)) transducers.push({ type, value, unit, name });
  }
  return { type: "XDR", transducers };
}
