// The layer rule: who may import whom inside src, no import of an index, no cycles.
import { readFileSync, readdirSync } from "node:fs";
import path from "node:path";

const src = path.resolve(import.meta.dirname, "../src");
const domains =
  "tide stream rode lie holding seabed chart swing shelter signals daylight watch".split(" ");
const layerOf = (room) =>
  room === "core"
    ? 0
    : room === "geo"
      ? 1
      : domains.includes(room)
        ? 2
        : room === "plan"
          ? 3
          : ["sweep", "figure", "feed"].includes(room)
            ? 4
            : 5;

const files = readdirSync(src, { recursive: true })
  .map(String)
  .filter((f) => f.endsWith(".ts"));
const faults = [];
const graph = new Map();

/** Static imports and re-exports of one file; a statement of types only is marked so. */
function importsOf(text) {
  const found = [];
  const statement = /^(?:import|export)\s+(type\s+)?(?:([^"';]*?)\s+from\s+)?"([^"]+)"/gms;
  for (const m of text.matchAll(statement)) {
    const names = m[2] ?? "";
    const inline =
      /^\{[^}]*\}$/s.test(names.trim()) &&
      names
        .replace(/[{}]/g, "")
        .split(",")
        .filter((n) => n.trim() !== "")
        .every((n) => n.trim().startsWith("type "));
    found.push({ to: m[3], typeOnly: m[1] !== undefined || inline });
  }
  return found;
}

for (const file of files) {
  const room = file.includes(path.sep) ? file.split(path.sep)[0] : "index";
  const isIndex = path.basename(file) === "index.ts";
  const text = readFileSync(path.join(src, file), "utf8");
  const targets = [];
  for (const { to, typeOnly } of importsOf(text)) {
    if (!to.startsWith(".")) {
      if (to.startsWith("node:") && room !== "cli" && !file.includes("node"))
        faults.push(`${file}: ${to} is not neutral`);
      continue;
    }
    const target = path.relative(
      src,
      path.resolve(src, path.dirname(file), to.replace(/\.js$/, ".ts")),
    );
    const targetRoom = target.split(path.sep)[0];
    if (!files.includes(target)) faults.push(`${file}: ${to} does not exist`);
    if (path.basename(target) === "index.ts" && file !== "index.ts")
      faults.push(`${file}: imports an index (${to})`);
    if (room !== targetRoom && room !== "index") {
      const [mine, theirs] = [layerOf(room), layerOf(targetRoom)];
      const side = mine === theirs && (mine !== 2 || !typeOnly);
      if (theirs > mine || side)
        faults.push(
          `${file}: ${room} (layer ${mine}) may not import ${targetRoom} (layer ${theirs})`,
        );
    }
    if (!typeOnly && !isIndex) targets.push(target);
  }
  graph.set(file, targets);
}

const state = new Map();
function visit(file, trail) {
  if (state.get(file) === "done") return;
  if (state.get(file) === "open") {
    faults.push(`cycle: ${[...trail.slice(trail.indexOf(file)), file].join(" -> ")}`);
    return;
  }
  state.set(file, "open");
  for (const next of graph.get(file) ?? []) visit(next, [...trail, file]);
  state.set(file, "done");
}
for (const file of files) visit(file, []);

for (const fault of faults) console.error(fault);
console.log(
  `layers: ${files.length} files, ${faults.length} fault${faults.length === 1 ? "" : "s"}`,
);
process.exit(faults.length > 0 ? 1 : 0);
