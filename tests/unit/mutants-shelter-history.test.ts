import { describe, expect, test } from "vitest";
import { type Berth, seaAt } from "../../src/shelter/berth.js";
import { advance, noHistory } from "../../src/shelter/history.js";
import { stepScratch } from "../../src/shelter/step.js";

const FETCH_M = 10_000;
const STEP_S = 600;
const berth = {
  method: "acesOpen",
  table: {
    fetchM: new Float64Array(361).fill(FETCH_M),
    turnDeg: new Float64Array(361),
  },
  cosine: new Float64Array(361).fill(1),
  depthM: Infinity,
} as unknown as Berth;

/** Height and period of the full sea of a wind. */
function fullSea(windMps: number): { hm0M: number; periodS: number } {
  const { blow, growth } = stepScratch();
  seaAt(berth, windMps, 0, Infinity, blow, growth);
  return growth;
}

/** A history that a row of winds has made. */
function after(...winds: [windMps: number, fromDeg: number][]) {
  const history = noHistory();
  const room = stepScratch();
  for (const [windMps, fromDeg] of winds) advance(history, berth, windMps, fromDeg, STEP_S, room);
  return history;
}

/** Time in which the sea of a wind falls to 1/e: one and a half times the run of its waves down the fetch, two hours at most. */
function decayOf(windMps: number): number {
  const groupMps = (9.81 * fullSea(windMps).periodS) / (4 * Math.PI);
  return Math.min(7200, (1.5 * FETCH_M) / groupMps);
}

describe("a wind that falls", () => {
  const [high, low] = [fullSea(15).hm0M, fullSea(5).hm0M];
  const left = Math.sqrt(high * high - low * low);

  test("leaves what it has raised, which runs off by its own time", () => {
    expect(decayOf(15)).toBeLessThan(7200);
    expect(after([15, 200]).seaM).toBeCloseTo(high, 12);
    const fallen = after([15, 200], [5, 200]);
    expect(fallen.seaM).toBeCloseTo(high, 12);
    expect(fallen.restM).toBeCloseTo(left, 12);
    expect(fallen.decayS / decayOf(15)).toBeCloseTo(1, 9);
    const later = after([15, 200], [5, 200], [5, 200]);
    const gone = 1 - Math.exp((-2 * STEP_S) / fallen.decayS);
    expect(later.seaM).toBeCloseTo(Math.sqrt(high * high - gone * left * left), 12);
    expect(later.decayS).toBe(fallen.decayS);
  });

  test("and goes on coming from where it came", () => {
    const turned = after([15, 200], [5, 210], [5, 220], [5, 225]);
    expect(turned.restFromDeg).toBe(200);
    expect(turned.seaFromDeg).toBe(225);
    expect(after([15, 200], [15, 210]).restM).toBe(0);
  });
});

describe("a shift of the wind", () => {
  const sea = fullSea(12).hm0M;

  test("of thirty degrees is none, of more one, of half a turn no gap in what is known", () => {
    expect(after([12, 100], [12, 130])).toMatchObject({ oldM: 0, beganFromDeg: 100 });
    const more = after([12, 100], [12, 131]);
    expect(more.beganFromDeg).toBe(131);
    expect(more.oldM).toBeCloseTo(sea * Math.sin((31 * Math.PI) / 180), 12);
    expect(more.oldFromDeg).toBe(100);
    const back = after([12, 100], [12, 280]);
    expect(back.oldM).toBeCloseTo(sea, 12);
    expect(back.durationS).toBe(STEP_S);
  });

  test("takes of what is left of a fallen sea the part that runs with it", () => {
    const [high, low] = [fullSea(15).hm0M, fullSea(5).hm0M];
    const left = Math.sqrt(high * high - low * low);
    const along = Math.cos((40 * Math.PI) / 180);
    const history = after([15, 200], [5, 200]);
    // A calm of no wind at all raises nothing, so that what is left of the sea is all there is.
    advance(history, berth, 0, 240, STEP_S, stepScratch());
    const gone = 1 - Math.exp((-2 * STEP_S) / history.decayS);
    const [whole, rest] = [high * along, left * along];
    expect(history.seaM).toBeCloseTo(Math.sqrt(whole * whole - gone * rest * rest), 9);
  });

  test("adds to what is left of shifts before; the greater tells where it comes from", () => {
    // A hard wind, a light one across it, and across that a light one again: the old sea stays that of the first.
    const twice = after([15, 0], [3, 90], [3, 180]);
    expect(twice.oldFromDeg).toBe(0);
    expect(twice.oldDecayS / decayOf(15)).toBeCloseTo(1, 9);
    // A light wind first, then a hard one: the old sea is the hard one's.
    const grown = after([3, 0], [15, 90], [15, 90], [15, 90], [15, 180]);
    expect(grown.oldFromDeg).toBe(90);
  });
});

test("the sea comes from where the water turns it to", () => {
  const turned = { ...berth, table: { ...berth.table, turnDeg: new Float64Array(361).fill(12) } };
  const history = noHistory();
  advance(history, turned, 12, 355, STEP_S, stepScratch());
  expect(history.seaFromDeg).toBe(7);
});

test("a wind that is not known changes nothing that has been raised", () => {
  const before = after([12, 100]);
  for (const unknown of [
    [NaN, 100],
    [NaN, 110],
  ] as const) {
    const then = after([12, 100], [...unknown]);
    expect(then.seaM).toBe(before.seaM);
    expect(then.restM).toBe(before.restM);
    expect(then.seaFromDeg).toBe(before.seaFromDeg);
  }
});
