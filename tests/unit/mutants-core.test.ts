import { describe, expect, test } from "vitest";
import { reciprocal, wrap180, wrap360 } from "../../src/core/angles.js";
import { check } from "../../src/core/check.js";
import { InputError } from "../../src/core/errors.js";
import { bracketedRoot } from "../../src/core/roots.js";
import * as schema from "../../src/core/schema.js";
import { linearAt } from "../../src/core/series.js";
import { utc } from "../../src/core/time.js";

// What the common parts must do by their own definition: asked for where a small change of the code would go unnoticed.

const refused = (f: () => unknown): boolean => {
  try {
    f();
    return false;
  } catch (error) {
    if (error instanceof InputError) return true;
    throw error;
  }
};

describe("roots", () => {
  const functions: [
    name: string,
    f: (x: number) => number,
    from: number,
    to: number,
    root: number,
  ][] = [
    ["cubic", (x) => x * x * x - 7, 0, 10, Math.cbrt(7)],
    ["exponential", (x) => Math.exp(x) - 2, -3, 5, Math.LN2],
    ["falling", (x) => 1 / x - 4, 0.01, 9, 0.25],
    ["sine", Math.sin, 2, 4, Math.PI],
    ["steep on one side", (x) => (x < 1 ? x - 1 : 1000 * (x - 1)), 0, 3, 1],
    ["flat and far", (x) => Math.atan(x - 300), 0, 1e4, 300],
  ];
  test.each(functions)(
    "%s: within the tolerance, at the best place looked at",
    (name, f, from, to, root) => {
      for (const tolerance of [0, 1e-6, 1e-3, 0.1]) {
        const looks: [x: number, size: number][] = [];
        const found = bracketedRoot(
          (x) => {
            looks.push([x, Math.abs(f(x))]);
            return f(x);
          },
          from,
          to,
          tolerance,
        );
        expect(Math.abs(found - root)).toBeLessThanOrEqual(tolerance + 1e-12);
        const least = Math.min(...looks.map(([, size]) => size));
        expect(Math.abs(f(found))).toBe(least);
        // Halving alone takes 53 looks and more for the last bits; at a kink it may come to that.
        expect(looks.length).toBeLessThan(name === "steep on one side" ? 60 : 25);
      }
    },
  );
  test("smooth functions take few looks", () => {
    const counts = functions.slice(0, 4).map(([, f, from, to]) => {
      let looks = 0;
      bracketedRoot((x) => (looks++, f(x)), from, to, 1e-12);
      return looks;
    });
    expect(counts.reduce((a, b) => a + b)).toBeLessThanOrEqual(52);
  });
  test("where only halving helps, the tolerance holds all the same", () => {
    for (const root of [0.1, 1 / 3, 0.71, 0.777])
      for (const tolerance of [0.01, 0.03])
        expect(
          Math.abs(bracketedRoot((x) => (x < root ? -1 : 1), 0, 1, tolerance) - root),
        ).toBeLessThanOrEqual(tolerance);
  });
  test("a root met on the way is the answer at once", () => {
    let looks = 0;
    expect(bracketedRoot((x) => (looks++, x - 1), 0, 2)).toBe(1);
    expect(looks).toBe(3);
  });
  test("ends may be infinite, but not missing", () => {
    expect(bracketedRoot(Math.atanh, -1, 1)).toBeCloseTo(0, 12);
    expect(bracketedRoot((x) => (x === 0 ? NaN : x - 1), 0, 2)).toBeNaN();
    expect(bracketedRoot((x) => (x === 0 ? NaN : -x), 0, 2)).toBeNaN();
    expect(bracketedRoot((x) => (x === 2 ? NaN : x - 1), 0, 2)).toBeNaN();
  });
});

describe("series", () => {
  test("between rows that do not begin at nought", () => {
    expect(linearAt([10, 20, 40], [1, 3, 7], 12.5)).toBe(1.5);
    expect(linearAt([10, 20, 40], [1, 3, 7], 30)).toBe(5);
    expect(linearAt([10, 20], [1, 3], NaN)).toBeNaN();
    expect(linearAt([10], [1], 10)).toBe(1);
    expect(linearAt([10], [1], 9)).toBeNaN();
  });
});

