import { describe, expect, test } from "vitest";
import { addFix } from "../../src/watch/kernel.js";
import { judge, receiverSigma } from "../../src/watch/judge.js";
import { Bit, MODES, Slot as m } from "../../src/watch/memory.js";
import { middleNear, middleOf } from "../../src/watch/middle.js";
import { isPlainFix } from "../../src/watch/plainfix.js";
import { HOUR_ON as T, memoryWith, partAt, setReceiver } from "../watchMemory.js";

/** Numbers that count how often one of them is looked at. */
function counted(values: readonly number[]): { room: Float64Array; looks: () => number } {
  let looks = 0;
  const room = new Proxy(Float64Array.from(values), {
    get(numbers, key) {
      looks++;
      return numbers[Number(key)];
    },
    set(numbers, key, value: number) {
      numbers[Number(key)] = value;
      return true;
    },
  });
  return { room, looks: () => looks };
}
/** How often a search of sixty numbers looks at one. */
function looksFor(find: (room: Float64Array, n: number) => number, order: number[]): number {
  const { room, looks } = counted(order);
  expect(find(room, order.length)).toBe(29.5);
  return looks();
}
const N = 60;
const shuffled = Array.from({ length: N }, (_, i) => (i * 37) % N);

describe("a guess of the middle", () => {
  test("that is near spares most of the search: little more than one look at each, and one a rank", () => {
    const near = (guess: number) => looksFor((room, n) => middleNear(room, n, guess), shuffled);
    // Each is looked at once, those moved twice; then half of them for each of the two middle ones.
    expect(near(29.5)).toBeLessThanOrEqual(4 * N);
    // Each rank off costs a look at half of them.
    for (const off of [1, 2, 4, 6]) {
      expect(near(29.5 + off), String(off)).toBeLessThanOrEqual(4 * N + off * 0.7 * N);
      expect(near(29.5 - off), String(-off)).toBeLessThanOrEqual(4 * N + off * 0.7 * N);
    }
  });

  test("that is far off costs no more than one look at each, and one for each that is moved", () => {
    const whole = looksFor(middleOf, shuffled);
    for (const guess of [-1e9, 5, 55, 1e9])
      expect(
        looksFor((room, n) => middleNear(room, n, guess), shuffled),
        String(guess),
      ).toBeLessThanOrEqual(whole + 3.2 * N);
  });
});

describe("a fix", () => {
  test("whose object is made in some way of its own is for the schema to say", () => {
    const fix = { kind: "fix", timeMs: 0, latDeg: 0, lonDeg: 0 };
    for (const made of [Object.create(null), Object.create({})] as object[])
      expect(isPlainFix(Object.assign(made, fix))).toBe(false);
    expect(isPlainFix(Object.assign({}, fix))).toBe(true);
  });

  test("of the instant of her last good one, after repeats, does not say how she lies now", () => {
    const mem = memoryWith();
    setReceiver(mem, 0, { T: T + 5000, LAT: 50, LON: -4, X: 1, Y: 2, GOOD: T + 1000 });
    addFix(mem, 0, T + 1000, 2, 3, 51, -4, 1);
    expect([partAt(0, "X"), partAt(0, "Y")].map((at) => mem.open[at])).toEqual([1, 2]);
    expect([mem.open[partAt(0, "COUNT")], mem.open[m.RUN_SINCE]]).toEqual([1, 0]);
  });
});

describe("the judgement", () => {
  test("while weighing is that she is aweigh: no alarm stands, however far or silent she is", () => {
    const far = { RUN_SINCE: T - 400_000, RUN_TOP: 90, LAST_GOOD: T - 900_000 };
    const mem = memoryWith({ STAGE: 2, LATCHED: Bit.DRAG | Bit.SHOAL, ...far });
    judge(mem);
    expect([MODES[mem.open[m.MODE]!], mem.open[m.LATCHED]]).toEqual(["aweigh", 0]);
    expect(mem.open[m.MODE_SINCE]).toBe(T);
  });

  test("of exactly seven tenths of a limit is not quiet", () => {
    const quietSince = (TRANSIT_EXCESS: number) => {
      const mem = memoryWith({ TRANSIT_EXCESS, TRANSIT_SIGMA: 1, TRANSIT_T: T });
      judge(mem);
      return mem.open[m.QUIET_SINCE];
    };
    expect([quietSince(3.5), quietSince(3.4999)]).toEqual([0, T]);
  });
});

describe("a receiver", () => {
  test("that leaps to the anchor itself leaps as far", () => {
    for (const at of [{ X: 40 }, { Y: 40 }]) {
      const mem = memoryWith();
      setReceiver(mem, 0, { T, LAT: 50, LON: -4, GOOD: T, ...at });
      addFix(mem, 0, T + 1000, 0, 0, 51, -4, 1);
      expect([mem.open[m.JUMPS], mem.open[partAt(0, "COUNT")]]).toEqual([1, 0]);
    }
  });

  test("that another contradicts is trusted half as much", () => {
    const taken = (SIGMA: number, LEARNED: number, DISAGREE_SINCE: number) =>
      receiverSigma(memoryWith({ SIGMA, LEARNED, DISAGREE_SINCE }).open);
    expect([taken(2, 1, 0), taken(1, 3, 0)]).toEqual([2, 3]);
    expect([taken(2, 1, T), taken(1, 3, T)]).toEqual([4, 6]);
  });
});
