// Builds the live page into site/live from src and docs/live, and the front page of the site.
// With --check the built pages are also tried in a real browser: planned, edited, by keyboard, narrow, offline, axe.
import { copyFileSync, existsSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs"; // prettier-ignore
import path from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "tsup";
import { WCAG, axeFaults, canBrowse, inBrowser, serve } from "./browser.mjs";

const root = path.resolve(import.meta.dirname, "..");
const site = path.join(root, "site");
const live = path.join(site, "live");

/** The library's entry points, read from their sources. */
function fromSource() {
  const { exports } = JSON.parse(readFileSync(path.join(root, "package.json"), "utf8"));
  return Object.fromEntries(
    Object.keys(exports)
      .filter((key) => !key.endsWith(".json"))
      .map((key) => [
        key.replace(".", "hawse"),
        path.join(root, "src", key.replace(".", ""), "index.ts"),
      ]),
  );
}

async function bundle() {
  rmSync(live, { recursive: true, force: true });
  mkdirSync(live, { recursive: true });
  await build({
    entry: { live: "docs/live/live.js", worker: "docs/live/worker.js" },
    cwd: root,
    config: false,
    format: ["iife"],
    platform: "browser",
    target: "es2022",
    outDir: live,
    outExtension: () => ({ js: ".js" }),
    noExternal: [/.*/],
    tsconfig: "tsconfig.build.json",
    esbuildOptions(options) {
      options.alias = fromSource();
    },
    minify: true,
    silent: true,
    dts: false,
    clean: false,
  });
  const worker = path.join(live, "worker.js");
  const text = JSON.stringify(readFileSync(worker, "utf8"));
  writeFileSync(path.join(live, "worker-text.js"), `globalThis.HAWSE_WORKER=${text};\n`);
  rmSync(worker);
  for (const name of ["index.html", "live.css"])
    copyFileSync(path.join(root, "docs/live", name), path.join(live, name));
  copyFileSync(path.join(root, "docs/live/front.html"), path.join(site, "index.html"));
  copyFileSync(path.join(root, "docs/live/live.css"), path.join(site, "live.css"));
  for (const name of readdirSync(live)) {
    const kB = readFileSync(path.join(live, name)).length / 1024;
    console.log(`site/live/${name} ${kB.toFixed(0)} kB`);
  }
}

function must(holds, what) {
  if (!holds) throw new Error(`live page: ${what}`);
}

const planned = (page) =>
  page.waitForFunction(() => /^Worked out/.test(document.getElementById("status").textContent));

/** Waits until the page has planned again and says something of this kind. */
const says = (page, id, part) =>
  page.waitForFunction(
    ([at, words]) => document.getElementById(at).textContent.includes(words),
    [id, part],
  );

/** A text put in whole, as a paste does. */
const put = (page, text) =>
  page.locator("#json").evaluate((area, value) => {
    area.value = value;
    area.dispatchEvent(new Event("input", { bubbles: true }));
  }, text);

async function editsAndPlans(page) {
  must((await page.locator("#figures svg").count()) === 5, "five figures");
  must(
    (await page.locator("#verdict h3").textContent()).endsWith("clock UT+1"),
    "the clock of the plan's hours is named: the form is in UTC",
  );
  const before = await page.locator("#brief").textContent();
  await page.getByLabel("Draught, m").fill("4.6");
  await page.waitForFunction((old) => document.getElementById("brief").textContent !== old, before);
  must((await page.locator("#json").inputValue()).includes('"draughtM": 4.6'), "form into JSON");
  await says(page, "verdict", "UNSUITABLE");
  await page.locator("summary").last().press("Enter");
  const json = await page.locator("#json").inputValue();
  await put(page, json.replace('"draughtM": 4.6', '"draughtM": 1.2'));
  must((await page.getByLabel("Draught, m").inputValue()) === "1.2", "JSON into form");
  await says(page, "verdict", "WITH CARE");
  await put(page, json.replace("2026-06-16T18:00Z", "2026-06-16T19:00+01:00"));
  const arrive = await page.getByLabel("Arrive (UTC)").inputValue();
  must(arrive === "2026-06-16T18:00", "an instant in another zone stands in UTC in the form");
  await put(page, json.replace('"draughtM": 4.6', '"draughtM": -1'));
  await says(page, "issues", "vessel.draughtM");
  must(await page.locator("#plan.stale").count(), "an old plan is marked as such");
  await put(page, "{");
  await says(page, "issues", "JSON");
  await page.getByRole("button", { name: "Back to the demo" }).click();
  await planned(page);
  await page.waitForFunction((old) => document.getElementById("brief").textContent === old, before);
  await page.locator("summary").last().press("Enter");
}

/** Reaches every control and the plan with the tabulator alone. */
async function byKeyboard(page) {
  await page.locator("body").press("Tab");
  const reached = new Set();
  for (let i = 0; i < 60; i++) {
    const at = await page.evaluate(() => {
      const e = document.activeElement;
      return e.id || e.textContent.trim();
    });
    if (at === "") break;
    reached.add(at);
    await page.keyboard.press("Tab");
  }
  for (const id of ["To the plan", "field-0", "field-10", "draws", "theme", "Back to the demo"])
    must(reached.has(id), `not reached by keyboard: ${id}`);
  await page.locator("#field-6").focus();
  const before = await page.locator("#brief").textContent();
  await page.keyboard.press("ArrowUp");
  await page.waitForFunction((old) => document.getElementById("brief").textContent !== old, before);
}

async function fits(page, widthPx) {
  await page.setViewportSize({ width: widthPx, height: 800 });
  await page.waitForTimeout(300);
  await planned(page);
  const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  must(over <= 0, `${over} px too wide at ${widthPx} px`);
  const cut = await page.evaluate(() =>
    [...document.querySelectorAll("#fields input")]
      .filter((e) => e.type === "datetime-local" && e.clientWidth < 220)
      .map((e) => e.id),
  );
  must(cut.length === 0, `hours cut off in ${cut.join(", ")} at ${widthPx} px`);
}

async function checkLive(context, url) {
  const faults = [];
  const page = await context.newPage();
  page.on("pageerror", (e) => faults.push(e.message));
  page.on("console", (m) => m.type() === "error" && faults.push(m.text()));
  page.on("request", (r) => {
    if (!/^(http:\/\/127\.0\.0\.1|file:|blob:|data:)/.test(r.url()))
      faults.push(`asks for ${r.url()}`);
  });
  await page.goto(url);
  await planned(page);
  await editsAndPlans(page);
  await byKeyboard(page);
  for (const width of [360, 800, 1400]) await fits(page, width);
  for (const scheme of ["light", "dark"]) {
    await page.emulateMedia({ colorScheme: scheme });
    faults.push(...(await axeFaults(page)).map((f) => `axe, ${scheme}: ${f}`));
  }
  await page.getByLabel("Look").selectOption("night");
  await page.waitForSelector("svg.hw-night");
  faults.push(...(await axeFaults(page)).map((f) => `axe, night: ${f}`));
  await page.close();
  must(faults.length === 0, faults.join("\n"));
}

/** The API pages and the front page, as far as they are there. */
async function checkPages(context, at) {
  const pages = ["/index.html", "/api/index.html", "/api/modules/plan.html", "/api/functions/plan.planStay.html", "/api/types/plan.StayInput.html", "/api/documents/how_rode.html"]; // prettier-ignore
  for (const name of pages) {
    if (!existsSync(path.join(site, name))) {
      console.log(`skip: site${name} is not built, it was not checked`);
      continue;
    }
    const page = await context.newPage();
    await page.goto(at + name);
    await page.waitForTimeout(300);
    // The theme of the API pages is not ours: it is held to WCAG, not to good practice besides.
    const faults = await axeFaults(page, name.startsWith("/api/") ? WCAG : undefined);
    await page.close();
    must(faults.length === 0, `${name}\n${faults.join("\n")}`);
    console.log(`site${name} passes axe`);
  }
}

await bundle();
if (process.argv.includes("--check") && canBrowse("the live page")) {
  const { at, close } = await serve(site);
  try {
    await inBrowser(async (context) => {
      await checkLive(context, `${at}/live/`);
      console.log("live page: plans, edits, keyboard, 360 to 1400 px, light, dark and night, axe");
      await checkPages(context, at);
    });
    await inBrowser(async (context) => {
      const page = await context.newPage();
      await page.goto(pathToFileURL(path.join(live, "index.html")).href);
      await planned(page);
      console.log("live page: plans opened as a file, without a server");
    });
  } finally {
    close();
  }
}
