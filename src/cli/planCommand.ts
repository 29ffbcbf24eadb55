import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { stayFigure } from "../figure/stayFigure.js";
import { holdingFigure } from "../figure/holdingFigure.js";
import { rodeFigure } from "../figure/rodeFigure.js";
import { shelterFigure } from "../figure/shelterFigure.js";
import { swingFigure } from "../figure/swingFigure.js";
import { briefText } from "../plan/brief.js";
import { stayGeoJson } from "../plan/geojson.js";
import type { StayInput } from "../plan/input.js";
import { planStay, type StayPlan } from "../plan/planStay.js";
import { readFor } from "./readInput.js";
import type { Command } from "./run.js";
import { writeAll } from "./writeAll.js";

/** The demo that comes with the package. */
export const DEMO = fileURLToPath(new URL("../shared/scenarios/gannick-bay.json", import.meta.url));

const jsonText = (plan: StayPlan): string => `${JSON.stringify(plan, null, 1)}\n`;

/** Everything that is written for a plan, by file name. */
export function filesOf(plan: StayPlan, input: StayInput): Record<string, string> {
  return {
    "brief.md": briefText(plan, { form: "markdown" }),
    "crew.md": briefText(plan, { form: "markdown", for: "crew" }),
    "watch.md": briefText(plan, { form: "markdown", for: "watch" }),
    "plan.json": jsonText(plan),
    "depth.svg": stayFigure(plan),
    "holding.svg": holdingFigure(plan),
    "rode.svg": rodeFigure(plan),
    "swing.svg": swingFigure(plan, input),
    "shelter.svg": shelterFigure(plan),
    "room.geojson": `${JSON.stringify(stayGeoJson(plan))}\n`,
  };
}

/** `hawse plan [STAY.json] [--out DIR] [--json]` */
export const planCommand: Command = (args, { out, err }) => {
  const { values, positionals } = parseArgs({
    args,
    options: { out: { type: "string" }, json: { type: "boolean", default: false } },
    allowPositionals: true,
  });
  const [file, ...more] = positionals;
  if (more.length > 0)
    throw Object.assign(new Error("one file at a time"), {
      code: "ERR_PARSE_ARGS_MORE",
    });
  if (file === undefined && !existsSync(DEMO))
    throw new Error("the demo is missing from the package");
  const { plan, input } = readFor(file ?? DEMO, (value) => {
    const stay = value as StayInput;
    return { plan: planStay(stay), input: stay };
  });
  // Everything is worked out before the first file is opened.
  const files = values.out === undefined ? {} : filesOf(plan, input);
  out(values.json ? jsonText(plan) : briefText(plan, { form: "text" }));
  // With --json the output is the plan and nothing else.
  const tell = values.json ? err : out;
  if (file === undefined)
    tell("\nThis is the demo: an invented bay. Plan your own with: hawse plan STAY.json\n");
  if (values.out !== undefined) {
    const written = writeAll(values.out, files);
    tell(`\nWritten:\n${written.map((w) => `  ${w}`).join("\n")}\n`);
  }
  return 0;
};
