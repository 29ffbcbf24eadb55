/** Lays the rodes read from standard input with our kernels and writes times and answers, as `scipy_rode.py` does with SciPy. */
import { readFileSync } from "node:fs";
import { COLUMNS, HEIGHT, LOAD, REACH } from "../src/rode/kernel.js";
import { prepareRode, type PreparedRode } from "../src/rode/prepare.js";
import { solveReach } from "../src/rode/reach.js";
import { solveForward } from "../src/rode/solve.js";

/** A rode as it is handed over; pieces from the bow to the anchor. */
export interface Handed {
  pieces: [lengthM: number, weightNPerM: number, stiffnessN: number][];
  heightM: number;
  loadN: number;
  reachM: number;
}

interface Ready extends Handed {
  p: PreparedRode;
}

const out = new Float64Array(COLUMNS);

function forward(rodes: readonly Ready[], answers: Float64Array): void {
  for (const [k, r] of rodes.entries()) {
    solveForward(r.p, r.heightM, r.loadN, out);
    answers[k] = out[REACH]!;
  }
}

function inverse(rodes: readonly Ready[], answers: Float64Array): void {
  for (const [k, r] of rodes.entries()) {
    solveReach(r.p, r.heightM, r.reachM, out);
    answers[k] = out[LOAD]!;
  }
}

/** Processor time of a call in nanoseconds, after warming up, and the answers. */
function timed(all: typeof forward, rodes: readonly Ready[], times: number) {
  const answers = new Float64Array(rodes.length);
  for (let k = 0; k < times; k++) all(rodes, answers);
  const before = process.cpuUsage();
  for (let k = 0; k < times; k++) all(rodes, answers);
  const { user, system } = process.cpuUsage(before);
  return { ns: ((user + system) * 1e3) / (times * rodes.length), answers: [...answers] };
}

const rodes = (JSON.parse(readFileSync(0, "utf8")) as Handed[]).map((r) => ({
  ...r,
  p: prepareRode({
    segments: r.pieces.toReversed().map(([lengthM, weightInWaterNPerM, axialStiffnessN]) => ({
      lengthM,
      weightInWaterNPerM,
      axialStiffnessN,
    })),
  }),
}));
const there = timed(forward, rodes, 1000);
const back = timed(inverse, rodes, 500);
const missM = rodes.map((r) => {
  solveReach(r.p, r.heightM, r.reachM, out);
  return Math.max(Math.abs(out[REACH]! - r.reachM), Math.abs(out[HEIGHT]! - r.heightM));
});
console.log(
  JSON.stringify({
    forwardNs: there.ns,
    inverseNs: back.ns,
    reachM: there.answers,
    loadN: back.answers,
    worstMissM: Math.max(...missM),
  }),
);
