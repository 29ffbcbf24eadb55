/** What the judgement says exactly at a limit, and a hair to either side of it. */
import { describe, expect, test } from "vitest";
import * as J from "../../src/watch/judge.js";
import { Bit, MODES, Slot as m } from "../../src/watch/memory.js";
import { HOUR_ON as T, memoryWith } from "../watchMemory.js";

type Set = Parameters<typeof memoryWith>[0];
const openWith = (set: Set) => memoryWith(set).open;
/** Mode and alarms after a judgement. */
function judged(set: Set) {
  const mem = memoryWith(set);
  J.judge(mem);
  const { open } = mem;
  return { mode: MODES[open[m.MODE]!], latched: open[m.LATCHED], quietSince: open[m.QUIET_SINCE] };
}

describe("a run outward", () => {
  test.each([
    [1, 1, 0, 20],
    [1, 1, 16, 20.8],
    [1, 1, 60, 45],
    [4, 4, 0, 26],
    [4, 5, 0, 32.5],
    [4, 9, 0, 39],
    [4, 2, 0, 26],
    [12, 12, 0, 45],
  ])("of a receiver of %s m that shows %s and strays %s must gain %s m", (s, l, tail, limitM) => {
    expect(J.runLimit(openWith({ SIGMA: s, LEARNED: l, TAIL: tail }))).toBeCloseTo(limitM, 9);
  });

  test.each([
    [1, 60],
    [4.5, 67.5],
    [9, 75],
  ])("of a receiver of %s m must last %s s", (sigma, lastsS) => {
    const gained = (ms: number) =>
      J.runGained(
        openWith({ SIGMA: sigma, LEARNED: sigma, RUN_SINCE: T - ms, RUN_FROM: 2, RUN_TOP: 30 }),
      );
    expect(gained(1000 * lastsS)).toBe(28);
    expect(gained(1000 * lastsS - 1)).toBe(0);
  });

  test("of exactly the metres asked for is a drag; from three fifths of them on she is uneasy", () => {
    const failed = (gain: number, alarm: boolean) =>
      J.anyTestFailed(openWith({ RUN_SINCE: T - 61_000, RUN_TOP: gain }), alarm);
    expect([failed(20, true), failed(19.99, true)]).toEqual([true, false]);
    expect([failed(12, false), failed(11.99, false)]).toEqual([true, false]);
  });
});

describe("a Doppler speed outward", () => {
  test("speaks from 0.3 m/s on, and for half a minute", () => {
    const out = (OUTWARD: number, ageMs: number) =>
      J.drivenOut(openWith({ OUTWARD, OUTWARD_T: T - ageMs }));
    expect([out(0.3, 0), out(0.2999, 0)]).toEqual([true, false]);
    expect([out(1, 30_000), out(1, 30_001)]).toEqual([true, false]);
  });

  test("makes the notice limit of the second test an alarm after 15 s, and no other's", () => {
    const failed = (slot: number, ms: number, OUTWARD: number) => {
      const open = openWith({ RUN_SINCE: T - 1000, OUTWARD, OUTWARD_T: T });
      open[slot] = T - ms;
      return J.anyTestFailed(open, true);
    };
    expect(failed(m.OUTSIDE + 2, 15_000, 0.3)).toBe(true);
    expect(failed(m.OUTSIDE + 2, 14_999, 0.3)).toBe(false);
    expect(failed(m.OUTSIDE + 2, 15_000, 0)).toBe(false);
    expect(failed(m.OUTSIDE + 4, 29_000, 0.3)).toBe(false);
  });
});

