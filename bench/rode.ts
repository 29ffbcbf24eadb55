/**
 * The rode's kernels: forward and inverse, against nested bisection as one would first write it.
 *
 * Each case runs `n` times over the same rodes, prepared beforehand, and returns a sum so that no
 * work can be left out. `manyRodes` lays a given number of random rodes and reports the failures
 * and the worst misses: a million of them is the promise, too many for a test.
 */
import { layRode } from "../src/rode/index.js";
import { COLUMNS, HEIGHT, LOAD, REACH } from "../src/rode/kernel.js";
import { TOTAL_M, TOTAL_N } from "../src/rode/places.js";
import { prepareRode, type PieceData, type PreparedRode } from "../src/rode/prepare.js";
import { solveReach } from "../src/rode/reach.js";
import { solveForward } from "../src/rode/solve.js";
import { randomNumbers, randomRode } from "../tests/rodeRandom.js";

const COUNT = 4096;
const out = new Float64Array(COLUMNS);

interface Case {
  p: PreparedRode;
  /** From the bow down. */
  pieces: readonly PieceData[];
  heightM: number;
  loadN: number;
  reachM: number;
}

/** Rodes of the trade, the same every run: about seven in ten with some chain on the bottom. */
function rodes(withRope: boolean): Case[] {
  const random = randomNumbers(7);
  const even = (a: number, b: number) => a + (b - a) * random();
  const made: Case[] = [];
  while (made.length < COUNT) {
    const chain = {
      lengthM: withRope ? even(5, 40) : even(20, 70),
      weightInWaterNPerM: even(8, 28),
      axialStiffnessN: 8e6,
    };
    const rope = {
      lengthM: even(10, 60),
      weightInWaterNPerM: even(0.05, 0.3),
      axialStiffnessN: even(4e4, 2e5),
    };
    const segments = withRope ? [chain, rope] : [chain];
    const p = prepareRode({ segments });
    const heightM = even(3, 15);
    const loadN = Math.exp(even(Math.log(100), Math.log(6000)));
    if (heightM > 0.6 * p[TOTAL_M]!) continue;
    solveForward(p, heightM, loadN, out);
    made.push({ p, pieces: segments.toReversed(), heightM, loadN, reachM: out[REACH]! });
  }
  return made;
}

const chains = rodes(false);
const mixed = rodes(true);

/** Where the bow comes to lie, as the textbook has it: on a level bed without friction, pieces from the bow down. */
function byTextbook({ pieces }: Case, h: number, v: number): { x: number; z: number } {
  let [x, z] = [0, 0];
  let top = v;
  for (const { lengthM, weightInWaterNPerM: w, axialStiffnessN: ea } of pieces) {
    const low = Math.max(0, top - w * lengthM);
    const s = (top - low) / w;
    const a = h / w;
    x +=
      a * (Math.asinh(top / h) - Math.asinh(low / h)) + (h * s) / ea + (lengthM - s) * (1 + h / ea);
    z += a * (Math.sqrt(1 + (top / h) ** 2) - Math.sqrt(1 + (low / h) ** 2));
    z += (low * s + (w * s * s) / 2) / ea;
    top = low;
  }
  return { x, z };
}

/** Reach by bisection of the vertical load, 80 halvings. */
function bisected(c: Case, loadN: number): number {
  let [low, high] = [0, c.p[TOTAL_N]! + 100 * (loadN + c.p[TOTAL_N]!)];
  for (let k = 0; k < 80; k++) {
    const mid = (low + high) / 2;
    if (byTextbook(c, loadN, mid).z < c.heightM) low = mid;
    else high = mid;
  }
  return byTextbook(c, loadN, high).x;
}

/** Load at a reach by bisection of that. */
function bisectedLoad(c: Case): number {
  let [low, high] = [1e-3, 1e6];
  for (let k = 0; k < 80; k++) {
    const mid = Math.sqrt(low * high);
    if (bisected(c, mid) < c.reachM) low = mid;
    else high = mid;
  }
  return high;
}

