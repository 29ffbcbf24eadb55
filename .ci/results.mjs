// Headline results, held against docs/results.json: a figure that moves fails until a changeset says "Results:".
// With --write the file is written anew,
// which a figure that moved allows only then.
import { existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import { bundled } from "./bundle.mjs";

const root = path.resolve(import.meta.dirname, "..");
const page = path.join(root, "docs/results.json");

const source = `
import { chain, layRode, rodeForLoad } from "./src/rode/index.js";
import { holding, sizeAnchor } from "./src/holding/index.js";
import { lie, vesselFrom } from "./src/lie/index.js";
import { tideHeight } from "./src/tide/index.js";
import { sunEvents } from "./src/daylight/index.js";
import { signalsDue } from "./src/signals/index.js";
import { planStay } from "./src/plan/index.js";
import { parseSeabed, rateAnchors } from "./src/seabed/index.js";
import { readInput } from "./src/cli/readInput.js";

const T0 = Date.UTC(2026, 5, 1);
const vessel = vesselFrom({ kind: "yacht", lengthM: 11 });
const rode = { segments: [{ ...chain(8), lengthM: 40 }], bowHeightAboveAnchorM: 7 };
const plan = planStay(readInput("shared/scenarios/gannick-bay.json"));
const leaves = (value, at, out) => {
  if (typeof value === "object" && value !== null)
    for (const [k, v] of Object.entries(value)) leaves(v, at + "." + k, out);
  else out[at] = typeof value === "number" ? Number(value.toPrecision(9)) : value;
  return out;
};
export const results = {
  ...leaves(plan.limiting, "demo plan limiting", {}),
  ...leaves(plan.rode, "demo plan rode", {}),
  "demo plan verdict": plan.verdict,
  "demo plan reasons": plan.reasons.map((r) => r.code + " " + r.severity).join(", "),
  "demo plan room radius, m": plan.room.radiusM,
  ...leaves(layRode({ ...rode, horizontalLoadN: 1500 }), "8 mm chain, 40 m in 7 m, 1500 N", {}),
  "8 mm chain to veer in 7 m for 1500 N, m": rodeForLoad({ ...rode, horizontalLoadN: 1500 }).lengthM,
  ...leaves(lie({ vessel, windMps: 15, windFromDeg: 240, streamMps: 0.8, streamTowardsDeg: 20 }), "11 m yacht in 15 m/s and 0.8 m/s", {}),
  ...leaves(holding({ anchor: { type: "rollBarScoop", massKg: 16 }, seabed: "sand, firm" }).ultimateN, "16 kg roll-bar scoop in firm sand, N", {}),
  ...leaves(holding({ anchor: { type: "fixedPlough", massKg: 20 }, seabed: "mud, soft", pullAngleDeg: 8 }).ultimateN, "20 kg plough in soft mud at 8 degrees, N", {}),
  ...leaves(tideHeight({ kind: "turns", turns: [{ timeMs: T0, heightM: 0.8 }, { timeMs: T0 + 22.5e6, heightM: 4.6 }], datum: "LAT" }, T0 + 9e6), "tide 2.5 h after low water", {}),
  "sun at 50 N 4 W on 1 June 2026": sunEvents({ position: { latDeg: 50, lonDeg: -4 }, stay: { fromMs: T0, toMs: T0 + 864e5 } }).map((e) => e.kind + " " + new Date(e.timeMs).toISOString().slice(11, 19)).join(", "),
  "signals of an 11 m yacht by night": signalsDue({ lengthM: 11, situation: "anchored", period: "night", restrictedVisibility: true, nearTraffic: true }).rules.join(", "),
  "anchors on f.S.M": Object.entries(rateAnchors(parseSeabed("f.S.M")).ratings).map(([type, r]) => type + " " + r.rating).join(", "),
};
`;
const { results } = await bundled({ contents: source }, "results.mjs");
const now = JSON.parse(JSON.stringify(results));

const write = process.argv.includes("--write");
const before = existsSync(page) ? JSON.parse(readFileSync(page, "utf8")) : {};
/** The last digits of a sum may differ between machines; a result that moves moves more than this. */
const same = (a, b) =>
  a === b ||
  (typeof a === "number" &&
    typeof b === "number" &&
    Math.abs(a - b) <= 1e-8 * Math.max(1, Math.abs(a), Math.abs(b)));
const moved = Object.keys(before).filter((k) => !same(before[k], now[k]));
const added = Object.keys(now).filter((k) => !(k in before));
for (const key of moved) console.log(`${key}: ${before[key]} -> ${now[key]}`);
const noted = readdirSync(path.join(root, ".changeset"))
  .filter((f) => f.endsWith(".md") && f !== "README.md")
  .some((f) => /^Results:/m.test(readFileSync(path.join(root, ".changeset", f), "utf8")));

if (moved.length > 0 && !noted) {
  console.error(
    `results: ${moved.length} moved; mend them, or say so in a changeset that starts with "Results:"`,
  );
  process.exit(1);
}
if (write) {
  writeFileSync(page, `${JSON.stringify(now, null, 2)}\n`);
  console.log(`results: ${Object.keys(now).length} written to docs/results.json`);
} else if (moved.length + added.length > 0) {
  console.error(
    `results: ${moved.length} moved, ${added.length} new; run npm run results -- --write`,
  );
  process.exit(1);
} else console.log(`results: ${Object.keys(now).length} as before`);
