/** Scramble 32 bits: a bijection in which every bit of the result hangs on every bit put in. */
export function mix(x: number): number {
  let h = x | 0;
  h = Math.imul(h ^ (h >>> 17), 0xed5ad4bb);
  h = Math.imul(h ^ (h >>> 11), 0xac4c1b51);
  h = Math.imul(h ^ (h >>> 15), 0x31848bab);
  return (h ^ (h >>> 14)) >>> 0;
}

/** Number of values of 32 bits. */
export const TWO_32 = 4294967296;

/** Key of one stream of numbers, out of the seed and the stream's own number. */
export const keyOf = (seed: number, stream: number): number =>
  mix(mix(mix(seed % TWO_32) ^ Math.floor(seed / TWO_32)) + Math.imul(stream + 1, 0x9e3779b1));

/** Bits that an index is scrambled to, the same for every stream of a seed; the index by its low and high 32 bits. */
export const scramble = (seedKey: number, low: number, high: number): number =>
  mix(mix(low ^ seedKey) + Math.imul(high, 0x85ebca6b));

/** The middle of the share of (0, 1) that 32 bits stand for: never 0, never 1. */
export const shareOf = (bits: number): number => (bits + 0.5) / TWO_32;
