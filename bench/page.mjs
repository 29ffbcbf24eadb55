// docs/benchmarks.md from bench/results.json: every case with its goal, met or with the reason why not.
import { readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import * as prettier from "prettier";

const root = path.resolve(import.meta.dirname, "..");
const file = path.join(root, "docs/benchmarks.md");

const short = (ns) => {
  const [by, unit] = ns >= 1e6 ? [1e6, "ms"] : ns >= 1e3 ? [1e3, "µs"] : [1, "ns"];
  return `${Number((ns / by).toPrecision(3)).toLocaleString("en-GB")} ${unit}`;
};

/** Goals of a case or a figure, with whether each is met; of a case's nanoseconds the quickest round counts. */
export function goalsOf(x) {
  const goals = [];
  if (x.goalRatio != null)
    goals.push({ words: `at least ${x.goalRatio} ×`, met: x.ratio >= x.goalRatio });
  if (x.goalNs != null)
    goals.push({ words: `at most ${short(x.goalNs)}`, met: x.leastNs <= x.goalNs });
  if (x.goal !== undefined)
    goals.push({
      words: `${x.atMost ? "at most" : "at least"} ${x.goal} ${x.unit}`,
      met: x.atMost ? x.value <= x.goal : x.value >= x.goal,
    });
  return goals;
}

const told = ({ words, met }) => `${words}: ${met ? "met" : "**missed**"}`;

const goalCell = (x) => goalsOf(x).map(told).join("; ");

const rowOf = (c) =>
  `| ${c.name} | ${short(c.ns)} | ${short(c.leastNs)} | ${c.ratio === null ? "" : `${c.ratio} × quicker than “${c.against}”`} | ${goalCell(c)} |`;

const figureRow = (f) => `| ${f.name} | ${f.value} ${f.unit} | ${goalCell(f)} |`;

const missed = (x) => goalsOf(x).some((g) => !g.met);

/** The page that results make. */
export function pageOf({ node, processor, processors, note, cases, figures }) {
  const topics = [...new Set(cases.map((c) => c.topic))].sort();
  const reasons = [...cases, ...figures]
    .filter(missed)
    .map((x) => `- ${x.name}: ${x.why ?? "not looked into yet"}.`);
  return `# Benchmarks

Written by \`npm run bench\`; do not edit. Node ${node}, ${processor}, ${processors} processors. Processor time of one operation: the median
round, and the quickest, which comes nearest to an idle machine and against which goals in time are held. Cases of a topic run in one process,
turn about; a ratio is of the median rounds. What an elementary operation costs here stands under \`elementary\`: the goals in nanoseconds were set
on a machine where a logarithm took 5.2 ns, a square root 1.5 ns and a division 1 ns, the loop included.${note === undefined ? "" : `\n\n${note}`}

${topics
  .map(
    (t) => `## ${t}

| what | median | quickest | ratio | goal |
| --- | ---: | ---: | --- | --- |
${cases
  .filter((c) => c.topic === t)
  .map(rowOf)
  .join("\n")}
`,
  )
  .join("\n")}
## Other figures

| what | figure | goal |
| --- | ---: | --- |
${figures.map(figureRow).join("\n")}

## Goals missed, and why

${reasons.length === 0 ? "None." : reasons.join("\n")}
`;
}

/** The page as it stands in the repository. */
export async function benchmarksPage() {
  const config = await prettier.resolveConfig(file);
  const results = JSON.parse(readFileSync(path.join(root, "bench/results.json"), "utf8"));
  return prettier.format(pageOf(results), { ...config, parser: "markdown" });
}

export async function writePage() {
  writeFileSync(file, await benchmarksPage());
}
