/** What the closing of a block does, at the edges of each rule. */
import { describe, expect, test } from "vitest";
import { addFix, addHeading, advance } from "../../src/watch/kernel.js";
import { closeBlock, windows } from "../../src/watch/block.js";
import { BASE, BLOCK_MS } from "../../src/watch/tables.js";
import { MODES, Ring, Slot as m } from "../../src/watch/memory.js";
import { changeSpread } from "../../src/watch/statistics.js";
import { type Memory, slotOf } from "../../src/watch/reach.js";
import { blockBefore, HOUR_ON as T, memoryWith, partAt, setReceiver } from "../watchMemory.js";
import { stepWatch } from "../../src/watch/index.js";
import { begin, START } from "../laws/watchScene.js";

type Set = Parameters<typeof memoryWith>[0];
/** The open block of the first receiver: one fix of such an excess, at such a place. */
function holding(set: Set, excess: number, x = 0, y = 0): Memory {
  const mem = memoryWith(set);
  setReceiver(mem, 0, { COUNT: 1, EXCESS: excess, SUM_X: x, SUM_Y: y });
  return mem;
}
const close = (mem: Memory) => {
  closeBlock(mem, mem.open[m.BLOCK_END]!);
  return mem.open;
};

describe("two receivers", () => {
  /** A block in which the second lies so far off the first. */
  function apart(x: number, y: number, set: Set = {}): Memory {
    const mem = holding(set, 0);
    setReceiver(mem, 1, { COUNT: 1, EXCESS: 5, SUM_X: x, SUM_Y: y });
    return mem;
  }
  const FAR = 4 * Math.SQRT2 + 3;

  test("differ from four spreads of both and three metres on, in any direction", () => {
    for (const [x, y, blocks] of [
      [FAR, 0, 0],
      [0, -FAR, 0],
      [FAR + 1e-9, 0, 1],
      [0, FAR + 1e-9, 1],
      [0, -40, 1],
      [-6.5, 6.5, 1],
      [6, 6, 0],
    ] as const)
      expect(close(apart(x, y))[m.DISAGREE_BLOCKS], `${x} ${y}`).toBe(blocks);
  });

  test("are doubted from the fourth block of it on, since then, until they agree", () => {
    expect(close(apart(40, 0, { DISAGREE_BLOCKS: 2 }))[m.DISAGREE_SINCE]).toBe(0);
    expect(close(apart(40, 0, { DISAGREE_BLOCKS: 3 }))[m.DISAGREE_SINCE]).toBe(T + BLOCK_MS);
    const since = { DISAGREE_BLOCKS: 9, DISAGREE_SINCE: T - 60_000 };
    expect(close(apart(0, 40, since))[m.DISAGREE_SINCE]).toBe(T - 60_000);
    expect(close(apart(0, 4, since))[m.DISAGREE_SINCE]).toBe(0);
  });

  test("a difference told once is the mean of up to twenty blocks", () => {
    const offset = (OFFSET: number, OFFSET_BLOCKS: number) =>
      close(apart(0, 0, { OFFSET, OFFSET_BLOCKS }))[m.OFFSET];
    expect([offset(0, 0), offset(3, 1), offset(3, 3)]).toEqual([5, 4, 3.5]);
    expect([offset(3, 19), offset(3, 400)]).toEqual([3.1, 3.1]);
  });

  test("when the one in use falls silent the other takes over, less what they differ by", () => {
    const used = (USED: number, OFFSET: number) => {
      const mem = memoryWith({ USED, OFFSET, OFFSET_BLOCKS: 5, RUN_SINCE: T - 9000 });
      setReceiver(mem, (1 - USED) as 0 | 1, { COUNT: 1, EXCESS: 1 });
      const slot = slotOf(mem.open, 60);
      const open = close(mem);
      return [open[m.USED], mem.ring[Ring.E + slot], open[m.RUN_SINCE]];
    };
    expect(used(0, 4)).toEqual([1, -3, 0]);
    expect(used(1, 4)).toEqual([0, 1, 0]);
  });
});

