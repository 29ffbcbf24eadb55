import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import type { Tinypool } from "tinypool";
import * as z from "zod/mini";
import { check } from "../../core/check.js";
import { sweepInput, type SweepInput } from "../input.js";
import { layOut, type Layout } from "../layout.js";
import { chunksIn, namedIn, widthOf, type ColumnChunk } from "../run.js";
import { partSchema, rangeOf, sweepLaid, type SweepPart } from "../sweep.js";
import { optionalPeer } from "./peer.js";
import { free, hasMore, sliceOf, slicesOf, slotsFor, stopAll, untilDone } from "./slots.js";
import type { Task } from "./worker.js";

/** How a sweep is spread over threads. */
export interface PoolOptions extends SweepPart {
  /** Worker threads; as many as the machine has processors unless given. With 1 everything is done in this thread. */
  threads?: number;
  /** File of the worker; the one that comes with the package unless given. */
  workerFile?: string;
}

/** Schema of {@link PoolOptions}. */
export const poolSchema = z.extend(partSchema, {
  threads: z.optional(z.int().check(z.gte(1), z.lte(1024))),
  workerFile: z.optional(z.string().check(z.minLength(1), z.maxLength(4096))),
});

/** The worker beside this module, wherever it was bundled to. */
const OWN_WORKER = "./sweep-worker.js";

/**
 * Runs a sweep on worker threads; chunks come in their order and are the same to the bit as on one thread.
 *
 * A pool of the optional package `tinypool` works out chunks a little ahead of the reader, into shared
 * memory. Its threads wait a second for another sweep, and do not keep a program from ending. Leaves
 * out other machines: see `hawse sweep run --shard`.
 *
 * *Valid*: Node.js. *Accuracy*: exact.
 *
 * @throws InputError as `sweep`; Error where `tinypool` is not installed.
 * @source own form
 * @example
 * ```js
 * import { sweepPool } from "hawse/sweep/node";
 *
 * for await (const { rows } of sweepPool(spec, { threads: 4 })) console.log(rows);
 * ```
 */
export async function* sweepPool(
  input: SweepInput,
  options: PoolOptions = {},
): AsyncGenerator<ColumnChunk> {
  const l = layOut(check(sweepInput, input));
  yield* poolLaid(l, check(poolSchema, options) as PoolOptions);
}

/** {@link sweepPool} of a sweep laid out before. */
export async function* poolLaid(l: Layout, options: PoolOptions): AsyncGenerator<ColumnChunk> {
  const threads = options.threads ?? availableParallelism();
  if (threads <= 1) {
    yield* sweepLaid(l, options);
    return;
  }
  const filename = options.workerFile ?? fileURLToPath(new URL(OWN_WORKER, import.meta.url));
  const key = `${threads} ${filename}`;
  const pool = takeWaiting(key) ?? (await poolOf(filename, threads));
  let idle = false;
  try {
    yield* ahead(l, options, threads, (task) => pool.run(task) as Promise<void>);
    idle = true;
  } finally {
    if (idle) letWait(key, pool);
    else await pool.destroy();
  }
}

async function poolOf(filename: string, threads: number): Promise<Tinypool> {
  const { Tinypool } = await optionalPeer("tinypool", () => import("tinypool"));
  return new Tinypool({ filename, minThreads: threads, maxThreads: threads });
}

/** How long threads wait for another sweep: to start some and have their code compiled takes a third of it. */
const WAIT_MS = 1000;

/** Pools that wait, by number of threads and file. */
const waiting = new Map<string, { pool: Tinypool; timer: NodeJS.Timeout }>();

function takeWaiting(key: string): Tinypool | undefined {
  const found = waiting.get(key);
  clearTimeout(found?.timer);
  waiting.delete(key);
  return found?.pool;
}

function letWait(key: string, pool: Tinypool): void {
  // Of two that end at the same time the later one waits.
  void takeWaiting(key)?.destroy();
  const timer = setTimeout(() => void takeWaiting(key)?.destroy(), WAIT_MS).unref();
  waiting.set(key, { pool, timer });
}

/** Chunks that a worker takes at once, where there are enough of them. */
const CHUNKS_AT_ONCE = 2;

/** Rows of a slice: whole chunks, few enough that every thread gets several slices. */
function rowsAtOnce(l: Layout, rows: number, slices: number): number {
  const chunks = Math.ceil(rows / l.chunkRows / slices);
  return Math.min(rows, Math.max(1, Math.min(CHUNKS_AT_ONCE, chunks)) * l.chunkRows);
}

/** Chunks in their order, worked out a little ahead of the reader. */
async function* ahead(
  l: Layout,
  part: SweepPart,
  threads: number,
  work: (task: Task) => Promise<void>,
): AsyncGenerator<ColumnChunk> {
  const range = rangeOf(l.rows, part);
  const rows = rowsAtOnce(l, range.to - range.from, 4 * threads);
  const slots = slotsFor(range, rows, widthOf(l), 2 * threads);
  const faults: unknown[] = [];
  const workers = new Set<Promise<void>>();
  const startWorker = () => {
    const worker = work({ spec: l.spec, slots })
      .catch((fault: unknown) => {
        faults.push(fault);
        stopAll(slots);
      })
      .finally(() => workers.delete(worker));
    workers.add(worker);
  };
  try {
    for (let n = 0; n < slicesOf(slots); n++) {
      // Those that have lost their patience with a slow reader among them.
      while (workers.size < threads && hasMore(slots)) startWorker();
      if (part.signal?.aborted === true || !(await untilDone(slots, n))) break;
      yield* chunksOf(l, sliceOf(slots, n), slots.tables[n % slots.tables.length]!, part);
      free(slots, n);
    }
  } finally {
    stopAll(slots);
  }
  await Promise.all(workers);
  if (faults.length > 0) throw faults[0];
}

/** The chunks of a slice that is done: as they lie in its table, or copied out of it. */
function* chunksOf(
  l: Layout,
  { from, to }: { from: number; to: number },
  table: Float64Array,
  part: SweepPart,
) {
  for (const { at, rows, table: place } of chunksIn(l, to - from, table)) {
    if (part.signal?.aborted === true) return;
    const columns = namedIn(l, rows, part.sameMemory === true ? place : place.slice());
    yield { from: from + at, rows, columns };
  }
}
