// Every figure to be looked at: `npm run look` draws each kind from the built-in demo and a watched night, in
// every theme at three widths, as PNG in temp/look, with a sheet a kind that shows them side by side. Needs Chromium.
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { bundled } from "./bundle.mjs";
import { canBrowse, inBrowser } from "./browser.mjs";

const root = path.resolve(import.meta.dirname, "..");
const out = path.join(root, "temp/look");
const THEMES = ["light", "dark", "night"];
const WIDTHS = [360, 720, 1200];

const drawing = `
  import * as figures from "./src/figure/index.js";
  import { readInput } from "./src/cli/readInput.js";
  import { planStay } from "./src/plan/index.js";
  import { watchedNight } from "./tests/watchedNight.js";
  const stay = readInput("shared/scenarios/gannick-bay.json");
  const plan = planStay({ ...stay, draws: { count: 2000 } });
  const watched = watchedNight(6, 10);
  export const draw = (options) => ({
    depth: figures.stayFigure(plan, options),
    rode: figures.rodeFigure(plan, options),
    swing: figures.swingFigure(plan, stay, options),
    shelter: figures.shelterFigure(plan, options),
    holding: figures.holdingFigure(plan, options),
    watch: figures.watchFigure(watched, options),
  });
`;

const pageOf = (svg) => `<!doctype html><title>figure</title><body style="margin:0">${svg}</body>`;

async function shoot(context, draw) {
  const sheets = new Map();
  for (const theme of THEMES)
    for (const widthPx of WIDTHS)
      for (const [kind, svg] of Object.entries(
        draw({ theme, widthPx, id: `${theme}${widthPx}` }),
      )) {
        const page = await context.newPage();
        await page.setViewportSize({ width: widthPx, height: 600 });
        await page.setContent(pageOf(svg));
        const image = await page.locator("svg").screenshot();
        await page.close();
        writeFileSync(path.join(out, `${kind}-${theme}-${widthPx}.png`), image);
        sheets.set(kind, [...(sheets.get(kind) ?? []), svg]);
      }
  for (const [kind, all] of sheets) {
    const page = await context.newPage();
    await page.setViewportSize({ width: 2360, height: 800 });
    await page.setContent(`<body style="margin:8px;background:#777">${all.join(" ")}</body>`);
    await page.screenshot({ path: path.join(out, `${kind}.png`), fullPage: true });
    await page.close();
  }
}

if (canBrowse("the look of the figures")) {
  rmSync(out, { recursive: true, force: true });
  mkdirSync(out, { recursive: true });
  const { draw } = await bundled({ contents: drawing }, "look.mjs");
  await inBrowser((context) => shoot(context, draw));
  console.log(`figures in ${path.relative(root, out)}`);
}
