import type { SweepInput } from "../src/sweep/index.js";

/** A grid with draws that go together, over chain and rope, holding included. */
export const mixedSpec = {
  title: "test",
  statics: {
    vessel: { kind: "yacht", lengthM: 11 },
    rode: { chainMm: 10, rope: { fibre: "polyamide", diameterMm: 14 } },
  },
  axes: [
    { name: "seabed", values: ["sand, firm", "mud, soft", "rock"] },
    { name: "lengthOutM", from: 20, to: 60, count: 4 },
  ],
  draws: [
    { name: "windMps", spread: "weibull", scale: 11, shape: 2 },
    { name: "depthM", spread: "triangular", low: 3, likely: 6, high: 14 },
    { name: "streamMps", spread: "choice", values: [0, 0.5, 1], weights: [2, 1, 1] },
    { name: "streamTowardsDeg", spread: "normal", mean: 350, sigma: 40 },
    { name: "anchorMassKg", spread: "logNormal", median: 16, sigmaLog: 0.2 },
  ],
  correlations: [{ between: ["windMps", "depthM"], rho: 0.6 }],
  fixed: { chainM: 25, anchorType: "fixedPlough" },
  rows: 12_000,
  seed: 20260601,
  chunkRows: 250,
} as const;

/** The same as a caller's input. */
export const mixed = mixedSpec as unknown as SweepInput;

/** A draw from an even spread. */
export const uniform = (name: string, low: number, high: number) =>
  ({ name, spread: "uniform", low, high }) as const;

/** Wind, depth and length drawn; how the rode and the anchor stand it. */
export const drawn = (withRope: boolean, rows: number): SweepInput => ({
  statics: {
    vessel: { kind: "yacht", lengthM: 11 },
    rode: { chainMm: 10, ...(withRope && { rope: { fibre: "polyamide", diameterMm: 14 } }) },
  },
  draws: [uniform("windMps", 5, 25), uniform("depthM", 3, 12), uniform("lengthOutM", 35, 70)],
  fixed: {
    ...(withRope && { chainM: 25 }),
    anchorMassKg: 16,
    anchorType: "fixedPlough",
    seabed: "sand, firm",
  },
  outputs: ["reachM", "bowTensionN", "pullAngleDeg", "holdingUsed"],
  rows,
  seed: 1,
});
