import { createHash, randomUUID } from "node:crypto";
import {
  closeSync,
  createReadStream,
  existsSync,
  fsyncSync,
  linkSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import path from "node:path";
import { check } from "../../core/check.js";
import { refuse } from "../../core/errors.js";
import { descriptionOf } from "../describe.js";
import { sweepInput, type SweepInput } from "../input.js";
import { layOut, type Layout } from "../layout.js";
import { sweepProgress, type SweepProgress } from "../progress.js";
import { rangeOf, sweepShard } from "../sweep.js";
import { TEXT_FORMS } from "../sweepText.js";
import { fillFile, type SweepForm } from "./forms.js";
import { poolLaid, type PoolOptions } from "./pool.js";

/** What stands in `sweep.json` beside the shards: all that a merge has to know. */
export interface Manifest {
  /** Hash of the sweep and the version of the library: shards of one folder must agree. */
  sha256: string;
  /** Number of shards. */
  shards: number;
  form: SweepForm;
  /** The sweep with its defaults filled in. */
  sweep: unknown;
}

/** What {@link runShard} is asked. */
export interface ShardJob {
  sweep: SweepInput;
  /** Folder for the shards, shared by all of them. */
  folder: string;
  /** Which shard, from 1, of how many; the whole in one unless given. */
  k?: number;
  n?: number;
  /** Form of the files; csv unless given. */
  form?: SweepForm;
  /** Threads, one unless given, and how to stop. */
  pool?: Omit<PoolOptions, "shard" | "fromScenario" | "toScenario" | "sameMemory">;
  /** Told now and then how far the shard has come. */
  onProgress?: (p: SweepProgress) => void;
}

/** What became of a shard. */
export interface ShardDone {
  /** The file. */
  file: string;
  /** Whether it was there already, from an earlier run or another machine. */
  already: boolean;
  /** Scenarios in it. */
  rows: number;
}

/** Fixed name of a shard's file. */
export const shardName = (k: number, n: number, form: SweepForm): string =>
  `shard-${String(k).padStart(5, "0")}-of-${String(n).padStart(5, "0")}.${form}`;

/** Hand a folder's entries over to the disk. */
function syncFolder(folder: string): void {
  const fd = openSync(folder, "r");
  fsyncSync(fd);
  closeSync(fd);
}

/**
 * Give a finished file its fixed name: flush it, link it, forget the working name. False where the
 * name was taken, by a twin that did the same work.
 */
function publish(part: string, file: string): boolean {
  const fd = openSync(part, "r+");
  fsyncSync(fd);
  closeSync(fd);
  let first = true;
  try {
    linkSync(part, file);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw error;
    first = false;
  }
  rmSync(part);
  syncFolder(path.dirname(file));
  return first;
}

/**
 * Have a file filled under a working name beside it that no other process uses, and publish it: see
 * {@link publish}. Where filling fails, nothing is left.
 */
export async function madeWhole(
  file: string,
  fill: (part: string) => void | Promise<void>,
): Promise<boolean> {
  const part = path.join(path.dirname(file), `.${path.basename(file)}.${randomUUID()}.part`);
  try {
    await fill(part);
    return publish(part, file);
  } catch (error) {
    rmSync(part, { force: true });
    throw error;
  }
}

/** File that holds the sum of a shard's bytes, as `sha256sum -c` reads it. */
export const sumName = (file: string): string => `${file}.sha256`;

/** What stands in the file of the sum of some bytes that go, or will go, by the name of `file`. */
export async function sumLine(bytes: string, file: string): Promise<string> {
  const hash = createHash("sha256");
  for await (const block of createReadStream(bytes)) hash.update(block as Buffer);
  return `${hash.digest("hex")}  ${path.basename(file)}\n`;
}

/** Lay the sum of a finished working file beside the name it will have; whole or not at all. */
async function writeSum(working: string, file: string): Promise<void> {
  writeFileSync(`${working}.sha256`, await sumLine(working, file), { flush: true });
  renameSync(`${working}.sha256`, sumName(file));
}

/** Hash of a sweep with the version of the library: the same hash, the same figures. */
export const hashOf = (l: Layout): string =>
  createHash("sha256")
    .update(JSON.stringify(descriptionOf(l)))
    .digest("hex");

/** File in a folder that says what is run there. */
export const manifestIn = (folder: string): string => path.join(folder, "sweep.json");

/** What is run in a folder. */
export function readManifest(folder: string): Manifest {
  const file = manifestIn(folder);
  const text = readFileSync(file, "utf8");
  let found: Manifest | null = null;
  try {
    found = JSON.parse(text) as Manifest | null;
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
  }
  return found ?? refuse("folder", "no_sweep", `${file} is not as a sweep wrote it`);
}

/** Say in the folder what is being run there, or refuse where something else is. */
async function claimFolder(
  folder: string,
  l: Layout,
  shards: number,
  form: SweepForm,
): Promise<void> {
  mkdirSync(folder, { recursive: true });
  const sweep = l.spec;
  const sha256 = hashOf(l);
  const manifest: Manifest = { sha256, shards, form, sweep };
  const file = manifestIn(folder);
  if (!existsSync(file))
    await madeWhole(file, (part) => {
      writeFileSync(part, `${JSON.stringify(manifest)}\n`);
    });
  const there = readManifest(folder);
  if (there.sha256 !== sha256)
    refuse(
      "folder",
      "other_sweep",
      `${folder} holds shards of another sweep, or of another version of the library`,
    );
  if (there.shards !== shards || there.form !== form)
    refuse(
      "folder",
      "other_cut",
      `${folder} holds a sweep cut into ${there.shards} shards as ${there.form}`,
    );
}

/**
 * Runs one shard of a sweep into a file of a fixed name.
 *
 * The file appears whole or not at all (written under a working name, flushed, linked), and a shard that
 * is there already is left alone: a shard can be killed, started anew or run twice at once. Beside it stands
 * its sum, a file `.sha256` as `sha256sum -c` reads it: a shard copied from another machine needs it for the
 * merge. Leaves out who starts it: GNU parallel, Slurm, Kubernetes or a loop.
 *
 * *Valid*: file systems with hard links. *Accuracy*: bytes are the same whoever runs it.
 *
 * @throws InputError as `sweep`, and where the folder holds another sweep.
 * @source own form
 * @example
 * ```js
 * import { runShard } from "hawse/sweep/node";
 *
 * const { file, already } = await runShard({ sweep, folder: "out", k: 3, n: 16 });
 * ```
 */
export async function runShard(job: ShardJob): Promise<ShardDone> {
  const { k = 1, n = 1, form = "csv", folder, onProgress, pool = {} } = job;
  const l = layOut(check(sweepInput, job.sweep));
  const part = sweepShard(k, n);
  const { from, to } = rangeOf(l.rows, part);
  await claimFolder(folder, l, n, form);
  const file = path.join(folder, shardName(k, n, form));
  const all = to - from;
  if (existsSync(file)) return { file, already: true, rows: all };
  const startedMs = performance.now();
  // Text is written chunk by chunk; the other forms hold chunks until a group is full.
  const chunks = poolLaid(l, { threads: 1, ...pool, ...part, sameMemory: form in TEXT_FORMS });
  const first = await madeWhole(file, async (working) => {
    await fillFile(form, working, descriptionOf(l), async (sink) => {
      let done = 0;
      for await (const chunk of chunks) {
        await sink.write(chunk);
        done += chunk.rows;
        onProgress?.(sweepProgress(done, all, (performance.now() - startedMs) / 1000));
      }
      if (done < all)
        throw new Error(`stopped after ${done} of ${all} scenarios; nothing was kept`);
    });
    await writeSum(working, file);
  });
  return { file, already: !first, rows: all };
}
