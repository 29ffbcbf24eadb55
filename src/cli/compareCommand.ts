import { parseArgs } from "node:util";
import { check } from "../core/check.js";
import { InputError, refuse, type InputIssue } from "../core/errors.js";
import { compareBerths } from "../plan/compareBerths.js";
import { compareText } from "../plan/compareText.js";
import { stayInput, type StayInput } from "../plan/input.js";
import { issuesOf, readFor, refusals, retold, toldOf } from "./readInput.js";
import type { Command } from "./run.js";

const PURPOSES = ["night", "lunch"] as const;

function stayOf(value: unknown): StayInput {
  check(stayInput, value);
  return value as StayInput;
}

/** The stays of the files. What is wrong with any of them is told at once, each with its file. */
function staysOf(files: readonly string[]): StayInput[] {
  const stays: StayInput[] = [];
  const issues = files.flatMap((file) =>
    refusals(() => {
      toldOf(file, () => stays.push(readFor(file, stayOf)));
    }),
  );
  if (issues.length > 0) throw new InputError(issues);
  return stays;
}

/** Issues of the comparison, with the file for the place in the list. */
const byFile = (files: readonly string[], issues: readonly InputIssue[]): InputIssue[] =>
  issues.flatMap((i) => {
    const [, at, path] = /^\[(\d+)\]\.?(.*)$/.exec(i.path) ?? [];
    return at === undefined ? i : issuesOf(files[Number(at)]!, [{ ...i, path: path! }]);
  });

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
  const purpose =
    PURPOSES.find((p) => p === values.for) ??
    refuse("--for", "invalid_value", `expected one of ${PURPOSES.join(", ")}`);
  const stays = staysOf(positionals);
  const comparison = retold(
    () => compareBerths(stays, { purpose }),
    (issues) => byFile(positionals, issues),
  );
  out(
    values.json
      ? `${JSON.stringify(comparison, null, 1)}\n`
      : compareText(comparison, stays[0]?.zoneOffsetMinutes ?? 0),
  );
  return 0;
};
