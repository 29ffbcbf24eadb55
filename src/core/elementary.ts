/*
 * Logarithm, exponential and angles out of nothing but + - * / and square roots, which every engine rounds
 * alike: the engines' own differ in the last bit from one browser or version to the next. Within 2 units
 * in the last place. Coefficients by `.ci/elementary.mjs`, which also has the functions to 50 digits for
 * the tests.
 */
import { RAD } from "./angles.js";

/** Powers of two, from one that brings the greatest doubles down below 1. */
const LEAST_POWER = -1024;
const POWERS = powersOfTwo();

function powersOfTwo(): Float64Array {
  const powers = new Float64Array(1023 - LEAST_POWER + 1);
  powers[-LEAST_POWER] = 1;
  for (let k = 1; k <= 1023; k++) powers[k - LEAST_POWER] = 2 * powers[k - 1 - LEAST_POWER]!;
  for (let k = -1; k >= LEAST_POWER; k--)
    powers[k - LEAST_POWER] = powers[k + 1 - LEAST_POWER]! / 2;
  return powers;
}

/** Two doubles, and the halves of their bits that hold the exponents; written anew before every reading. */
const scratch = new Float64Array([1, 1]);
const words = new Int32Array(scratch.buffer);
const HIGH_WORD = words[0] === 0 ? 1 : 0;
const NEXT_HIGH_WORD = HIGH_WORD + 2;

const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;
const INVERSE_LN2 = 1.4426950408889634;
const TWO_54 = 18014398509481984;
/** Bits that the high word of 1 has and that of the root of 1/2 lacks: what lies above the root counts to the next power. */
const ROOT_HALF_TO_ONE = 0x3ff00000 - 0x3fe6a09e;

/** 2 atanh(s) over s less 2, of the square `z` of s up to 0.0404. */
function rest(z: number): number {
  const w = z * z;
  const even =
    0.6666666666666666 +
    w * (0.2857142856708121 + w * (0.18181735101382993 + w * 0.13207740003399568));
  const odd =
    0.40000000000008373 +
    w * (0.22222223080650141 + w * (0.15388968272897594 + w * 0.13624087269383922));
  return z * even + w * odd;
}

/** Logarithm of `1 + f` and `k` doublings, f from -0.3 to 0.42; `low` is what was lost of f. */
function logOfParts(f: number, k: number, low: number): number {
  const s = f / (2 + f);
  // 2 atanh s = f - s (f - rest).
  return k * LN2_HIGH + (f - (s * (f - rest(s * s)) - (k * LN2_LOW + low)));
}

/**
 * Logarithm of a / b by one division, both normal numbers above 0, neither so large or small that their
 * ratio is not; `over` / `under` is (a - b) / (a + b), which counts where the two are near each other.
 */
export function logOfRatio(a: number, b: number, over: number, under: number): number {
  let s = 0;
  let k = 0;
  if (over * over < 0.04 * (under * under)) s = over / under;
  else {
    scratch[0] = a;
    scratch[1] = b;
    // The doubling next to the ratio, taking the bits of a number for its logarithm.
    k = (words[HIGH_WORD]! - words[NEXT_HIGH_WORD]! + 0x80000) >> 20;
    const near = a * POWERS[-k - LEAST_POWER]!;
    s = (near - b) / (near + b);
  }
  return k * LN2_HIGH + (2 * s + (s * rest(s * s) + k * LN2_LOW));
}

/** Logarithm of a normal number above 0 of which `lost` was rounded off. */
function logOf(x: number, lost: number): number {
  scratch[0] = x;
  const k = ((words[HIGH_WORD]! + ROOT_HALF_TO_ONE) >> 20) - 1023;
  return logOfParts(x * POWERS[-k - LEAST_POWER]! - 1, k, lost === 0 ? 0 : lost / x);
}

/** Natural logarithm. */
export function log(x: number): number {
  if (x >= 2.2250738585072014e-308 && x < Infinity) return logOf(x, 0);
  if (x > 0) return x < 1 ? logOf(x * TWO_54, 0) - 54 * LN2_HIGH - 54 * LN2_LOW : x;
  return x === 0 ? -Infinity : NaN;
}

/** Natural logarithm of 1 + x, exact for small x too. */
export function log1p(x: number): number {
  if (x > -0.29 && x < 0.41) return x === 0 ? x : logOfParts(x, 0, 0);
  const u = 1 + x;
  if (!(u > 0 && u < Infinity)) return log(u);
  return logOf(u, x > 1 ? 1 - (u - x) : x - (u - 1));
}

/** Area hyperbolic tangent. */
export const atanh = (x: number): number =>
  x < 0 ? -0.5 * log1p((-2 * x) / (1 + x)) : 0.5 * log1p((2 * x) / (1 - x));