describe("angles", () => {
  test("what lies in the circle stays as it is, and nought has no sign", () => {
    expect(wrap360(1e-20)).toBe(1e-20);
    expect(wrap360(359.999)).toBe(359.999);
    expect(wrap360(-0)).toBe(0);
    expect(wrap360(-360)).toBe(0);
    expect(wrap180(190)).toBe(-170);
    expect(wrap180(-180)).toBe(-180);
    expect([0, 90, 180, 350].map(reciprocal)).toEqual([180, 270, 0, 170]);
  });
});

describe("time", () => {
  test("zones as they are, and no others", () => {
    const noon = Date.UTC(2026, 5, 1, 12);
    expect(utc("2026-06-02T02:00+14:00")).toBe(noon);
    expect(utc("2026-06-01T17:45+05:45")).toBe(noon);
    expect(utc("2026-06-01T17:59+05:59")).toBe(noon);
    expect(utc("2026-06-01T12:00:59Z")).toBe(noon + 59_000);
    for (const bad of ["17:00+05:60", "17:00+14:60", "17:00-15:00", "12:00:60Z", "12:00:99Z"])
      expect(refused(() => utc(`2026-06-01T${bad}`))).toBe(true);
  });
  test("text alone is read", () => {
    const list: unknown = ["2026-06-01T12:00Z"];
    expect(refused(() => utc(list as string))).toBe(true);
  });
});

describe("bounds of numbers", () => {
  const takes = (s: Parameters<typeof check>[0], value: unknown) => !refused(() => check(s, value));
  test("past 1e30 nothing is meant, under 1e-30 nought is", () => {
    expect([-1e30, -5, 1e30].map((x) => takes(schema.plain(), x))).toEqual([true, true, true]);
    expect([-1.1e30, 1.1e30, NaN].map((x) => takes(schema.plain(), x))).toEqual([
      false,
      false,
      false,
    ]);
    expect(check(schema.plain(), 1e-30)).toBe(1e-30);
    expect(check(schema.plain(), -0.9e-30)).toBe(0);
    expect(check(schema.plain(), -0)).toBe(0);
  });
  test("a bound may be met, one to be above may not", () => {
    const of = (bounds: schema.Bounds, ...values: number[]) =>
      values.map((v) => takes(schema.metres(bounds), v));
    expect(of({ min: 2, max: 3 }, 1.9, 2, 3, 3.1)).toEqual([false, true, true, false]);
    expect(of({ above: 2 }, 2, 2.1)).toEqual([false, true]);
    expect(of({ above: 2, min: 5 }, 4, 5)).toEqual([false, true]);
    expect(of({ above: 2, min: 1 }, 1.5, 2, 2.1)).toEqual([false, false, true]);
  });
  test("a unit brings its own bounds, which the field may narrow", () => {
    expect([-1, 0].map((v) => takes(schema.speed(), v))).toEqual([false, true]);
    expect([4, 5].map((v) => takes(schema.speed({ min: 5 }), v))).toEqual([false, true]);
    expect([0, 1].map((v) => takes(schema.kilograms(), v))).toEqual([false, true]);
    expect([-0.1, 1.1].map((v) => takes(schema.share(), v))).toEqual([false, false]);
  });
});

describe("spans and spreads", () => {
  const span = (fromMs: number, toMs: number) =>
    !refused(() => check(schema.interval, { fromMs, toMs }));
  test("a span may be an instant, and twenty years at most", () => {
    const t = Date.UTC(2026, 0, 1);
    const twenty = 20 * 366 * 86_400_000;
    expect([t - 1, t, t + 1, t + twenty, t + twenty + 1].map((to) => span(t, to))).toEqual([
      false,
      true,
      true,
      true,
      false,
    ]);
  });
  test("low, likely, high in this order", () => {
    const spread = (low: number, likely: number, high: number) =>
      !refused(() => check(schema.range3, { low, likely, high }));
    expect(spread(1, 2, 3)).toBe(true);
    expect(spread(2, 2, 2)).toBe(true);
    expect(spread(2.1, 2, 3)).toBe(false);
    expect(spread(1, 3.1, 3)).toBe(false);
  });
});
