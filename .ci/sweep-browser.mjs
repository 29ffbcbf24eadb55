// Runs a sweep in Chromium and prints the hash of its text: node .ci/sweep-browser.mjs SPEC.json
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { inBrowser, serve } from "./browser.mjs";

const root = path.resolve(import.meta.dirname, "..");

/** SHA-256 of a sweep's comma-separated values, worked out in Chromium. */
export async function hashInBrowser(spec) {
  const folder = mkdtempSync(path.join(os.tmpdir(), "hawse-sweep-"));
  writeFileSync(path.join(folder, "index.html"), "<!doctype html><title>sweep</title>");
  await build({
    entryPoints: [path.join(root, "src/sweep/index.ts")],
    outfile: path.join(folder, "sweep.js"),
    bundle: true,
    format: "esm",
    target: "es2022",
    logLevel: "error",
  });
  const { at, close } = await serve(folder);
  try {
    return await inBrowser(async (context) => {
      const page = await context.newPage();
      await page.goto(`${at}/`);
      // As text: a test runner would rewrite an import.
      return page.evaluate(`(async () => {
        const { sweepText } = await import("/sweep.js");
        const pieces = [];
        for await (const piece of sweepText(${JSON.stringify(spec)}, "csv")) pieces.push(piece);
        const bytes = await new Blob(pieces).arrayBuffer();
        const hash = await crypto.subtle.digest("SHA-256", bytes);
        return Array.from(new Uint8Array(hash), (b) => b.toString(16).padStart(2, "0")).join("");
      })()`);
    });
  } finally {
    close();
    rmSync(folder, { recursive: true, force: true });
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "-").href)
  console.log(await hashInBrowser(JSON.parse(readFileSync(process.argv[2], "utf8"))));
