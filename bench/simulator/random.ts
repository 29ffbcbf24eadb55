/** Seeded random numbers: one stream a night, so that night n is the same whatever ran before. */
export interface Random {
  /** Uniform on [0, 1). */
  uniform(): number;
  /** Uniform on [a, b). */
  between(a: number, b: number): number;
  /** Standard Gaussian. */
  gauss(): number;
  /** Exponential of a mean. */
  exponential(mean: number): number;
}

export function randomFrom(start: number): Random {
  // Splitmix-style mixing of a counter (public domain construction), 32 bits at a time.
  let counter = start >>> 0;
  const word = (): number => {
    counter = (counter + 0x9e3779b9) >>> 0;
    let z = counter;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return (z ^ (z >>> 15)) >>> 0;
  };
  const uniform = () => word() / 4294967296;
  return {
    uniform,
    between: (a, b) => a + (b - a) * uniform(),
    gauss: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
    exponential: (mean) => -mean * Math.log(1 - uniform()),
  };
}
