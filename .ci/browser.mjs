// Chromium for the checks that need one; where there is none they say so and are skipped, unless it is required.
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createServer } from "node:http";
import os from "node:os";
import path from "node:path";

export const browserPath = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
].find((p) => existsSync(p));

/** Whether a browser check can run; prints the skip line where it cannot. */
export function canBrowse(what) {
  if (browserPath !== undefined) return true;
  if (process.env.HAWSE_REQUIRE_BROWSER) throw new Error(`no Chromium: ${what} cannot be checked`);
  console.log(`skip: no Chromium on this machine, ${what} was not checked`);
  return false;
}

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".json": "application/json",
};

/** A folder served on a free port of this machine alone. */
export async function serve(folder) {
  const server = createServer((request, response) => {
    const wanted = path.normalize(decodeURIComponent(new URL(request.url, "http://x").pathname));
    const file = path.join(folder, wanted.endsWith("/") ? `${wanted}index.html` : wanted);
    if (!file.startsWith(folder) || !existsSync(file)) {
      response.statusCode = 404;
      response.end();
      return;
    }
    response.setHeader("content-type", TYPES[path.extname(file)] ?? "application/octet-stream");
    response.end(readFileSync(file));
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  return { at: `http://127.0.0.1:${server.address().port}`, close: () => server.close() };
}

/** Runs `use(context)` in a fresh browser that reaches nothing but this machine. */
export async function inBrowser(use, options = {}) {
  const { chromium } = await import("playwright-core");
  const profile = mkdtempSync(path.join(os.tmpdir(), "hawse-browser-"));
  const context = await chromium.launchPersistentContext(profile, {
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
      "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1",
    ],
    ...options,
  });
  try {
    return await use(context);
  } finally {
    await context.close();
    rmSync(profile, { recursive: true, force: true });
  }
}

/** Rules of WCAG 2.2, A and AA. */
export const WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

/** Faults that axe finds in a page, by the rules of WCAG 2.2 A and AA and by good practice besides, one line each. */
export async function axeFaults(page, rules = [...WCAG, "best-practice"]) {
  const source = path.resolve(import.meta.dirname, "../node_modules/axe-core/axe.min.js");
  await page.evaluate(readFileSync(source, "utf8"));
  const { violations } = await page.evaluate(
    (runOnly) => globalThis.axe.run(document, { runOnly }),
    rules,
  );
  return violations.map(
    (v) => `${v.id}: ${v.help} (${v.nodes.length}): ${v.nodes[0].html.slice(0, 120)}`,
  );
}
