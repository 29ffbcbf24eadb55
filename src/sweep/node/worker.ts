import type { CheckedSweep } from "../input.js";
import { layOut } from "../layout.js";
import { chunksIn, runRows } from "../run.js";
import { sliceOf, workThrough, type Slots } from "./slots.js";

/** A sweep for a worker: as much of it as it gets hold of. */
export interface Task {
  spec: CheckedSweep;
  slots: Slots;
}

/** Work out slices of a sweep until none is left. */
export default function work({ spec, slots }: Task): void {
  const layout = layOut(spec);
  workThrough(slots, (n, slot) => {
    const { from, to } = sliceOf(slots, n);
    for (const { at, rows, place } of chunksIn(layout, from, to, slots.tables[slot]!))
      runRows(layout, at, rows, place);
  });
}
