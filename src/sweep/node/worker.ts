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

let laid: { run: number; layout: Layout } | null = null;

/** Work out the scenarios of a task; a sweep is laid out once a worker. */
export default function work({ spec, run, from, to, table }: Task): void {
  if (laid?.run !== run) laid = { run, layout: layOut(spec) };
  const { layout } = laid;
  for (const { at, rows, place } of chunksIn(layout, from, to, new Float64Array(table)))
    runRows(layout, at, rows, place);
}
