import { Column, Slot as m, UNKNOWN } from "./memory.js";
import { BLOCK_MS } from "./tables.js";

/** What the kernel works on, in place. */
export interface Memory {
  open: number[];
  ring: number[];
  readonly limits: readonly number[];
}

/** A limit along the straight line between its rows, held beyond them; UNKNOWN beside an unknown. */
export function limitAt(mem: Memory, column: number, timeMs: number): number {
  const limits = mem.limits;
  const count = mem.open[m.LIMIT_COUNT]!;
  let i = 0;
  while (i < count - 1 && limits[i + 1]! <= timeMs) i++;
  const a = limits[column + i]!;
  if (i === count - 1 || timeMs <= limits[i]!) return a;
  const b = limits[column + i + 1]!;
  if (a === UNKNOWN || b === UNKNOWN) return UNKNOWN;
  return a + ((b - a) * (timeMs - limits[i]!)) / (limits[i + 1]! - limits[i]!);
}

/** Open the block a time falls in, with the greatest distance that holds then. */
export function startBlock(mem: Memory, timeMs: number): void {
  const open = mem.open;
  const started = open[m.STARTED]!;
  const blocks = Math.max(0, Math.floor((timeMs - started) / BLOCK_MS));
  open[m.BLOCK_END] = started + (blocks + 1) * BLOCK_MS;
  setReach(mem, timeMs);
}

/** Greatest distance from the anchor at a time. */
export function setReach(mem: Memory, timeMs: number): void {
  const last = mem.open[m.LIMIT_COUNT]! - 1;
  const past = timeMs > mem.limits[Column.T + last]! || timeMs < mem.limits[Column.T]!;
  mem.open[m.OUTSIDE_TABLE] = last > 0 && past ? 1 : 0;
  mem.open[m.REACH] = Math.max(0, limitAt(mem, Column.REACH, timeMs) + mem.open[m.VEERED]!);
}

/** Place of the open block in the ring, as a whole number the machine can count with. */
export const slotOf = (open: readonly number[], blocks: number): number =>
  ((((open[m.BLOCK_END]! - open[m.STARTED]!) / BLOCK_MS) | 0) % blocks) | 0;
