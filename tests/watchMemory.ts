import { type Memory, slotOf } from "../src/watch/reach.js";
import { Part, Ring, Slot } from "../src/watch/memory.js";
import { BLOCKS, BLOCK_MS } from "../src/watch/tables.js";
import { begin, START } from "./laws/watchScene.js";

/** An hour into the watch. */
export const HOUR_ON = START + 3_600_000;

/** A quiet watch an hour on, of a receiver good to a metre, with some of its numbers set by hand. */
export function memoryWith(set: Partial<Record<keyof typeof Slot, number>> = {}): Memory {
  const { open, ring, limits } = begin();
  const mem: Memory = { open: [...open], ring: [...ring], limits };
  const quiet: typeof set = {
    NOW: HOUR_ON,
    BLOCK_END: HOUR_ON + BLOCK_MS,
    LAST_GOOD: HOUR_ON,
    CENTRE_T: HOUR_ON - BLOCK_MS / 2,
    MODE: 1,
    SIGMA: 1,
    LEARNED: 1,
    TAIL: 0,
    FAST: 2,
    BASE_UNTIL: 0,
    REACH: 0,
  };
  for (const [name, value] of Object.entries({ ...quiet, ...set }))
    mem.open[Slot[name as keyof typeof Slot]] = value;
  return mem;
}

/** Set numbers of one receiver. */
export function setReceiver(
  mem: Memory,
  k: 0 | 1,
  set: Partial<Record<keyof typeof Part, number>>,
) {
  for (const [name, value] of Object.entries(set))
    mem.open[partAt(k, name as keyof typeof Part)] = value;
}
export const partAt = (k: 0 | 1, name: keyof typeof Part): number =>
  Slot.RECEIVER + k * Part.SIZE + Part[name];

/** Write the block so many before the open one, with its excess. */
export function blockBefore(mem: Memory, blocks: number, excess: number): void {
  const slot = (slotOf(mem.open, BLOCKS) + BLOCKS - blocks) % BLOCKS;
  mem.ring[Ring.T + slot] = mem.open[Slot.BLOCK_END]! - blocks * BLOCK_MS;
  mem.ring[Ring.E + slot] = excess;
}
