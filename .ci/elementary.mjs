// Coefficients of src/core/elementary.ts, and the functions themselves to 50 digits: power series whose
// terms are fractions, summed in whole numbers. `node .ci/elementary.mjs` prints the coefficients, each
// series replaced by the polynomial that agrees with it at the Chebyshev points of its interval.
import { pathToFileURL } from "node:url";

const BITS = 256n;
const ONE = 1n << BITS;
const times = (a, b) => (a * b) >> BITS;
const over = (a, b) => (a << BITS) / b;

/** A double as a fixed-point number, exactly (as long as it is no smaller than 2^-200 or so). */
export function fixed(x) {
  let k = 0;
  while (!Number.isInteger(x)) {
    x *= 2;
    k++;
  }
  return (BigInt(x) << BITS) >> BigInt(k);
}

/** A fixed-point number as the double next to it. */
export function double(a) {
  const size = a < 0n ? -a : a;
  const drop = BigInt(Math.max(0, size.toString(2).length - 53));
  if (drop === 0n) return Number(a) / 2 ** Number(BITS);
  const rest = size & ((1n << drop) - 1n);
  const half = 1n << (drop - 1n);
  const down = size >> drop;
  const kept = rest > half || (rest === half && (down & 1n) === 1n) ? down + 1n : down;
  const value = Number(kept) * 2 ** (Number(drop) - Number(BITS));
  return a < 0n ? -value : value;
}

function seriesOf(term, z) {
  let sum = 0n;
  let power = ONE;
  for (let k = 0; ; k++) {
    const next = times(term(k), power);
    sum += next;
    if (k > 3 && (next < 0n ? -next : next) < 4n) return sum;
    power = times(power, z);
  }
}

const factorial = (n) => (n < 2 ? 1n : BigInt(n) * factorial(n - 1));
const sign = (k) => (k % 2 === 0 ? 1n : -1n);

/** Series in z and the interval it is used on: log((1+s)/(1-s)) = 2 s + s z A(z) with z = s², and so on. */
const SERIES = {
  LOG: { term: (k) => (2n * ONE) / BigInt(2 * k + 3), low: 0, high: 0.0404, count: 8 },
  ATAN: { term: (k) => (sign(k + 1) * ONE) / BigInt(2 * k + 3), low: 0, high: 0.17158, count: 12 },
  SIN: { term: (k) => (sign(k + 1) * ONE) / factorial(2 * k + 3), low: 0, high: 0.61686, count: 6 },
  COS: { term: (k) => (sign(k) * ONE) / factorial(2 * k + 4), low: 0, high: 0.61686, count: 6 },
  EXP: { term: (k) => ONE / factorial(k + 2), low: -0.34658, high: 0.34658, count: 10 },
};

/** Polynomial through the series at `count` Chebyshev points, by ascending power. */
function polynomialOf({ term, low, high, count }) {
  const nodes = Array.from({ length: count }, (_, i) =>
    fixed((low + high) / 2 + ((high - low) / 2) * Math.cos((Math.PI * (2 * i + 1)) / (2 * count))),
  );
  const divided = nodes.map((z) => seriesOf(term, z));
  for (let level = 1; level < count; level++)
    for (let i = count - 1; i >= level; i--)
      divided[i] = over(divided[i] - divided[i - 1], nodes[i] - nodes[i - level]);
  let powers = [];
  for (let i = count - 1; i >= 0; i--) {
    const shifted = [0n, ...powers];
    powers.forEach((p, k) => {
      shifted[k] -= times(p, nodes[i]);
    });
    shifted[0] += divided[i];
    powers = shifted;
  }
  return powers.slice(0, count).map(double);
}

/** All coefficients by name. */
export const coefficients = () =>
  Object.fromEntries(Object.entries(SERIES).map(([name, s]) => [name, polynomialOf(s)]));

/** 2 atanh(s). */
function twiceAtanh(s) {
  const z = times(s, s);
  return times(s, 2n * ONE + times(z, seriesOf(SERIES.LOG.term, z)));
}
const LN2 = twiceAtanh(ONE / 3n);

function logOf(a) {
  let k = 0n;
  for (; a > 2n * ONE; a >>= 1n) k++;
  for (; a < ONE; a <<= 1n) k--;
  return k * LN2 + twiceAtanh(over(a - ONE, a + ONE));
}

function atanOf(t) {
  if (t < 0n) return -atanOf(-t);
  // atan t = atan 1/2 + atan((t - 1/2) / (1 + t/2)), until the series is quick.
  if (3n * t > ONE) return HALF + atanOf(over(2n * t - ONE, 2n * ONE + t));
  const z = times(t, t);
  return t + times(t, times(z, seriesOf(SERIES.ATAN.term, z)));
}
/** The right angle, by Machin's sum 16 atan 1/5 - 4 atan 1/239 for two of them. */
const small = (n) => seriesOf((k) => (sign(k) * ONE) / (BigInt(2 * k + 1) * n), ONE / n / n);
const RIGHT = (16n * small(5n) - 4n * small(239n)) / 2n;
const HALF = RIGHT / 2n - seriesOf((k) => (sign(k) * ONE) / (BigInt(2 * k + 1) * 3n), ONE / 9n);

/** Sine of an angle in degrees, both in fixed point. */
function sine(deg) {
  const turned = ((deg % (360n * ONE)) + 360n * ONE) % (360n * ONE);
  if (turned >= 180n * ONE) return -sine(turned - 180n * ONE);
  const angle = (turned * RIGHT) / (90n * ONE);
  const z = times(angle, angle);
  return times(angle, ONE + times(z, seriesOf(SERIES.SIN.term, z)));
}

/** The functions of doubles, in fixed point. */
export const exact = {
  log: (x) => logOf(fixed(x)),
  log1p: (x) => logOf(ONE + fixed(x)),
  logOfRatio: (a, b) => logOf(fixed(a)) - logOf(fixed(b)),
  exp: (x) => {
    const a = fixed(x);
    const k = a / LN2;
    const part = seriesOf((n) => ONE / factorial(n), a - k * LN2);
    return k >= 0n ? part << k : part >> -k;
  },
  atanh: (x) => twiceAtanh(fixed(x)) / 2n,
  atan2: (y, x) => {
    if (y < 0) return -exact.atan2(-y, x);
    const [a, b] = [fixed(y), fixed(Math.abs(x))];
    const sharp = a <= b ? atanOf(over(a, b)) : RIGHT - atanOf(over(b, a));
    return x < 0 ? 2n * RIGHT - sharp : sharp;
  },
  sinDeg: (deg) => sine(fixed(deg)),
  cosDeg: (deg) => sine(fixed(deg) + 90n * ONE),
};

/** A constant in two doubles, the first with `bits` bits only. */
function inTwo(a, bits) {
  const drop = BigInt(a.toString(2).length - bits);
  const high = (a >> drop) << drop;
  return [double(high), double(a - high)];
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "-").href) {
  console.log(coefficients());
  console.log({
    LN2: inTwo(LN2, 32),
    RIGHT: inTwo(RIGHT, 53),
    INVERSE_LN2: double(over(ONE, LN2)),
  });
}
