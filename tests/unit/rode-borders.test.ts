/** Rodes at the borders of their branches, where one way of lying passes into the next. */
import { describe, expect, test } from "vitest";
import * as K from "../../src/rode/kernel.js";
import { layPair } from "../../src/rode/pair.js";
import { SECOND, startOf } from "../../src/rode/places.js";
import { prepareRode, type PreparedRode, type RodeData } from "../../src/rode/prepare.js";
import { solveReach } from "../../src/rode/reach.js";
import { solveForward } from "../../src/rode/solve.js";
import { randomNumbers } from "../rodeRandom.js";
import { BED_KINDS, drawSet, KINDS, LOADS, piece } from "../rodeSets.js";

const chain = piece(16, 16, 1 << 20);
const rope = piece(32, 0.5, 1 << 16);
const NOTHING = new Float64Array(K.COLUMNS).fill(NaN);

function placed(rode: RodeData, h: number, v: number): Float64Array {
  const out = new Float64Array(K.COLUMNS);
  K.placeAndChange(prepareRode(rode), h, v, out);
  return out;
}

test("the row of the second piece stands where rows are counted to", () => {
  expect(SECOND).toBe(startOf(1));
});

describe("a bow at the height of the anchor above a falling bed", () => {
  const sets = KINDS.flatMap((kind) => LOADS.map((_, load) => [kind, load] as const));
  test.each(sets)("%s, load %i", (kind, load) => {
    let found = 0;
    for (const { rode, loadN } of drawSet(kind, "falling", load, 1, 6)) {
      const p = prepareRode(rode);
      const out = new Float64Array(K.COLUMNS);
      const state = solveForward(p, 0, loadN, out);
      if (state < 0) continue;
      const reachM = out[K.REACH]!;
      expect(solveReach(p, 0, reachM, out)).toBe(state);
      expect(Math.abs(out[K.REACH]! - reachM)).toBeLessThan(1e-9 * reachM);
      found += 1;
    }
    // Floats bring a slack rode up above a bow so low.
    if (!kind.includes("float")) expect(found).toBeGreaterThan(0);
  });
});

describe("what holds the height agrees with what is written", () => {
  test.each(KINDS.flatMap((kind) => BED_KINDS.map((bed) => [kind, bed] as const)))(
    "%s, %s",
    (kind, bed) => {
      const random = randomNumbers(17);
      for (const load of LOADS.keys()) {
        const [drawn] = drawSet(kind, bed, load, 1, 1);
        const p = prepareRode(drawn!.rode);
        const out = new Float64Array(K.COLUMNS);
        const laid = new Float64Array(K.COLUMNS);
        for (const h of [0, drawn!.loadN])
          for (let i = 0; i < 5; i++) {
            const v = h * Math.tan((drawn!.rode.seabedSlopeDeg! * Math.PI) / 180) + 500 * random();
            K.place(p, h, v, laid);
            out[K.LOAD] = h;
            out[K.BOW_VERTICAL] = v;
            K.rise(p, out);
            const change = laid[K.HEIGHT_BY_VERTICAL]!;
            expect(Math.abs(out[K.HEIGHT_BY_VERTICAL]! - change)).toBeLessThan(
              1e-9 * change + 1e-13,
            );
            if (bed === "level")
              expect(Math.abs(out[K.HEIGHT]! - laid[K.HEIGHT]!)).toBeLessThan(1e-9);
            expect(out[K.BEND]).not.toBeNaN();
          }
      }
    },
  );
});

describe("without a load", () => {
  const p = { segments: [chain, rope] };
  test("what hangs is drawn out by its own weight, and does not move across", () => {
    const out = placed(p, 0, 32 * 0.5 + 16 * 5);
    expect(out[K.HEIGHT]).toBeCloseTo(32 + 5 + (32 * 88) / (1 << 16) + (5 * 40) / (1 << 20), 12);
    expect(out[K.REACH]).toBe(11);
    expect(out[K.ON_BOTTOM]).toBe(11);
    expect(out[K.HEIGHT_BY_VERTICAL]).toBeCloseTo(1 / 16 + 32 / (1 << 16) + 5 / (1 << 20), 14);
    expect(out[K.REACH_BY_VERTICAL]).toBe(0);
    expect(out[K.TURNED]).toBe(Infinity);
  });
  test("a load so small that its square is lost is none", () => {
    expect(placed(p, 1e-100, 50)[K.TURNED]).toBe(Infinity);
    expect(placed(p, 1e-99, 50)[K.TURNED]).toBeLessThan(1e4);
  });
  test("a joint that nothing pulls down", () => {
    // A float of 48 N bears the 16 m of chain above it to nothing at its lower end.
    const floated = {
      segments: [piece(48, 2, 1 << 20)],
      weights: [{ fromAnchorM: 32, weightInWaterN: -48 }],
    };
    const out = new Float64Array(K.COLUMNS);
    out[K.BOW_VERTICAL] = 32;
    K.rise(prepareRode(floated), out);
    expect(out[K.BEND]).not.toBeNaN();
    expect(out[K.HEIGHT_BY_VERTICAL]).not.toBeNaN();
  });
});

