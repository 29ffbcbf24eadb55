import type { Sentence } from "./scan.js";

const DOT = 46;
const MINUS = 45;
const PLUS = 43;
/** Digits of a number that a double holds exactly. */
const MOST_DIGITS = 15;
const TENS = Float64Array.from({ length: 16 }, (_, i) => Number(`1e${i}`));

/** Whether a field is absent or empty: unknown, and no fault. */
export const isEmpty = (s: Sentence, i: number): boolean =>
  i >= s.count || s.at[i + 1]! - 1 === s.at[i]!;

/** Code of the only character of a field; 0 where empty; counted as a fault, and 0, where there are more. */
export function letter(s: Sentence, i: number): number {
  if (isEmpty(s, i)) return 0;
  const from = s.at[i]!;
  if (s.at[i + 1]! - 1 - from === 1) return s.text.charCodeAt(from);
  s.faults++;
  return 0;
}

/** A plain decimal between two places of the text: digits, at most one point, a sign in front; else NaN. */
function decimal(text: string, from: number, to: number): number {
  let i = from;
  const sign = text.charCodeAt(i);
  if (sign === MINUS || sign === PLUS) i++;
  let [value, digits, decimals, point] = [0, 0, 0, 0];
  for (; i < to; i++) {
    const c = text.charCodeAt(i);
    if (c >= 48 && c <= 57) {
      value = value * 10 + (c - 48);
      digits++;
      decimals += point;
    } else if (c === DOT && point === 0) point = 1;
    else return NaN;
  }
  if (digits === 0 || digits > MOST_DIGITS) return NaN;
  // Two exact doubles: the quotient is the double nearest to the text.
  const size = value / TENS[decimals]!;
  return sign === MINUS ? 0 - size : size;
}

/** A number in a span, both ends allowed; NaN where empty, and a fault where it is none or out of the span. */
export function number(s: Sentence, i: number, min: number, max: number): number {
  if (isEmpty(s, i)) return NaN;
  const value = decimal(s.text, s.at[i]!, s.at[i + 1]! - 1);
  if (value >= min && value <= max) return value;
  s.faults++;
  return NaN;
}

/** Whole number of exactly `digits` digits from a place in the text; NaN otherwise. */
function digitsAt(text: string, from: number, digits: number): number {
  let value = 0;
  for (let i = from; i < from + digits; i++) {
    const c = text.charCodeAt(i);
    if (!(c >= 48 && c <= 57)) return NaN;
    value = value * 10 + (c - 48);
  }
  return value;
}

/** Degrees and minutes as `ddmm.mmm` (two or three digits of degrees) with a letter of hemisphere in the next field. */
function angle(
  s: Sentence,
  i: number,
  degreeDigits: number,
  most: number,
  positive: number,
  negative: number,
): number {
  const side = letter(s, i + 1);
  if (isEmpty(s, i)) return NaN;
  const from = s.at[i]!;
  const to = s.at[i + 1]! - 1;
  const split = from + degreeDigits;
  const degrees = digitsAt(s.text, from, degreeDigits);
  const whole = digitsAt(s.text, split, 2);
  const next = s.text.charCodeAt(split + 2);
  // Where a field ends before its two digits of minutes these are not whole.
  const minutes = to === split + 2 || next === DOT ? decimal(s.text, split, to) : NaN;
  const value = degrees + minutes / 60;
  if (whole < 60 && value <= most && (side === positive || side === negative))
    return side === positive ? value : 0 - value;
  s.faults++;
  return NaN;
}

/** Latitude in fields `i` and `i + 1`. */
export const latitude = (s: Sentence, i: number): number => angle(s, i, 2, 90, 78, 83);

/** Longitude in fields `i` and `i + 1`. */
export const longitude = (s: Sentence, i: number): number => angle(s, i, 3, 180, 69, 87);

/** Seconds of the day of `hhmmss` or `hhmmss.ss`; a leap second is 60. */
export function secondsOfDay(s: Sentence, i: number): number {
  if (isEmpty(s, i)) return NaN;
  const from = s.at[i]!;
  const to = s.at[i + 1]! - 1;
  const hours = digitsAt(s.text, from, 2);
  const minutes = digitsAt(s.text, from + 2, 2);
  const whole = digitsAt(s.text, from + 4, 2);
  const seconds =
    to === from + 6 || s.text.charCodeAt(from + 6) === DOT ? decimal(s.text, from + 4, to) : NaN;
  if (hours < 24 && minutes < 60 && whole <= 60 && seconds >= 0)
    return hours * 3600 + minutes * 60 + seconds;
  s.faults++;
  return NaN;
}

const MONTH = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Start of a day, UTC epoch ms; NaN, and a fault, for a day that does not exist. */
export function dayMs(s: Sentence, year: number, month: number, day: number): number {
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  // A month that there is not has no last day.
  const last = MONTH[month - 1]! - (month === 2 && !leap ? 1 : 0);
  if (year >= 0 && day >= 1 && day <= last) {
    // Days of the civil calendar counted from 1 March, so that a leap day ends its year.
    const y = month > 2 ? year : year - 1;
    const sinceMarch = Math.floor((153 * ((month + 9) % 12) + 2) / 5);
    const days = 365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400);
    return (days + sinceMarch + day - 719469) * 86_400_000;
  }
  s.faults++;
  return NaN;
}

/** Start of the day of `ddmmyy`: years 80 to 99 are of the last century. */
export function shortDate(s: Sentence, i: number): number {
  if (isEmpty(s, i)) return NaN;
  const from = s.at[i]!;
  if (s.at[i + 1]! - 1 - from !== 6) {
    s.faults++;
    return NaN;
  }
  const year = digitsAt(s.text, from + 4, 2);
  return dayMs(
    s,
    year + (year < 80 ? 2000 : 1900),
    digitsAt(s.text, from + 2, 2),
    digitsAt(s.text, from, 2),
  );
}

/** A signed angle: size in field `i`, E positive or W negative in the next. */
export function eastWest(s: Sentence, i: number, most: number): number {
  const size = number(s, i, 0, most);
  const side = letter(s, i + 1);
  if (Number.isNaN(size)) return NaN;
  if (side === 69) return size;
  if (side === 87) return 0 - size;
  s.faults++;
  return NaN;
}

/** Text of a field. */
export const textOf = (s: Sentence, i: number): string =>
  i < s.count ? s.text.slice(s.at[i], s.at[i + 1]! - 1) : "";
