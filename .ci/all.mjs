// The whole gate, stage by stage: `npm test`. Prints what failed, and `N passed, N failed` last.
// A stage name as argument runs that stage alone.
import { spawnSync } from "node:child_process";
import { readFileSync, rmSync } from "node:fs";
import path from "node:path";

const root = path.resolve(import.meta.dirname, "..");
const report = path.join(root, "reports/vitest.json");

const node = (script, ...args) => ["node", [`.ci/${script}.mjs`, ...args]];

const stages = [
  ["types", "tsc", ["--noEmit"]],
  ["lint", "eslint", ["."]],
  ["format", "prettier", ["--check", "--log-level", "warn", "."]],
  ["layers", ...node("layers")],
  ["knip", "knip", ["--no-progress"]],
  ["build", "tsup", ["--silent"]],
  ["tooltips", ...node("tooltips")],
  ["built-types", "tsc", ["-p", "tests/types/tsconfig.built.json"]],
  ["tests", "vitest", ["run", "--reporter=dot", "--reporter=json", `--outputFile.json=${report}`]],
  ["laws", "npm", ["run", "-s", "laws:short"]],
  ["verification", ...node("verification", "--check")],
  ["results", ...node("results")],
  ["pages", ...node("pages", "--check")],
  ["guides", ...node("guides", "--check")],
  ["numbers", ...node("numbers")],
  ["links", ...node("links")],
  ["size", ...node("size")],
  ["api", ...node("api", "--check")],
  ["licences", ...node("licences")],
  ["package", ...node("package")],
  ["docs", "typedoc", []],
  ["site", ...node("site", "--check")],
];

const chosen = process.argv.slice(2);
let passed = 0;
let failed = 0;

function run([name, command, args]) {
  const started = Date.now();
  const result = spawnSync(command, args, {
    cwd: root,
    encoding: "utf8",
    env: {
      ...process.env,
      PATH: `${path.join(root, "node_modules/.bin")}${path.delimiter}${process.env.PATH}`,
    },
    maxBuffer: 1 << 28,
  });
  const ok = result.status === 0;
  const seconds = ((Date.now() - started) / 1000).toFixed(1);
  console.log(`${ok ? "ok  " : "FAIL"} ${name} (${seconds} s)`);
  for (const line of result.stdout.split("\n"))
    if (/^skip: /.test(line)) console.log(`     ${line}`);
  if (!ok) console.log(`${result.stdout}\n${result.stderr}`.trim());
  return ok;
}

/** Single tests count one by one; a run that did not get as far as a report counts as one failure. */
function countTests(ok) {
  try {
    const { numPassedTests, numFailedTests } = JSON.parse(readFileSync(report, "utf8"));
    passed += numPassedTests;
    failed += numFailedTests + (ok || numFailedTests > 0 ? 0 : 1);
  } catch {
    failed += 1;
  }
}

rmSync(report, { force: true });
for (const stage of stages) {
  if (chosen.length > 0 && !chosen.includes(stage[0])) continue;
  const ok = run(stage);
  if (stage[0] === "tests") countTests(ok);
  else if (ok) passed += 1;
  else failed += 1;
}
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed > 0 ? 1 : 0);
