/**
 * Rodes of every kind put together piece by piece from the bow down, the vertical load found by
 * halving: the plainest statics there are, against which both searches are held.
 */
import { describe, expect, test } from "vitest";
import * as K from "../../src/rode/kernel.js";
import { prepareRode } from "../../src/rode/prepare.js";
import { solveReach } from "../../src/rode/reach.js";
import { hasFloats, solveForward } from "../../src/rode/solve.js";
import { BED_KINDS, type Drawn, drawSet, HEIGHTS, KINDS, LOADS, piece } from "../rodeSets.js";
import { lieByBisection, type Lie } from "../rodeStatics.js";

const lengthOf = (d: Drawn): number => d.rode.segments.reduce((sum, s) => sum + s.lengthM, 0);

function near(got: number | undefined, want: number, within: number, what: string): void {
  if (!(Math.abs(got! - want) <= within))
    expect.fail(`${what}: ${String(got)}, expected ${String(want)} within ${String(within)}`);
}

const stateBy = (loadN: number, lie: Lie): number =>
  lie.onBottomM === 0 ? K.LIFTED : loadN > 0 ? K.GROUNDED : K.SLACK;

function expectLie(out: Float64Array, lie: Lie, lengthM: number, part: number): void {
  const force = part * (1 + out[K.LOAD]! + lie.bowVerticalN);
  near(out[K.REACH], lie.reachM, part * (lengthM + lie.stretchM), "reach");
  near(out[K.HEIGHT], lie.heightM, part * lengthM, "height");
  near(out[K.BOW_VERTICAL], lie.bowVerticalN, 10 * force, "vertical load");
  near(out[K.BOW_TENSION], Math.hypot(out[K.LOAD]!, lie.bowVerticalN), 10 * force, "tension");
  near(out[K.ANCHOR_HORIZONTAL], lie.anchorHorizontalN, 10 * force, "anchor, horizontal");
  near(out[K.ANCHOR_VERTICAL], lie.anchorVerticalN, 10 * force, "anchor, vertical");
  // Where the bow is close above the bed a little height is a long stretch of rode.
  near(out[K.ON_BOTTOM], lie.onBottomM, 1e3 * part * lengthM, "on the bottom");
  near(out[K.STRETCH], lie.stretchM, part * (lengthM + lie.stretchM), "stretch");
  if (Number.isNaN(lie.liftedShare)) expect(out[K.LIFTED_SHARE]).toBeNaN();
  else near(out[K.LIFTED_SHARE], lie.liftedShare, 1e3 * part, "share lifted");
}

const sets = KINDS.flatMap((kind) => BED_KINDS.map((bed) => [kind, bed] as const));
const bands = LOADS.flatMap((_, load) => HEIGHTS.map((__, height) => [load, height] as const));

describe("load to reach and back, against bisection", () => {
  test.each(sets)("%s, %s", (kind, bed) => {
    for (const d of bands.flatMap(([load, height]) => drawSet(kind, bed, load, height, 1))) {
      const p = prepareRode(d.rode);
      const out = new Float64Array(K.COLUMNS).fill(7);
      const state = solveForward(p, d.heightM, d.loadN, out);
      const lie = lieByBisection(d.rode, d.heightM, d.loadN);
      if (!lie?.clear) {
        expect(state).toBe(hasFloats(p) ? K.FLOATED : K.AGROUND);
        expect(out).toEqual(new Float64Array(K.COLUMNS).fill(NaN));
        continue;
      }
      expect(state).toBe(stateBy(d.loadN, lie));
      expect(out[K.LOAD]).toBe(d.loadN);
      expectLie(out, lie, lengthOf(d), 1e-11);
      const back = new Float64Array(K.COLUMNS).fill(7);
      expect(solveReach(p, d.heightM, lie.reachM, back)).toBe(state);
      near(back[K.REACH], lie.reachM, 1e-11 * (lengthOf(d) + lie.stretchM), "reach asked for");
      near(back[K.HEIGHT], d.heightM, 1e-11 * lengthOf(d), "height asked for");
      expectLie(back, lieByBisection(d.rode, d.heightM, back[K.LOAD]!)!, lengthOf(d), 1e-8);
    }
  });
});

describe("a bow close above the bed", () => {
  // The curve of height by vertical load begins level there: what hangs tells how much a last step errs.
  test.each([1e-5, 1e-4, 1e-3, 1e-2, 0.1])("%f m", (heightM) => {
    for (const loadN of [300, 16_553, 200_000]) {
      const out = new Float64Array(K.COLUMNS);
      const segments = [piece(22, 8, 1.8e7), piece(37, 0.06, 2.2e4), piece(23, 12.5, 1.9e7)];
      solveForward(prepareRode({ segments }), heightM, loadN, out);
      const lie = lieByBisection({ segments }, heightM, loadN)!;
      near(out[K.HEIGHT], heightM, 1e-13 + 1e-14 * heightM, "height");
      near(out[K.ON_BOTTOM], lie.onBottomM, 1e-7, "on the bottom");
    }
  });
});
