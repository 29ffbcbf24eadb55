// A stranger's path: an empty project, `npm install` of the packed tarball, and the first plan of the README, as strict
// TypeScript, as CommonJS and in a page built by Vite. Each is timed; together they must take less than five minutes.
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { canBrowse, inBrowser, serve } from "./browser.mjs";

const root = path.resolve(import.meta.dirname, "..");
const scratch = mkdtempSync(path.join(os.tmpdir(), "hawse-stranger-"));
const project = path.join(scratch, "empty project");
const run = (command, args, cwd = project) =>
  execFileSync(command, args, { cwd, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
const write = (name, text) => {
  mkdirSync(path.dirname(path.join(project, name)), { recursive: true });
  writeFileSync(path.join(project, name), text);
};

/** First example of the README, and what it says it prints. */
function firstExample() {
  const code = /```ts\n([\s\S]*?)```/.exec(readFileSync(path.join(root, "README.md"), "utf8"))[1];
  const printed = [...code.matchAll(/^\/\/ (.*)$/gm)].map((m) => m[1]);
  return { code, printed: `${printed.join("\n")}\n` };
}

function timed(what, does) {
  const started = Date.now();
  const result = does();
  console.log(`${what}: ${((Date.now() - started) / 1000).toFixed(1)} s`);
  return result;
}

function same(said, promised) {
  if (said !== promised) throw new Error(`printed ${said} where the README says ${promised}`);
}

function strictTypeScript({ code, printed }) {
  write("strict/plan.ts", code);
  write("strict/package.json", JSON.stringify({ type: "module" }));
  write(
    "strict/tsconfig.json",
    JSON.stringify({
      compilerOptions: {
        strict: true,
        exactOptionalPropertyTypes: true,
        noUncheckedIndexedAccess: true,
        module: "NodeNext",
        target: "ES2022",
        lib: ["ES2023", "DOM"],
        types: [],
        outDir: "out",
      },
      files: ["plan.ts"],
    }),
  );
  run(path.join(root, "node_modules/.bin/tsc"), ["-p", "strict"]);
  same(run("node", ["strict/out/plan.js"]), printed);
}

function commonJs({ code, printed }) {
  const plain = code.replace(/^import (\{[^}]*\}) from ("[^"]+");/gm, "const $1 = require($2);");
  write("plan.cjs", plain);
  same(run("node", ["plan.cjs"]), printed);
}

/** The same in a page: Vite's dependency pre-bundling and production build, then a real browser. */
async function vitePage({ code, printed }) {
  let vite;
  try {
    vite = await import("vite");
  } catch {
    console.log("skip: Vite is not at hand, its page was not built");
    return;
  }
  write(
    "page/index.html",
    '<!doctype html><meta charset="utf-8"><title>plan</title><pre id="out"></pre><script type="module" src="./main.ts"></script>',
  );
  // What the README prints to the console goes into the page.
  write("page/main.ts", `${code}\ndocument.getElementById("out")!.dataset["done"] = "yes";\n`);
  const started = Date.now();
  await vite.build({
    root: path.join(project, "page"),
    configFile: false,
    logLevel: "error",
    build: { target: "es2022" },
  });
  console.log(`Vite page built: ${((Date.now() - started) / 1000).toFixed(1)} s`);
  if (!canBrowse("the Vite page")) return;
  const { at, close } = await serve(path.join(project, "page/dist"));
  try {
    await inBrowser(async (context) => {
      const page = await context.newPage();
      const said = [];
      page.on("console", (m) => m.type() === "log" && said.push(m));
      page.on("pageerror", (e) => {
        throw e;
      });
      await page.goto(`${at}/`);
      await page.waitForSelector("[data-done]", { state: "attached" });
      const lines = await Promise.all(
        said.map(async (m) => (await Promise.all(m.args().map((a) => a.jsonValue())))[0]),
      );
      const verdict = printed.split(" ")[0];
      if (lines[0] !== verdict) throw new Error(`the page says ${lines[0]}, the README ${verdict}`);
    });
    console.log("Vite page plans as the README says");
  } finally {
    close();
  }
}

const started = Date.now();
try {
  mkdirSync(project, { recursive: true });
  const packed = JSON.parse(
    run("npm", ["pack", "--json", "--ignore-scripts", "--pack-destination", scratch], root),
  );
  const { filename } = Array.isArray(packed) ? packed[0] : packed;
  write("package.json", JSON.stringify({ name: "stranger", private: true }));
  timed("npm install", () =>
    run("npm", ["install", "--no-progress", "--loglevel=error", path.join(scratch, filename)]),
  );
  const example = firstExample();
  timed("strict TypeScript, compiled and run", () => strictTypeScript(example));
  timed("CommonJS", () => commonJs(example));
  await vitePage(example);
  const seconds = (Date.now() - started) / 1000;
  console.log(`a stranger's path: ${seconds.toFixed(0)} s in all`);
  if (!(seconds < 300)) throw new Error("a stranger's path takes more than five minutes");
} catch (error) {
  console.error(error.stdout ?? "", error.stderr ?? "", error.message);
  process.exitCode = 1;
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