describe("a block", () => {
  test("of a first fix later than the clock ends at its own half minute, and time does not run back", () => {
    const mem = memoryWith({ BLOCK_END: 0, NOW: START + 100_000, LAST_GOOD: 0 });
    addFix(mem, 0, START + 10_000, 0, 0, 50, -4, 1);
    expect(mem.open[m.BLOCK_END]).toBe(START + BLOCK_MS);
    advance(mem, START + 40_000);
    expect(mem.open[m.NOW]).toBe(START + 100_000);
    expect(mem.open[m.BLOCK_END]).toBe(START + 2 * BLOCK_MS);
  });

  test("keeps the middle of its fixes, their mean place and the mean heading", () => {
    const mem = memoryWith();
    setReceiver(mem, 0, { COUNT: 4, SUM_X: 40, SUM_Y: -20 });
    for (const [i, e] of [9, 1, 2, 4].entries()) mem.open[partAt(0, "EXCESS") + i] = e;
    for (const deg of [0, 90]) addHeading(mem.open, deg);
    const slot = slotOf(mem.open, 60);
    const open = close(mem);
    const columns = [Ring.E, Ring.X, Ring.Y, Ring.HE].map((c) => mem.ring[c + slot]);
    expect(columns).toEqual([3, 10, -5, 0.5]);
    expect(mem.ring[Ring.HN + slot]).toBeCloseTo(0.5, 12);
    expect([open[m.CENTRE_X], open[m.CENTRE_Y], open[m.CENTRE_T]]).toEqual([10, -5, T + 15_000]);
    expect([partAt(0, "COUNT"), partAt(0, "SUM_X")].map((at) => open[at])).toEqual([0, 0]);
    expect([open[m.HEAD_E], open[m.HEAD_N], open[m.HEAD_COUNT]]).toEqual([0, 0, 0]);
  });
});

describe("lying across", () => {
  /** Blocks counted when she lies south of her anchor, heading so, in such a wind of such an age. */
  const astray = (headingDeg: number | null, wind = 9, ageMs = 0, y = -64) => {
    const WIND_T = T + BLOCK_MS - ageMs;
    const mem = holding({ ASTRAY: 2, WIND_MPS: wind, WIND_T }, -3, 0, y);
    if (headingDeg !== null) addHeading(mem.open, headingDeg);
    return close(mem)[m.ASTRAY];
  };
  test("is more than 50° off, in more than 8 m/s told within ten minutes", () => {
    expect([astray(49.9), astray(50), astray(50.1), astray(180)]).toEqual([0, 0, 3, 3]);
    expect([astray(310.1), astray(309.9)]).toEqual([0, 3]);
    expect([astray(90, 8), astray(90, 8.01)]).toEqual([0, 3]);
    expect([astray(90, 9, 599_999), astray(90, 9, 600_000)]).toEqual([3, 0]);
  });

  test("is not said without a heading, nor right over the anchor", () => {
    expect([astray(null), astray(90, 9, 0, 0)]).toEqual([0, 0]);
  });
});

