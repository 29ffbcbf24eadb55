// The rode's kernels against SciPy's general solvers, `brentq` there and `fsolve` back: node bench/scipy.mjs
// Both lay the same rodes, turn about in child processes, each reckoned in its own processor time; both
// must come to the same answers. Needs Python with SciPy (Debian: python3-scipy), /usr/bin/python3 unless
// PYTHON says otherwise.
import { execFileSync, spawnSync } from "node:child_process";
import path from "node:path";
import { bundle } from "../.ci/bundle.mjs";

const root = path.resolve(import.meta.dirname, "..");
const python = process.env.PYTHON ?? "/usr/bin/python3";
const ROUNDS = 5;
const COUNT = 512;

const found = spawnSync(python, ["-c", "import scipy; print(scipy.__version__)"], {
  encoding: "utf8",
});
if (found.status !== 0) {
  console.log(`skip: no SciPy for ${python}`);
  process.exit(0);
}

/** Chain and rope of the trade, the same every run, spread by the golden section. */
function rodes() {
  const part = (k, salt) => ((k + 1) * salt) % 1;
  const made = [];
  for (let k = 0; made.length < COUNT; k++) {
    const rope = [
      10 + 50 * part(k, 0.618034),
      0.05 + 0.25 * part(k, 0.754878),
      4e4 + 1.6e5 * part(k, 0.56984),
    ];
    const chain = [5 + 35 * part(k, 0.819173), 8 + 20 * part(k, 0.671044), 8e6];
    const heightM = 3 + 12 * part(k, 0.450162);
    const loadN = 100 * Math.exp(Math.log(60) * part(k, 0.345678));
    if (heightM < 0.6 * (rope[0] + chain[0])) made.push({ pieces: [rope, chain], heightM, loadN });
  }
  return made;
}

const worker = await bundle("bench/scipy.worker.ts", "bench-scipy.mjs");
const run = (command, args, input) =>
  JSON.parse(
    execFileSync(command, args, {
      input: JSON.stringify(input),
      encoding: "utf8",
      maxBuffer: 2 ** 26,
    }),
  );

const given = rodes();
const theirs = [];
const ours = [];
for (let k = 0; k < ROUNDS; k++) {
  theirs.push(run(python, [path.join(root, "bench/scipy_rode.py")], given));
  const { reachM } = theirs[0];
  const asked = given.map((r, i) => ({ ...r, reachM: reachM[i] }));
  ours.push(run(process.execPath, [worker], asked));
}

const median = (values) => values.toSorted((a, b) => a - b)[values.length >> 1];
const worst = (of) => Math.max(...given.map((_, i) => of(i)));
const reachOff = worst((i) => Math.abs(ours[0].reachM[i] - theirs[0].reachM[i]));
const loadOff = worst((i) => Math.abs(theirs[0].loadN[i] / ours[0].loadN[i] - 1));
const lost = given.filter((_, i) => !(Math.abs(theirs[0].loadN[i] / ours[0].loadN[i] - 1) < 1e-6));

console.log(
  `SciPy ${found.stdout.trim()}, Node ${process.version}, ${COUNT} rodes of chain and rope`,
);
let failed = false;
function report(name, key, goal, ourKey = key) {
  const [a, b] = [median(theirs.map((r) => r[key])), median(ours.map((r) => r[ourKey]))];
  // Turn about: each round of theirs against the round of ours beside it.
  const ratio = median(theirs.map((r, k) => r[key] / ours[k][ourKey]));
  failed ||= ratio < goal;
  const met = ratio >= goal ? "met" : "MISSED";
  const wanted = goal > 0 ? `  [${met}: at least ${goal} x]` : "";
  console.log(
    `${name}: ${b.toFixed(0)} ns, SciPy ${a.toFixed(0)} ns, ${ratio.toFixed(0)} x${wanted}`,
  );
}
report("load to reach, brentq", "forwardNs", 80);
report("the same, height alone within brentq", "trimmedNs", 0, "forwardNs");
report("reach to load, fsolve", "inverseNs", 60);
console.log(
  `reaches differ by ${reachOff.toExponential(1)} m at most, loads by ${loadOff.toExponential(1)}`,
);
console.log(`the bow is missed by ${ours[0].worstMissM.toExponential(1)} m at most`);
if (lost.length > 0) console.log(`fsolve came to another load on ${lost.length} of ${COUNT} rodes`);
if (!(reachOff <= 1e-8) || !(ours[0].worstMissM <= 1e-8) || lost.length > COUNT / 100) {
  console.error("the two do not come to the same answers");
  failed = true;
}
process.exitCode = failed ? 1 : 0;
