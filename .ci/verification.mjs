// docs/verification.md from the errors the check runs left in reports/checks.
// With --check: fail if the committed page differs. Topics whose tests have not run are told, and nothing is written.
// Where the open data set is absent, what is measured with it is taken over from the page as it stands.
import { existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import { keptLeft, keptValues, rowsOf } from "./standing.mjs";

const root = path.resolve(import.meta.dirname, "..");
const reports = path.join(root, "reports/checks");
const page = path.join(root, "docs/verification.md");
const hasData = existsSync(path.join(root, "../shared/data"));
const rows = (existsSync(reports) ? readdirSync(reports).sort() : [])
  .filter((f) => f.endsWith(".json"))
  .flatMap((f) => JSON.parse(readFileSync(path.join(reports, f), "utf8")));

const cell = (text) => String(text).replace(/\|/g, "/").replace(/\s+/g, " ");
const figure = (x) =>
  x === 0
    ? "0"
    : Math.abs(x) >= 1e-3 && Math.abs(x) < 1e4
      ? String(+x.toPrecision(2))
      : x.toExponential(0);

/** Topics that the tests report, and those of them whose test asks for the open data set. */
const topics = new Set();
const wantsData = new Set();
for (const file of readdirSync(path.join(root, "tests"), { recursive: true })) {
  if (!file.endsWith(".test.ts")) continue;
  const text = readFileSync(path.join(root, "tests", file), "utf8");
  for (const [, topic] of text.matchAll(/\b(?:runChecks|reportRows)\(\s*"([\w-]+)"/g)) {
    topics.add(topic);
    if (/shared-data|tide-stations/.test(text)) wantsData.add(topic);
  }
}
const measured = new Set(rows.map((r) => r.topic));
const missing = [...topics].filter((topic) => !measured.has(topic));
const notRun = missing.filter((topic) => hasData || !wantsData.has(topic));
if (notRun.length > 0) {
  console.log(`verification: not measured: ${notRun.join(", ")}; run npm run checks first`);
  process.exit(1);
}

/** One line a topic, quantity and tolerance. */
function table() {
  const groups = new Map();
  for (const row of rows)
    for (const c of row.comparisons) {
      const key = [row.topic, c.quantity, c.unit].join("\u0000");
      const g = groups.get(key) ?? {
        topic: row.topic,
        quantity: c.quantity,
        unit: c.unit,
        sources: new Set(),
        errors: [],
        tolerances: [],
      };
      g.sources.add(row.source);
      g.errors.push(c.error);
      g.tolerances.push(c.tolerance);
      groups.set(key, g);
    }
  return [...groups.values()].map((g) => {
    const mean = g.errors.reduce((a, b) => a + b, 0) / g.errors.length;
    const [least, most] = [Math.min(...g.tolerances), Math.max(...g.tolerances)];
    const tolerance =
      g.unit === "exact"
        ? "exact"
        : least === most
          ? figure(most)
          : `${figure(least)} to ${figure(most)}`;
    const sources = [...g.sources];
    const shown = sources.slice(0, 2).map(cell).join("; ");
    const more = sources.length > 2 ? ` and ${sources.length - 2} more` : "";
    return `| ${g.topic} | ${cell(g.quantity)} | ${shown}${more} | ${g.errors.length} | ${figure(mean)} | ${figure(Math.max(...g.errors))} | ${tolerance} | ${g.unit === "exact" ? "" : cell(g.unit)} |`;
  });
}

const left = rows
  .filter((r) => r.notCompared !== undefined)
  .map((r) => `| ${r.topic} | ${r.id} | ${cell(r.notCompared)} |`);
const standing = rowsOf(existsSync(page) ? readFileSync(page, "utf8") : "");
const values = hasData ? table() : keptValues(table(), standing.values, wantsData);
const notCompared = hasData ? left : keptLeft(left, standing.left, wantsData);
// Each topic that wants the data set and left nothing is one entry of a computed comparison.
const taken = missing.map(() => ({ provenance: "computed" }));
const entries = [...rows, ...taken];
const count = (p) => entries.filter((r) => r.provenance === p).length;

const text = `# Verification

Written by \`npm run verification\` from the errors of the last test run; do not edit.
Every value of \`shared/checks\` goes through a public function or a named kernel. Source and provenance stand beside each value in its file.
Errors are absolute in the unit shown, or relative; \`exact\` counts mismatches (0 = none).

${entries.length} entries: ${count("read")} read in a published source, ${count("computed")} computed independently, ${count("memory")} from memory, ${count("common-practice")} common practice without a source.

| topic | quantity | checked against | cases | mean error | worst error | tolerance | unit |
| --- | --- | --- | ---: | ---: | ---: | ---: | --- |
${values.join("\n")}

## Not compared

| topic | value | why |
| --- | --- | --- |
${notCompared.join("\n")}
`;

if (!hasData)
  console.log(
    "skip: the open data set is absent, what is measured with it was taken over from the page",
  );
if (process.argv.includes("--check")) {
  const same = existsSync(page) && readFileSync(page, "utf8") === text;
  console.log(
    same
      ? "verification: up to date"
      : "verification: docs/verification.md is not what the tests measured; run npm run verification",
  );
  process.exit(same ? 0 : 1);
}
writeFileSync(page, text);
console.log(`verification: ${entries.length} entries written to docs/verification.md`);
