import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, test } from "vitest";
// @ts-expect-error -- plain JavaScript, which prints the coefficients too
import * as reckoned from "../../.ci/elementary.mjs";
import * as own from "../../src/core/elementary.js";

type Name = keyof typeof own;
const { exact, double, fixed, coefficients } = reckoned as {
  exact: Record<Name, (...x: number[]) => bigint>;
  double: (a: bigint) => number;
  fixed: (x: number) => bigint;
  coefficients: () => Record<string, number[]>;
};

/** Numbers in (0, 1), the same in every run. */
function shares(): () => number {
  let state = 20260601;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const high = state;
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (high + (state >>> 8) / 2 ** 24) / 2 ** 32;
  };
}

/** How far a value lies from the true one, in units in the last place. */
function unitsOff(value: number, truth: bigint): number {
  const near = double(truth);
  const unit = 2 ** (Math.floor(Math.log2(Math.abs(near))) - 52);
  return Math.abs(double(truth - fixed(value))) / unit;
}

// The logarithm and the others by their series in whole numbers of 256 bits.
const RANGES: [Name, [number, number][], number][] = [
  ["log", [[1e-5, 1]], 1],
  ["log", [[0.9, 1.1]], 1],
  ["log", [[1, 1e9]], 1],
  ["log1p", [[-0.95, 0.5]], 1],
  ["log1p", [[0, 8]], 1],
  ["log1p", [[-1e-3, 1e-3]], 1],
  ["exp", [[-40, 40]], 1.2],
  ["exp", [[-1, 1]], 1.1],
  ["atanh", [[-0.95, 0.95]], 2],
  ["sinDeg", [[-720, 720]], 1.5],
  ["cosDeg", [[-720, 720]], 1.5],
];
const SIDES: [number, number][][] = [
  [
    [-10, 10],
    [-10, 10],
  ],
  [
    [0, 1],
    [0, 50],
  ],
  [
    [0, 50],
    [0, 1],
  ],
];

const RATIOS: [number, number][][] = [
  [
    [0.7, 1],
    [0.7, 1],
  ],
  [
    [1.4, 3],
    [0.5, 1],
  ],
  [
    [2, 1e6],
    [1e-3, 1],
  ],
  [
    [0.01, 1],
    [1.5, 40],
  ],
];

describe("functions that every engine works out alike", () => {
  test.each([
    ...RANGES,
    ...SIDES.map((s): (typeof RANGES)[0] => ["atan2", s, 2]),
    ...RATIOS.map((s): (typeof RANGES)[0] => ["logOfRatio", s, 2]),
  ])("%s over %j is the true value within %f units in the last place", (name, ranges, most) => {
    const share = shares();
    let worst = 0;
    for (let i = 0; i < 400; i++) {
      const x = ranges.map(([low, high]) => low + share() * (high - low));
      const f: (...x: number[]) => number = own[name];
      if (name === "logOfRatio") x.push(x[0]! - x[1]!, x[0]! + x[1]!);
      worst = Math.max(worst, unitsOff(f(...x), exact[name](...x)));
    }
    expect(worst).toBeLessThan(most);
  });

  test("stands at the ends as the engine's own", () => {
    const ends = [0, -0, 1, -1, Infinity, -Infinity, NaN, 5e-324, 1e-310, 1.7e308, -1.7e308];
    for (const x of ends) {
      expect(own.log1p(x), `log1p ${x}`).toBe(Math.log1p(x));
      expect(own.atanh(x), `atanh ${x}`).toBe(Math.atanh(x));
      for (const y of ends) {
        const [mine, its] = [own.atan2(y, x), Math.atan2(y, x)];
        // Zeros and missing numbers as they are; angles as near as they come.
        if (its === 0 || Number.isNaN(its)) expect(mine, `atan2 ${y} ${x}`).toBe(its);
        else expect(Math.abs(mine / its - 1), `atan2 ${y} ${x}`).toBeLessThan(4e-16);
      }
    }
    for (const x of [0, -0, 1, Infinity, NaN, -1, 5e-324, 1e-310, 2 ** 1023, 2 ** -1022])
      expect(own.log(x), `log ${x}`).toBe(Math.log(x));
    for (const x of [0, -0, Infinity, -Infinity, NaN, 710, -746, 1e9, -1e9])
      expect(own.exp(x), `exp ${x}`).toBe(Math.exp(x));
    for (const x of [709.7, -700, -720, -745.1, -708.5, 709.2])
      expect(Math.abs(own.exp(x) / Math.exp(x) - 1), `exp ${x}`).toBeLessThan(
        x < -708 ? 1e-3 : 1e-15,
      );
    expect(own.atan2(-0, -1)).toBe(-Math.PI);
    expect(own.atan2(-0, 1)).toBe(-0);
  });

  test("sine and cosine are exact at right angles", () => {
    const at = [-360, -270, -180, -90, 0, 90, 180, 270, 360];
    expect(at.map((a) => own.sinDeg(a) + 0)).toEqual([0, 1, 0, -1, 0, 1, 0, -1, 0]);
    expect(at.map((a) => own.cosDeg(a) + 0)).toEqual([1, 0, -1, 0, 1, 0, -1, 0, 1]);
    for (const a of [Infinity, -Infinity, NaN]) {
      expect(own.sinDeg(a)).toBeNaN();
      expect(own.cosDeg(a)).toBeNaN();
    }
  });

  test("their coefficients are those that are reckoned", () => {
    const source = readFileSync(
      path.resolve(import.meta.dirname, "../../src/core/elementary.ts"),
      "utf8",
    );
    const stated = new Set(source.match(/\d+\.\d+(?:e-?\d+)?/g)!.map(Number));
    for (const [name, list] of Object.entries(coefficients()))
      for (const c of list) expect(stated.has(Math.abs(c)), `${name} ${c}`).toBe(true);
  });

  test("nothing of the statics of a sweep asks the engine", () => {
    const files = [
      "rode/kernel",
      "rode/pair",
      "rode/single",
      "rode/guess",
      "rode/solve",
      "rode/span",
      "lie/kernel",
      "lie/lie",
      "lie/between",
      "holding/kernel",
      "core/normal",
    ];
    for (const s of ["draw", "holdingTable", "sketch", "statics", "fill"]) files.push(`sweep/${s}`);
    for (const f of [...files, "core/elementary"]) {
      const file = path.resolve(import.meta.dirname, "../../src", `${f}.ts`);
      expect(readFileSync(file, "utf8"), f).not.toMatch(
        /Math\.(a?(sin|cos|tan)h?|atan2|log\w*|exp\w*|pow|cbrt|hypot)\(/,
      );
    }
  });
});
