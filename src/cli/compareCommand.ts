import { parseArgs } from "node:util";
import { refuse } from "../core/errors.js";
import { compareBerths } from "../plan/compareBerths.js";
import { compareText } from "../plan/compareText.js";
import type { StayInput } from "../plan/input.js";
import { readInput } from "./readInput.js";
import type { Command } from "./run.js";

/** `hawse compare A.json B.json ... [--for lunch|night] [--json]` */
export const compareCommand: Command = (args, { out }) => {
  const { values, positionals } = parseArgs({
    args,
    options: {
      for: { type: "string", default: "night" },
      json: { type: "boolean", default: false },
    },
    allowPositionals: true,
  });
  if (positionals.length < 2) refuse("", "too_small", "two files or more are needed to compare");
  const stays = positionals.map((file) => readInput(file) as StayInput);
  const comparison = compareBerths(stays, { purpose: values.for as "lunch" | "night" });
  out(
    values.json
      ? `${JSON.stringify(comparison, null, 1)}\n`
      : compareText(comparison, stays[0]?.zoneOffsetMinutes ?? 0),
  );
  return 0;
};
