/**
 * Sweeps: a million scenarios of the statics model against a loop with an object and a check for each
 * scenario, whole stays, threads, and memory while ten million rows stream by.
 */
import path from "node:path";
import * as z from "zod/mini";
import { readInput } from "../src/cli/readInput.js";
import { check } from "../src/core/check.js";
import { metres, speed } from "../src/core/schema.js";
import { anchorTypes, bedNames } from "../src/holding/beds.js";
import { holdingTable, shareAt } from "../src/sweep/holdingTable.js";
import { LIE, lieCoefficients, lieKernel } from "../src/lie/kernel.js";
import { vesselFrom } from "../src/lie/vessel.js";
import {
  ANCHOR_HORIZONTAL,
  ANCHOR_VERTICAL,
  BOW_TENSION,
  COLUMNS,
  REACH,
} from "../src/rode/kernel.js";
import { prepareRode } from "../src/rode/prepare.js";
import { solveForward } from "../src/rode/solve.js";
import { chain, rope } from "../src/rode/tackle.js";
import type { StayInput } from "../src/plan/input.js";
import { sweepInput, type SweepInput } from "../src/sweep/input.js";
import { layOut } from "../src/sweep/layout.js";
import { sweepPool } from "../src/sweep/node/pool.js";
import { columnNames, runRows } from "../src/sweep/run.js";
import { sweep } from "../src/sweep/sweep.js";
import type { Figure } from "./harness.js";

const ROWS = 1_000_000;
const uniform = (name: string, low: number, high: number) =>
  ({ name, spread: "uniform", low, high }) as const;

