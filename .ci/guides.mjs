// The figures of the worked nights in docs/guides, drawn by the built package from shared/scenarios.
// With --check: fail if a committed figure differs.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import {
  stayFigure,
  planStay,
  rodeFigure,
  shelterFigure,
  swingFigure,
  utc,
} from "../dist/index.js";

const root = path.resolve(import.meta.dirname, "..");
const folder = path.join(root, "docs/guides");
const check = process.argv.includes("--check");

const draw = {
  depth: (plan) => stayFigure(plan),
  rode: (plan) => rodeFigure(plan),
  swing: (plan, stay) => swingFigure(plan, stay),
  shelter: (plan) => shelterFigure(plan),
};
const nights = {
  "quiet-night": ["depth", "rode", "swing"],
  "shift-night": ["shelter", "rode", "depth"],
  "shoal-berth": ["depth", "swing"],
};

const instants = (key, value) =>
  key.endsWith("Ms") && typeof value === "string" ? utc(value) : value;

mkdirSync(folder, { recursive: true });
let differ = 0;
for (const [name, figures] of Object.entries(nights)) {
  const file = path.join(root, `shared/scenarios/${name}.json`);
  const stay = JSON.parse(readFileSync(file, "utf8"), instants);
  const plan = planStay(stay);
  for (const figure of figures) {
    const svg = `${draw[figure](plan, stay).trimEnd()}\n`;
    const to = path.join(folder, `${name}-${figure}.svg`);
    if (check && (!existsSync(to) || readFileSync(to, "utf8") !== svg)) {
      differ += 1;
      console.error(
        `${path.relative(root, to)} is not what the library draws: node .ci/guides.mjs`,
      );
    }
    if (!check) writeFileSync(to, svg);
  }
}
console.log(`guides: ${Object.values(nights).flat().length} figures, ${differ} differ`);
process.exit(differ > 0 ? 1 : 0);
