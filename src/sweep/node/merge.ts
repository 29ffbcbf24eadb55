import {
  closeSync,
  createReadStream,
  existsSync,
  openSync,
  readFileSync,
  readSync,
  writeFileSync,
} from "node:fs";
import path from "node:path";
import { check } from "../../core/check.js";
import { InputError, refuse } from "../../core/errors.js";
import { descriptionOf, type SweepDescription } from "../describe.js";
import { sweepInput } from "../input.js";
import { layOut } from "../layout.js";
import { rangeOf, sweepShard } from "../sweep.js";
import { TEXT_FORMS } from "../sweepText.js";
import { broken, readable } from "./broken.js";
import { fillFile, READERS, type SweepForm } from "./forms.js";
import {
  hashOf,
  madeWhole,
  manifestIn,
  readManifest,
  shardName,
  sumLine,
  sumName,
} from "./shards.js";

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

/** The shards of a folder, every one of which has to be there. */
function shardsIn(folder: string): {
  shards: Shard[];
  description: SweepDescription;
  form: SweepForm;
} {
  if (!existsSync(manifestIn(folder))) refuse("folder", "no_sweep", `${folder} holds no sweep`);
  const { sweep, shards: n, form, sha256 } = readManifest(folder);
  const l = layOut(check(sweepInput, sweep));
  if (hashOf(l) !== sha256)
    refuse("folder", "other_version", `${folder} was filled by another version of the library`);
  const shards = Array.from({ length: n }, (_, i): Shard => {
    const { from, to } = rangeOf(l.rows, sweepShard(i + 1, n));
    return { file: path.join(folder, shardName(i + 1, n, form)), from, to };
  });
  const missing = shards.flatMap((s, i) => {
    const of = `shard ${i + 1}/${n}`;
    if (!existsSync(s.file))
      return [{ path: of, code: "missing_shard", message: "is not there: run it first" }];
    if (existsSync(sumName(s.file))) return [];
    const message = `has no ${path.basename(sumName(s.file))} beside it: copy it along, or remove the shard and run it again`;
    return [{ path: of, code: "missing_sum", message }];
  });
  if (missing.length > 0) throw new InputError(missing);
  return { shards, description: descriptionOf(l), form };
}

/**
 * Puts the shards of a sweep together into one file, after making sure that every one is there, once and whole.
 *
 * The file is the same as that of the whole sweep run in one go. Scenarios are counted shard by shard and
 * the bytes held against their sum; a gap, a repetition, a cut-off or altered file is refused and no file is
 * left behind.
 *
 * *Valid*: a folder filled by `runShard`. *Accuracy*: exact.
 *
 * @throws InputError with every shard that is missing or has no sum beside it, or the first that is not whole.
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
  const isThere = (): never => refuse("out", "exists", `${to} is there already`);
  if (existsSync(to)) isThere();
  const first = await madeWhole(to, (part) =>
    form === "csv" || form === "jsonl"
      ? joinText(form, shards, description, part)
      : joinChunks(form, shards, description, part),
  );
  if (!first) isThere();
  return { file: to, rows: description.rows, shards: shards.length };
}

/** Refuse a shard whose bytes are not those that were written. */
async function unspoilt({ file }: Shard): Promise<void> {
  if ((await sumLine(file, file)) !== readFileSync(sumName(file), "utf8"))
    broken(file, "is not as it was written: copy it anew, or remove it and run the shard again");
}

/** Put the lines after the head of every file one after another. */
async function joinText(
  form: "csv" | "jsonl",
  shards: readonly Shard[],
  d: SweepDescription,
  part: string,
): Promise<void> {
  const head = Buffer.from(TEXT_FORMS[form].head(d));
  const out = openSync(part, "w");
  try {
    writeFileSync(out, head);
    for (const shard of shards) {
      if (!beginsWith(shard.file, head)) broken(shard.file, "has another head than its sweep");
      for await (const lines of readable(shard.file, linesOf(form, shard, head.length)))
        writeFileSync(out, lines);
      await unspoilt(shard);
    }
  } finally {
    closeSync(out);
  }
}

/** Whether a file begins with some bytes. */
function beginsWith(file: string, bytes: Buffer): boolean {
  const fd = openSync(file, "r");
  const first = Buffer.alloc(bytes.length);
  readSync(fd, first);
  closeSync(fd);
  return first.equals(bytes);
}

/** Bytes within which every line ends. */
const LONGEST_LINE = 65_536;

/** The lines of a shard after its head, some at a time, each of which has to be that of the scenario next to the one before. */
async function* linesOf(
  form: "csv" | "jsonl",
  { file, from, to }: Shard,
  start: number,
): AsyncGenerator<Buffer> {
  const startOf = TEXT_FORMS[form].start;
  let next = from;
  let rest = Buffer.alloc(0);
  for await (const bytes of createReadStream(file, { start })) {
    const block = Buffer.concat([rest, bytes as Buffer]);
    let at = 0;
    for (let end = block.indexOf(10); end >= 0; end = block.indexOf(10, at)) {
      const expected = startOf(next);
      if (block.toString("latin1", at, at + expected.length) !== expected)
        broken(file, `has another line where scenario ${next} is expected`);
      next++;
      at = end + 1;
    }
    yield block.subarray(0, at);
    rest = block.subarray(at);
    if (rest.length > LONGEST_LINE) break;
  }
  if (next !== to) broken(file, `has ${next - from} scenarios, expected ${to - from}`);
  if (rest.length > 0) broken(file, "goes on after its last line");
}

async function joinChunks(
  form: "arrow" | "parquet",
  shards: readonly Shard[],
  d: SweepDescription,
  part: string,
): Promise<void> {
  await fillFile(form, part, d, async (sink) => {
    for (const shard of shards) {
      const { file, from, to } = shard;
      let next = from;
      for await (const chunk of readable(file, READERS[form](file, d))) {
        if (chunk.from !== next)
          broken(file, `goes on at scenario ${chunk.from}, expected ${next}`);
        next += chunk.rows;
        await sink.write(chunk);
      }
      if (next !== to) broken(file, `ends at scenario ${next}, expected ${to}`);
      await unspoilt(shard);
    }
  });
}
