// Byte ceilings: what a bundler makes of one subpath, minified and gzipped, without the two dependencies
// (measured apart), and how long importing it takes. `--write` takes today's sizes plus a little as new ceilings.
import { build } from "esbuild";
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { gzipSync } from "node:zlib";

const root = path.resolve(import.meta.dirname, "..");
const table = path.join(root, ".ci/size.json");
const manifest = JSON.parse(readFileSync(path.join(root, "package.json"), "utf8"));
const dist = (subpath) => path.join(root, manifest.exports[subpath].import.default);

const subpaths = Object.keys(manifest.exports).filter((key) => !key.endsWith(".json"));
const wanted = [
  ["hawse { tideHeight }", ".", "{ tideHeight }"],
  ...subpaths.map((s) => [s.replace(/^\./, "hawse"), s, "*"]),
];

async function gzipBytes(subpath, names, packages) {
  const result = await build({
    stdin: {
      contents: `export ${names} from ${JSON.stringify(dist(subpath))};`,
      resolveDir: root,
    },
    bundle: true,
    minify: true,
    format: "esm",
    platform: manifest.exports[subpath].require === undefined ? "node" : "neutral",
    mainFields: ["module", "main"],
    packages,
    write: false,
    logLevel: "error",
  });
  return gzipSync(result.outputFiles[0].contents, { level: 9 }).length;
}

/** Middle of several imports in fresh processes, less the middle of starting a process with nothing to import. */
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
  const bytes = await gzipBytes(subpath, names, "external");
  const withPackages = await gzipBytes(subpath, names, "bundle");
  if (write) ceilings[name] = Math.ceil((bytes * 1.03) / 256) * 256;
  const ceiling = ceilings[name] ?? 0;
  if (!(bytes <= ceiling)) over += 1;
  rows.push({
    name,
    bytes,
    ceiling,
    withPackages,
    importMs: names === "*" ? importMs(subpath) : null,
  });
}

for (const r of rows) {
  const verdict = r.bytes <= r.ceiling ? "ok  " : "OVER";
  const time = r.importMs === null ? "" : `, imported in ${r.importMs.toFixed(1)} ms`;
  console.log(
    `${verdict} ${r.name}: ${r.bytes} of ${r.ceiling} bytes gzipped, ${r.withPackages} with dependencies${time}`,
  );
  if (r.bytes > (AIM[r.name] ?? Infinity))
    console.log(`     aim not reached: ${AIM[r.name]} bytes`);
}
if (write) writeFileSync(table, `${JSON.stringify(ceilings, null, 2)}\n`);
mkdirSync(path.join(root, "reports"), { recursive: true });
writeFileSync(path.join(root, "reports/size.json"), JSON.stringify(rows, null, 2));
console.log(`size: ${over === 0 ? "within every ceiling" : `${over} over the ceiling`}`);
process.exit(over === 0 ? 0 : 1);
