// Every number stated in the README, the guides, the pages written by hand and the accuracy of a public function has a
// place it comes from: a code block of the same page (which the tests run), a scenario named there, a figure that a
// script wrote, or, in .ci/numbers.json, the reason why it is no result of ours. With a number that has none, or one
// that its place no longer gives, the run fails.
import { existsSync, readFileSync, readdirSync } from "node:fs";
import path from "node:path";
import * as prettier from "prettier";
import { benchmarksPage } from "../bench/page.mjs";
import { bundled } from "./bundle.mjs";

const root = path.resolve(import.meta.dirname, "..");
const read = (file) => readFileSync(path.join(root, file), "utf8");
const told = JSON.parse(read(".ci/numbers.json"));
const faults = [];
let counted = 0;

const NUMBER = /\d+(?:[.,:]\d+)*(?:e-?\d+)?/g;
const numbersIn = (text) => [...text.matchAll(NUMBER)].map((m) => ({ text: m[0], at: m.index }));
const flat = (text) => text.replace(/\s+/g, " ");

/** Worst errors as docs/verification.md has them, which the gate holds against the last test run. */
const verified = read("docs/verification.md")
  .split("\n")
  .map((line) => line.split("|").map((cell) => cell.trim()))
  .filter((cells) => cells.length === 10 && Number.isFinite(Number(cells[6])))
  .map(([, topic, quantity, , , , worst]) => ({ topic, quantity, worst: Number(worst) }));

/** Value at a path of a JSON file; a step such as `name=plan of a night` picks an element by a field. */
function valueIn(file, steps) {
  let value = JSON.parse(read(file));
  for (const step of steps) {
    const [key, wanted] = String(step).split("=");
    value = wanted === undefined ? value?.[key] : value?.find((v) => v[key] === wanted);
  }
  return value;
}

/** Why an entry does not hold, null where it does. */
function faultOf(entry) {
  if (entry.measured !== undefined) {
    const [topic, quantity, most] = entry.measured;
    const rows = verified.filter((r) => r.topic === topic && r.quantity.startsWith(quantity));
    if (rows.length === 0) return `no row "${topic}, ${quantity}" in docs/verification.md`;
    const worst = Math.max(...rows.map((r) => r.worst));
    return worst <= most ? null : `measured ${worst}, said at most ${most}`;
  }
  if (entry.held !== undefined) {
    const [file, words] = entry.held;
    return existsSync(path.join(root, file)) && flat(read(file)).includes(words)
      ? null
      : `"${words}" is not in ${file}`;
  }
  if (entry.written !== undefined) {
    const [file, steps, from, to] = entry.written;
    const value = valueIn(file, steps);
    return value >= from && value <= to ? null : `${file} has ${value}, said ${from} to ${to}`;
  }
  return typeof entry.said === "string" && entry.said !== "" ? null : "neither place nor reason";
}

/** Numbers of a text that no entry's words cover and that are not in the pool; entries that fail or fit nowhere. */
function look(where, text, entries, pool) {
  const covered = [];
  for (const entry of entries) {
    const at = text.indexOf(entry.words);
    if (at < 0)
      faults.push(`${where}: "${entry.words}" is told of in .ci/numbers.json but not said`);
    else covered.push([at, at + entry.words.length]);
    for (let i = at; i >= 0; i = text.indexOf(entry.words, i + 1))
      covered.push([i, i + entry.words.length]);
    const fault = faultOf(entry);
    if (fault !== null) faults.push(`${where}: "${entry.words}": ${fault}`);
  }
  for (const { text: number, at } of numbersIn(text)) {
    counted += 1;
    if (covered.some(([from, to]) => at >= from && at < to) || pool.has(number)) continue;
    faults.push(
      `${where}: ${number} comes from nowhere: "${text.slice(Math.max(0, at - 30), at + 30)}"`,
    );
  }
}

