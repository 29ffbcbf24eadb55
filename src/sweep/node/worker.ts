import { layOut, type Layout } from "../layout.js";
import type { CheckedSweep } from "../input.js";
import { chunksIn, runRows } from "../run.js";

/** Scenarios for a worker. */
export interface Task {
  spec: CheckedSweep;
  /** Tells one sweep from the next. */
  run: number;
  /** First scenario, and the one to stop before. */
  from: number;
  to: number;
  /** Where the chunks go, one after another. */
  table: SharedArrayBuffer;
}

/** Sweeps laid out in this worker, by their run; of an open pool several may be read at once. */
const laid = new Map<number, Layout>();
const MOST_LAID = 8;

/** Work out the scenarios of a task; a sweep is laid out once a worker. */
export default function work({ spec, run, from, to, table }: Task): void {
  const layout = laid.get(run) ?? layOut(spec);
  if (laid.size >= MOST_LAID && !laid.has(run)) laid.clear();
  laid.set(run, layout);
  for (const { at, rows, place } of chunksIn(layout, from, to, new Float64Array(table)))
    runRows(layout, at, rows, place);
}
