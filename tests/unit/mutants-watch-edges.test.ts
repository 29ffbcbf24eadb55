/** What single fixes, headings and speeds do to the watch, at the edges of each rule. */
import { describe, expect, test } from "vitest";
import { addFix, addHeading, addSpeed } from "../../src/watch/kernel.js";
import { MODES, Slot as m } from "../../src/watch/memory.js";
import type { Memory } from "../../src/watch/reach.js";
import { HOUR_ON as T, memoryWith, partAt, setReceiver } from "../watchMemory.js";

type Set = Parameters<typeof memoryWith>[0];
/** A watch whose first receiver gave a good fix at nought, just now. */
function after(set: Set = {}, receiver: Parameters<typeof setReceiver>[2] = {}): Memory {
  const mem = memoryWith(set);
  setReceiver(mem, 0, { T, LAT: 50, LON: -4, SAME_SINCE: T, GOOD: T, ...receiver });
  return mem;
}
/** A fix so many milliseconds later, at a place and coordinates of its own. */
const fix = (mem: Memory, ms: number, x = 0, y = 0, lat = 50 + 1e-9 * ms, lon = -4) => {
  addFix(mem, 0, T + ms, x, y, lat, lon, 1);
};
const part = (mem: Memory, name: Parameters<typeof partAt>[1]) => mem.open[partAt(0, name)]!;

describe("a fix out of its place", () => {
  const late = (ms: number, lat: number, lon: number) => {
    const mem = after({ BLOCK_END: T + 20_000 });
    fix(mem, ms, 0, 0, lat, lon);
    return { late: mem.open[m.LATE], kept: part(mem, "COUNT") };
  };
  test("is kept from the first instant of the open block on", () => {
    expect(late(-10_000, 51, -5)).toEqual({ late: 0, kept: 1 });
    expect(late(-10_001, 51, -5)).toEqual({ late: 1, kept: 0 });
  });

  test("that repeats the newest coordinates is dropped, not one that shares a parallel or a meridian", () => {
    expect(late(-5000, 50, -4)).toEqual({ late: 1, kept: 0 });
    expect(late(-5000, 50, -5)).toEqual({ late: 0, kept: 1 });
    expect(late(-5000, 51, -4)).toEqual({ late: 0, kept: 1 });
  });

  test("of the same instant is counted as told twice", () => {
    const mem = after();
    fix(mem, 0, 1, 1, 51);
    expect([mem.open[m.DUPLICATES], mem.open[m.LATE], part(mem, "COUNT")]).toEqual([1, 0, 0]);
  });

  test("does not move her last place, nor begin a test", () => {
    const mem = after({ BLOCK_END: T + 20_000 }, { X: 1, Y: 2 });
    fix(mem, -5000, 4, 5, 51);
    expect([part(mem, "X"), part(mem, "Y"), part(mem, "GOOD")]).toEqual([1, 2, T]);
    expect([part(mem, "COUNT"), mem.open[m.RUN_SINCE]]).toEqual([1, 0]);
  });
});

describe("a receiver that repeats itself", () => {
  test("has stopped after half a minute and four repeats, whichever is later", () => {
    const frozenAt = (everyMs: number) => {
      const mem = after();
      for (let ms = everyMs; ; ms += everyMs) {
        fix(mem, ms, 0, 0, 50, -4);
        if (mem.open[m.FROZEN_FIXES] === 1) return ms;
      }
    };
    expect(frozenAt(5000)).toBe(30_000);
    expect(frozenAt(12_000)).toBe(48_000);
    expect(frozenAt(1000)).toBe(30_000);
  });

  test("has not while she moves along a parallel, or along a meridian", () => {
    for (const [dLat, dLon] of [
      [0, 1e-7],
      [1e-7, 0],
    ] as const) {
      const mem = after();
      for (let i = 1; i <= 30; i++) fix(mem, 5000 * i, 0, 0, 50 + dLat * i, -4 + dLon * i);
      expect([mem.open[m.FROZEN_FIXES], mem.open[m.FIXES]]).toEqual([0, 30]);
      expect(part(mem, "SAME_SINCE")).toBe(T + 150_000);
    }
  });
});

