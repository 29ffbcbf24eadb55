// Endurance: ten million fixes through one watch and a million plans with flat memory, and a watch killed at random
// a thousand times that resumes as if it had never stopped; a million random rodes, each laid and found again from
// its reach. --small does a thousandth of it; parts by name do only those.
// node .ci/soak.mjs [fixes plans nights kills rodes] [--small]
import { mkdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import v8 from "node:v8";
import vm from "node:vm";
import { bundled } from "./bundle.mjs";

const root = path.resolve(import.meta.dirname, "..");
const small = process.argv.includes("--small");
const share = small ? 1e-3 : 1;
const FIXES = 1e7 * share;
const PLANS = 1e6 * share;
const KILLS = small ? 50 : 1000;

v8.setFlagsFromString("--expose-gc");
const collect = vm.runInNewContext("gc");
const heapMb = () => {
  collect();
  collect();
  return process.memoryUsage().heapUsed / 2 ** 20;
};

const hawse = await bundled(
  {
    contents: `
export { resumeWatch, saveWatch, startWatch, stepWatch } from "./src/watch/index.js";
export { planStay } from "./src/plan/index.js";
export { sweep } from "./src/sweep/index.js";
export { readInput } from "./src/cli/readInput.js";
export { scramble } from "./src/core/draws.js";
export { manyRodes } from "./bench/rode.js";`,
  },
  "soak.mjs",
);
const { planStay, readInput, resumeWatch, saveWatch, scramble, startWatch, stepWatch, sweep } =
  hawse;
const RODES = 1e6 * share;

/** A number in [0, 1) that follows from a count and a seed alone. */
const chance = (i, seed) => scramble(scramble(i) + seed) / 2 ** 32;
const START = Date.UTC(2026, 5, 1);
const begin = () =>
  startWatch({
    startMs: START,
    anchor: { known: true, position: { latDeg: 50, lonDeg: -4 } },
    limits: {
      rows: [{ timeMs: START, greatestDistanceM: 40, leastDepthM: null, greatestDepthM: null }],
      distanceSigmaM: 1,
    },
  });

/** Fix `i`: a slow sheer to and fro on the rode, noise, now and then a gap, a wild one or a drag that comes back. */
function fix(i) {
  const angle = Math.sin(i / 37) + i / 50_000;
  const drag = i % 100_000 > 95_000 ? ((i % 100_000) - 95_000) / 60 : 0;
  const reachM = 30 + drag + (chance(i, 1) < 1e-4 ? 5000 : 0);
  const noise = (seed) => (chance(i, seed) + chance(i, seed + 1) - 1) * 4;
  return {
    kind: "fix",
    timeMs: START + i * 5000,
    latDeg: 50 + (reachM * Math.cos(angle) + noise(2)) / 111_200,
    lonDeg: -4 + (reachM * Math.sin(angle) + noise(4)) / 71_500,
    sigmaM: 1.5,
  };
}

/** Run `count` steps, `step` saying how many it took, and hold the heap early on against the heap at the end. */
async function soak(name, count, step) {
  const started = performance.now();
  const readings = [];
  let done = 0;
  while (done < count) {
    done += await step(done);
    if (done >= ((readings.length + 1) * count) / 10) readings.push(heapMb());
  }
  const seconds = (performance.now() - started) / 1000;
  const early = Math.max(...readings.slice(0, 3));
  const late = Math.max(...readings.slice(-3));
  const flat = late - early < 2;
  console.log(
    `${flat ? "ok  " : "FAIL"} ${name}: ${done} in ${seconds.toFixed(1)} s, heap ${early.toFixed(1)} MB early, ${late.toFixed(1)} MB late`,
  );
  return { name, count: done, seconds, earlyMb: early, lateMb: late, ok: flat };
}

/** The instants of 1900 to 2200 hold 10^7 fixes five seconds apart many times over. */
function fixes() {
  let state = begin();
  return soak("fixes", FIXES, (i) => {
    const until = Math.min(i + 1000, FIXES);
    for (let k = i; k < until; k++) state = stepWatch(state, fix(k)).state;
    return until - i;
  });
}

const stay = readInput(path.join(root, "shared/scenarios/gannick-bay.json"));

/** Plans one by one with their reasons and brief. */
function plans() {
  return soak("plans in full", PLANS / 100, (i) => {
    planStay({ ...stay, chartedDepthM: 1 + 8 * chance(i, 3) });
    return 1;
  });
}

/** A hundred times as many by the columns of a sweep. */
function nights() {
  const draws = [{ name: "chartedDepthM", spread: "uniform", low: 1, high: 9 }];
  const runs = sweep({ stay, draws, seed: 1, rows: PLANS });
  return soak("plans in a sweep", PLANS, async () => (await runs.next()).value.rows);
}

function kills() {
  const count = 20_000;
  let whole = begin();
  let broken = begin();
  let killed = 0;
  let different = 0;
  const mostGapSteps = Math.floor((1.6 * count) / KILLS);
  let next = 0;
  for (let i = 0; i < count; i++) {
    const event = fix(i + 94_000);
    const placed = { ...event, timeMs: START + i * 5000 };
    const a = stepWatch(whole, placed);
    const b = stepWatch(broken, placed);
    if (JSON.stringify(a.report) !== JSON.stringify(b.report)) different += 1;
    whole = a.state;
    broken = b.state;
    if (i >= next) {
      broken = resumeWatch(saveWatch(JSON.parse(JSON.stringify(broken))));
      killed += 1;
      next = i + 1 + Math.floor(chance(killed, 7) * (mostGapSteps - 2));
    }
  }
  const ok = different === 0 && killed >= KILLS;
  console.log(
    `${ok ? "ok  " : "FAIL"} kills: resumed ${killed} times over ${count} fixes, ${different} reports differ`,
  );
  return { name: "kills", count: killed, different, ok };
}

/** Among these is one that a float bears on a rising bed, with a lie under small loads and under none in between. */
const RODE_SEED = 6;

function rodes() {
  const found = hawse.manyRodes(RODES, RODE_SEED);
  const ok = found.failed === 0 && found.laid > RODES / 2;
  const { laid, noLie, failed, worstHeightM, worstReachM } = found;
  const worst = Math.max(worstHeightM, worstReachM).toExponential(1);
  console.log(
    `${ok ? "ok  " : "FAIL"} rodes: ${laid} laid, ${noLie} without a lie, ${failed} not found again; the bow is missed by ${worst} m at most`,
  );
  return { name: "rodes", ...found, ok };
}

const parts = { fixes, plans, nights, kills, rodes };
const chosen = process.argv.slice(2).filter((a) => !a.startsWith("--"));
const unknown = chosen.filter((name) => !(name in parts));
if (unknown.length > 0) {
  console.error(`soak: no part ${unknown.join(", ")}; parts are ${Object.keys(parts).join(", ")}`);
  process.exit(2);
}
const outcomes = [];
for (const name of chosen.length > 0 ? chosen : Object.keys(parts))
  outcomes.push(await parts[name]());
mkdirSync(path.join(root, "reports"), { recursive: true });
writeFileSync(path.join(root, "reports/soak.json"), JSON.stringify({ small, outcomes }, null, 2));
process.exit(outcomes.every((o) => o.ok) ? 0 : 1);
