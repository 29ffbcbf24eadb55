/**
 * How much work the searches do. A search that is guarded arrives even where a step of it is spoiled,
 * only later: so the evaluations of the rode are counted that it takes over small sets of every kind,
 * and no set may take more than was recorded when the search was made. Where a search has become
 * quicker, the record is brought down with it: `RODE_WORK=record` writes it anew.
 */
import { readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { afterAll, describe, expect, test, vi } from "vitest";
import * as K from "../../src/rode/kernel.js";
import { prepareRode } from "../../src/rode/prepare.js";
import { solveReach } from "../../src/rode/reach.js";
import { solveForward, verticalFor } from "../../src/rode/solve.js";
import {
  type Bed,
  BED_KINDS,
  drawSet,
  HEIGHTS,
  type Kind,
  KINDS,
  LOADS,
  piece,
} from "../rodeSets.js";

const work = vi.hoisted(() => ({ evaluations: 0 }));
vi.mock("../../src/rode/kernel.js", async (original) => {
  const actual = await original<typeof import("../../src/rode/kernel.js")>();
  const counted =
    <A extends unknown[]>(evaluate: (...given: A) => void) =>
    (...given: A) => {
      work.evaluations += 1;
      evaluate(...given);
    };
  return {
    ...actual,
    rise: counted(actual.rise),
    place: counted(actual.place),
    placeAndChange: counted(actual.placeAndChange),
  };
});

/** Evaluations that `search` takes. */
function evaluationsOf(search: () => void): number {
  work.evaluations = 0;
  search();
  return work.evaluations;
}

/** Evaluations of a set from load to reach, and back to the load. */
type Work = [toReach: number, toLoad: number];

function workOf(kind: Kind, bed: Bed, load: number, height: number): Work {
  const out = new Float64Array(K.COLUMNS);
  let [toReach, toLoad] = [0, 0];
  for (const { rode, heightM, loadN } of drawSet(kind, bed, load, height, 2)) {
    const p = prepareRode(rode);
    toReach += evaluationsOf(() => solveForward(p, heightM, loadN, out));
    const reachM = out[K.REACH]!;
    if (reachM >= 0) toLoad += evaluationsOf(() => solveReach(p, heightM, reachM, out));
  }
  return [toReach, toLoad];
}

const file = path.join(import.meta.dirname, "mutants-rode-work.json");
const recording = process.env["RODE_WORK"] === "record";
/** By kind and bed: for each band of load and height the evaluations to the reach, and back. */
const recorded = JSON.parse(readFileSync(file, "utf8")) as Record<string, string>;
const found: Record<string, string> = {};
afterAll(() => {
  if (recording) writeFileSync(file, `${JSON.stringify(found, null, 2)}\n`);
});

/** Evaluations for reaches asked at will, many of which floats or the bed refuse, by part of the length. */
function workAtReach(kind: Kind, bed: Bed, height: number): number[] {
  const out = new Float64Array(K.COLUMNS);
  return REACHES.map((part) => {
    const [drawn] = drawSet(kind, bed, 2, height, 1);
    const p = prepareRode(drawn!.rode);
    const reachM = part * drawn!.rode.segments.reduce((sum, s) => sum + s.lengthM, 0);
    return evaluationsOf(() => solveReach(p, drawn!.heightM, reachM, out));
  });
}
const REACHES = [0.5, 0.9, 0.98, 1, 1.01];

const sets = KINDS.flatMap((kind) => BED_KINDS.map((bed) => [kind, bed] as const));
const bands = LOADS.flatMap((_, load) => HEIGHTS.map((__, height) => [load, height] as const));

describe("no search takes more evaluations than were recorded", () => {
  test.each(sets)("%s, %s", (kind, bed) => {
    const name = `${kind}, ${bed}`;
    const got: number[][] = bands.map(([load, height]) => workOf(kind, bed, load, height));
    found[name] = got.map((work) => work.join("/")).join(" ");
    if (recording) return;
    const most = recorded[name]!.split(" ").map((work) => work.split("/").map(Number));
    const more = got.flatMap((work, k) => {
      const [load, height] = bands[k]!;
      const isMore = work.some((n, way) => !(n <= most[k]![way]!));
      return isMore
        ? [`load ${load}, height ${height}: ${work.join()} for ${most[k]!.join()}`]
        : [];
    });
    expect(more).toEqual([]);
  });
});

describe("nor for reaches asked at will", () => {
  test.each(sets)("%s, %s", (kind, bed) => {
    const name = `${kind}, ${bed}, at a reach`;
    const got = HEIGHTS.map((_, height) => workAtReach(kind, bed, height));
    found[name] = got.map((work) => work.join("/")).join(" ");
    if (recording) return;
    const most = recorded[name]!.split(" ").map((work) => work.split("/").map(Number));
    for (const [k, work] of got.entries())
      for (const [n, evaluations] of work.entries())
        if (!(evaluations <= most[k]![n]!))
          expect.fail(`height ${k}, reach ${n}: ${evaluations}, recorded ${most[k]![n]}`);
  });
});

const chain = piece(20, 16, 1 << 24);
const rope = piece(30, 0.5, 1 << 16);
const three = { segments: [chain, rope, piece(8, 0.5, 1 << 15)] };

describe("work to the last evaluation", () => {
  const out = new Float64Array(K.COLUMNS);
  const p = prepareRode(three);
  test("one or two plain pieces need no search for the vertical load", () => {
    for (const [heightM, ...segments] of [
      [6, chain],
      [32, chain, rope],
    ] as const)
      for (const loadN of [1, 10, 100]) {
        let v = NaN;
        const pieces = prepareRode({ segments });
        expect(evaluationsOf(() => (v = verticalFor(pieces, heightM, loadN, out)))).toBe(0);
        K.place(pieces, loadN, v, out);
        expect(out[K.HEIGHT]).toBeCloseTo(heightM, 11);
      }
  });
  test("nor one piece that lies on a rough level bed", () => {
    const rough = prepareRode({ segments: [chain], bedFriction: 1 });
    expect(evaluationsOf(() => verticalFor(rough, 6, 10, out))).toBe(0);
  });
  test("a bow at the height of the anchor or under it is told by one look", () => {
    let v = NaN;
    expect(evaluationsOf(() => (v = verticalFor(p, 0, 100, out)))).toBe(1);
    expect(v).toBe(0);
    expect(evaluationsOf(() => (v = verticalFor(p, -1, 100, out)))).toBe(1);
    expect(v).toBeNaN();
    const rising = prepareRode({ ...three, seabedSlopeDeg: 5 });
    expect(evaluationsOf(() => (v = verticalFor(rising, 5, 100, out)))).toBe(1);
    expect(v).toBeNaN();
  });
  test("what is no number is given up after a set number of steps", () => {
    expect(evaluationsOf(() => verticalFor(p, 5, NaN, out))).toBe(300);
    expect(evaluationsOf(() => solveForward(p, 5, NaN, out))).toBe(300);
    const rough = prepareRode({ segments: [chain], bedFriction: 1 });
    // Slack, a start, Newton's steps in both loads, then in one, each with a search of its own.
    let state = 0;
    const all = 1 + 300 + 30 + 300 * (300 + 1);
    expect(evaluationsOf(() => (state = solveReach(rough, 5, NaN, out)))).toBe(all);
    expect(state).toBe(K.AGROUND);
    expect(out).toEqual(new Float64Array(K.COLUMNS).fill(NaN));
  });
  test("a bed as high as the bow is told at once", () => {
    const rising = prepareRode({ ...three, seabedSlopeDeg: 5 });
    let state = 0;
    expect(evaluationsOf(() => (state = solveReach(rising, 2, 50, out)))).toBe(1);
    expect(state).toBe(K.AGROUND);
  });
  test("a rode shorter than the height, and one along the bed", () => {
    expect(evaluationsOf(() => solveReach(p, 90, 0, out))).toBe(3);
    // Drawn out along a level bed: half a metre by the stretch of all three.
    expect(evaluationsOf(() => solveReach(p, 0, 58.5, out))).toBe(35);
    const stretchPerN = 20 / (1 << 24) + 30 / (1 << 16) + 8 / (1 << 15);
    expect(out[K.LOAD]).toBeCloseTo(0.5 / stretchPerN, 6);
  });
  test("within the slack reach nothing is laid but the slack rode", () => {
    const slack = evaluationsOf(() => solveForward(p, 5, 0, out));
    const reachM = out[K.REACH]!;
    for (const part of [0, 0.5, 1])
      expect(evaluationsOf(() => solveReach(p, 5, part * reachM, out))).toBe(slack);
    // Past the slack reach however much it stretches it is not laid at all.
    const most = 58 - 5 + (20 * 16 + 38 * 0.5) * (20 / (1 << 24) + 30 / (1 << 16) + 8 / (1 << 15));
    const at = evaluationsOf(() => solveReach(p, 5, most, out));
    const past = evaluationsOf(() => solveReach(p, 5, most * (1 + 1e-15), out));
    expect(at - past).toBe(slack);
  });
});

describe("searches that a float ends, to the last evaluation", () => {
  // The pull draws the rode ashore, or a float stands above the bow or on the bed: each search goes
  // on until two loads next to each other are left, or no load is found at all.
  test.each([
    [
      "ashore under much load",
      piece(30, 44, 599_048),
      piece(40, 3.4, 6415),
      49,
      -40,
      19,
      24.04,
      49.768,
      227,
    ],
    [
      "no lie under little load",
      piece(13, 28, 673_371),
      piece(7, 0.1, 73_117),
      7,
      -126,
      13.1,
      4.63,
      16.231,
      870,
    ],
    [
      "found, but not clear",
      piece(27, 5, 27_660),
      piece(9, 0.6, 3855),
      26,
      -11,
      15.7,
      10.47,
      37.14,
      53,
    ],
    [
      "near the anchor",
      piece(7, 16, 1_132_629),
      piece(4, 1.2, 5208),
      3,
      -82,
      7.2,
      1.42,
      11.966,
      68,
    ],
    ["steep", piece(4, 7, 4_101_981), piece(4, 3.9, 57_293), 1, -83, 19.7, 3.09, 5.789, 140],
    ["on a level bed", piece(37, 5, 1e6), piece(31, 1, 1e5), 17, -90, 0, 18, 60, 41],
    ["at a joint", piece(5, 19, 5_716_545), piece(4, 0.2, 9678), 5, -19, 13.9, 2.24, 9.515, 567],
  ] as const)(
    "%s",
    (_, lower, upper, fromAnchorM, weightInWaterN, slope, heightM, reachM, most) => {
      const p = prepareRode({
        segments: [lower, upper],
        weights: [{ fromAnchorM, weightInWaterN }],
        seabedSlopeDeg: slope,
      });
      const out = new Float64Array(K.COLUMNS);
      let state = 0;
      expect(evaluationsOf(() => (state = solveReach(p, heightM, reachM, out)))).toBe(most);
      expect(state).toBe(K.FLOATED);
      expect(out).toEqual(new Float64Array(K.COLUMNS).fill(NaN));
    },
  );
});