describe("a leap", () => {
  test("is what lies farther than 2.5 m/s, two spreads and two metres", () => {
    const jumps = (x: number, y: number) => {
      const mem = after();
      fix(mem, 4000, x, y);
      return mem.open[m.JUMPS];
    };
    expect([jumps(14, 0), jumps(14.001, 0)]).toEqual([0, 1]);
    expect([jumps(0, -14), jumps(0, -14.001)]).toEqual([0, 1]);
  });

  test("to the far side of the anchor is as much of one", () => {
    for (const [x, y] of [
      [40, 0],
      [0, 40],
    ] as const) {
      const mem = after({}, { X: x, Y: y });
      fix(mem, 1000, -x, -y);
      expect([mem.open[m.JUMPS], part(mem, "COUNT")]).toEqual([1, 0]);
    }
  });

  test("is looked for as far as she goes in two fixes of a slow receiver", () => {
    const jumps = (CADENCE: number) => {
      const mem = after({ CADENCE });
      fix(mem, 30_000, 60, 0);
      return mem.open[m.JUMPS];
    };
    expect([jumps(5), jumps(15)]).toEqual([1, 0]);
  });

  test("she could have made in a silence is believed after 20 s, another after three minutes", () => {
    const takenAfter = (x: number) => {
      const mem = after();
      for (let ms = 60_000; ; ms += 2000) {
        fix(mem, ms, x, 0);
        if (part(mem, "COUNT") > 0) return ms - 60_000;
      }
    };
    expect(takenAfter(100)).toBe(20_000);
    expect(takenAfter(5000)).toBe(180_000);
  });
});

describe("the usual time between fixes", () => {
  const cadence = (ms: number) => {
    const mem = after({ CADENCE: 100 });
    fix(mem, ms);
    return mem.open[m.CADENCE];
  };
  test("follows a tenth of the way, but not through a silence of four minutes", () => {
    expect(cadence(50_000)).toBeCloseTo(95, 9);
    expect(cadence(239_999)).toBeCloseTo(113.9999, 9);
    expect(cadence(240_000)).toBe(100);
  });

  test("a silence of more than a minute is a gap", () => {
    const gap = (ms: number) => {
      const mem = after();
      fix(mem, ms);
      return mem.open[m.GAP_MS];
    };
    expect([gap(60_000), gap(60_001)]).toEqual([0, 60_001]);
  });
});

