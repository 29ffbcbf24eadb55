import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { turnDeg, wrap180, wrap360, bearingOf } from "../../src/core/angles.js";
import { check } from "../../src/core/check.js";
import { InputError } from "../../src/core/errors.js";
import { bracketedRoot } from "../../src/core/roots.js";
import { interval, metres, position } from "../../src/core/schema.js";
import { lastAtOrBefore, linearAt, timeSteps } from "../../src/core/series.js";
import { utc } from "../../src/core/time.js";
import * as units from "../../src/core/units.js";

const issuesOf = (f: () => unknown) => {
  try {
    f();
  } catch (e) {
    if (e instanceof InputError) return e.issues;
  }
  throw new Error("expected an InputError");
};

describe("units", () => {
  test("exact definitions", () => {
    expect(units.knots(1)).toBe(1852 / 3600);
    expect(units.feet(1)).toBe(0.3048);
    expect(units.fathoms(4)).toBeCloseTo(7.3152, 12);
    expect(units.nauticalMiles(1)).toBe(1852);
    expect(units.cables(10)).toBe(1852);
    expect(units.kilogramsForce(1)).toBe(9.80665);
    expect(units.tonnes(9)).toBe(9000);
    expect(units.minutes(10)).toBe(600_000);
    expect(units.hours(2)).toBe(7_200_000);
  });
  test.each([
    ["knots", "toKnots"],
    ["feet", "toFeet"],
    ["fathoms", "toFathoms"],
    ["nauticalMiles", "toNauticalMiles"],
    ["cables", "toCables"],
    ["tonnes", "toTonnes"],
    ["kilogramsForce", "toKilogramsForce"],
    ["minutes", "toMinutes"],
    ["hours", "toHours"],
  ] as const)("%s and %s undo each other", (there, back) => {
    const [to, from] = [units[there], units[back]] as ((x: number) => number)[];
    expect(from!(to!(7.3))).toBeCloseTo(7.3, 12);
  });
});

describe("utc", () => {
  test("reads offsets", () => {
    expect(utc("2026-06-01T21:30Z")).toBe(Date.UTC(2026, 5, 1, 21, 30));
    expect(utc("2026-06-01T23:30:05.5+02:00")).toBe(Date.UTC(2026, 5, 1, 21, 30, 5, 500));
    expect(utc("2026-06-01T18:00-0330")).toBe(Date.UTC(2026, 5, 1, 21, 30));
    expect(utc("2024-02-29T00:00Z")).toBe(Date.UTC(2024, 1, 29));
  });
  test.each([
    "2026-06-01T21:30",
    "2026-06-01 21:30Z",
    "2026-02-29T00:00Z",
    "2026-06-31T00:00Z",
    "2026-06-01T24:00Z",
    "2026-06-01T21:60Z",
    "2026-06-01T21:30:60Z",
    "2026-06-01T21:30+15:00",
    "",
  ])("refuses %j", (text) => {
    expect(issuesOf(() => utc(text))[0]!.code).toBe("invalid_time");
  });
});

describe("angles", () => {
  test("fold", () => {
    expect(wrap360(-90)).toBe(270);
    expect(wrap360(720)).toBe(0);
    expect(wrap360(-1e-20)).toBe(0);
    expect(wrap180(180)).toBe(-180);
    expect(turnDeg(350, 10)).toBe(20);
    expect(turnDeg(10, 350)).toBe(-20);
    expect(bearingOf(1, 0)).toBe(90);
    expect(bearingOf(-1, -1)).toBeCloseTo(225, 12);
  });
});

describe("roots", () => {
  test("finds them to the last bits", () => {
    expect(bracketedRoot((x) => x * x - 2, 0, 2)).toBeCloseTo(Math.SQRT2, 14);
    expect(bracketedRoot(Math.cos, 0, 3)).toBeCloseTo(Math.PI / 2, 14);
    expect(bracketedRoot((x) => x ** 9, -1, 2)).toBeCloseTo(0, 1);
    expect(bracketedRoot((x) => Math.expm1(x - 30), 0, 700)).toBeCloseTo(30, 12);
    expect(bracketedRoot((x) => x, 0, 1)).toBe(0);
    expect(bracketedRoot((x) => x - 1, 0, 1)).toBe(1);
  });
  test("answers NaN without a bracket", () => {
    expect(bracketedRoot((x) => x * x + 1, -1, 1)).toBeNaN();
    expect(bracketedRoot(() => NaN, -1, 1)).toBeNaN();
  });
  test("needs few evaluations", () => {
    let n = 0;
    bracketedRoot((x) => (n++, x * x * x - 7), 0, 10, 1e-12);
    expect(n).toBeLessThan(20);
  });
});

