// The packed tarball in an empty project: Node ESM, Node CJS, strict TypeScript, and a real browser.
import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import ts from "typescript";
import { canBrowse, inBrowser, serve } from "./browser.mjs";

const root = path.resolve(import.meta.dirname, "..");
const bin = (name) => path.join(root, "node_modules/.bin", name);
const scratch = mkdtempSync(path.join(os.tmpdir(), "hawse-package-"));
const run = (command, args, cwd = scratch) =>
  execFileSync(command, args, {
    cwd,
    encoding: "utf8",
    stdio: ["ignore", "pipe", "pipe"],
  });

function pack() {
  const [info] = JSON.parse(
    run("npm", ["pack", "--json", "--ignore-scripts", "--pack-destination", scratch], root),
  );
  const names = info.files.map((f) => f.path);
  const stray = names.filter(
    (n) => !/^(dist\/|shared\/scenarios\/|package\.json|README\.md|CHANGELOG\.md|LICENSE)/.test(n),
  );
  if (stray.length > 0) throw new Error(`stray files in the package: ${stray.join(", ")}`);
  const notice = path.join(root, "dist/THIRD-PARTY.txt");
  if (
    !names.includes("dist/THIRD-PARTY.txt") ||
    !/^zod$[^]*^suncalc$/m.test(readFileSync(notice, "utf8"))
  )
    throw new Error("the licences of what is built in are missing");
  console.log(`packed ${names.length} files, ${(info.size / 1024).toFixed(0)} kB`);
  return path.join(scratch, info.filename);
}

function install(tarball) {
  writeFileSync(
    path.join(scratch, "package.json"),
    JSON.stringify({ name: "stranger", private: true, type: "module" }),
  );
  run("npm", ["install", "--no-progress", "--loglevel=error", tarball]);
}

const question = `
const { scopeByRule, layRode, chain, tideHeight, utc, knots, InputError } = hawse;
const rule = scopeByRule({ make: "chain", greatestDepthM: 7 });
const lay = layRode({ segments: [{ ...chain(8), lengthM: 30 }], bowHeightAboveAnchorM: 6, horizontalLoadN: 500 });
let refused = false;
try { scopeByRule({ make: "chain", greatestDepthM: NaN }); } catch (e) { refused = e instanceof InputError && e.issues.length === 1; }
const answer = JSON.stringify({ rule, lay, refused, knots: knots(10), at: utc("2026-06-01T21:30Z"), tide: typeof tideHeight });
`;

function inNode() {
  writeFileSync(
    path.join(scratch, "esm.mjs"),
    `import * as hawse from "hawse"; import { layRode as l } from "hawse/rode";${question}
if (l !== layRode) throw new Error("two copies of rode"); console.log(answer);`,
  );
  writeFileSync(
    path.join(scratch, "cjs.cjs"),
    `const hawse = require("hawse");${question}console.log(answer);`,
  );
  const esm = run("node", ["esm.mjs"]).trim();
  const cjs = run("node", ["cjs.cjs"]).trim();
  if (esm !== cjs) throw new Error(`ESM and CJS differ: ${esm} ${cjs}`);
  console.log("node ESM and CJS agree");
  return esm;
}

function everySubpath() {
  const manifest = JSON.parse(readFileSync(path.join(root, "package.json"), "utf8"));
  for (const key of Object.keys(manifest.exports)) {
    if (key.endsWith(".json")) continue;
    const name = key.replace(/^\./, "hawse");
    run("node", [
      "--input-type=module",
      "-e",
      `const m = await import("${name}"); if (Object.keys(m).length === 0) process.exit(1)`,
    ]);
    if (manifest.exports[key].require !== undefined)
      run("node", [
        "--input-type=commonjs",
        "-e",
        `if (Object.keys(require("${name}")).length === 0) process.exit(1)`,
      ]);
  }
  console.log("every subpath loads");
}

function strictTypes() {
  mkdirSync(path.join(scratch, "ts"), { recursive: true });
  writeFileSync(
    path.join(scratch, "ts/main.ts"),
    `import { scopeByRule, knots, type InputIssue } from "hawse";
import { layRode } from "hawse/rode";
const speed: number = knots(3);
const rule: number = scopeByRule({ make: "chain", greatestDepthM: 7 }).lengthM;
// @ts-expect-error a misspelt field is refused
scopeByRule({ make: "chain", greatestDepth: 7 });
// @ts-expect-error a speed is not a depth
scopeByRule({ make: "chain", greatestDepthM: knots(3) });
export const issue: InputIssue | undefined = undefined;
export { speed, rule, layRode };
`,
  );
  writeFileSync(
    path.join(scratch, "ts/tsconfig.json"),
    JSON.stringify({
      compilerOptions: {
        strict: true,
        module: "NodeNext",
        target: "ES2022",
        lib: ["ES2023"],
        noEmit: true,
        types: [],
        skipLibCheck: true,
      },
      include: ["main.ts"],
    }),
  );
  run(bin("tsc"), ["-p", "ts"]);
  console.log("strict TypeScript accepts and refuses as it should");
}