/** Words of a page that are written by hand: no code, no addresses, no numbers of headings and lists. */
const prose = (page) =>
  flat(
    page
      .split("<!-- written by .ci/pages.mjs")[0]
      .replace(/```[\s\S]*?```/g, " ")
      .replace(/`[^`\n]*`/g, " ")
      .replace(/\]\([^)]*\)/g, "]")
      .replace(/^(#+ |\s*)\d+\. /gm, "$1"),
  );

/** Numbers that the page's own code and its scenarios hold. */
function poolOf(page) {
  const blocks = [...page.matchAll(/```ts\n[\s\S]*?```/g)].map((m) => m[0]);
  const scenarios = [...page.matchAll(/shared\/scenarios\/[\w-]+\.json/g)].map((m) => read(m[0]));
  return new Set(numbersIn([...blocks, ...scenarios].join("\n")).map((n) => n.text));
}

function pages() {
  const generated = /^docs\/(verification|mutation|watch-accuracy|benchmarks)\.md$/;
  const files = readdirSync(path.join(root, "docs"), { recursive: true })
    .map((f) => `docs/${String(f).split(path.sep).join("/")}`)
    .filter((f) => f.endsWith(".md") && !f.includes("api-report") && !generated.test(f));
  for (const file of ["README.md", ...files.sort()]) {
    const page = read(file);
    look(file, prose(page), told.pages[file] ?? [], poolOf(page));
  }
}

/** What every public function says of its accuracy; the pages of docs/how are written from it. */
function accuracies() {
  const comment =
    /\/\*\*((?:(?!\*\/)[\s\S])*)\*\/\s*export (?:async )?(?:function\*?|const) (\w+)/g;
  const seen = new Set();
  for (const file of readdirSync(path.join(root, "src"), { recursive: true }).map(String)) {
    if (!file.endsWith(".ts")) continue;
    for (const [, words, name] of read(path.join("src", file)).matchAll(comment)) {
      const plain = words.replace(/^\s*\* ?/gm, "");
      const said = /\*Accuracy\*:?([\s\S]*?)(?=\n\s*\n|\n@|$)/.exec(plain)?.[1];
      if (said === undefined) continue;
      seen.add(name);
      look(`accuracy of ${name}`, flat(said), told.accuracy[name] ?? [], new Set());
    }
  }
  for (const name of Object.keys(told.accuracy))
    if (!seen.has(name))
      faults.push(`.ci/numbers.json: no public function ${name} states an accuracy`);
}

/** The page of the watch is what its figures make. */
async function watchPage() {
  const { pageOf } = await bundled("bench/simulator/accuracy.ts", "numbers-accuracy.mjs");
  const file = "docs/watch-accuracy.md";
  const config = await prettier.resolveConfig(path.join(root, file));
  const text = pageOf(JSON.parse(read("bench/watch-results.json")));
  if ((await prettier.format(text, { ...config, parser: "markdown" })) !== read(file))
    faults.push(
      `${file} is not what bench/simulator/accuracy.ts makes of bench/watch-results.json`,
    );
}

/** The rule of scope as the guide tells it: run anew at the depths it names, and as the committed table has it. */
async function ruleOfScope() {
  const {
    FULL,
    ruleOfScope: study,
    csvOf,
    halfWind,
  } = await bundled("docs/examples/rule-of-scope.ts", "numbers-rule-of-scope.mjs");
  const cells = (await study({ ...FULL, depths: 4 })).filter((c) => c.rode === "chain");
  const lines = new Set(read("docs/rule-of-scope.csv").split("\n"));
  const missing = csvOf(cells)
    .trimEnd()
    .split("\n")
    .filter((line) => !lines.has(line));
  if (missing.length > 0)
    faults.push(
      `docs/rule-of-scope.csv: ${missing.length} rows differ; node docs/examples/rule-of-scope.mjs`,
    );
  const page = flat(read("docs/guides/sweeps.md"));
  for (const { depthM, windMps } of halfWind(cells)) {
    if (![2, 8, 20].includes(depthM)) continue;
    const words = `${((windMps * 3600) / 1852).toFixed(0)} kn in ${depthM} m`;
    if (!page.includes(words)) faults.push(`docs/guides/sweeps.md does not say "${words}"`);
  }
}

pages();
accuracies();
await watchPage();
if ((await benchmarksPage()) !== read("docs/benchmarks.md"))
  faults.push("docs/benchmarks.md is not what bench/page.mjs makes of bench/results.json");
await ruleOfScope();
for (const fault of faults) console.error(fault);
console.log(`numbers: ${counted} stated, ${faults.length} without a place they come from`);
process.exitCode = faults.length > 0 ? 1 : 0;
