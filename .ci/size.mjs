// Byte ceilings: what a bundler makes of one subpath, minified and gzipped, with zod/mini and suncalc, which are built into the
// files, and beside it without them, made from the sources; and how long importing takes. The ceilings hold the first: it is
// what a page loads. `--write` takes today's sizes plus a little as new ceilings.
import { build } from "esbuild";
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { gzipSync } from "node:zlib";
import { pure } from "./pure.mjs";

const root = path.resolve(import.meta.dirname, "..");
const table = path.join(root, ".ci/size.json");
const manifest = JSON.parse(readFileSync(path.join(root, "package.json"), "utf8"));
const dist = (subpath) => path.join(root, manifest.exports[subpath].import.default);

const subpaths = Object.keys(manifest.exports).filter((key) => !key.endsWith(".json"));
const wanted = [
  ["hawse { tideHeight }", ".", "{ tideHeight }"],
  ...subpaths.map((s) => [s.replace(/^\./, "hawse"), s, "*"]),
];

/** Source of what a subpath is built from. */
const source = (subpath) =>
  path.join(root, "src", subpath === "." ? "index.ts" : `${subpath.slice(2)}/index.ts`);

async function gzipBytes(file, subpath, names, packages) {
  const result = await build({
    stdin: {
      contents: `export ${names} from ${JSON.stringify(file(subpath))};`,
      resolveDir: root,
    },
    bundle: true,
    minify: true,
    format: "esm",
    platform: manifest.exports[subpath].require === undefined ? "node" : "neutral",
    mainFields: ["module", "main"],
    packages,
    plugins: [pure],
    tsconfig: path.join(root, "tsconfig.build.json"),
    write: false,
    logLevel: "error",
  });
  return gzipSync(result.outputFiles[0].contents, { level: 9 }).length;
}

/** Middle of several imports in fresh processes, the start of the module loader included. */
function importMs(subpath) {
  const once = (code) => {
    const run = spawnSync(process.execPath, ["--input-type=module", "-e", code], {
      encoding: "utf8",
    });
    return Number(run.stdout);
  };
  const timed = `const t = performance.now(); await import(${JSON.stringify(`file://${dist(subpath)}`)}); console.log(performance.now() - t)`;
  const all = Array.from({ length: 7 }, () => once(timed)).sort((a, b) => a - b);
  return all[3];
}

const ceilings = existsSync(table) ? JSON.parse(readFileSync(table, "utf8")) : {};
/** Sizes aimed at. They are not reached yet: the gate holds what there is, and says how far off the aim is. */
const AIM = { "hawse { tideHeight }": 8192, "hawse/rode": 6144 };
const write = process.argv.includes("--write");
const rows = [];
let over = 0;
for (const [name, subpath, names] of wanted) {
  if (!existsSync(dist(subpath))) {
    console.error(`size: ${path.relative(root, dist(subpath))} is not built`);
    process.exit(1);
  }
  const bytes = await gzipBytes(dist, subpath, names, "external");
  const ours = await gzipBytes(source, subpath, names, "external");
  if (write) ceilings[name] = Math.ceil((bytes * 1.03) / 256) * 256;
  const ceiling = ceilings[name] ?? 0;
  if (!(bytes <= ceiling)) over += 1;
  rows.push({
    name,
    bytes,
    ceiling,
    ours,
    importMs: names === "*" ? importMs(subpath) : null,
  });
}

for (const r of rows) {
  const verdict = r.bytes <= r.ceiling ? "ok  " : "OVER";
  const time = r.importMs === null ? "" : `, imported in ${r.importMs.toFixed(1)} ms`;
  console.log(
    `${verdict} ${r.name}: ${r.bytes} of ${r.ceiling} bytes gzipped, ${r.ours} without zod and suncalc${time}`,
  );
  if (r.ours > (AIM[r.name] ?? Infinity))
    console.log(`     aim not reached: ${AIM[r.name]} bytes, even without zod and suncalc`);
}
if (write) writeFileSync(table, `${JSON.stringify(ceilings, null, 2)}\n`);
mkdirSync(path.join(root, "reports"), { recursive: true });
writeFileSync(path.join(root, "reports/size.json"), JSON.stringify(rows, null, 2));
console.log(`size: ${over === 0 ? "within every ceiling" : `${over} over the ceiling`}`);
process.exit(over === 0 ? 0 : 1);