describe("how long she may be silent", () => {
  const after = (set: Set) => J.blindAfterMs(openWith(set)) / 1000;
  test("two minutes, or one in a breeze told within the hour", () => {
    expect(after({ WIND_MPS: 8, WIND_T: T })).toBe(120);
    expect(after({ WIND_MPS: 8.01, WIND_T: T })).toBe(60);
    expect(after({ WIND_MPS: 9, WIND_T: T - 3_599_999 })).toBe(60);
    expect(after({ WIND_MPS: 9, WIND_T: T - 3_600_000 })).toBe(120);
  });

  test("one minute of a receiver that has spoken more than 5 s after its last usable fix", () => {
    expect(after({ HEARD: T + 5000 })).toBe(120);
    expect(after({ HEARD: T + 5001 })).toBe(60);
  });

  test("half a minute when the last fix lay outside by more than two spreads", () => {
    expect(after({ RUN_SINCE: T - 5000, LAST_EXCESS: 4 })).toBe(120);
    expect(after({ RUN_SINCE: T - 5000, LAST_EXCESS: 4.01 })).toBe(30);
    expect(after({ RUN_SINCE: 0, LAST_EXCESS: 4.01 })).toBe(120);
    expect(after({ RUN_SINCE: T - 5000, LAST_EXCESS: 4.01, SILENT_S: 20 })).toBe(20);
  });

  test("two fixes and a half of a slow receiver", () => {
    expect(after({ CADENCE: 100 })).toBe(250);
  });

  test("to the millisecond", () => {
    const blind = (ms: number) => J.isBlind(openWith({ LAST_GOOD: T - ms }));
    expect([blind(120_000), blind(120_001)]).toEqual([false, true]);
  });

  test("and it rings as soon as it has been silent for as long as it was told to bear", () => {
    const rings = (ms: number, more: Set = {}) =>
      judged({ LAST_GOOD: T - ms, RING_SILENT_S: 300, ...more });
    expect(rings(299_999)).toMatchObject({ mode: "blind", latched: 0 });
    expect(rings(300_000)).toMatchObject({ mode: "blind", latched: Bit.BLIND });
    expect(rings(200_000, { WIND_MPS: 9, WIND_T: T }).latched).toBe(Bit.BLIND);
    const outside = { RUN_SINCE: T - 250_000, LAST_EXCESS: 9 };
    expect(rings(200_000, outside).latched).toBe(Bit.BLIND);
  });
});

describe("an alarm that was acknowledged", () => {
  test("stays while she is blind, also when that alone would not ring yet, and falls with sight", () => {
    const acknowledged = { LATCHED: Bit.BLIND, ACKNOWLEDGED: Bit.BLIND, RING_SILENT_S: 600 };
    expect(judged({ ...acknowledged, LAST_GOOD: T - 200_000 }).latched).toBe(Bit.BLIND);
    expect(judged(acknowledged).latched).toBe(0);
    expect(judged({ ...acknowledged, ACKNOWLEDGED: 0 }).latched).toBe(Bit.BLIND);
  });

  test("is forgotten as she weighs: the next of its kind rings anew", () => {
    const mem = memoryWith({ STAGE: 2, LATCHED: 7, ACKNOWLEDGED: 7 });
    J.judge(mem);
    expect([mem.open[m.LATCHED], mem.open[m.ACKNOWLEDGED]]).toEqual([0, 0]);
  });

  test("of shoal water stays while it is shoal again, however shortly, and falls with the depth", () => {
    const shoal = { LATCHED: Bit.SHOAL, ACKNOWLEDGED: Bit.SHOAL };
    expect(judged({ ...shoal, SHOAL_SINCE: T - 5000 }).latched).toBe(Bit.SHOAL);
    expect(judged({ ...shoal, SHOAL_SINCE: 0 }).latched).toBe(0);
  });

  test("releases itself alone", () => {
    const all = Bit.DRAG | Bit.BLIND | Bit.SHOAL;
    const mem = memoryWith({ LATCHED: all, ACKNOWLEDGED: all, SHOAL_SINCE: T - 500_000 });
    J.judge(mem);
    expect(mem.open[m.LATCHED]).toBe(Bit.DRAG | Bit.SHOAL);
    expect(mem.open[m.ACKNOWLEDGED]).toBe(Bit.DRAG | Bit.SHOAL);
    J.explain(mem.open, Bit.DRAG);
    expect(mem.open[m.LATCHED]).toBe(Bit.SHOAL);
    expect(mem.open[m.ACKNOWLEDGED]).toBe(Bit.SHOAL);
  });
});

