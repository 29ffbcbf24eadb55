import { layOut, type Layout } from "../layout.js";
import type { CheckedSweep } from "../input.js";
import { runRows } from "../run.js";

/** A run of scenarios for a worker. */
export interface Task {
  spec: CheckedSweep;
  /** Tells one sweep from the next. */
  run: number;
  from: number;
  rows: number;
  /** Where the columns go, one after another. */
  table: SharedArrayBuffer;
}

let laid: { run: number; layout: Layout } | null = null;

/** Work out the scenarios of a task; a sweep is laid out once a worker. */
export default function work({ spec, run, from, rows, table }: Task): void {
  if (laid?.run !== run) laid = { run, layout: layOut(spec) };
  const { layout } = laid;
  const width = layout.axes.length + layout.draws.length + layout.outputs.length;
  runRows(layout, from, rows, new Float64Array(table, 0, rows * width));
}