describe("the touchdown", () => {
  const weighted = {
    segments: [piece(24, 1, 1 << 20)],
    weights: [{ fromAnchorM: 16, weightInWaterN: 16 }],
  };
  test("a weight just lifted is at the touchdown no more; just not, it lies whole", () => {
    expect(placed(weighted, 10, 24)[K.LIFTED_SHARE]).toBeNaN();
    expect(placed(weighted, 10, 24)[K.ON_BOTTOM]).toBe(16);
    expect(placed(weighted, 10, 23)[K.LIFTED_SHARE]).toBe(15 / 16);
    expect(placed(weighted, 10, 9)[K.LIFTED_SHARE]).toBe(1 / 16);
    expect(placed(weighted, 10, 8)[K.LIFTED_SHARE]).toBeNaN();
    expect(placed(weighted, 10, 8)[K.ON_BOTTOM]).toBe(16);
  });
  test("under the load of a line along the bed the whole lies, and no more", () => {
    for (const v of [0, -5]) {
      const out = placed({ segments: [chain, rope] }, 100, v);
      expect(out[K.ON_BOTTOM]).toBe(48);
      expect(out[K.HEIGHT]).toBe(0);
      expect(out[K.REACH]).toBeCloseTo(48 + 100 * (16 / (1 << 20) + 32 / (1 << 16)), 12);
    }
  });
  test("nothing that a float bears is at the touchdown", () => {
    const floated = {
      segments: [piece(48, 2, 1 << 20)],
      weights: [{ fromAnchorM: 32, weightInWaterN: -48 }],
    };
    const out = placed(floated, 10, -20);
    expect(out[K.LIFTED_SHARE]).toBeNaN();
    expect(out[K.ON_BOTTOM]).toBe(32);
  });
  test("just at the anchor the whole is off the bottom", () => {
    const p = prepareRode({ segments: [chain, rope, rope] });
    const out = new Float64Array(K.COLUMNS);
    K.place(p, 100, 256 + 32, out);
    const heightM = out[K.HEIGHT]!;
    expect(out[K.ON_BOTTOM]).toBe(0);
    expect(solveForward(p, heightM * (1 + 1e-9), 100, out)).toBe(K.LIFTED);
    expect(solveForward(p, heightM * (1 - 1e-9), 100, out)).toBe(K.GROUNDED);
  });
  test("friction may take up the whole pull before the anchor", () => {
    const out = placed({ segments: [chain, rope], bedFriction: 1 }, 100, 16);
    // The chain loses 16 N a metre, so the last 9.75 m of it are slack.
    expect(out[K.ANCHOR_HORIZONTAL]).toBe(0);
    expect(out[K.ANCHOR_VERTICAL]).toBe(0);
    expect(out[K.SOFT_ON_BOTTOM]).toBeCloseTo(6.25 / (1 << 20), 18);
    expect(
      placed({ segments: [chain, rope], bedFriction: 0.25 }, 100, 16)[K.ANCHOR_HORIZONTAL],
    ).toBe(36);
  });
});

describe("two plain pieces are written alike by every way", () => {
  test.each([10, 100, 1000, 10_000])("%i N", (loadN) => {
    const p: PreparedRode = prepareRode({ segments: [chain, rope] });
    const out = new Float64Array(K.COLUMNS);
    for (const heightM of [1, 4, 16, 40]) {
      out[K.HEIGHT] = heightM;
      out[K.LOAD] = loadN;
      if (!layPair(p, out)) continue;
      const again = new Float64Array(K.COLUMNS);
      K.place(p, loadN, out[K.BOW_VERTICAL]!, again);
      for (const c of [K.REACH, K.HEIGHT, K.STRETCH, K.ON_BOTTOM, K.REACH_BY_LOAD, K.TURNED])
        expect(again[c]).toBe(out[c]);
    }
  });
});

describe("reach at its borders", () => {
  const p = prepareRode({ segments: [chain, rope, rope] });
  const out = new Float64Array(K.COLUMNS);
  test("right over the anchor a rode shorter than the height hangs without a load", () => {
    expect(solveReach(p, 90, 0, out)).toBe(K.LIFTED);
    expect(out[K.LOAD]).toBe(0);
    expect(out[K.REACH]).toBe(0);
    expect(solveReach(p, 90, -1, out)).toBe(K.LIFTED);
    expect(out[K.LOAD]).toBe(0);
    expect(out[K.HEIGHT]).toBeCloseTo(90, 11);
  });
  test("what is no number has no lie", () => {
    for (const [heightM, reachM] of [
      [5, NaN],
      [NaN, 50],
      [NaN, NaN],
    ] as const) {
      expect(solveReach(p, heightM, reachM, out)).toBe(K.AGROUND);
      expect(out).toEqual(NOTHING);
      expect(solveForward(p, heightM, NaN, out)).toBe(K.AGROUND);
      expect(out).toEqual(NOTHING);
    }
  });
  test("a chord as long as the rode", () => {
    expect(solveReach(p, 48, 64, out)).toBe(K.LIFTED);
    expect(out[K.REACH]).toBeCloseTo(64, 9);
    expect(out[K.HEIGHT]).toBeCloseTo(48, 9);
    expect(out[K.STRETCH]).toBeGreaterThan(0);
  });
  test("the last of the slack reach bears no load, a little more does", () => {
    solveForward(p, 5, 0, out);
    const slackM = out[K.REACH]!;
    expect(solveReach(p, 5, slackM, out)).toBe(K.SLACK);
    expect(out[K.REACH]).toBe(slackM);
    expect(solveReach(p, 5, slackM * (1 + 1e-12), out)).toBe(K.GROUNDED);
    expect(out[K.LOAD]).toBeGreaterThan(0);
  });
});