const over = (all: readonly Case[], one: (c: Case) => number) => (n: number) => {
  let sum = 0;
  for (let k = 0; k < n; k++) sum += one(all[k & (COUNT - 1)]!);
  return sum;
};
// The kernels in loops of their own: a call through a variable would be timed with them.
const forward = (all: readonly Case[]) => (n: number) => {
  let sum = 0;
  for (let k = 0; k < n; k++) {
    const { p, heightM, loadN } = all[k & (COUNT - 1)]!;
    solveForward(p, heightM, loadN, out);
    sum += out[REACH]!;
  }
  return sum;
};
const inverse = (all: readonly Case[]) => (n: number) => {
  let sum = 0;
  for (let k = 0; k < n; k++) {
    const { p, heightM, reachM } = all[k & (COUNT - 1)]!;
    solveReach(p, heightM, reachM, out);
    sum += out[LOAD]!;
  }
  return sum;
};

/** Cases: a name, the most it may take, and a run of `n` operations. */
export const cases = [
  {
    name: "rode, chain: load to reach",
    why: "a grounded chain takes its closed form, one logarithm and a root, near the goal; three rodes in ten of the set are lifted from the anchor and take an iterated square, a root and a logarithm, and the logarithm is of our own making so that every engine gives the same bits",
    against: "rode, naive, chain: load to reach by bisection",
    goalRatio: 60,
    goalNs: 60,
    run: forward(chains),
  },
  {
    name: "rode, chain and rope: load to reach",
    against: "rode, naive: load to reach by bisection",
    goalRatio: 30,
    goalNs: 150,
    run: forward(mixed),
  },
  { name: "rode, chain: reach to load", run: inverse(chains) },
  {
    name: "rode, chain and rope: reach to load",
    against: "rode, naive: reach to load by nested bisection",
    goalRatio: 300,
    goalNs: 890,
    run: inverse(mixed),
  },
  {
    name: "rode, naive, chain: load to reach by bisection",
    run: over(chains, (c) => bisected(c, c.loadN)),
  },
  {
    name: "rode, naive: load to reach by bisection",
    run: over(mixed, (c) => bisected(c, c.loadN)),
  },
  {
    name: "rode, naive: reach to load by nested bisection",
    run: over(mixed, bisectedLoad),
  },
  {
    name: "rode, public function: checked and described",
    run: over(
      mixed,
      ({ heightM, loadN }) =>
        layRode({
          segments: [
            {
              kind: "chain",
              lengthM: 30,
              weightInWaterNPerM: 19.18,
              axialStiffnessN: 8.5e6,
            },
            {
              kind: "rope",
              lengthM: 40,
              weightInWaterNPerM: 0.1177,
              axialStiffnessN: 1.1e5,
            },
          ],
          bowHeightAboveAnchorM: heightM,
          horizontalLoadN: loadN,
        }).horizontalReachM,
    ),
  },
];

/** Lay `count` random rodes and find each again from its reach. */
export function manyRodes(count: number, seed: number) {
  const random = randomNumbers(seed);
  const tally = {
    laid: 0,
    noLie: 0,
    failed: 0,
    worstHeightM: 0,
    worstReachM: 0,
  };
  for (let k = 0; k < count; k++) {
    const { prepared, heightM, loadN } = randomRode(random);
    if (solveForward(prepared, heightM, loadN, out) < 0) {
      tally.noLie++;
      continue;
    }
    tally.laid++;
    const reachM = out[REACH]!;
    const first = Math.abs(out[HEIGHT]! - heightM);
    if (loadN > 0) solveReach(prepared, heightM, reachM, out);
    const miss = Math.abs(out[REACH]! - reachM);
    const height = Math.max(first, Math.abs(out[HEIGHT]! - heightM));
    if (!(miss <= 1e-8 && height <= 1e-8)) tally.failed++;
    else {
      tally.worstHeightM = Math.max(tally.worstHeightM, height);
      tally.worstReachM = Math.max(tally.worstReachM, miss);
    }
  }
  return tally;
}
