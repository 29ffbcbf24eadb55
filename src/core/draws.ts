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
