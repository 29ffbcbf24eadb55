/**
 * Sweeps: a million scenarios of the statics model against a loop with an object and a check for each
 * scenario, whole stays, threads, and memory while ten million rows stream by.
 */
import { execFile } from "node:child_process";
import path from "node:path";
import { promisify } from "node:util";
import * as z from "zod/mini";
import { readInput } from "../src/cli/readInput.js";
import { check } from "../src/core/check.js";
import { metres, speed } from "../src/core/schema.js";
import { ANCHOR_TYPES } from "../src/core/anchorTypes.js";
import { bedNames } from "../src/holding/beds.js";
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
import { sweepInput } from "../src/sweep/input.js";
import { layOut } from "../src/sweep/layout.js";
import { sweepPool } from "../src/sweep/node/pool.js";
import { piecesIn, runPieces, tableOf, type ColumnChunk } from "../src/sweep/run.js";
import { sweep } from "../src/sweep/sweep.js";
import { drawn, uniform } from "../tests/sweepSpecs.js";
import type { Figure } from "./harness.js";

const ROWS = 1_000_000;
/** Scenarios of a run on threads. */
const MANY = 16 * ROWS;

const CHUNK = 8192;

/** Scenarios as the sweep runs them, chunk after chunk. */
function columnar(withRope: boolean) {
  const l = layOut(check(sweepInput, drawn(withRope, ROWS)));
  const table = tableOf(l, CHUNK);
  return (n: number): number => {
    let sum = 0;
    for (let at = 0; at < n; at += CHUNK) {
      const rows = Math.min(CHUNK, n - at);
      runPieces(l, at % (ROWS - CHUNK), piecesIn(l, rows, table));
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
  const l = layOut(check(sweepInput, drawn(withRope, ROWS)));
  const table = tableOf(l, CHUNK);
  runPieces(l, 0, piecesIn(l, CHUNK, table));
  const c = lieCoefficients(vessel);
  // Worked out once, as in the sweep: asked anew it would cost more than all the rest.
  const { at, share } = holdingTable(
    ANCHOR_TYPES.indexOf("fixedPlough"),
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
    const table = tableOf(l, n);
    runPieces(l, 0, piecesIn(l, n, table));
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

/** Wall clock of a large sweep, seconds. */
async function secondsOf(run: AsyncIterable<ColumnChunk>): Promise<number> {
  const started = performance.now();
  let sum = 0;
  for await (const c of run) sum += c.columns["reachM"]![0]!;
  if (Number.isNaN(sum)) throw new Error("no figure");
  return (performance.now() - started) / 1000;
}

/** Seconds of the same sweep in each of `count` processes of one thread that run at once. */
async function processes(count: number): Promise<number> {
  const run = promisify(execFile);
  const args = ["temp/bench-alone.mjs", String(MANY / 2)];
  const all = await Promise.all(Array.from({ length: count }, () => run(process.execPath, args)));
  return all.reduce((sum, { stdout }) => sum + Number(stdout) / 1000, 0) / count;
}

const THREAD_ROUNDS = 15;

/** Seconds of rounds in which one thread, two and two processes take turns. */
async function threads() {
  const workerFile = path.resolve("temp/sweep-worker.js");
  const options = { sameMemory: true };
  const onTwo = () =>
    secondsOf(sweepPool(drawn(true, MANY), { ...options, threads: 2, workerFile }));
  type Rounds = Record<"one" | "started" | "waited" | "alone" | "apart", number[]>;
  const found: Rounds = { one: [], started: [], waited: [], alone: [], apart: [] };
  for (let k = 0; k < THREAD_ROUNDS; k++) {
    found.one.push(await secondsOf(sweep(drawn(true, MANY), options)));
    // The threads of the last round have been let go by now.
    found.started.push(await onTwo());
    found.waited.push(await onTwo());
    found.alone.push(await processes(1));
    found.apart.push(await processes(2));
  }
  return found;
}

/** How many times as quick, in the quickest rounds of both, and what to tell of the median ones. */
function timesAsQuick(before: number[], after: number[]) {
  const ratio = (of: (all: number[]) => number) => of(before) / of(after);
  const median = ratio((all) => all.toSorted((a, b) => a - b)[all.length >> 1]!);
  return {
    value: ratio((all) => Math.min(...all)),
    unit: "x",
    note: `quickest rounds; ${median.toFixed(2)} in the median ones`,
  };
}

const peakOf = (): number => process.memoryUsage().rss / 2 ** 20;

/** Memory above the base while rows stream by. */
async function memory(): Promise<number> {
  for await (const c of sweep(drawn(true, 200_000))) if (Number.isNaN(c.rows)) break;
  globalThis.gc?.();
  const base = peakOf();
  let peak = base;
  for await (const c of sweep(drawn(true, 10_000_000)))
    if (c.from % (64 * CHUNK) === 0) peak = Math.max(peak, peakOf());
  return peak - base;
}

/** Memory and threads, which have no processor time of an operation. */
export async function figures(): Promise<Figure[]> {
  const above = await memory();
  const { one, started, waited, alone, apart } = await threads();
  return [
    {
      name: "memory above the base, 10,000,000 rows streamed",
      value: above,
      unit: "MiB",
      goal: 64,
      atMost: true,
    },
    {
      name: "two threads that had waited over one, 16,000,000 scenarios, wall clock",
      ...timesAsQuick(one, waited),
      goal: 1.9,
      why: "two processes that share nothing gain little more on this machine; handing slices over takes the rest (some 1 to 3 %)",
    },
    {
      name: "the same, the threads started for the sweep",
      ...timesAsQuick(one, started),
    },
    {
      name: "two processes over one, each with half of it: what the machine gives",
      ...timesAsQuick(
        alone.map((t) => 2 * t),
        apart,
      ),
    },
  ];
}