/** Wind, depth and length drawn; how the rode and the anchor stand it. */
const spec = (withRope: boolean, rows = ROWS): SweepInput => ({
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

const CHUNK = 8192;

/** Scenarios as the sweep runs them, chunk after chunk. */
function columnar(withRope: boolean) {
  const l = layOut(check(sweepInput, spec(withRope)));
  const table = new Float64Array(CHUNK * columnNames(l).length);
  return (n: number): number => {
    let sum = 0;
    for (let at = 0; at < n; at += CHUNK) {
      const rows = Math.min(CHUNK, n - at);
      runRows(l, at % (ROWS - CHUNK), rows, table);
      sum += table[rows * 3]!;
    }
    return sum;
  };
}

const scenario = z.strictObject({
  windMps: speed({ max: 90 }),
  depthM: metres({ min: 0.1, max: 500 }),
  lengthOutM: metres({ above: 0, max: 4000 }),
});
const vessel = vesselFrom({ kind: "yacht", lengthM: 11 });

/** As one would first write it: an object checked, an object back, everything made anew. */
function byObjects(withRope: boolean) {
  const l = layOut(check(sweepInput, spec(withRope)));
  const table = new Float64Array(CHUNK * columnNames(l).length);
  runRows(l, 0, CHUNK, table);
  const c = lieCoefficients(vessel);
  // Worked out once, as in the sweep: asked anew it would cost more than all the rest.
  const { at, share } = holdingTable(
    anchorTypes.indexOf("fixedPlough"),
    bedNames.indexOf("sand, firm"),
    false,
  );
  const { likelyN } = at(16);
  const links = chain(10);
  const line = rope("polyamide", 14);
  const one = (r: number) => {
    const s = check(scenario, {
      windMps: table[r]!,
      depthM: table[CHUNK + r]!,
      lengthOutM: table[2 * CHUNK + r]!,
    });
    const wind = new Float64Array(LIE.length);
    lieKernel(c, s.windMps, 0, 0, 0, wind);
    const laid = new Float64Array(COLUMNS);
    const segments = withRope
      ? [
          { ...links, lengthM: 25 },
          { ...line, lengthM: s.lengthOutM - 25 },
        ]
      : [{ ...links, lengthM: s.lengthOutM }];
    solveForward(prepareRode({ segments }), s.depthM + vessel.bowHeightM, wind[LIE.pullN]!, laid);
    const pullAngleDeg =
      (Math.atan2(laid[ANCHOR_VERTICAL]!, laid[ANCHOR_HORIZONTAL]!) * 180) / Math.PI;
    return {
      ...s,
      reachM: laid[REACH]!,
      bowTensionN: laid[BOW_TENSION]!,
      pullAngleDeg,
      holdingUsed: wind[LIE.pullN]! / (likelyN * shareAt(share, pullAngleDeg)),
    };
  };
  return (n: number): number => {
    let sum = 0;
    for (let k = 0; k < n; k++) sum += one(k % CHUNK).reachM;
    return sum;
  };
}

const stay = {
  ...(readInput("shared/scenarios/gannick-bay.json") as StayInput),
  stepMs: 1_800_000,
};
stay.tackle = { ...stay.tackle, lengthOutM: 45 };

function nights(outputs?: string[]) {
  const l = layOut(
    check(sweepInput, {
      stay,
      draws: [
        uniform("windFactor", 0.5, 2),
        uniform("windTurnDeg", -40, 40),
        uniform("surgeM", -0.4, 0.6),
      ],
      rows: 100_000,
      seed: 1,
      ...(outputs && { outputs }),
    }),
  );
  return (n: number): number => {
    const table = new Float64Array(n * columnNames(l).length);
    runRows(l, 0, n, table);
    return table[3 * n]!;
  };
}

/** Cases: a name, what it is held against and by how much, and a run of `n` operations. */
export const cases = [
  {
    name: "sweep, chain: a scenario in columns",
    against: "sweep, chain: a scenario as checked objects",
    goalRatio: 5,
    goalNs: 160,
    run: columnar(false),
  },
  { name: "sweep, chain: a scenario as checked objects", run: byObjects(false) },
  {
    name: "sweep, chain and rope: a scenario in columns",
    why: "the solution of chain and rope takes four fifths of the goal, and drawing, pull and holding as much again as for chain",
    against: "sweep, chain and rope: a scenario as checked objects",
    goalRatio: 5,
    goalNs: 160,
    run: columnar(true),
  },
  { name: "sweep, chain and rope: a scenario as checked objects", run: byObjects(true) },
  {
    name: "sweep: a night of 16 h by 30 min, length out given",
    against: "sweep: the same night judged whole, chart and sea included",
    goalNs: 1e6,
    run: nights(),
  },
  { name: "sweep: the same night judged whole, chart and sea included", run: nights(["verdict"]) },
];

/** Wall clock, the same from the first chunk on, and processor time of a large sweep, seconds. */
async function secondsOf(threads: number) {
  const started = performance.now();
  const before = process.cpuUsage();
  const workerFile = path.resolve("temp/sweep-worker.js");
  let [sum, firstAt] = [0, NaN];
  const pool = sweepPool(spec(true, 32 * ROWS), { threads, workerFile, sameMemory: true });
  for await (const c of pool) {
    sum += c.columns["reachM"]![0]!;
    if (c.from === 0) firstAt = performance.now();
  }
  if (Number.isNaN(sum)) throw new Error("no figure");
  const { user, system } = process.cpuUsage(before);
  const ended = performance.now();
  return {
    wall: (ended - started) / 1000,
    underWay: (ended - firstAt) / 1000,
    processor: (user + system) / 1e6,
  };
}

const peakOf = (): number => process.memoryUsage().rss / 2 ** 20;

/** Memory above the base while rows stream by. */
async function memory(): Promise<number> {
  for await (const c of sweep(spec(true, 200_000))) if (Number.isNaN(c.rows)) break;
  globalThis.gc?.();
  const base = peakOf();
  let peak = base;
  for await (const c of sweep(spec(true, 10_000_000)))
    if (c.from % (64 * CHUNK) === 0) peak = Math.max(peak, peakOf());
  return peak - base;
}

/** Memory and threads, which have no processor time of an operation. */
export async function figures(): Promise<Figure[]> {
  const above = await memory();
  const pairs: Record<"wall" | "underWay" | "processor", number>[] = [];
  for (let k = 0; k < 3; k++) {
    const [one, two] = [await secondsOf(1), await secondsOf(2)];
    pairs.push({
      wall: one.wall / two.wall,
      underWay: one.underWay / two.underWay,
      processor: two.processor / one.processor,
    });
  }
  const middle = (of: keyof (typeof pairs)[number]) =>
    pairs.map((p) => p[of]).sort((a, b) => a - b)[1]!;
  return [
    {
      name: "memory above the base, 10,000,000 rows streamed",
      value: above,
      unit: "MiB",
      goal: 64,
      atMost: true,
    },
    {
      name: "two threads over one, 32,000,000 scenarios, wall clock",
      value: middle("wall"),
      unit: "x",
      goal: 1.9,
      note: "start of the pool included; needs two idle processors",
      why: "two workers take 0.3 to 0.4 s to start and to be compiled, and the thread that hands out the work needs a share of the two processors",
    },
    {
      name: "the same, from the first chunk on",
      value: middle("underWay"),
      unit: "x",
    },
    {
      name: "processor time of two threads over that of one",
      value: middle("processor"),
      unit: "x",
      note: "2 over this is the most that two idle processors can give",
    },
  ];
}
