import type { PointLoad, RodeData } from "../src/rode/prepare.js";
import { randomNumbers } from "./rodeRandom.js";

/** A rode, and the height and load that it is laid to. */
export interface Drawn {
  rode: RodeData;
  heightM: number;
  loadN: number;
}

/** A piece by its length, weight and stiffness. */
export const piece = (lengthM: number, weightInWaterNPerM: number, axialStiffnessN: number) => ({
  lengthM,
  weightInWaterNPerM,
  axialStiffnessN,
});

type Random = () => number;
const between = (random: Random, a: number, b: number): number => a + (b - a) * random();
const spread = (random: Random, a: number, b: number): number =>
  Math.exp(between(random, Math.log(a), Math.log(b)));
const within = (random: Random, [a, b]: readonly [number, number]): number => spread(random, a, b);

const chain = (r: Random, lengthM: number, stretch = 1) => ({
  lengthM,
  weightInWaterNPerM: between(r, 5, 60),
  axialStiffnessN: spread(r, 1e6, 2e7) / stretch,
});
const rope = (r: Random, lengthM: number, stretch = 1) => ({
  lengthM,
  weightInWaterNPerM: spread(r, 0.02, 1.5),
  axialStiffnessN: spread(r, 2e4, 1e6) / stretch,
});
const long = (r: Random): number => spread(r, 2, 100);

/** Pieces from the anchor to the bow, by the kind of rode. */
const PIECES = {
  chain: (r: Random) => [chain(r, long(r))],
  rope: (r: Random) => [rope(r, long(r))],
  "chain and rope": (r: Random) => [chain(r, long(r)), rope(r, long(r))],
  "rope and chain": (r: Random) => [rope(r, long(r)), chain(r, long(r))],
  "chain, rope, chain": (r: Random) => [chain(r, long(r)), rope(r, long(r)), chain(r, long(r))],
  "rope, chain, rope": (r: Random) => [rope(r, long(r)), chain(r, long(r)), rope(r, long(r))],
  "five pieces": (r: Random) =>
    Array.from({ length: 5 }, () => (r() < 0.5 ? chain(r, long(r)) : rope(r, long(r)))),
  "very stiff": (r: Random) => [chain(r, long(r), 1e-6), chain(r, long(r), 1e-6), rope(r, 5, 1e-6)],
  "very soft": (r: Random) => [chain(r, long(r), 1e4), rope(r, long(r), 1e2), rope(r, 5, 1e2)],
  "chain with a weight": (r: Random) => [chain(r, long(r))],
  "rope with a weight": (r: Random) => [chain(r, long(r)), rope(r, long(r))],
  "rope with two weights": (r: Random) => [chain(r, long(r)), rope(r, long(r))],
  "chain with a float": (r: Random) => [chain(r, long(r))],
  "rope with a float": (r: Random) => [chain(r, long(r)), rope(r, long(r))],
  "rope with a float and a weight": (r: Random) => [chain(r, long(r)), rope(r, long(r))],
};
export type Kind = keyof typeof PIECES;
export const KINDS = Object.keys(PIECES) as Kind[];

/** Weights and floats hung on it. */
const HUNG: Partial<Record<Kind, readonly ("weight" | "float")[]>> = {
  "chain with a weight": ["weight"],
  "rope with a weight": ["weight"],
  "rope with two weights": ["weight", "weight"],
  "chain with a float": ["float"],
  "rope with a float": ["float"],
  "rope with a float and a weight": ["float", "weight"],
};

/** Slopes of the bed in degrees, and friction. */
const BEDS = {
  level: [0, 0, 0],
  rising: [1, 20, 0],
  falling: [-20, -1, 0],
  rough: [0, 0, 1],
  "rough and sloping": [-8, 8, 1],
} as const;
export type Bed = keyof typeof BEDS;
export const BED_KINDS = Object.keys(BEDS) as Bed[];

/** Loads, N. */
export const LOADS = [
  [1e-6, 1e-2],
  [1e-2, 10],
  [10, 1e3],
  [1e3, 1e6],
] as const;
/** Heights by the length of the rode. */
export const HEIGHTS = [
  [1e-5, 1e-2],
  [0.02, 0.3],
  [0.3, 0.9],
  [0.9, 1.05],
] as const;

function hungOn(r: Random, kind: Kind, lengthM: number): PointLoad[] {
  return (HUNG[kind] ?? []).map((what) => ({
    fromAnchorM: between(r, 0, 0.95) * lengthM,
    weightInWaterN: what === "weight" ? spread(r, 5, 1000) : -spread(r, 5, 100),
  }));
}

/** Rodes of one kind on one bed, drawn at random from the seed, laid to loads and heights of one band. */
export function drawSet(
  kind: Kind,
  bed: Bed,
  load: number,
  height: number,
  count: number,
): Drawn[] {
  const seed =
    1 + KINDS.indexOf(kind) + 100 * BED_KINDS.indexOf(bed) + 1000 * load + 10000 * height;
  const r = randomNumbers(seed);
  return Array.from({ length: count }, () => {
    const segments = PIECES[kind](r);
    const lengthM = segments.reduce((sum, s) => sum + s.lengthM, 0);
    const weights = hungOn(r, kind, lengthM);
    const [from, to, friction] = BEDS[bed];
    const seabedSlopeDeg = between(r, from, to);
    const bedFriction = friction * r();
    const heightM = lengthM * within(r, HEIGHTS[height]!);
    const loadN = within(r, LOADS[load]!);
    return { rode: { segments, weights, seabedSlopeDeg, bedFriction }, heightM, loadN };
  });
}
