import { copyFileSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
// @ts-expect-error -- plain JavaScript, shared with the scripts of the gate
import * as browser from "../../.ci/browser.mjs";
import { bundle } from "./bundle.js";

interface Page {
  goto: (url: string) => Promise<unknown>;
  setViewportSize: (size: { width: number; height: number }) => Promise<void>;
  evaluate: (f: string) => Promise<unknown>;
  keyboard: { press: (key: string) => Promise<void>; type: (text: string) => Promise<void> };
  on: ((event: "pageerror", f: (e: { message: string }) => void) => void) &
    ((event: "console", f: (m: { type: () => string; text: () => string }) => void) => void);
}
const { canBrowse, serve, inBrowser, axeFaults } = browser as {
  canBrowse: (what: string) => boolean;
  serve: (folder: string) => Promise<{ at: string; close: () => void }>;
  inBrowser: (use: (context: { newPage: () => Promise<Page> }) => Promise<void>) => Promise<void>;
  axeFaults: (page: Page) => Promise<string[]>;
};

const folder = mkdtempSync(path.join(os.tmpdir(), "hawse-page-"));
const sources = path.resolve(import.meta.dirname, "../../docs/examples/browser");

beforeAll(async () => {
  for (const name of ["index.html", "page.css"])
    copyFileSync(path.join(sources, name), path.join(folder, name));
  for (const name of ["main.js", "worker.js"])
    await bundle(path.join(sources, name), path.join(folder, name), "browser");
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

const text = (page: Page, id: string) =>
  page.evaluate(`document.getElementById("${id}").textContent`) as Promise<string>;
/** Waits until the page says something of this kind; asked from outside, for its policy lets no text run as code. */
async function answers(page: Page, pattern: string): Promise<void> {
  const until = Date.now() + 60_000;
  while (!new RegExp(pattern).test(await text(page, "answer"))) {
    if (Date.now() > until) throw new Error(`the page never said ${pattern}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

describe("the browser example", () => {
  test("asks for nothing outside its folder", () => {
    for (const name of ["index.html", "page.css", "main.js", "worker.js"])
      expect(readFileSync(path.join(sources, name), "utf8")).not.toMatch(/https?:\/\//);
  });
  test.runIf(canBrowse("the browser example"))(
    "plans in a worker, by keyboard alone, on a narrow screen, and passes axe",
    async () => {
      const { at, close } = await serve(folder);
      try {
        await inBrowser(async (context) => {
          const page = await context.newPage();
          const faults: string[] = [];
          page.on("pageerror", (e) => faults.push(e.message));
          // What the page's own policy turns away is told here.
          page.on("console", (m) => m.type() === "error" && faults.push(m.text()));
          await page.setViewportSize({ width: 360, height: 740 });
          await page.goto(`${at}/`);
          await answers(page, "veer \\d+ m");
          expect(await page.evaluate(`document.querySelectorAll("#figures svg").length`)).toBe(2);
          expect(
            await page.evaluate("document.documentElement.scrollWidth - innerWidth"),
          ).toBeLessThanOrEqual(0);
          expect(await axeFaults(page)).toEqual([]);
          const before = await text(page, "answer");
          // Tab to the draught, type, and send with Enter.
          for (const key of ["Tab", "Tab", "ControlOrMeta+a"]) await page.keyboard.press(key);
          await page.keyboard.type("5");
          await page.keyboard.press("Enter");
          await answers(page, "Unsuitable");
          expect(await text(page, "answer")).not.toBe(before);
          await page.keyboard.press("ControlOrMeta+a");
          await page.keyboard.type("-5");
          await page.keyboard.press("Enter");
          await answers(page, "Not planned: .*draughtM");
          expect(await page.evaluate(`document.querySelectorAll("#figures svg").length`)).toBe(0);
          expect(faults).toEqual([]);
        });
      } finally {
        close();
      }
    },
  );
});