describe("the quick tests", () => {
  const outside = (i: number) => m.OUTSIDE + i;
  test("begin at more than their spreads, and end at the greatest distance", () => {
    const since = (x: number, slot: number) => {
      const mem = after({}, { X: x });
      fix(mem, 1000, x);
      return mem.open[slot];
    };
    // The longest test: 1.3 and 1.8 spreads of two metres.
    expect([since(2.6, outside(8)), since(2.601, outside(8))]).toEqual([0, T + 1000]);
    expect([since(3.6, outside(9)), since(3.601, outside(9))]).toEqual([0, T + 1000]);
    expect([since(0, m.RUN_SINCE), since(0.001, m.RUN_SINCE)]).toEqual([0, T + 1000]);
    const back = after({ RUN_SINCE: T - 9000, RUN_TOP: 4 });
    back.open[outside(8)] = T - 9000;
    fix(back, 1000, 0);
    expect([back.open[m.RUN_SINCE], back.open[outside(8)]]).toEqual([0, 0]);
  });

  test("a step of as much as she makes in the time is no leap", () => {
    const leapt = (x: number) => {
      const mem = after({}, { X: x });
      fix(mem, 5000, x);
      return [mem.open[m.LEAPT], mem.open[m.LEAPT_T]];
    };
    // 0.8 m/s for 5 s, and 2.5 m.
    expect(leapt(6.5)).toEqual([0, 0]);
    expect(leapt(7.5)).toEqual([1, T + 5000]);
  });

  /** Since when she runs outward, once one more fix has come. */
  const run = (set: Set, ms: number, x: number) => {
    const mem = after({ RUN_SINCE: T - 60_000, LAST_EXCESS: x, ...set }, { X: x });
    fix(mem, ms, x);
    return (mem.open[m.RUN_SINCE]! - T) / 1000;
  };
  test("a run bears falling back by 2.5 m and half a spread", () => {
    const running = { RUN_FROM: 1, RUN_TOP: 10, PART_TOP: 9, PART_SINCE: T };
    expect([run(running, 1000, 7), run(running, 1000, 6.999)]).toEqual([-60, 1]);
  });

  test("a run must go on at 0.1 m/s, and at half its mean speed, in every quarter of a minute", () => {
    const slow = { RUN_FROM: 4, RUN_TOP: 11.5, PART_TOP: 10, PART_SINCE: T };
    expect(run(slow, 15_000, 11.5)).toBe(-60);
    expect(run(slow, 15_001, 11.5)).toBe(15.001);
    // 0.5 m/s on the whole; the last part at 0.25 and under it.
    const fast = { RUN_FROM: 1, RUN_TOP: 38.5, PART_TOP: 34.75, PART_SINCE: T };
    expect(run(fast, 15_000, 38.5)).toBe(-60);
    expect(run({ ...fast, PART_TOP: 34.76 }, 15_000, 38.5)).toBe(15);
    expect(run({ ...fast, PART_TOP: 38.4 }, 14_999, 38.5)).toBe(-60);
  });

  test("an alarm is said at once, a notice when the block closes", () => {
    const said = (x: number) => {
      const mem = after({ RUN_SINCE: T - 400_000, RUN_TOP: x, LAST_EXCESS: x }, { X: x });
      mem.open[outside(8)] = mem.open[outside(9)] = T - 400_000;
      fix(mem, 1000, x);
      const between = MODES[mem.open[m.MODE]!];
      fix(mem, 30_000, x);
      return [between, MODES[mem.open[m.MODE]!]];
    };
    expect(said(3)).toEqual(["lying", "uneasy"]);
    expect(said(4)).toEqual(["dragging", "dragging"]);
  });
});

describe("a Doppler speed", () => {
  const outward = (x: number, y: number, cogDeg: number, ageMs = 60_000, was = 0) => {
    const mem = memoryWith({ OUTWARD: was, OUTWARD_T: T - ageMs });
    addSpeed(mem.open, T, x, y, 0.5, cogDeg);
    return mem.open[m.OUTWARD]!;
  };
  test("counts as far as it leads away from the anchor, wherever she lies about it", () => {
    for (const [x, y, cogDeg, part] of [
      [64, 0, 90, 1],
      [-64, 0, 90, -1],
      [0, 64, 0, 1],
      [0, -64, 60, -0.5],
      [64, 0, 30, 0.5],
      [30, 40, 0, 0.8],
    ] as const)
      expect(outward(x, y, cogDeg)).toBeCloseTo(0.5 * part, 12);
  });

  test("says nothing within a metre of the anchor", () => {
    expect([outward(0.5, 0, 90), outward(1, 0, 90)]).toEqual([0, 0]);
    expect(outward(1.001, 0, 90)).toBeCloseTo(0.5, 12);
  });

  test("is smoothed over a quarter of a minute, and taken as it is after a minute", () => {
    expect(outward(64, 0, 90, 15_000)).toBeCloseTo(0.5 * (1 - Math.exp(-1)), 12);
    expect(outward(64, 0, 90, 59_999, 9)).toBeGreaterThan(0.6);
    expect(outward(64, 0, 90, 60_000, 9)).toBe(0.5);
  });

  test("and a heading: sums of east and north", () => {
    const { open } = memoryWith();
    for (const deg of [0, 90, 90, 210]) addHeading(open, deg);
    expect(open[m.HEAD_E]).toBeCloseTo(1.5, 12);
    expect(open[m.HEAD_N]).toBeCloseTo(1 - Math.sqrt(3) / 2, 12);
    expect(open[m.HEAD_COUNT]).toBe(4);
  });
});