describe("spans", () => {
  test("shoal or deep water counts after three minutes", () => {
    expect(judged({ SHOAL_SINCE: T - 180_000 }).latched).toBe(Bit.SHOAL);
    expect(judged({ SHOAL_SINCE: T - 179_999 })).toMatchObject({ mode: "lying", latched: 0 });
    expect(judged({ DEEP_SINCE: T - 180_000 }).mode).toBe("uneasy");
    expect(judged({ DEEP_SINCE: T - 179_999 }).mode).toBe("lying");
  });

  test("a drag is over after five quiet minutes", () => {
    const drag = { LATCHED: Bit.DRAG, ACKNOWLEDGED: Bit.DRAG };
    expect(judged({ ...drag, QUIET_SINCE: T - 300_000 }).latched).toBe(0);
    expect(judged({ ...drag, QUIET_SINCE: T - 299_999 }).latched).toBe(Bit.DRAG);
  });

  test("four blocks across the line to her anchor make her uneasy", () => {
    expect(judged({ ASTRAY: 3 }).mode).toBe("lying");
    expect(judged({ ASTRAY: 4 }).mode).toBe("uneasy");
  });

  test("nothing is known before the first block, nor without an anchor", () => {
    expect(judged({}).mode).toBe("lying");
    expect(judged({ CENTRE_T: 0 }).mode).toBe("cannotTell");
    expect(judged({ ANCHOR_KIND: 0 }).mode).toBe("cannotTell");
  });

  test("a mode counts from when it began", () => {
    const mem = memoryWith({ MODE_SINCE: T - 900_000 });
    J.judge(mem);
    expect(mem.open[m.MODE_SINCE]).toBe(T - 900_000);
  });
});

describe("evidence", () => {
  /** Spreads in the two windows, of so many blocks. */
  function windowed(spreads: number, blocks: number, set: Set = {}) {
    const mem = memoryWith(set);
    mem.open[m.WINDOW + 1] = spreads;
    mem.open[m.WINDOW + 2] = blocks;
    return mem;
  }

  test("of a window of one block counts, of none does not", () => {
    expect(J.evidence(windowed(6.4, 1).open, true)).toBe(2);
    expect(J.evidence(windowed(6.4, 0).open, true)).toBe(0);
    expect(J.evidence(windowed(6, 1).open, false)).toBe(2.5);
  });

  test("of exactly a notice limit makes uneasy, of an alarm limit rings, of under seven tenths is quiet", () => {
    const at = (spreads: number, ask: "mode" | "quiet") => {
      const mem = windowed(spreads, 20);
      J.judge(mem);
      return ask === "mode" ? MODES[mem.open[m.MODE]!] : mem.open[m.QUIET_SINCE];
    };
    expect(at(2.3999, "mode")).toBe("lying");
    expect(at(2.4, "mode")).toBe("uneasy");
    expect(at(3.1999, "mode")).toBe("uneasy");
    expect(at(3.2, "mode")).toBe("dragging");
    expect([at(2.2399, "quiet"), at(2.2401, "quiet")]).toEqual([T, 0]);
  });

  test("of the width of all places counts while nobody knows the anchor, and no longer", () => {
    const near = (ANCHOR_KIND: number, alarm: boolean) =>
      J.evidence(openWith({ ANCHOR_KIND, WIDTH: 9 }), alarm);
    expect([near(0, true), near(0, false)]).toEqual([2, 3]);
    expect([near(1, true), near(2, false)]).toEqual([0, 0]);
  });

  test("of a transit: five spreads ring, three make uneasy, for a quarter of an hour", () => {
    const near = (spreads: number, alarm: boolean, ageMs = 0) =>
      J.evidence(
        openWith({ TRANSIT_EXCESS: 4 * spreads, TRANSIT_SIGMA: 4, TRANSIT_T: T - ageMs }),
        alarm,
      );
    expect(near(5, true)).toBe(1);
    expect(near(3, false)).toBeCloseTo(1, 12);
    expect(near(-3, true)).toBe(0);
    expect(near(10, true, 900_000)).toBe(2);
    expect(near(10, true, 900_001)).toBe(0);
  });

  test("of a transit never told is none, also in a watch of the first minutes of the epoch", () => {
    expect(J.evidence(openWith({ NOW: 1000, LAST_GOOD: 1000 }), true)).toBe(0);
  });
});
