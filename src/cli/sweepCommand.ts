import path from "node:path";
import { parseArgs } from "node:util";
import { refuse } from "../core/errors.js";
import { describeSweep } from "../sweep/describe.js";
import type { SweepInput } from "../sweep/input.js";
import { FORMS, type SweepForm } from "../sweep/node/forms.js";
import { mergeShards } from "../sweep/node/merge.js";
import { runShard } from "../sweep/node/shards.js";
import { COMMAND_HELP } from "./help.js";
import { readInput, readObject } from "./readInput.js";
import type { Command, Terminal } from "./run.js";

/** Seconds between two lines of progress. */
const EVERY_S = 10;

/** The sweep of a file; its stay may stand in a file of its own, named in its place. */
function readSweep(file: string): SweepInput {
  const spec = readObject(file) as { stay?: unknown };
  if (typeof spec.stay === "string")
    spec.stay = readInput(path.resolve(path.dirname(file), spec.stay));
  return spec as SweepInput;
}

function shardOf(text: string): { k: number; n: number } {
  const found = /^(\d+)\/(\d+)$/.exec(text);
  if (found === null) refuse("--shard", "invalid_value", "expected K/N, such as 3/16");
  const [k, n] = [Number(found[1]), Number(found[2])];
  if (n < 1) refuse("--shard", "invalid_value", "N must be 1 or more");
  if (k < 1 || k > n) refuse("--shard", "invalid_value", `K must be 1 to ${n}`);
  return { k, n };
}

function formOf(text: string): SweepForm {
  const form = FORMS.find((f) => f === text);
  return form ?? refuse("--form", "invalid_value", `expected one of ${FORMS.join(", ")}`);
}

function threadsOf(text: string): number {
  const threads = Number(text);
  return Number.isInteger(threads) && threads >= 1 && threads <= 1024
    ? threads
    : refuse("--threads", "invalid_value", "expected a whole number from 1 to 1024");
}

async function runOne(args: string[], { out, err }: Terminal): Promise<number> {
  const { values, positionals } = parseArgs({
    args,
    options: {
      out: { type: "string" },
      shard: { type: "string", default: "1/1" },
      form: { type: "string", default: "csv" },
      threads: { type: "string", default: "1" },
    },
    allowPositionals: true,
  });
  const folder = values.out ?? refuse("--out", "missing", "expected the folder for the shards");
  const spec = onlyOf(positionals, "the file of the sweep");
  const call = {
    ...shardOf(values.shard),
    form: formOf(values.form),
    pool: { threads: threadsOf(values.threads) },
  };
  let toldS = 0;
  const { file, already, rows } = await runShard({
    sweep: readSweep(spec),
    folder,
    ...call,
    onProgress: ({ share, rowsPerS, leftS }) => {
      const nowS = performance.now() / 1000;
      if (nowS - toldS < EVERY_S || leftS === null) return;
      toldS = nowS;
      err(
        `${(100 * share).toFixed(1)} %, ${rowsPerS!.toFixed(0)} scenarios/s, ${leftS.toFixed(0)} s left\n`,
      );
    },
  });
  out(`${file}: ${rows} scenarios${already ? ", there already" : ""}\n`);
  return 0;
}

async function mergeAll(args: string[], { out }: Terminal): Promise<number> {
  const { values, positionals } = parseArgs({
    args,
    options: { out: { type: "string" } },
    allowPositionals: true,
  });
  const { file, rows, shards } = await mergeShards(
    onlyOf(positionals, "the folder of the shards"),
    values.out,
  );
  out(`${file}: ${rows} scenarios of ${shards} ${shards === 1 ? "shard" : "shards"}\n`);
  return 0;
}

function onlyOf(positionals: readonly string[], what: string): string {
  const [one, ...more] = positionals;
  return one !== undefined && more.length === 0
    ? one
    : refuse("", "missing", `expected ${what}, and nothing else`);
}

/** `hawse sweep describe | run | merge …` */
export const sweepCommand: Command = async (args, terminal) => {
  const [verb, ...rest] = args;
  switch (verb) {
    case "run":
      return runOne(rest, terminal);
    case "merge":
      return mergeAll(rest, terminal);
    case "describe":
      terminal.out(
        `${JSON.stringify(describeSweep(readSweep(onlyOf(rest, "the file of the sweep"))), null, 1)}\n`,
      );
      return 0;
    default:
      terminal.err(
        `${verb === undefined ? "" : `hawse: there is no verb ${verb}\n\n`}${COMMAND_HELP.sweep}`,
      );
      return 2;
  }
};
