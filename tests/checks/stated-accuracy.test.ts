import { expect, test } from "vitest";
import { distance } from "../../src/geo/index.js";
import { countIn, emptySketch, quantileIn } from "../../src/sweep/sketch.js";
import { swingCircle } from "../../src/swing/index.js";
import { cusumRunLength, errorRadius } from "../../src/watch/index.js";

// Accuracies that doc comments state and that no check value shows, each against an independent reckoning.

test("error radius: 1e-9 against integration over the disc", () => {
  // Share of an elliptic Gaussian inside a radius: one integral round the circle, for which the trapezoid rule has no error to speak of.
  const shareWithin = (r: number, a: number, b: number): number => {
    const n = 200_000;
    let sum = 0;
    for (let i = 0; i < n; i++) {
      const t = (2 * Math.PI * (i + 0.5)) / n;
      const g = (Math.cos(t) / a) ** 2 + (Math.sin(t) / b) ** 2;
      sum += -Math.expm1((-r * r * g) / 2) / g;
    }
    return sum / (n * a * b);
  };
  for (const [sigma1M, sigma2M] of [
    [2, 1.5],
    [3, 3],
    [1, 20],
    [0.1, 50],
  ] as const)
    for (const share of [0.05, 0.5, 0.95, 0.999]) {
      const r = errorRadius({ sigma1M, sigma2M, share });
      const step = 1e-4 * r;
      const density =
        (shareWithin(r + step, sigma1M, sigma2M) - shareWithin(r - step, sigma1M, sigma2M)) /
        (2 * step);
      const off = (shareWithin(r, sigma1M, sigma2M) - share) / density;
      expect(Math.abs(off) / r).toBeLessThan(1e-9);
    }
});

/** Nodes and weights of Gauss and Legendre on 0..1, by Newton's method on the recurrence. */
function gaussLegendre(n: number): [x: number, w: number][] {
  return Array.from({ length: n }, (_, i) => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let k = 0; k < 50; k++) {
      let [p, before] = [1, 0];
      for (let j = 1; j <= n; j++) [p, before] = [((2 * j - 1) * x * p - (j - 1) * before) / j, p];
      slope = (n * (x * p - before)) / (x * x - 1);
      x -= p / slope;
    }
    return [(x + 1) / 2, 1 / ((1 - x * x) * slope * slope)];
  });
}

const density = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/** Share of a standard Gaussian below z, by the same nodes. */
function shareBelow(z: number, nodes: readonly [number, number][]): number {
  const sum = nodes.reduce((s, [x, w]) => s + w * density(x * z), 0) * z;
  return 0.5 + sum;
}

/** Page's integral equation for one side, with 200 nodes and plain elimination. */
function runLength(k: number, h: number, shift: number): number {
  const nodes = gaussLegendre(200);
  const at = [0, ...nodes.map(([x]) => x * h)];
  // L(s) = 1 + L(0) P(next <= 0) + integral of L(y) density(y + k - s - shift) over 0..h
  const rows = at.map((s, i) => [
    ...at.map((y, j) => {
      const kernel =
        j === 0
          ? shareBelow(k - s - shift, nodes)
          : h * nodes[j - 1]![1] * density(y + k - s - shift);
      return (i === j ? 1 : 0) - kernel;
    }),
    1,
  ]);
  const n = rows.length;
  for (let p = 0; p < n; p++) {
    const best = rows
      .slice(p)
      .reduce((b, r, i) => (Math.abs(r[p]!) > Math.abs(rows[b]![p]!) ? p + i : b), p);
    [rows[p], rows[best]] = [rows[best]!, rows[p]!];
    for (let i = p + 1; i < n; i++) {
      const factor = rows[i]![p]! / rows[p]![p]!;
      for (let j = p; j <= n; j++) rows[i]![j]! -= factor * rows[p]![j]!;
    }
  }
  const out = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    let sum = rows[i]![n]!;
    for (let j = i + 1; j < n; j++) sum -= rows[i]![j]! * out[j]!;
    out[i] = sum / rows[i]![i]!;
  }
  return out[0]!;
}

test("run length: exact form 1e-9 against 200-node quadrature, approximation within 1 % from 4 on", () => {
  for (const [allowanceSigma, limitSigma, shiftSigma] of [
    [0.5, 4, 0],
    [0.5, 5, 1],
    [0.25, 8, 0],
  ] as const) {
    const q = { allowanceSigma, limitSigma, shiftSigma };
    const reference = runLength(allowanceSigma, limitSigma, shiftSigma);
    expect(Math.abs(cusumRunLength(q) / reference - 1)).toBeLessThan(1e-9);
    const rough = cusumRunLength({ ...q, method: "siegmund" });
    expect(Math.abs(rough / reference - 1)).toBeLessThan(0.01);
  }
});

test("swinging circle: the outline lies outside by less than 0.1 %", () => {
  for (const latDeg of [0, -34, 50, 80]) {
    const anchor = { latDeg, lonDeg: 179.9999 };
    const circle = swingCircle({ anchor, reachM: 60, lengthM: 12, anchorErrorM: 5 });
    const ring = circle.polygon.map(
      (p) => distance({ from: anchor, to: p }).distanceM / circle.radiusM,
    );
    // The middles of the sides touch the circle: the corners lie out by 1 / cos of half a side's angle.
    const side = Math.cos(Math.PI / ring.length);
    for (const r of ring) {
      expect(r).toBeLessThan(1.001);
      expect(r * side).toBeGreaterThan(1 - 1e-6);
    }
  }
});

test("sweeps: quantiles within 0.5 %", () => {
  const sketch = emptySketch();
  for (let i = 1; i <= 20_001; i++) countIn(sketch, i / 100);
  for (const share of [0.01, 0.05, 0.5, 0.95, 0.999]) {
    // The value at that place of the sorted list.
    const exact = (1 + share * 20_000) / 100;
    expect(Math.abs(quantileIn(sketch, share)! / exact - 1)).toBeLessThan(0.005);
  }
});
