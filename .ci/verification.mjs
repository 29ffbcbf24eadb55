// docs/verification.md from the errors the check runs left in reports/checks.
// With --check: fail if the committed page differs.
import { existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import path from "node:path";

const root = path.resolve(import.meta.dirname, "..");
const reports = path.join(root, "reports/checks");
const page = path.join(root, "docs/verification.md");
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

const notCompared = rows
  .filter((r) => r.notCompared !== undefined)
  .map((r) => `| ${r.topic} | ${r.id} | ${cell(r.notCompared)} |`);
const count = (p) => rows.filter((r) => r.provenance === p).length;

const text = `# Verification

Written by \`npm run verification\` from the errors of the last test run; do not edit.
Every value of \`shared/checks\` goes through a public function or a named kernel. Source and provenance stand beside each value in its file.
Errors are absolute in the unit shown, or relative; \`exact\` counts mismatches (0 = none).

${rows.length} entries: ${count("read")} read in a published source, ${count("computed")} computed independently, ${count("memory")} from memory, ${count("common-practice")} common practice without a source.

| topic | quantity | checked against | cases | mean error | worst error | tolerance | unit |
| --- | --- | --- | ---: | ---: | ---: | ---: | --- |
${table().join("\n")}

## Not compared

| topic | value | why |
| --- | --- | --- |
${notCompared.join("\n")}
`;

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
console.log(`verification: ${rows.length} entries written to docs/verification.md`);
