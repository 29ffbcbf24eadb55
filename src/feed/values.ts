import { letter, number } from "./fields.js";
import type { Sentence } from "./scan.js";

/** Metres a second in a knot. */
export const KNOT = 1852 / 3600;
/** Metres a second in a kilometre an hour. */
export const KMH = 1 / 3.6;
/** Metres a second in a statute mile an hour. */
export const STATUTE_MPH = 1609.344 / 3600;

/** Most a field can be and still be believed. */
export const MOST = {
  sogKn: 120,
  windMps: 110,
  depthM: 12_000,
  heightM: 20_000,
  hdop: 100,
  variationDeg: 180,
};

/** Letters that mean valid, true and magnetic (or metres). */
export const [A, T, M] = [65, 84, 77];

/** Null for NaN: what leaves here is JSON. */
export const orNull = (x: number): number | null => (Number.isNaN(x) ? null : x);

/** A direction: 0 to 360, with 360 read as 0. */
export function bearing(s: Sentence, i: number): number | null {
  const value = number(s, i, 0, 360);
  return Number.isNaN(value) ? null : value === 360 ? 0 : value;
}

/** A value whose unit stands in the next field: null, and a fault, where the letter is another. */
export function withLetter(s: Sentence, i: number, code: number, min: number, max: number): number {
  const value = number(s, i, min, max);
  if (Number.isNaN(value)) return NaN;
  if (letter(s, i + 1) === code) return value;
  s.faults++;
  return NaN;
}

/** A direction with its letter. */
export function direction(s: Sentence, i: number, code: number): number | null {
  const value = withLetter(s, i, code, 0, 360);
  return Number.isNaN(value) ? null : value === 360 ? 0 : value;
}

/** Knots in field `i`, else kilometres an hour in field `i + 2`, each with its letter. */
export function speedKnKmh(s: Sentence, i: number): number | null {
  const kn = withLetter(s, i, 78, 0, MOST.sogKn);
  if (!Number.isNaN(kn)) return kn * KNOT;
  return orNull(withLetter(s, i + 2, 75, 0, (MOST.sogKn * KNOT) / KMH) * KMH);
}

/** A whole number from nil to a most. */
export function wholeNumber(s: Sentence, i: number, most: number): number {
  const value = number(s, i, 0, most);
  if (Number.isNaN(value) || Number.isInteger(value)) return value;
  s.faults++;
  return NaN;
}
