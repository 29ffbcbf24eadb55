import { refuse } from "../core/errors.js";
import type { Plane } from "../geo/plane.js";
import type { LimitTable } from "./limits.js";
import { Column, LIMITS_SIZE, OPEN_SIZE, RING_SIZE, Slot as m, UNKNOWN } from "./memory.js";
import { type Memory, setReach } from "./reach.js";
import { type WatchReport, reportOf } from "./report.js";

/** All a watch remembers: plain, of fixed size, never changed in place. */
export interface WatchState {
  /** Version of the layout. */
  readonly version: 1;
  /** Flat picture of the anchorage. */
  readonly plane: Plane;
  /** Limits, by column. */
  readonly limits: readonly number[];
  /** Closed blocks of the last half hour, by column. */
  readonly ring: readonly number[];
  /** Everything else. */
  readonly open: readonly number[];
  /** What the report rests on: the first part of `open` as it was then. */
  readonly said: readonly number[];
  /** What the watch said last. */
  readonly report: WatchReport;
}

/** State of numbers, and of those the last report rests on; the report follows from them. */
export const stateOf = (
  mem: Memory,
  plane: Plane,
  said: number[] = mem.open.slice(0, m.RECEIVER),
): WatchState => ({
  version: 1,
  plane,
  limits: mem.limits,
  ring: mem.ring,
  open: mem.open,
  said,
  report: reportOf({ open: said, ring: mem.ring, limits: mem.limits }, plane),
});

/** The watch itself, or an InputError for anything that is no watch of this version. */
export function asWatch(state: WatchState): WatchState {
  const s = state as Partial<WatchState> | null | undefined;
  const found =
    s?.version === 1 &&
    Array.isArray(s.open) &&
    s.open.length === OPEN_SIZE &&
    Array.isArray(s.ring) &&
    s.ring.length === RING_SIZE &&
    Array.isArray(s.limits) &&
    typeof s.plane === "object";
  return found ? state : refuse("", "not_a_watch", "expected a watch as startWatch gives it");
}

/** Limits by column. */
export function limitColumns(table: LimitTable): number[] {
  const out = new Array<number>(LIMITS_SIZE).fill(0);
  table.rows.forEach((row, i) => {
    out[Column.T + i] = row.timeMs;
    out[Column.REACH + i] = row.greatestDistanceM;
    out[Column.LEAST + i] = row.leastDepthM ?? UNKNOWN;
    out[Column.GREATEST + i] = row.greatestDepthM ?? UNKNOWN;
  });
  return out;
}

/** Hold the watch against new limits from now. */
export function takeLimits(mem: Memory, table: LimitTable, timeMs: number): void {
  mem.open[m.LIMIT_COUNT] = table.rows.length;
  mem.open[m.REACH_VAR] = table.distanceSigmaM * table.distanceSigmaM;
  mem.open[m.VEERED] = 0;
  setReach(mem, timeMs);
}
