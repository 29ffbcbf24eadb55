const TWO_32 = 4294967296;

/** Scramble 32 bits: every bit of the result hangs on every bit put in. */
export function scramble(x: number): number {
  let h = x | 0;
  h = Math.imul(h ^ (h >>> 16), 0x7feb352d);
  h = Math.imul(h ^ (h >>> 15), 0x846ca68b);
  return (h ^ (h >>> 16)) >>> 0;
}

/** The prime after `n`. */
function primeAfter(n: number): number {
  for (let p = n + 1; ; p++) {
    let d = 2;
    while (d * d <= p && p % d !== 0) d++;
    if (d * d > p && p > 1) return p;
  }
}

/** Digits 0..base-1 shuffled by a key. */
function shuffled(base: number, key: number): Uint16Array {
  const digits = Uint16Array.from({ length: base }, (_, i) => i);
  let state = key;
  for (let i = base - 1; i > 0; i--) {
    state = scramble(state + 0x9e3779b9);
    const j = Math.floor((state / TWO_32) * (i + 1));
    const kept = digits[i]!;
    digits[i] = digits[j]!;
    digits[j] = kept;
  }
  return digits;
}

/**
 * Shares in (0, 1) that fill every dimension evenly: Halton's sequence, each digit shuffled by the seed, and
 * scattered inside the last interval. One column a dimension; share `i` of a column hangs on `i` and the seed
 * only, as long as `count` has the same number of digits.
 *
 * @source J. H. Halton, Numerische Mathematik 2 (1960) 84–90; shuffled digits after A. B. Owen
 */
export function evenShares(dimensions: number, count: number, seed: number): Float64Array[] {
  const columns: Float64Array[] = [];
  let base = 1;
  for (let d = 0; d < dimensions; d++) {
    base = primeAfter(base);
    columns.push(column(base, count, scramble(scramble(seed) + d)));
  }
  return columns;
}

function column(base: number, count: number, key: number): Float64Array {
  const shuffles: Uint16Array[] = [];
  for (let whole = 1; whole < count; whole *= base)
    shuffles.push(shuffled(base, scramble(key + shuffles.length)));
  return Float64Array.from({ length: count }, (_, i) => {
    let share = 0;
    let unit = 1;
    let left = i;
    for (const shuffle of shuffles) {
      unit /= base;
      share += shuffle[left % base]! * unit;
      left = Math.floor(left / base);
    }
    return share + unit * ((scramble(key ^ scramble(i)) + 0.5) / TWO_32);
  });
}

/** Coefficients of the rational approximations, by ascending power. */
const MIDDLE_TOP = [
  3.387132872796366608, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125,
  45921.953931549871457, 67265.770927008700853, 33430.575583588128105, 2509.0809287301226727,
];
const MIDDLE_BOTTOM = [
  1, 42.313330701600911252, 687.1870074920579083, 5394.1960214247511077, 21213.794301586595867,
  39307.89580009271061, 28729.085735721942674, 5226.495278852545925,
];
const TAIL_TOP = [
  1.42343711074968357734, 4.6303378461565452959, 5.7694972214606914055, 3.64784832476320460504,
  1.27045825245236838258, 0.24178072517745061177, 0.0227238449892691845833,
  7.7454501427834140764e-4,
];
const TAIL_BOTTOM = [
  1, 2.05319162663775882187, 1.6763848301838038494, 0.68976733498510000455, 0.14810397642748007459,
  0.0151986665636164571966, 5.475938084995344946e-4, 1.05075007164441684324e-9,
];
const FAR_TOP = [
  6.6579046435011037772, 5.4637849111641143699, 1.7848265399172913358, 0.29656057182850489123,
  0.026532189526576123093, 0.0012426609473880784386, 2.71155556874348757815e-5,
  2.01033439929228813265e-7,
];
const FAR_BOTTOM = [
  1, 0.59983220655588793769, 0.13692988092273580531, 0.0148753612908506148525,
  7.868691311456132591e-4, 1.8463183175100546818e-5, 1.4215117583164458887e-7,
  2.04426310338993978564e-15,
];

const powers = (c: readonly number[], x: number): number => {
  let sum = 0;
  for (let i = c.length - 1; i >= 0; i--) sum = sum * x + c[i]!;
  return sum;
};

/**
 * Sigmas from the middle of a normal spread below which a share of it lies.
 *
 * @source M. J. Wichura, Applied Statistics 37 (1988) 477–484, algorithm AS 241; relative error about 1e-16
 */
export function sigmasOf(share: number): number {
  const q = share - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (q * powers(MIDDLE_TOP, r)) / powers(MIDDLE_BOTTOM, r);
  }
  const r = Math.sqrt(-Math.log(q < 0 ? share : 1 - share));
  const z =
    r <= 5
      ? powers(TAIL_TOP, r - 1.6) / powers(TAIL_BOTTOM, r - 1.6)
      : powers(FAR_TOP, r - 5) / powers(FAR_BOTTOM, r - 5);
  return q < 0 ? -z : z;
}
