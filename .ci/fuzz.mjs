// Coverage-guided fuzzing of the readers: chart, feed, seabed text and scenario. Inputs are changed at random, by the
// byte and by the token; one that reaches a branch no other reached is kept and changed further. Whatever is thrown
// that is not an InputError, takes more than two seconds, or answers with a number that is none, is a fault and is
// printed with its input. Coverage comes from the engine's own counters, block by block: fuzzers on libFuzzer come
// as a native addon that wants glibc 2.38, newer than that of Debian 12, or is fetched from outside the registry.
// node .ci/fuzz.mjs [chart feed seabed scenario] [--seconds 600] [--seed 1] [--keep]
import { Session } from "node:inspector/promises";
import { mkdirSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import { bundled } from "./bundle.mjs";

const root = path.resolve(import.meta.dirname, "..");
const corpus = path.join(root, "tests/corpus");
const option = (name, otherwise) => {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? otherwise : Number(process.argv[at + 1]);
};
const seconds = option("seconds", 20);
const seed = option("seed", 1);
const keep = process.argv.includes("--keep");

const hawse = await bundled(
  {
    contents: `
export { InputError, utc } from "./src/core/index.js";
export { anchoringAt, depthsIn, hazardsIn, readChart } from "./src/chart/index.js";
export { eventsFromDelta, eventsFromGpx, readNmea0183 } from "./src/feed/index.js";
export { parseSeabed, rateAnchors } from "./src/seabed/index.js";
export { planStay } from "./src/plan/index.js";
export { withInstants } from "./src/cli/readInput.js";
export { resumeWatch } from "./src/watch/index.js";`,
  },
  "fuzz.mjs",
);

/** JSON of a text, or undefined: that a text is no JSON is not for us to find. */
function json(text) {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
const near = (lonLat) => ({ centre: { latDeg: lonLat[1], lonDeg: lonLat[0] }, radiusM: 80 });

const READERS = {
  chart(text) {
    const layers = json(text);
    if (layers === undefined) return null;
    const chart = hawse.readChart(layers, { soundingDatum: 23 });
    const area = near([-29.995, 40.005]);
    return [
      chart.report,
      hawse.anchoringAt(chart, area),
      hawse.depthsIn(chart, area),
      hawse.hazardsIn(chart, area),
    ];
  },
  feed: (text) => [
    hawse.readNmea0183(text),
    /^\s*</.test(text) ? hawse.eventsFromGpx({ text }) : null,
    json(text) === undefined ? null : hawse.eventsFromDelta(json(text)),
  ],
  seabed: (text) => [hawse.rateAnchors(hawse.parseSeabed(text))],
  scenario(text) {
    const stay = json(text);
    return stay === undefined ? null : hawse.planStay(hawse.withInstants(stay));
  },
};

/** Where an answer holds a number that is none; null where it does not. */
function notFinite(value) {
  if (typeof value === "number") return Number.isFinite(value) ? null : String(value);
  if (typeof value !== "object" || value === null) return null;
  for (const [key, inner] of Object.entries(value)) {
    const found = notFinite(inner);
    if (found !== null) return `${key}: ${found}`;
  }
  return null;
}

let state = seed >>> 0;
function random(below) {
  state = (state + 0x9e3779b9) >>> 0;
  let h = Math.imul(state ^ (state >>> 16), 0x7feb352d);
  h = Math.imul(h ^ (h >>> 15), 0x846ca68b);
  return ((h ^ (h >>> 16)) >>> 0) % below;
}
const pick = (list) => list[random(list.length)];

const TOKENS = [
  "null",
  "true",
  "[]",
  "{}",
  "-1",
  "0",
  "1e308",
  "-0",
  "1e-300",
  '""',
  '"x"',
  "NaN",
  "__proto__",
  "constructor",
  "$GPRMC,",
  "$GPGGA,",
  "$IIMWV,",
  "!AIVDM,",
  "*00",
  "\r\n",
  ",",
  ".",
  "/",
  "f.S",
  "Wd",
  "bk",
  "<trkpt",
  "</gpx>",
  "]]>",
  "<![CDATA[",
  "&#x41;",
  '"RESTRN":"1,7"',
  '"type":"Polygon"',
  '"coordinates":[[[',
  "179.99",
  "-180",
  "2026-02-30T25:61Z",
];

function changed(text, other) {
  let out = text;
  for (let n = 1 + random(4); n > 0; n--) {
    const at = random(out.length + 1);
    const to = Math.min(out.length, at + random(12));
    const part = () => {
      const from = random(other.length + 1);
      return other.slice(from, from + random(80));
    };
    out = pick([
      () => out.slice(0, at) + out.slice(to),
      () => out.slice(0, at) + pick(TOKENS) + out.slice(pick([at, to])),
      () =>
        out.slice(0, at) + String.fromCharCode(random(pick([128, 128, 65536]))) + out.slice(at + 1),
      () => out.slice(0, at) + out.slice(at, to).repeat(1 + random(6)) + out.slice(to),
      () => out.slice(0, at) + part() + out.slice(to),
      () =>
        out.replace(/-?\d+(\.\d+)?/g, (m) =>
          random(12) === 0 ? pick([...TOKENS.slice(0, 9), m, "9".repeat(random(20)), `-${m}`]) : m,
        ),
      () =>
        out.replace(/"[A-Za-z0-9_]+"/g, (m) =>
          random(20) === 0 ? pick([...TOKENS.slice(0, 11), m]) : m,
        ),
    ])();
  }
  return out.slice(0, 60_000);
}

const session = new Session();
session.connect();
await session.post("Profiler.enable");
await session.post("Profiler.startPreciseCoverage", { callCount: true, detailed: true });
const seen = new Set();
/** Blocks run since the last look that were never run before. */
async function freshBlocks() {
  const { result } = await session.post("Profiler.takePreciseCoverage");
  let fresh = 0;
  for (const { url, functions } of result) {
    if (!url.endsWith("/fuzz.mjs") || !url.includes("temp")) continue;
    for (const { ranges } of functions)
      for (const { startOffset, endOffset, count } of ranges) {
        // Counts in powers of two, so that a loop run far longer is something new.
        const key = `${startOffset} ${endOffset} ${count === 0 ? -1 : Math.min(8, Math.floor(Math.log2(count) / 2))}`;
        if (count > 0 && !seen.has(key)) {
          seen.add(key);
          fresh += 1;
        }
      }
  }
  return fresh;
}

/** What is wrong with how a reader takes a text; null where nothing is. */
function faultOf(read, text) {
  const started = process.cpuUsage();
  let wrong = null;
  try {
    wrong = notFinite(read(text));
  } catch (error) {
    if (!(error instanceof hawse.InputError)) wrong = String(error.stack ?? error).slice(0, 400);
  }
  const { user, system } = process.cpuUsage(started);
  return wrong ?? (user + system > 2e6 ? `takes ${((user + system) / 1e6).toFixed(1)} s` : null);
}

async function fuzz(name) {
  const folder = path.join(corpus, name);
  mkdirSync(folder, { recursive: true });
  const pool = readdirSync(folder)
    .sort()
    .map((f) => readFileSync(path.join(folder, f), "utf8"));
  if (name === "scenario")
    pool.push(readFileSync(path.join(root, "shared/scenarios/gannick-bay.json"), "utf8"));
  if (pool.length === 0) throw new Error(`no first inputs in tests/corpus/${name}`);
  const read = READERS[name];
  const faults = new Map();
  const take = async (text) => {
    const fault = faultOf(read, text);
    const kind = fault?.split("\n").slice(0, 2).join(" ").replace(/\d+/g, "0");
    if (fault !== null && !faults.has(kind)) faults.set(kind, { fault, text });
    return freshBlocks();
  };
  for (const text of [...pool]) await take(text);
  const known = pool.length;
  const blocksAtFirst = seen.size;
  const until = performance.now() + seconds * 1000;
  let runs = 0;
  while (performance.now() < until) {
    const text = changed(pick(random(3) === 0 ? pool.slice(-20) : pool), pick(pool));
    if ((await take(text)) > 0 && pool.length < 5000) pool.push(text);
    runs += 1;
  }
  if (keep)
    for (const [i, text] of pool
      .slice(known)
      .filter((t) => t.length < 4000)
      .slice(-12)
      .entries())
      writeFileSync(path.join(folder, `found-${String(i).padStart(2, "0")}.txt`), text);
  console.log(
    `${faults.size === 0 ? "ok  " : "FAIL"} ${name}: ${runs} inputs in ${seconds} s, ${blocksAtFirst} blocks at first, ${seen.size} now, ${pool.length - known} inputs kept, ${faults.size} faults`,
  );
  for (const { fault, text } of faults.values())
    console.log(`  ${fault}\n  input: ${JSON.stringify(text).slice(0, 1500)}`);
  return faults.size;
}

const values = new Set(["--seconds", "--seed"]);
const chosen = process.argv
  .slice(2)
  .filter((a, i, all) => !a.startsWith("--") && !values.has(all[i - 1]));
let faults = 0;
for (const name of chosen.length > 0 ? chosen : Object.keys(READERS)) faults += await fuzz(name);
session.disconnect();
process.exit(faults === 0 ? 0 : 1);
