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
import { solveForward } from "../../src/rode/solve.js";
import { BED_KINDS, HEIGHTS, KINDS, LOADS, drawSet, type Bed, type Kind } from "../rodeSets.js";

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

const sets = KINDS.flatMap((kind) => BED_KINDS.map((bed) => [kind, bed] as const));
const bands = LOADS.flatMap((_, load) => HEIGHTS.map((__, height) => [load, height] as const));

describe("no search takes more evaluations than were recorded", () => {
  test.each(sets)("%s, %s", (kind, bed) => {
    const name = `${kind}, ${bed}`;
    const got = bands.map(([load, height]) => workOf(kind, bed, load, height));
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