/** What an editor shows of a field as it is typed: its own words, from deep in an input as from its top. */
function toolTips() {
  const file = path.join(scratch, "ts/tips.ts");
  const text = `import { planStay } from "hawse";
const stay: Parameters<typeof planStay>[0] = null!;
stay.chartedDepthM; stay.vessel.draughtM; stay.tackle.rode[0]!.lengthM;`;
  writeFileSync(file, text);
  const service = ts.createLanguageService({
    ...ts.sys,
    getCompilationSettings: () => ({
      strict: true,
      module: ts.ModuleKind.NodeNext,
      target: ts.ScriptTarget.ES2022,
      types: [],
    }),
    getScriptFileNames: () => [file],
    getScriptVersion: () => "0",
    getScriptSnapshot: (f) =>
      ts.sys.fileExists(f) ? ts.ScriptSnapshot.fromString(readFileSync(f, "utf8")) : undefined,
    getCurrentDirectory: () => scratch,
    getDefaultLibFileName: ts.getDefaultLibFilePath,
    useCaseSensitiveFileNames: () => true,
  });
  for (const [field, words] of [
    ["chartedDepthM", /^Charted depth at the anchor/],
    ["draughtM", /^Draught/],
    ["lengthM", /^Length/],
  ]) {
    const tip = service.getQuickInfoAtPosition(file, text.lastIndexOf(field));
    const shown = ts.displayPartsToString(tip?.documentation);
    if (!words.test(shown)) throw new Error(`an editor shows "${shown}" of ${field}`);
  }
  console.log("an editor shows what the fields of an input mean");
}

/** Equal, numbers to one part in 1e14: engines differ in the last bit of some functions. */
function same(a, b) {
  if (typeof a === "number" && typeof b === "number")
    return Math.abs(a - b) <= 1e-14 * Math.max(Math.abs(a), Math.abs(b));
  if (typeof a !== "object" || a === null || b === null) return a === b;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((k) => same(a[k], b[k]));
}

/** A page may load scripts of its own place and nothing else: no text as code, inline or by eval, and no styles. */
const POLICY = "default-src 'none'; script-src 'self'; worker-src 'self'; base-uri 'none'";

/** The installed package beside a page whose script and worker ask it the same; both are files, as the policy wants. */
function writePage(folder) {
  cpSync(path.join(scratch, "node_modules/hawse/dist"), path.join(folder, "dist"), {
    recursive: true,
  });
  const page = `<!doctype html><meta http-equiv="Content-Security-Policy" content="${POLICY}"><script type="module" src="./page.js"></script>`;
  writeFileSync(path.join(folder, "index.html"), page);
  const asks = `import * as hawse from "./dist/index.js";${question}`;
  writeFileSync(path.join(folder, "worker.js"), `${asks}postMessage(answer);`);
  writeFileSync(
    path.join(folder, "page.js"),
    `${asks}globalThis.answers = [answer];
new Worker("./worker.js", { type: "module" }).onmessage = ({ data }) => globalThis.answers.push(data);
try { new Function("return 1")(); globalThis.evalRan = true; } catch { globalThis.evalRan = false; }
const script = document.createElement("script"); script.textContent = "globalThis.inlineRan = true"; document.head.append(script);`,
  );
}

async function inPage(expected) {
  if (!canBrowse("the package in a page")) return;
  const folder = path.join(scratch, "page");
  mkdirSync(folder);
  writePage(folder);
  const { at, close } = await serve(folder);
  try {
    const answers = await inBrowser(async (context) => {
      const page = await context.newPage();
      const faults = [];
      page.on("pageerror", (e) => faults.push(e.message));
      await page.goto(`${at}/`);
      await page
        .waitForFunction(() => globalThis.answers?.length === 2, undefined, { timeout: 60_000 })
        .catch((error) => faults.push(error.message));
      if (faults.length > 0) throw new Error(`browser: ${faults.join("; ")}`);
      // That the policy holds at all: text as code must not run here.
      const ran = await page.evaluate(() => [globalThis.evalRan, globalThis.inlineRan ?? false]);
      if (ran.some(Boolean)) throw new Error(`the policy lets text run as code: ${ran}`);
      return page.evaluate(() => globalThis.answers);
    });
    for (const answer of answers)
      if (!same(JSON.parse(answer), JSON.parse(expected)))
        throw new Error(`browser and Node differ: ${answer} ${expected}`);
    const exact = answers.every((answer) => answer === expected);
    console.log(
      `page and worker agree with Node ${exact ? "to the last bit" : "to one part in 1e14"}, under "${POLICY}"`,
    );
  } finally {
    close();
  }
}

try {
  const tarball = pack();
  run(bin("publint"), ["--strict", tarball], root);
  // The node part of sweeps is ESM alone: a worker needs its own address.
  run(bin("attw"), [tarball, "--profile", "node16", "--exclude-entrypoints", "sweep/node"], root);
  install(tarball);
  const answer = inNode();
  everySubpath();
  strictTypes();
  toolTips();
  await inPage(answer);
} catch (error) {
  console.error(error.stdout ?? "", error.stderr ?? "", error.message);
  process.exitCode = 1;
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
