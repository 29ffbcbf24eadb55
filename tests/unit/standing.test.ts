import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
// @ts-expect-error -- plain JavaScript, one of the scripts of the gate
import * as script from "../../.ci/standing.mjs";

const { keptLeft, keptValues, rowsOf } = script as {
  rowsOf: (text: string) => { values: string[]; left: string[] };
  keptValues: (fresh: string[], standing: string[], wantsData: Set<string>) => string[];
  keptLeft: (left: string[], standing: string[], wantsData: Set<string>) => string[];
};

const row = (topic: string, quantity: string, cases: number): string =>
  `| ${topic} | ${quantity} | a book | ${cases} | 0.1 | 0.2 | 0.3 | m |`;
const wants = new Set(["tide"]);

describe("the page of verification without the open data set", () => {
  test("rows that want the data stand, others are as measured now", () => {
    const standing = [row("rode", "reach", 2), row("tide", "height", 7), row("tide", "level", 4)];
    const fresh = [row("rode", "reach", 1), row("tide", "height", 3)];
    expect(keptValues(fresh, standing, wants)).toEqual([fresh[0], standing[1], standing[2]]);
  });
  test("what is measured no longer goes, unless it wants the data", () => {
    expect(keptValues([], [row("rode", "reach", 2)], wants)).toEqual([]);
    expect(keptValues([], [row("tide", "level", 2)], wants)).toEqual([row("tide", "level", 2)]);
  });
  test("a new row goes to the end of its topic, one of more cases in the place of the old", () => {
    const standing = [row("rode", "reach", 2), row("tide", "height", 3)];
    const fresh = [row("rode", "reach", 3), row("rode", "work", 1), row("tide", "height", 4)];
    expect(keptValues(fresh, standing, wants)).toEqual(fresh);
  });
  test("what is left out for want of the data is not told as left out for good", () => {
    const gone = "| tide | a | the open data set is absent |";
    const known = "| tide | b | not at hand |";
    const other = "| rode | c | not kept here |";
    expect(keptLeft([gone, known, other], [known], wants)).toEqual([known, other]);
  });
  test("the page in the repository is taken over whole where nothing is measured", () => {
    const page = readFileSync(new URL("../../docs/verification.md", import.meta.url), "utf8");
    const { values, left } = rowsOf(page);
    const topics = new Set([...values, ...left].map((line) => line.split(" | ")[0]!.slice(2)));
    expect(values.length).toBeGreaterThan(100);
    expect(keptValues([], values, topics)).toEqual(values);
    expect(keptLeft(left, left, new Set())).toEqual(left);
  });
});
