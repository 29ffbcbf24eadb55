// Runs the benchmarks, each topic in a process of its own: node bench/run.mjs [--check] [topic …]
// Prints a table, the quickest round in brackets, and writes bench/results.json and docs/benchmarks.md;
// with --check it writes nothing and fails where a ratio has fallen below 0.8 of the one recorded (looked
// at twice, for a machine may be busy).
import { execFileSync } from "node:child_process";
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { availableParallelism, cpus } from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { asShipped, bundle } from "../.ci/bundle.mjs";
import { pure } from "../.ci/pure.mjs";
import { goalsOf, writePage } from "./page.mjs";

const root = path.resolve(import.meta.dirname, "..");
const results = path.join(root, "bench/results.json");
const check = process.argv.includes("--check");
const asked = process.argv.slice(2).filter((a) => !a.startsWith("--"));
const LEAST = 0.8;

/** Modules that ask where they stand are told where their source stands, not the bundle. */
const standing = {
  name: "standing",
  setup(b) {
    b.onLoad({ filter: /\.ts$/ }, ({ path: file }) => {
      const contents = readFileSync(file, "utf8")
        .replaceAll("import.meta.dirname", JSON.stringify(path.dirname(file)))
        .replaceAll("import.meta.url", JSON.stringify(pathToFileURL(file).href));
      return { contents, loader: "ts" };
    });
  },
};

async function runTopic(topic) {
  const contents = `import { report } from "./harness.js"; import * as topic from "./${topic}.js"; await report(${JSON.stringify(topic)}, topic);`;
  const outfile = await bundle({ contents, from: "bench" }, `bench-${topic}.mjs`, [standing]);
  const text = execFileSync(process.execPath, ["--expose-gc", "--enable-source-maps", outfile], {
    cwd: root,
    encoding: "utf8",
    stdio: ["ignore", "pipe", "inherit"],
    maxBuffer: 2 ** 26,
  });
  return JSON.parse(text.trim().split("\n").at(-1));
}

const significant = (x) => (x === null ? "" : Number(x.toPrecision(3)).toLocaleString("en-GB"));

function print({ timed, figures }) {
  for (const t of timed) {
    const goals = goalsOf(t).map(({ words, met }) => `${words}, ${met ? "met" : "MISSED"}`);
    const ratio = t.ratio === null ? "" : ` = 1/${significant(t.ratio)} of "${t.against}"`;
    console.log(
      `${significant(t.ns).padStart(12)} ns (${significant(t.leastNs)})  ${t.name}${ratio}${goals.length > 0 ? `  [${goals.join("; ")}]` : ""}`,
    );
  }
  for (const f of figures) {
    const goal = goalsOf(f).map(({ words, met }) => `  [${words}, ${met ? "met" : "MISSED"}]`);
    console.log(
      `${significant(f.value).padStart(12)} ${f.unit}  ${f.name}${goal.join("")}${f.note ? `  (${f.note})` : ""}`,
    );
  }
}

const topics = readdirSync(path.join(root, "bench"))
  .filter((f) => f.endsWith(".ts") && !f.endsWith(".worker.ts") && f !== "harness.ts")
  .map((f) => f.slice(0, -3))
  .filter((t) => asked.length === 0 || asked.includes(t));

await bundle("src/sweep/node/worker.ts", "sweep-worker.js", [pure], {
  ...asShipped,
  packages: undefined,
});
await bundle("bench/alone.worker.ts", "bench-alone.mjs");

function recorded() {
  try {
    return JSON.parse(readFileSync(results, "utf8"));
  } catch {
    return { cases: [], figures: [] };
  }
}

/** Cases whose ratio has fallen below what is allowed of the one recorded. */
const slower = (timed, before) =>
  timed.flatMap((t) => {
    const old = before.cases.find((c) => c.topic === t.topic && c.name === t.name);
    return t.ratio !== null && old?.ratio && !(t.ratio >= LEAST * old.ratio)
      ? [`${t.topic}: ${t.name}: ${t.ratio.toFixed(2)} x, recorded ${old.ratio.toFixed(2)} x`]
      : [];
  });

const before = recorded();
const faults = [];
const all = { timed: [], figures: [] };
for (const topic of topics) {
  console.log(`\n${topic}`);
  let result;
  try {
    result = await runTopic(topic);
  } catch {
    console.log("  could not be run here; what is recorded of it stands");
    const at = (rows) => rows.filter((r) => r.topic === topic);
    all.timed.push(...at(before.cases));
    all.figures.push(...at(before.figures));
    if (check) faults.push(`${topic}: could not be run`);
    continue;
  }
  if (check && slower(result.timed, before).length > 0) result = await runTopic(topic);
  print(result);
  if (check) faults.push(...slower(result.timed, before));
  all.timed.push(...result.timed);
  all.figures.push(...result.figures);
}

if (check) {
  for (const fault of faults) console.error(`slower: ${fault}`);
  process.exit(faults.length > 0 ? 1 : 0);
}
const others = (rows) => rows.filter((r) => !topics.includes(r.topic));
const round = (t) => ({
  ...t,
  ns: Number(t.ns.toPrecision(3)),
  leastNs: Number(t.leastNs.toPrecision(3)),
  ratio: t.ratio === null ? null : Number(t.ratio.toPrecision(3)),
});
writeFileSync(
  results,
  `${JSON.stringify(
    {
      node: process.version,
      processor: cpus()[0]?.model ?? "unknown",
      processors: availableParallelism(),
      about:
        "ns: processor time of an operation in the median round, leastNs: in the quickest; ratio is the time of the case named in `against` over that of the case",
      cases: [...others(before.cases ?? []), ...all.timed.map(round)],
      figures: [
        ...others(before.figures ?? []),
        ...all.figures.map((f) => ({ ...f, value: Number(f.value.toPrecision(3)) })),
      ],
    },
    null,
    1,
  )}\n`,
);
await writePage();
