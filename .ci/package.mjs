// The packed tarball in an empty project: Node ESM, Node CJS, strict TypeScript, and a real browser.
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync, readFileSync, existsSync, mkdirSync } from "node:fs";
import { createServer } from "node:http";
import os from "node:os";
import path from "node:path";

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

const browserPath = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
].find((p) => existsSync(p));

/** Equal, numbers to one part in 1e14: engines differ in the last bit of some functions. */
function same(a, b) {
  if (typeof a === "number" && typeof b === "number")
    return Math.abs(a - b) <= 1e-14 * Math.max(Math.abs(a), Math.abs(b));
  if (typeof a !== "object" || a === null || b === null) return a === b;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((k) => same(a[k], b[k]));
}

async function inBrowser(expected) {
  if (browserPath === undefined) {
    if (process.env.HAWSE_REQUIRE_BROWSER) throw new Error("no Chromium to test in");
    console.log("skip: no Chromium on this machine, the browser check did not run");
    return;
  }
  const { chromium } = await import("playwright-core");
  const modules = path.join(scratch, "node_modules");
  const map = {
    imports: {
      hawse: "/hawse/dist/index.js",
    },
  };
  const server = createServer((request, response) => {
    if (request.url === "/") {
      response.setHeader("content-type", "text/html");
      // No eval under a strict content policy; and nothing but the package is asked for.
      response.end(
        `<!doctype html><meta http-equiv="Content-Security-Policy" content="script-src 'self' 'unsafe-inline'"><script type="importmap">${JSON.stringify(map)}</script>`,
      );
      return;
    }
    const file = path.join(modules, path.normalize(request.url ?? ""));
    response.setHeader("content-type", "text/javascript");
    if (existsSync(file)) response.end(readFileSync(file));
    else {
      response.statusCode = 404;
      response.end();
    }
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  const context = await chromium.launchPersistentContext(path.join(scratch, "profile"), {
    executablePath: browserPath,
    headless: true,
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
  try {
    const page = await context.newPage();
    const faults = [];
    page.on("pageerror", (e) => faults.push(e.message));
    page.on(
      "console",
      (m) =>
        m.type() === "error" &&
        !m.text().includes("favicon") &&
        !m.text().includes("404") &&
        faults.push(m.text()),
    );
    await page.goto(`http://127.0.0.1:${server.address().port}/`);
    const answer = await page.evaluate(
      `import("hawse").then((hawse) => {${question} return answer; })`,
    );
    if (faults.length > 0) throw new Error(`browser: ${faults.join("; ")}`);
    if (!same(JSON.parse(answer), JSON.parse(expected)))
      throw new Error(`browser and Node differ: ${answer} ${expected}`);
    console.log(
      answer === expected
        ? "browser agrees with Node to the last bit, under a policy without eval"
        : "browser agrees with Node to one part in 1e14, under a policy without eval",
    );
  } finally {
    await context.close();
    server.close();
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
  await inBrowser(answer);
} catch (error) {
  console.error(error.stdout ?? "", error.stderr ?? "", error.message);
  process.exitCode = 1;
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
