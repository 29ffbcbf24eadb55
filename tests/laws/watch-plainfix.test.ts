import * as z from "zod/mini";
import fc from "fast-check";
import { expect, test } from "vitest";
import { watchEvent } from "../../src/watch/events.js";
import { isPlainFix } from "../../src/watch/plainfix.js";

const ends = [
  0,
  -0,
  1e-31,
  -1e-31,
  1e-30,
  1,
  2,
  90,
  -90,
  91,
  100,
  100.1,
  360,
  -360,
  361,
  1000,
  1001,
  Date.UTC(1900, 0, 1),
  Date.UTC(1900, 0, 1) - 1,
  Date.UTC(2200, 0, 1),
  Date.UTC(2200, 0, 1) + 1,
  NaN,
  Infinity,
  -Infinity,
];
const odd = fc.oneof(
  fc.constantFrom<unknown>(...ends),
  fc.constantFrom<unknown>(undefined, null, "0", "fix", true, [], {}, 1n, new Number(1)),
  fc.double(),
);
const mostly = (good: fc.Arbitrary<unknown>) =>
  fc.oneof({ weight: 12, arbitrary: good }, { weight: 1, arbitrary: odd });
/** Evenly over the span; now and then one drawn over the bits, of which most are near nought. */
const double = (min: number, max: number) =>
  fc.oneof(
    {
      weight: 20,
      arbitrary: fc.integer({ min: 0, max: 1e9 }).map((k) => min + ((max - min) * k) / 1e9),
    },
    { weight: 1, arbitrary: fc.double({ min, max, noNaN: true }) },
  );

/** Fixes good and bad: every field may be odd or missing, others may be there. */
const anyFix = fc.record(
  {
    kind: mostly(fc.constant("fix")),
    timeMs: mostly(fc.integer({ min: -2e12, max: 7e12 })),
    latDeg: mostly(double(-90, 90)),
    lonDeg: mostly(double(-360, 360)),
    sigmaM: mostly(double(0, 1000)),
    sogMps: mostly(double(0, 100)),
    cogDeg: mostly(double(0, 360)),
    receiver: mostly(fc.constantFrom(0, 1)),
    other: odd,
  },
  { requiredKeys: ["kind"], noNullPrototype: true },
);
const plain = fc.record(
  {
    kind: fc.constant("fix"),
    timeMs: fc.integer({ min: 0, max: 7e12 }),
    latDeg: double(-90, 90),
    lonDeg: double(-360, 360),
    sigmaM: double(0.1, 1000),
    sogMps: fc.oneof(fc.constant(0), double(0, 100)),
    cogDeg: double(0, 360),
    receiver: fc.constantFrom(0, 1),
  },
  { requiredKeys: ["kind", "timeMs", "latDeg", "lonDeg"], noNullPrototype: true },
);

test("what passes without the schema, the schema passes unchanged", () => {
  let passed = 0;
  fc.assert(
    fc.property(fc.oneof(anyFix, plain), (input) => {
      if (!isPlainFix(input)) return;
      passed++;
      const read = z.safeParse(watchEvent, input);
      expect(read.success).toBe(true);
      if (!read.success) return;
      const data = read.data as Record<string, unknown>;
      expect(Object.keys(data).sort()).toEqual(Object.keys(input).sort());
      for (const [key, value] of Object.entries(input))
        expect(Object.is(data[key], value), key).toBe(true);
    }),
    { numRuns: 20_000 },
  );
  expect(passed).toBeGreaterThan(5000);
});

test("what the schema passes as a fix unchanged passes without it, but for what it must look at closely", () => {
  let both = 0;
  fc.assert(
    fc.property(fc.oneof(anyFix, plain), (input) => {
      const read = z.safeParse(watchEvent, input);
      const numbers = Object.values(input).filter((v) => v !== "fix");
      const unchanged =
        read.success &&
        numbers.every((v) => typeof v === "number" && (Object.is(v, 0) || Math.abs(v) >= 1e-30));
      expect(isPlainFix(input)).toBe(unchanged);
      if (unchanged) both++;
    }),
    { numRuns: 20_000 },
  );
  expect(both).toBeGreaterThan(5000);
});

test("inputs of other makes are left to the schema", () => {
  const fix = { kind: "fix", timeMs: 0, latDeg: 1, lonDeg: 2 };
  class Fix {
    kind = "fix";
    timeMs = 0;
    latDeg = 1;
    lonDeg = 2;
  }
  for (const input of [
    null,
    undefined,
    1,
    "fix",
    [],
    [fix],
    new Fix(),
    Object.create(fix),
    { ...fix, __proto__: null },
  ])
    expect(isPlainFix(input)).toBe(false);
  expect(isPlainFix(fix)).toBe(true);
});
