// The packed tarball loaded by Deno and by Bun: the same plan as in Node. Engines differ in the last bits of sines and
// exponentials; numbers must agree to a part in 1e11, everything else wholly. Either runtime is fetched by npx for the run; where it
// cannot be had, that is said and skipped.
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import os from "node:os";
import path from "node:path";

const root = path.resolve(import.meta.dirname, "..");
const scratch = mkdtempSync(path.join(os.tmpdir(), "hawse-runtimes-"));
const run = (command, args, cwd = scratch) =>
  execFileSync(command, args, { cwd, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });

const RUNTIMES = [
  [
    "deno",
    ["-y", "deno@2"],
    ["run", "--quiet", "--node-modules-dir=manual", "--no-lock", "plan.mjs"],
  ],
  ["bun", ["-y", "bun@1"], ["plan.mjs"]],
];

const code = /```ts\n([\s\S]*?)```/.exec(readFileSync(path.join(root, "README.md"), "utf8"))[1];

const isOutline = (a) =>
  Array.isArray(a) && a.length > 2 && a.every((p) => p?.latDeg !== undefined);

/** Degrees from a position to an edge between two others. */
function toEdge(p, a, b) {
  const [ex, ey] = [b.lonDeg - a.lonDeg, b.latDeg - a.latDeg];
  const [px, py] = [p.lonDeg - a.lonDeg, p.latDeg - a.latDeg];
  const along = Math.max(0, Math.min(1, (px * ex + py * ey) / (ex * ex + ey * ey || 1)));
  return Math.hypot(px - along * ex, py - along * ey);
}

/** Greatest distance of the corners of an outline from the edges of another, degrees. */
const outside = (a, b) =>
  Math.max(...a.map((p) => Math.min(...b.map((q, i) => toEdge(p, q, b[(i + 1) % b.length])))));

/**
 * Greatest difference of numbers, against their size or one; infinite where anything else differs. Outlines are
 * held against each other as shapes: which of several corners in one line is kept hangs on the last bit.
 */
function furthest(a, b) {
  if (isOutline(a) && isOutline(b)) return Math.max(outside(a, b), outside(b, a));
  if (typeof a === "number" && typeof b === "number")
    return Math.abs(a - b) / Math.max(1, Math.abs(a));
  if (typeof a !== "object" || a === null || typeof b !== "object" || b === null)
    return a === b ? 0 : Infinity;
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return Math.max(0, ...[...keys].map((key) => furthest(a[key], b[key])));
}

try {
  const packed = JSON.parse(
    run("npm", ["pack", "--json", "--ignore-scripts", "--pack-destination", scratch], root),
  );
  const { filename } = Array.isArray(packed) ? packed[0] : packed;
  writeFileSync(path.join(scratch, "package.json"), JSON.stringify({ name: "runtimes", private: true })); // prettier-ignore
  run("npm", ["install", "--no-progress", "--loglevel=error", path.join(scratch, filename)]);
  // The plan as text: every bit of every number is in it.
  writeFileSync(
    path.join(scratch, "plan.mjs"),
    `${code.replace(/^console\.log[\s\S]*$/m, "")}\nconsole.log(JSON.stringify(plan));\n`,
  );
  const expected = run("node", ["plan.mjs"]);
  for (const [name, npx, args] of RUNTIMES) {
    const there = spawnSync("npx", [...npx, "--version"], { cwd: scratch, encoding: "utf8", timeout: 240_000 }); // prettier-ignore
    if (there.status !== 0) {
      console.log(`skip: ${name} cannot be had here, it was not tried`);
      continue;
    }
    const got = spawnSync("npx", [...npx, ...args], { cwd: scratch, encoding: "utf8", timeout: 120_000 }); // prettier-ignore
    if (got.status !== 0) throw new Error(`${name}: ${got.stderr}`);
    const worst = furthest(JSON.parse(expected), JSON.parse(got.stdout));
    if (!(worst <= 1e-11)) throw new Error(`${name} plans otherwise than Node: ${worst}`);
    const bits = worst === 0 ? "to the last bit" : `to ${worst.toExponential(0)}`;
    console.log(`${there.stdout.trim().split("\n")[0]}: the same plan as Node, ${bits}`);
  }
} catch (error) {
  console.error(error.stdout ?? "", error.stderr ?? "", error.message);
  process.exitCode = 1;
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