describe("series", () => {
  test("search and interpolate", () => {
    expect(lastAtOrBefore([1, 2, 4], 0)).toBe(-1);
    expect(lastAtOrBefore([1, 2, 4], 2)).toBe(1);
    expect(lastAtOrBefore([1, 2, 4], 9)).toBe(2);
    expect(linearAt([0, 10], [5, 7], 5)).toBe(6);
    expect(linearAt([0, 10], [5, 7], 10)).toBe(7);
  });
  test("nothing is extrapolated and a gap stays a gap", () => {
    expect(linearAt([0, 10], [5, 7], 11)).toBeNaN();
    expect(linearAt([0, 10], [5, 7], -1)).toBeNaN();
    expect(linearAt([0, 10, 20], [5, NaN, 7], 5)).toBeNaN();
    expect(linearAt([0, 10, 20], [5, NaN, 7], 0)).toBe(5);
    expect(linearAt([], [], 0)).toBeNaN();
  });
  test("steps end at the end", () => {
    expect(timeSteps(0, 25, 10)).toEqual([0, 10, 20, 25]);
    expect(timeSteps(0, 20, 10)).toEqual([0, 10, 20]);
    expect(timeSteps(5, 5, 10)).toEqual([5]);
  });
});

describe("check", () => {
  const schema = z.strictObject({
    at: position,
    depthM: metres({ min: 0 }),
    stay: z.optional(interval),
    kind: z._default(z.enum(["a", "b"]), "a"),
  });
  test("fills defaults", () => {
    expect(check(schema, { at: { latDeg: 1, lonDeg: 2 }, depthM: 3 })).toEqual({
      at: { latDeg: 1, lonDeg: 2 },
      depthM: 3,
      kind: "a",
    });
  });
  test("reports every issue with its path", () => {
    const issues = issuesOf(() =>
      check(schema, {
        at: { latDeg: 91, lonDeg: NaN },
        depthM: Infinity,
        depht: 1,
        stay: { fromMs: 2, toMs: 1 },
        kind: "c",
      }),
    );
    expect(issues.map((i) => i.path).sort()).toEqual([
      "",
      "at.latDeg",
      "at.lonDeg",
      "depthM",
      "kind",
      "stay",
    ]);
    const text = issues.map((i) => i.message).join("|");
    expect(text).toContain("at most 90");
    expect(text).toContain('unknown field "depht"');
    expect(text).toContain("toMs is before fromMs");
    expect(text).toContain('expected one of "a", "b"');
  });
  test("where no form of a union fits, the forms are told", () => {
    const kinds = z.discriminatedUnion("kind", [
      z.strictObject({ kind: z.literal("x") }),
      z.strictObject({ kind: z.literal("y") }),
    ]);
    const told = (schema: z.ZodMiniType, value: unknown) =>
      issuesOf(() => check(schema, value)).map((i) => `${i.path}: ${i.message}`);
    expect(told(kinds, { kind: "z" })).toEqual(['kind: expected one of "x", "y"']);
    expect(told(z.object({ size: z.union([metres(), z.string()]) }), { size: [] })).toEqual([
      "size: expected a finite number, or string",
    ]);
  });
  test("a union reports the issues of the member that was meant", () => {
    const union = z.union([
      z.strictObject({ kind: z.literal("x"), depthM: metres() }),
      z.strictObject({ kind: z.literal("y"), widthM: metres() }),
    ]);
    expect(issuesOf(() => check(union, { kind: "y", widthM: "1" }))[0]).toMatchObject({
      path: "widthM",
      message: "expected a finite number",
    });
  });
  test("a field too many is no form of its own: the member that wants least is told, or none", () => {
    const union = z.union([
      z.strictObject({ name: z.string(), values: z.array(metres()) }),
      z.strictObject({ name: z.string(), from: metres(), to: metres() }),
    ]);
    const told = (value: unknown) =>
      issuesOf(() => check(union, value)).map((i) => `${i.path}: ${i.message}`);
    expect(told({ name: "a", from: 1, to: 2, step: 1 })).toEqual([': unknown field "step"']);
    expect(told({ name: "a", from: 1, step: 1 })).toEqual([
      "to: is missing",
      ': unknown field "step"',
    ]);
    expect(told({ name: "a", from: 1, to: 2, values: [1] })).toEqual([': unknown field "values"']);
    const even = z.union([
      z.strictObject({ rows: z.array(metres()) }),
      z.strictObject({ ratio: metres() }),
    ]);
    expect(issuesOf(() => check(z.object({ h: even }), { h: { ratioo: 1 } }))).toMatchObject([
      {
        path: "h",
        message:
          'matches none of the allowed forms: unknown field "ratioo" (did you mean "ratio"?)',
      },
    ]);
  });
  test("the message names the first issues and counts the rest", () => {
    const many = z.array(metres());
    const bad = Array.from({ length: 20 }, () => "x");
    expect(() => check(many, bad)).toThrow(/\[0\]: expected a finite number; .* and 8 more$/);
  });
});
