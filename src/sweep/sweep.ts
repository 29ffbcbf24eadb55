import * as z from "zod/mini";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import { sweepInput, type SweepInput } from "./input.js";
import { layOut, type Layout } from "./layout.js";
import { namedIn, piecesIn, runPieces, tableOf, type ColumnChunk } from "./run.js";

/** Which part of a sweep to run, and how to stop it. */
export interface SweepPart {
  /** First scenario; 0 unless given. */
  fromScenario?: number;
  /** Scenario to stop before; the last one is included unless given. */
  toScenario?: number;
  /** One shard of several, instead of the two above: see {@link sweepShard}. */
  shard?: { k: number; n: number };
  /** Anything whose `aborted` turns true when the sweep is to stop, such as an `AbortSignal`: the chunk at hand is the last. */
  signal?: { readonly aborted: boolean };
  /** Whether chunks lie in the same memory, each written over when the next is asked for: quicker, and no more memory for many chunks than for one. Copy what is to be kept. */
  sameMemory?: boolean;
}

const whole = () => z.int().check(z.gte(0));

/** Schema of a {@link SweepPart}. */
export const partSchema = z.strictObject({
  fromScenario: z.optional(whole()),
  toScenario: z.optional(whole()),
  shard: z.optional(z.strictObject({ k: whole(), n: whole() })),
  signal: z.optional(
    z.custom<{ readonly aborted: boolean }>(
      (s: unknown) => typeof s === "object" && s !== null && "aborted" in s,
      "expected something that tells whether it is `aborted`",
    ),
  ),
  sameMemory: z.optional(z.boolean()),
});

/** A part that has been checked; fields left out stay so. */
export const checkedPart = (part: SweepPart): SweepPart => check(partSchema, part) as SweepPart;

/**
 * Names shard `k` of `n` of a sweep, counted from 1: the scenarios are cut into `n` runs of nearly
 * the same length.
 *
 * Leaves out everything but the cut: which machine runs which shard is the business of the engine
 * that starts them.
 *
 * *Valid*: `k` from 1 to `n`. *Accuracy*: every scenario is in one shard and no other.
 *
 * @throws InputError where `k` is not a whole number from 1 to `n`.
 * @source own arithmetic
 * @example
 * ```ts
 * import { sweepShard } from "hawse/sweep";
 *
 * console.log(sweepShard(3, 16).shard.k, sweepShard(3, 16).shard.n);
 * // 3 16
 * ```
 */
export function sweepShard(k: number, n: number): { shard: { k: number; n: number } } {
  if (!(Number.isInteger(n) && n >= 1 && n <= 1e6))
    refuse("n", "invalid_value", "expected a whole number of shards, at least 1");
  if (!(Number.isInteger(k) && k >= 1 && k <= n))
    refuse("k", "invalid_value", `expected a whole number from 1 to ${n}`);
  return { shard: { k, n } };
}

/** First scenario of a part, and the one it stops before. */
export function rangeOf(rows: number, part: SweepPart): { from: number; to: number } {
  if (part.shard === undefined) {
    const from = part.fromScenario ?? 0;
    const to = part.toScenario ?? rows;
    if (!(Number.isInteger(from) && Number.isInteger(to) && from >= 0 && from <= to && to <= rows))
      refuse("fromScenario", "invalid_value", `expected whole numbers from 0 to ${rows}, in order`);
    return { from, to };
  }
  if (part.fromScenario !== undefined || part.toScenario !== undefined)
    refuse("shard", "twice", "expected `shard`, or `fromScenario` and `toScenario`, not both");
  const { k, n } = sweepShard(part.shard.k, part.shard.n).shard;
  const each = Math.floor(rows / n);
  const longer = rows % n;
  const start = (i: number) => i * each + Math.min(i, longer);
  return { from: start(k - 1), to: start(k) };
}

/**
 * Works out a what-if many times over: inputs run through grids, or drawn by chance, results in columns.
 *
 * Scenario `i` follows from the sweep, its seed and `i` alone, so that chunks, shards, threads and
 * a resumed run all give the same figures to the bit. Axes are run through with the last turning
 * fastest; every cell gets the same draws, so that cells differ by their axes and not by chance.
 * The model is one moment of lying to an anchor (`statics`) or a whole stay (`stay`). Leaves out
 * what the model leaves out; draws have 32 bits, so that nothing rarer than one in 4e9 is drawn.
 *
 * *Valid*: as the functions it is put together from. *Accuracy*: theirs; a figure that cannot be
 * worked out is NaN and never good news.
 *
 * @throws InputError with every issue: unknown inputs or outputs (with the list of right ones), values out of bounds, correlations that cannot be.
 * @source S. Joe and F. Y. Kuo, SIAM J. Sci. Comput. 30 (2008) for draws that fill their space evenly
 * @example
 * ```ts
 * import { sweep } from "hawse/sweep";
 *
 * const runs = sweep({
 *   statics: { vessel: { kind: "yacht", lengthM: 11 }, rode: { chainMm: 10 } },
 *   axes: [{ name: "scope", values: [3, 4, 5] }],
 *   fixed: { depthM: 8, windMps: 15 },
 *   seed: 1,
 *   outputs: ["reachM", "leadsAlongBed"],
 * });
 * for await (const { columns } of runs)
 *   console.log(Array.from(columns["reachM"]!, (m) => m.toFixed(1)), [...columns["leadsAlongBed"]!]);
 * // [ '21.9', '29.9', '37.9' ] [ 0, 1, 1 ]
 * ```
 */
export async function* sweep(input: SweepInput, part: SweepPart = {}): AsyncGenerator<ColumnChunk> {
  yield* sweepLaid(layOut(check(sweepInput, input)), checkedPart(part));
}

/** {@link sweep} of a sweep laid out before. */
export async function* sweepLaid(l: Layout, part: SweepPart = {}): AsyncGenerator<ColumnChunk> {
  const { from, to } = rangeOf(l.rows, part);
  const most = Math.min(l.chunkRows, to - from);
  const kept = part.sameMemory === true && most > 0 ? roomFor(l, most) : undefined;
  for (let at = from; at < to; at += most) {
    if (part.signal?.aborted === true) return;
    const rows = Math.min(most, to - at);
    const { pieces, columns } = kept !== undefined && rows === most ? kept : roomFor(l, rows);
    runPieces(l, at, pieces);
    yield await Promise.resolve({ from: at, rows, columns: { ...columns } });
  }
}

/** Room for a chunk: where it is worked out, and how it is handed over. */
function roomFor(l: Layout, rows: number) {
  const table = tableOf(l, rows);
  return { pieces: piecesIn(l, rows, table), columns: namedIn(l, rows, table) };
}