/** Exponential. */
export function exp(x: number): number {
  if (!(x < 709.79)) return x > 0 ? Infinity : NaN;
  if (!(x > -745.2)) return 0;
  const k = Math.round(x * INVERSE_LN2);
  const r = x - k * LN2_HIGH - k * LN2_LOW;
  const z = r * r;
  const w = z * z;
  const low =
    0.5000000000000001 +
    r * 0.16666666666666669 +
    z * (0.04166666666662416 + r * 0.008333333333330063);
  const mid =
    0.0013888888917199863 +
    r * 0.00019841269863042963 +
    z * (0.000024801521317484083 + r * 0.0000027557268476553695);
  const series = low + w * (mid + w * (2.7620078203806394e-7 + r * 2.5100377619606372e-8));
  const part = 1 + (r + z * series);
  if (k >= -1022 && k <= 1023) return part * POWERS[k - LEAST_POWER]!;
  return k > 0
    ? part * 2 * POWERS[k - 1 - LEAST_POWER]!
    : (part * POWERS[k + 54 - LEAST_POWER]!) / TWO_54;
}

/** Tangents of an eighth and three eighths of a half turn. */
const TAN_EIGHTH = 0.41421356237309503;
const TAN_THREE_EIGHTHS = 2.414213562373095;
const RIGHT_HIGH = 1.5707963267948966;
const RIGHT_LOW = 6.123233995736766e-17;

/** Angle whose tangent is t, from -0.42 to 0.42, without t itself. */
function atanRest(t: number): number {
  const z = t * t;
  const w = z * z;
  const even =
    -0.3333333333333333 +
    w *
      (-0.14285714285659806 +
        w *
          (-0.09090908753400499 +
            w * (-0.06666424833613552 + w * (-0.052304498567092406 + w * -0.034570044186095536))));
  const odd =
    0.19999999999999804 +
    w *
      (0.11111111105153429 +
        w *
          (0.07692296372129964 +
            w * (0.05878928398517232 + w * (0.0455157308666419 + w * 0.016285183029865667))));
  return t * (z * even + w * odd);
}

/** Angle of the direction (x, y) from the first axis, in radians. */
export function atan2(y: number, x: number): number {
  const a = Math.abs(y);
  const b = Math.abs(x);
  if (!(a > 0 && a + b < Infinity)) return atEdge(y, x);
  let angle: number;
  if (a <= TAN_EIGHTH * b) {
    const t = a / b;
    angle = t + atanRest(t);
  } else if (a < TAN_THREE_EIGHTHS * b) {
    const t = (a - b) / (a + b);
    angle = 0.5 * RIGHT_HIGH + (t + (atanRest(t) + 0.5 * RIGHT_LOW));
  } else {
    const t = -b / a;
    angle = RIGHT_HIGH + (t + (atanRest(t) + RIGHT_LOW));
  }
  const turned = x < 0 ? 2 * RIGHT_HIGH - (angle - 2 * RIGHT_LOW) : angle;
  return y < 0 ? -turned : turned;
}

/** {@link atan2} of nothing, of infinite and of very great sides. */
function atEdge(y: number, x: number): number {
  if (y !== y || x !== x) return NaN;
  const [a, b] = [Math.abs(y), Math.abs(x)];
  if (a < Infinity && b < Infinity && a + b > 0) return atan2(y / 4, x / 4);
  const whole = x < 0 || Object.is(x, -0);
  const steep = a === b && a > 0 ? 0.5 : a > 0 && (a === Infinity || b < Infinity) ? 1 : 0;
  const angle = (whole ? 2 - steep : steep) * RIGHT_HIGH;
  return y < 0 || Object.is(y, -0) ? -angle : angle;
}

/** Sine and cosine of up to 45 degrees, in radians. */
function sineOf(r: number): number {
  const z = r * r;
  const w = z * z;
  const even = -0.16666666666666666 + w * (-0.0001984126983675829 + w * -2.5051131814298756e-8);
  const odd = 0.008333333333330948 + w * (0.0000027557316102405114 + w * 1.5918127082718618e-10);
  return r + r * (z * even + w * odd);
}

function cosineOf(r: number): number {
  const z = r * r;
  const w = z * z;
  const even = 0.041666666666666664 + w * (0.00002480158729876551 + w * 2.0876146249194634e-9);
  const odd = -0.0013888888888887398 + w * (-2.755731727163763e-7 + w * -1.1382631041621262e-11);
  const half = 0.5 * z;
  const near = 1 - half;
  return near + (1 - near - half + w * (even + z * odd));
}

/** Sine of an angle in degrees; exact at whole right angles. */
export function sinDeg(deg: number): number {
  const quarter = Math.round(deg / 90);
  const r = (deg - 90 * quarter) * RAD;
  const part = (quarter & 1) === 0 ? sineOf(r) : cosineOf(r);
  return (quarter & 2) === 0 ? part : -part;
}

/** Cosine of an angle in degrees; exact at whole right angles. */
export function cosDeg(deg: number): number {
  const quarter = Math.round(deg / 90);
  const r = (deg - 90 * quarter) * RAD;
  const part = (quarter & 1) === 0 ? cosineOf(r) : -sineOf(r);
  return (quarter & 2) === 0 ? part : -part;
}
