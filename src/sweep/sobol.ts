/** Primitive polynomial and first direction numbers of each dimension after the first. */
// S. Joe and F. Y. Kuo, SIAM J. Sci. Comput. 30 (2008) 2635-2654, file new-joe-kuo-6.21201; from memory, tested against SciPy's own copy.
const JOE_KUO: readonly { a: number; m: readonly number[] }[] = [
  { a: 0, m: [1] },
  { a: 1, m: [1, 3] },
  { a: 1, m: [1, 3, 1] },
  { a: 2, m: [1, 1, 1] },
  { a: 1, m: [1, 1, 3, 3] },
  { a: 4, m: [1, 3, 5, 13] },
  { a: 2, m: [1, 1, 5, 5, 17] },
  { a: 4, m: [1, 1, 5, 5, 5] },
  { a: 7, m: [1, 1, 7, 11, 19] },
];

/** Greatest number of dimensions of the sequence. */
export const SOBOL_DIMENSIONS = JOE_KUO.length + 1;

/** Direction numbers of a dimension, counted from 0: 32 words of 32 bits. */
export function directionsOf(dimension: number): Uint32Array {
  const v = new Uint32Array(32);
  const row = JOE_KUO[dimension - 1];
  if (row === undefined) {
    for (let k = 0; k < 32; k++) v[k] = (1 << (31 - k)) >>> 0;
    return v;
  }
  const { a, m } = row;
  const s = m.length;
  for (let k = 0; k < 32; k++) {
    if (k < s) {
      v[k] = (m[k]! << (31 - k)) >>> 0;
      continue;
    }
    let word = v[k - s]! ^ (v[k - s]! >>> s);
    for (let j = 1; j < s; j++) if ((a >>> (s - 1 - j)) & 1) word ^= v[k - j]!;
    v[k] = word >>> 0;
  }
  return v;
}

/** Point `index` of a dimension, in the order of the reflected code, as 32 bits. */
export function sobolBits(directions: Uint32Array, index: number): number {
  let code = (index ^ (index >>> 1)) >>> 0;
  let bits = 0;
  for (let k = 0; code !== 0; k++, code >>>= 1) if (code & 1) bits ^= directions[k]!;
  return bits >>> 0;
}

/** What turns point `index` into the next one: the word of its lowest bit that is 0. */
export const sobolStep = (directions: Uint32Array, index: number): number =>
  directions[31 - Math.clz32(~index & (index + 1))]!;
