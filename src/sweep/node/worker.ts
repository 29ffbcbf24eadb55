import type { CheckedSweep } from "../input.js";
import { layOut } from "../layout.js";
import { chunksIn, piecesIn, runPieces } from "../run.js";
import { sliceOf, workThrough, type Slots } from "./slots.js";

/** A sweep for a worker: as much of it as it gets hold of. */
export interface Task {
  spec: CheckedSweep;
  slots: Slots;
}

/** Work out slices of a sweep until none is left. */
export default function work({ spec, slots }: Task): void {
  const layout = layOut(spec);
  const cut = (rows: number, slot: number) =>
    chunksIn(layout, rows, slots.tables[slot]!).map(({ at, rows: here, table }) => ({
      at,
      pieces: piecesIn(layout, here, table),
    }));
  // Tables come round again and again.
  const kept: ReturnType<typeof cut>[] = [];
  workThrough(slots, (n, slot) => {
    const { from, to } = sliceOf(slots, n);
    const whole = to - from === slots.rows;
    const chunks = whole ? (kept[slot] ??= cut(slots.rows, slot)) : cut(to - from, slot);
    for (const { at, pieces } of chunks) runPieces(layout, from + at, pieces);
  });
}
