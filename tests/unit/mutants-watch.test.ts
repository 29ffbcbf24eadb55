import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isPlainFix } from "../../src/watch/plainfix.js";
import {
  Column,
  LIMITS_SIZE,
  OPEN_SIZE,
  Part,
  RING_SIZE,
  Ring,
  Slot,
} from "../../src/watch/memory.js";
import { BLOCKS, BLOCK_FIXES, LIMIT_ROWS } from "../../src/watch/tables.js";
import { middleNear, middleOf } from "../../src/watch/middle.js";

/** The middle by sorting, as anyone would write it. */
function sorted(values: readonly number[]): number {
  const s = [...values].sort((a, b) => a - b);
  const k = s.length >> 1;
  return s.length % 2 === 1 ? s[k]! : 0.5 * (s[k - 1]! + s[k]!);
}
const numbers = fc.array(
  fc.oneof(
    fc.integer({ min: -3, max: 3 }),
    fc.double({ min: -50, max: 50, noNaN: true }).map((v) => v + 0),
  ),
  { minLength: 1, maxLength: 70 },
);

describe("the middle", () => {
  test("is that of a sorted list, whatever the order, with ties or none", () => {
    fc.assert(
      fc.property(numbers, (values) => {
        expect(middleOf(Float64Array.from(values), values.length)).toBeCloseTo(sorted(values), 12);
      }),
    );
  });

  test("is the same from any guess, near or far, on either side, or among the values", () => {
    fc.assert(
      fc.property(numbers, fc.double({ min: -60, max: 60, noNaN: true }), (values, far) => {
        const middle = sorted(values);
        const guesses = [far, middle, middle - 0.5, middle + 0.5, values[0]!, -Infinity, Infinity];
        for (const guess of guesses)
          expect(middleNear(Float64Array.from(values), values.length, guess) + 0).toBe(middle + 0);
      }),
      { numRuns: 300 },
    );
  });

  test("looks at the first n alone, and loses none of them", () => {
    for (const n of [1, 2, 19, 20, 30, 59, 60])
      for (const guess of [0, n / 4, n / 2, (3 * n) / 4, n]) {
        const values = Array.from({ length: n }, (_, i) => (i * 37) % n);
        const room = Float64Array.from([...values, -1e9, 1e9, NaN]);
        expect(middleNear(room, n, guess)).toBe(sorted(values));
        expect([...room.subarray(0, n)].sort((a, b) => a - b)).toEqual(
          [...values].sort((a, b) => a - b),
        );
        expect(room[n]).toBe(-1e9);
      }
  });
});

describe("a plain fix", () => {
  const fix = { kind: "fix", timeMs: 0, latDeg: 0, lonDeg: 0 } as const;
  const rest = { sigmaM: 1, sogMps: 1, cogDeg: 1, receiver: 1 } as const;

  test("with all fields, or the least of them", () => {
    expect(isPlainFix(fix)).toBe(true);
    expect(isPlainFix({ ...fix, ...rest })).toBe(true);
  });

  // Bounds as `fixEvent` states them.
  test.each([
    ["timeMs", Date.UTC(1900, 0, 1), Date.UTC(2200, 0, 1)],
    ["latDeg", -90, 90],
    ["lonDeg", -360, 360],
    ["cogDeg", 0, 360],
    ["sogMps", 0, 100],
    ["receiver", 0, 1],
  ])("%s at its ends and beyond", (key, min, max) => {
    for (const [value, plain] of [
      [min, true],
      [max, true],
      [min - 1, false],
      [max + 1, false],
      [NaN, false],
      [String(max), false],
      [null, false],
    ] as const)
      expect(isPlainFix({ ...fix, ...rest, [key]: value }), String(value)).toBe(plain);
  });

  test("a spread of nothing is for the schema, as is what it reads as nothing", () => {
    for (const [sigmaM, plain] of [
      [0, false],
      [1e-31, false],
      [1e-30, true],
      [1000, true],
      [1000.1, false],
    ] as const)
      expect(isPlainFix({ ...fix, sigmaM }), String(sigmaM)).toBe(plain);
    expect(isPlainFix({ ...fix, latDeg: -0 })).toBe(false);
    expect(isPlainFix({ ...fix, latDeg: 1e-31 })).toBe(false);
    expect(isPlainFix({ ...fix, receiver: 0.5 })).toBe(false);
  });

  test("anything that is no plain object, lacks a field or has one more", () => {
    for (const key of Object.keys(fix)) {
      const less = Object.fromEntries(Object.entries(fix).filter(([k]) => k !== key));
      expect(isPlainFix(less), key).toBe(false);
    }
    for (const input of [
      null,
      undefined,
      3,
      "fix",
      [],
      () => fix,
      { ...fix, kind: "clock" },
      { ...fix, depthM: 3 },
      Object.assign(Object.create({ extra: 1 }) as object, fix),
    ])
      expect(isPlainFix(input)).toBe(false);
  });
});

describe("the memory", () => {
  test("its parts fit together, to the last number", () => {
    expect(Part.EXCESS + BLOCK_FIXES).toBe(Part.SIZE);
    expect(Slot.RECEIVER + 2 * Part.SIZE).toBe(Slot.CLOCK);
    expect(Slot.CLOCK + 1).toBe(OPEN_SIZE);
    expect([Ring.E, Ring.X, Ring.Y, Ring.HE, Ring.HN, RING_SIZE]).toEqual(
      [1, 2, 3, 4, 5, 6].map((k) => k * BLOCKS),
    );
    expect([Column.REACH, Column.LEAST, Column.GREATEST, LIMITS_SIZE]).toEqual(
      [1, 2, 3, 4].map((k) => k * LIMIT_ROWS),
    );
  });
});