describe("what a receiver shows", () => {
  /** What is learned of it from the block `back` before and this one. */
  const learned = (back: number, was: number, excess: number, set: Set = {}) => {
    const mem = holding(set, excess);
    blockBefore(mem, back, was);
    return close(mem);
  };
  const unit = 1.75 * changeSpread(180);

  test("is an inward move over three minutes, from where the rode was taut", () => {
    const seen = (was: number, excess: number, SIGMA_SEEN = 0) =>
      learned(6, was, excess, { SIGMA_SEEN })[m.SIGMA_SEEN]!;
    expect(seen(-3, -9)).toBe(0);
    expect(seen(-2.999, -9)).toBeGreaterThan(0.5);
    expect(seen(4, -4)).toBeCloseTo((0.2 * 8) / unit, 12);
    expect(seen(4, 9)).toBe(0);
    expect(seen(400, 0)).toBeCloseTo(0.2 * 20, 12);
    expect(seen(-3, -9, 2)).toBe(2);
    // As much as is known already raises nothing.
    expect(seen(4, -4, 8 / unit)).toBe((8 / unit) * 0.998);
    expect(seen(4, -4, 1)).toBeCloseTo(1 + 0.2 * (8 / unit - 1), 12);
  });

  test("is an excursion that comes back within a minute and a half, up to 60 m", () => {
    const tail = (back: number, was: number, excess: number, TAIL_SEEN = 0) =>
      learned(back, was, excess, { TAIL_SEEN })[m.TAIL_SEEN]!;
    for (const back of [1, 2, 3]) expect(tail(back, 9, -3), String(back)).toBe(12);
    expect(tail(4, 9, -3)).toBe(0);
    expect([tail(1, -3, -20), tail(1, -2.5, -20)]).toEqual([0, 17.5]);
    expect(tail(1, 200, 0)).toBe(60);
    expect(tail(1, 9, -3, 20)).toBeCloseTo(20 * 0.9985, 12);
    expect(tail(1, 9, 30, 20)).toBeCloseTo(20 * 0.9985, 12);
  });

  test("is presumed at first, half of it an hour on", () => {
    const open = close(holding({ NOW: T, BLOCK_END: T }, -9));
    expect([open[m.LEARNED], open[m.TAIL]]).toEqual([2.5, 10]);
    const shown = close(holding({ BLOCK_END: T, SIGMA_SEEN: 4, TAIL_SEEN: 30 }, -9));
    expect([shown[m.LEARNED], shown[m.TAIL]]).toEqual([4, 30 * 0.9985]);
  });
});

describe("the windows", () => {
  /** Twenty blocks before the open one, all of such an excess; then all windows anew. */
  function windowed(excess: number, blocks: number, set: Set = {}): number[] {
    const mem = memoryWith(set);
    for (let back = 0; back < blocks; back++) blockBefore(mem, back, excess);
    windows(mem, Infinity);
    return mem.open;
  }
  const counts = (open: number[]) => [open[m.WINDOW + 2], open[m.WINDOW + 5]];

  test("speak from half their blocks on, and from fewer of a slow receiver", () => {
    expect(counts(windowed(-5, 9))).toEqual([0, 0]);
    expect(counts(windowed(-5, 10))).toEqual([10, 0]);
    expect(counts(windowed(-5, 30))).toEqual([20, 30]);
    expect(counts(windowed(-5, 60))).toEqual([20, 60]);
    expect(counts(windowed(-5, 1, { CADENCE: 180 }))).toEqual([0, 0]);
    expect(counts(windowed(-5, 2, { CADENCE: 180 }))).toEqual([2, 0]);
    expect(counts(windowed(-5, 5, { CADENCE: 180 }))).toEqual([5, 5]);
    expect(counts(windowed(-5, 1, { CADENCE: 540 }))).toEqual([1, 0]);
    expect(counts(windowed(-5, 60, { ANCHOR_KIND: 0 }))).toEqual([0, 0]);
  });

  test("say nothing before the first fix, of a slow transponder neither, whatever is veered", () => {
    let state = begin({ fixEveryS: 400 });
    const excess = () => state.report.excess.map((e) => e.excessM);
    expect(excess()).toEqual([null, null]);
    for (const [s, byM] of [
      [5, 5],
      [6, -30],
    ] as const) {
      state = stepWatch(state, { kind: "veered", timeMs: START + 1000 * s, byM }).state;
      expect([excess(), state.report.alarms]).toEqual([[null, null], []]);
    }
  });

  test("an excess she had from the first is taken for an error of place, in time and in bounds", () => {
    const base = (excess: number, set: Set) => windowed(excess, 20, set)[m.BASE]!;
    const known = { ANCHOR_SIGMA: 0, REACH_VAR: 3 };
    expect(base(2, { ...known, BASE_UNTIL: T })).toBe(2);
    expect(base(2, { ...known, BASE_UNTIL: T - 1 })).toBe(0);
    expect(base(9, { ...known, BASE_UNTIL: T })).toBe(BASE.spreads * 2);
    expect(base(-9, { ...known, BASE_UNTIL: T })).toBe(0);
    expect(base(1, { ...known, BASE_UNTIL: T, BASE: 2 })).toBe(2);
    const open = windowed(2, 20, { ...known, BASE_UNTIL: T });
    expect(open[m.WINDOW]).toBe(0);
    expect(MODES[open[m.MODE]!]).toBe("lying");
  });
});
