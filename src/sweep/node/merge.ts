import { createReadStream, createWriteStream, existsSync, readFileSync } from "node:fs";
import { once } from "node:events";
import path from "node:path";
import { check } from "../../core/check.js";
import { InputError, refuse } from "../../core/errors.js";
import { descriptionOf, type SweepDescription } from "../describe.js";
import { sweepInput } from "../input.js";
import { layOut } from "../layout.js";
import { rangeOf, sweepShard } from "../sweep.js";
import { TEXT_FORMS } from "../sweepText.js";
import { READERS, sinkOf, type SweepForm } from "./forms.js";
import { hashOf, partOf, publish, shardName, type Manifest } from "./shards.js";

/** A shard as the merge sees it. */
interface Shard {
  file: string;
  from: number;
  to: number;
}

/** What became of a merge. */
export interface Merged {
  /** The file. */
  file: string;
  /** Scenarios in it. */
  rows: number;
  /** Shards it was made of. */
  shards: number;
}

const broken = (shard: Shard, message: string): never =>
  refuse(shard.file, "broken_shard", message);

/** The shards of a folder, every one of which has to be there. */
function shardsIn(folder: string): {
  shards: Shard[];
  description: SweepDescription;
  form: SweepForm;
} {
  const manifest = path.join(folder, "sweep.json");
  if (!existsSync(manifest)) refuse("folder", "no_sweep", `${folder} holds no sweep`);
  const { sweep, shards: n, form, sha256 } = JSON.parse(readFileSync(manifest, "utf8")) as Manifest;
  const l = layOut(check(sweepInput, sweep));
  if (hashOf(l) !== sha256)
    refuse("folder", "other_version", `${folder} was filled by another version of the library`);
  const shards = Array.from({ length: n }, (_, i): Shard => {
    const { from, to } = rangeOf(l.rows, sweepShard(i + 1, n));
    return { file: path.join(folder, shardName(i + 1, n, form)), from, to };
  });
  const missing = shards.flatMap((s, i) =>
    existsSync(s.file)
      ? []
      : [
          {
            path: `shard ${i + 1}/${n}`,
            code: "missing_shard",
            message: "is not there: run it first",
          },
        ],
  );
  if (missing.length > 0) throw new InputError(missing);
  return { shards, description: descriptionOf(l), form };
}

/**
 * Puts the shards of a sweep together into one file, after making sure that every one is there, once and whole.
 *
 * The file is the same as that of the whole sweep run in one go. Scenarios are counted shard by shard; a
 * gap, a repetition or a cut-off file is refused and no file is left behind.
 *
 * *Valid*: a folder filled by `runShard`. *Accuracy*: exact.
 *
 * @throws InputError with every shard that is missing, or the first that is not whole.
 * @source own form
 * @example
 * ```js
 * import { mergeShards } from "hawse/sweep/node";
 *
 * const { file, rows } = await mergeShards("out");
 * ```
 */
export async function mergeShards(folder: string, file?: string): Promise<Merged> {
  const { shards, description, form } = shardsIn(folder);
  const to = file ?? path.join(folder, `sweep.${form}`);
  const part = partOf(to);
  if (form === "csv" || form === "jsonl") await joinText(form, shards, description, part);
  else await joinChunks(form, shards, description, part);
  if (!publish(part, to)) refuse("out", "exists", `${to} is there already`);
  return { file: to, rows: description.rows, shards: shards.length };
}

/** Put the lines after the head of every file one after another. */
async function joinText(
  form: "csv" | "jsonl",
  shards: readonly Shard[],
  d: SweepDescription,
  part: string,
): Promise<void> {
  const head = Buffer.from(TEXT_FORMS[form].head(d));
  const out = createWriteStream(part);
  out.write(head);
  for (const shard of shards) {
    const first = readFileSync(shard.file).subarray(0, head.length);
    if (!first.equals(head)) broken(shard, "has another head than its sweep");
    let lines = 0;
    for await (const bytes of createReadStream(shard.file, { start: head.length })) {
      const block = bytes as Buffer;
      for (let at = block.indexOf(10); at >= 0; at = block.indexOf(10, at + 1)) lines++;
      if (!out.write(block)) await once(out, "drain");
    }
    if (lines !== shard.to - shard.from)
      broken(shard, `has ${lines} scenarios, expected ${shard.to - shard.from}`);
  }
  out.end();
  await once(out, "close");
}

async function joinChunks(
  form: "arrow" | "parquet",
  shards: readonly Shard[],
  d: SweepDescription,
  part: string,
): Promise<void> {
  const sink = await sinkOf(form, part, d);
  for (const shard of shards) {
    let next = shard.from;
    for await (const chunk of READERS[form](shard.file, d)) {
      if (chunk.from !== next) broken(shard, `goes on at scenario ${chunk.from}, expected ${next}`);
      next += chunk.rows;
      await sink.write(chunk);
    }
    if (next !== shard.to) broken(shard, `ends at scenario ${next}, expected ${shard.to}`);
  }
  await sink.end();
}
