import { describe, expect, test } from "vitest";
import { normalAt, normalShare } from "../../src/core/normal.js";
import { keyOf, mix, scramble, shareOf } from "../../src/sweep/random.js";
import { directionsOf, sobolBits, sobolStep } from "../../src/sweep/sobol.js";

describe("even sequence", () => {
  // scipy.stats.qmc.Sobol(10, scramble=False, bits=32).random(64), SciPy 1.17.1: points 5, 37 and 63, times 64.
  const SCIPY: [number, number[]][] = [
    [5, [56, 56, 8, 24, 56, 40, 56, 24, 24, 8]],
    [37, [59, 41, 37, 59, 49, 19, 11, 51, 39, 11]],
    [63, [1, 51, 23, 29, 55, 9, 37, 9, 53, 37]],
  ];
  test.each(SCIPY)("point %i is SciPy's", (index, expected) => {
    const point = expected.map((_, d) => sobolBits(directionsOf(d), index) / 2 ** 26);
    expect(point.map(Math.floor)).toEqual(expected);
  });

  test("stepping and asking agree, and every block of 2^k has one point in each of 2^k slices", () => {
    for (let d = 0; d < 10; d++) {
      const v = directionsOf(d);
      let point = 0;
      const seen = new Set<number>();
      for (let i = 0; i < 1024; i++) {
        expect(point >>> 0).toBe(sobolBits(v, i));
        seen.add(point >>> 22);
        point ^= sobolStep(v, i);
      }
      expect(seen.size).toBe(1024);
    }
  });
});

describe("draws by chance", () => {
  const N = 200_000;
  const column = (stream: number, seed = 7) => {
    const key = keyOf(seed, stream);
    const base = keyOf(seed, -1);
    return Float64Array.from({ length: N }, (_, i) => shareOf(mix(scramble(base, i, 0) + key)));
  };

  test("are even: chi-square of 256 bins within five sigma", () => {
    for (const stream of [0, 1, 7]) {
      const counts = new Float64Array(256);
      for (const u of column(stream)) counts[Math.floor(u * 256)]!++;
      const chi = counts.reduce((s, n) => s + (n - N / 256) ** 2 / (N / 256), 0);
      expect(Math.abs(chi - 255)).toBeLessThan(5 * Math.sqrt(2 * 255));
    }
  });

  test("hang neither on each other, nor on their neighbours, nor on the seed beside", () => {
    const about = (u: Float64Array, v: Float64Array, lag: number) => {
      let sum = 0;
      for (let i = 0; i + lag < N; i++) sum += (u[i]! - 0.5) * (v[i + lag]! - 0.5);
      return (12 * sum) / N;
    };
    const a = column(0);
    const pairs = [
      about(a, a, 1),
      about(a, a, 2),
      about(a, column(1), 0),
      about(a, column(0, 8), 0),
    ];
    for (const r of pairs) expect(Math.abs(r)).toBeLessThan(5 / Math.sqrt(N));
  });
});

describe("normal distribution", () => {
  // Abramowitz and Stegun, Handbook of Mathematical Functions, Table 26.1 (15 decimals).
  test.each([
    [0, 0.5],
    [1, 0.841344746068543],
    [2, 0.977249868051821],
    [3, 0.99865010196837],
  ])("share below %f", (x, share) => {
    expect(normalShare(x)).toBeCloseTo(share, 14);
    expect(normalShare(-x)).toBeCloseTo(1 - share, 14);
  });

  test("value and share undo each other", () => {
    for (let u = 1e-9; u < 1; u += 0.00317) expect(normalShare(normalAt(u))).toBeCloseTo(u, 14);
  });
});
