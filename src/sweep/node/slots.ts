/// <reference lib="es2024.sharedmemory" />

/**
 * How the reader of a sweep and its workers pass tables to and fro without a message for each: the
 * scenarios are cut into slices, slice `n` goes into slot `n` modulo the number of slots, and numbers
 * in shared memory say how far everyone is.
 */
export interface Slots {
  /** A table for each slot. */
  readonly tables: readonly Float64Array[];
  /** {@link NEXT}, {@link ROOM}, and for each slot how many slices were done when its last one was. */
  readonly state: Int32Array;
  /** First scenario, the one to stop before, and how many a slice has. */
  readonly from: number;
  readonly to: number;
  readonly rows: number;
}

/** Place of the slice that is taken next. */
const NEXT = 0;
/** Place of the slice that has no slot yet, as those before it have; less than none when all are to stop. */
const ROOM = 1;
/** Place of the first slot. */
const DONE = 2;
const STOP = -1;

/** Slots for a sweep of `width` columns. */
export function slotsFor(
  range: { from: number; to: number },
  rows: number,
  width: number,
  count: number,
): Slots {
  const shared = (entries: number, bytesEach: number) => new SharedArrayBuffer(entries * bytesEach);
  const state = new Int32Array(shared(DONE + count, Int32Array.BYTES_PER_ELEMENT));
  state[ROOM] = count;
  const tables = Array.from(
    { length: count },
    () => new Float64Array(shared(rows * width, Float64Array.BYTES_PER_ELEMENT)),
  );
  return { tables, state, rows, ...range };
}

export const slicesOf = ({ from, to, rows }: Slots): number =>
  Math.ceil((to - from) / Math.max(1, rows));

/** The scenarios of a slice. */
export function sliceOf({ from, to, rows }: Slots, n: number): { from: number; to: number } {
  const start = from + n * rows;
  return { from: start, to: Math.min(to, start + rows) };
}

/** How long a worker waits for a slot before it goes: one that waits keeps the program from ending, though nobody may read on. */
const PATIENCE_MS = 1000;

/** In a worker: take slices as long as there are any, each when there is a slot for it. */
export function workThrough(slots: Slots, run: (n: number, slot: number) => void): void {
  const { state } = slots;
  const slices = slicesOf(slots);
  for (;;) {
    const n = Atomics.load(state, NEXT);
    const room = Atomics.load(state, ROOM);
    if (n >= slices || room === STOP) return;
    if (n >= room) {
      if (Atomics.wait(state, ROOM, room, PATIENCE_MS) === "timed-out") return;
      continue;
    }
    if (Atomics.compareExchange(state, NEXT, n, n + 1) !== n) continue;
    const slot = n % slots.tables.length;
    run(n, slot);
    Atomics.store(state, DONE + slot, n + 1);
    Atomics.notify(state, DONE + slot);
  }
}

/** Whether there are slices that no worker has taken. */
export const hasMore = (slots: Slots): boolean => Atomics.load(slots.state, NEXT) < slicesOf(slots);

/** For the reader: wait until slice `n` is done; false where all were told to stop instead. */
export async function untilDone(slots: Slots, n: number): Promise<boolean> {
  const { state } = slots;
  const place = DONE + (n % slots.tables.length);
  for (let done = Atomics.load(state, place); done !== n + 1; done = Atomics.load(state, place)) {
    if (Atomics.load(state, ROOM) === STOP) return false;
    // A wait of this kind does not keep a program running by itself.
    const awake = setInterval(() => undefined, 60_000);
    await Atomics.waitAsync(state, place, done).value;
    clearInterval(awake);
  }
  return true;
}

/** For the reader: slice `n` is read, its slot free for the one that comes next to it. */
export function free({ state, tables }: Slots, n: number): void {
  if (Atomics.load(state, ROOM) === STOP) return;
  Atomics.store(state, ROOM, n + 1 + tables.length);
  Atomics.notify(state, ROOM);
}

/** Have all stop after the slice at hand, and the reader wait no longer. */
export function stopAll({ state }: Slots): void {
  Atomics.store(state, ROOM, STOP);
  for (let place = ROOM; place < state.length; place++) Atomics.notify(state, place);
}
