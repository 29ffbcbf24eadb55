/**
 * Rodes laid by quadrature: SciPy's `quad` along each piece, `brentq` for the vertical load at the
 * bow (scipy 1.17, tolerances 1e-13 and 1e-11), by a program that shares nothing with this library.
 * At the end rodes with floats, laid to a load and then to the reach it gave.
 */
import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, test } from "vitest";
import * as K from "../../src/rode/kernel.js";
import { prepareRode, type PreparedRode } from "../../src/rode/prepare.js";
import { solveReach } from "../../src/rode/reach.js";
import { solveForward, stateOf } from "../../src/rode/solve.js";
import { drawSet } from "../rodeSets.js";

interface Row {
  name: string;
  segments: [lengthM: number, weightNPerM: number, stiffnessN: number][];
  weights: [fromAnchorM: number, weightN: number][];
  slopeDeg: number;
  friction: number;
  heightM: number;
  loadN: number;
  reachM: number;
  bowVerticalN: number;
  anchorHorizontalN: number;
  anchorVerticalN: number;
  onBottomM: number;
  stretchM: number;
  liftedShare: number | null;
}
const rows = JSON.parse(
  readFileSync(path.join(import.meta.dirname, "rode-quadrature.json"), "utf8"),
) as Row[];

const prepared = (r: Row): PreparedRode =>
  prepareRode({
    segments: r.segments.map(([lengthM, weightInWaterNPerM, axialStiffnessN]) => ({
      lengthM,
      weightInWaterNPerM,
      axialStiffnessN,
    })),
    weights: r.weights.map(([fromAnchorM, weightInWaterN]) => ({ fromAnchorM, weightInWaterN })),
    seabedSlopeDeg: r.slopeDeg,
    bedFriction: r.friction,
  });

const near = (got: number | undefined, want: number, within: number, what: string) => {
  if (!(Math.abs(got! - want) <= within))
    expect.fail(`${what}: ${String(got)}, expected ${String(want)}`);
};

const stateBy = (r: Row): number =>
  r.loadN === 0 ? K.SLACK : r.onBottomM === 0 && r.liftedShare === null ? K.LIFTED : K.GROUNDED;

function expectRow(r: Row, out: Float64Array, within = 1e-9): void {
  const force = within * (1 + r.loadN + r.bowVerticalN);
  near(out[K.REACH], r.reachM, within, "reach");
  near(out[K.HEIGHT], r.heightM, within, "height");
  near(out[K.LOAD], r.loadN, force, "load");
  near(out[K.BOW_VERTICAL], r.bowVerticalN, force, "vertical load");
  near(out[K.BOW_TENSION], Math.hypot(r.loadN, r.bowVerticalN), force, "tension");
  near(out[K.ANCHOR_HORIZONTAL], r.anchorHorizontalN, force, "anchor, horizontal");
  near(out[K.ANCHOR_VERTICAL], r.anchorVerticalN, force, "anchor, vertical");
  near(out[K.ON_BOTTOM], r.onBottomM, 10 * within, "on the bottom");
  near(out[K.STRETCH], r.stretchM, within, "stretch");
  if (r.liftedShare === null) expect(out[K.LIFTED_SHARE]).toBeNaN();
  else near(out[K.LIFTED_SHARE], r.liftedShare, within, "share lifted");
}

describe("load to reach, against quadrature", () => {
  test.each(rows)("$name", (r) => {
    // Nothing of an earlier rode may be left.
    const out = new Float64Array(K.COLUMNS).fill(NaN);
    const state = solveForward(prepared(r), r.heightM, r.loadN, out);
    expectRow(r, out);
    expect(state).toBe(stateBy(r));
  });
});

describe("reach to load, against quadrature", () => {
  test.each(rows.filter((r) => r.loadN > 0))("$name", (r) => {
    const out = new Float64Array(K.COLUMNS).fill(NaN);
    expect(solveReach(prepared(r), r.heightM, r.reachM, out)).toBe(stateBy(r));
    expectRow(r, out, 1e-6);
    near(out[K.REACH], r.reachM, 1e-8, "reach");
    near(out[K.HEIGHT], r.heightM, 1e-8, "height");
  });
});

/** Differences to both sides of what `place` writes. */
function byDifference(p: PreparedRode, h: number, v: number, dh: number, dv: number) {
  const at = (side: number) => {
    const out = new Float64Array(K.COLUMNS);
    K.place(p, h + side * dh, v + side * dv, out);
    return [out[K.REACH]!, out[K.HEIGHT]!];
  };
  const [a, b] = [at(-1), at(1)];
  return a.map((low, k) => (b[k]! - low) / (2 * (dh + dv)));
}

describe("changes, against differences", () => {
  // Not where the rode hangs so nearly up and down that the step would be all of the load.
  test.each(rows.filter((r) => r.loadN > 1e-3 * r.bowVerticalN))("$name", (r) => {
    const p = prepared(r);
    const out = new Float64Array(K.COLUMNS).fill(NaN);
    K.placeAndChange(p, r.loadN, r.bowVerticalN, out);
    expectRow(r, out);
    const step = 1e-5 * (r.loadN + r.bowVerticalN);
    const [xh, zh] = byDifference(p, r.loadN, r.bowVerticalN, step, 0);
    const [xv, zv] = byDifference(p, r.loadN, r.bowVerticalN, 0, step);
    const scale = Math.abs(xh!) + Math.abs(zv!) + Math.abs(xv!);
    near(out[K.REACH_BY_LOAD], xh!, 1e-4 * scale, "reach by load");
    near(out[K.HEIGHT_BY_LOAD], zh!, 1e-4 * scale, "height by load");
    near(out[K.REACH_BY_VERTICAL], xv!, 1e-4 * scale, "reach by vertical load");
    near(out[K.HEIGHT_BY_VERTICAL], zv!, 1e-4 * scale, "height by vertical load");
    near(1 / K.stiffnessOf(out), xh! - (xv! * zh!) / zv!, 1e-3 * scale, "give");
    expect(stateOf(p, out)).toBe(stateBy(r));
  });
});

describe("the least that the search needs", () => {
  test.each(rows.filter((r) => r.loadN > 1e-3 * r.bowVerticalN && r.slopeDeg === 0))(
    "$name",
    (r) => {
      const p = prepared(r);
      const rise = (v: number) => {
        const out = new Float64Array(K.COLUMNS);
        out[K.LOAD] = r.loadN;
        out[K.BOW_VERTICAL] = v;
        K.rise(p, out);
        return out;
      };
      const out = rise(r.bowVerticalN);
      near(out[K.HEIGHT], r.heightM, 1e-9, "height");
      const step = 1e-5 * (r.loadN + r.bowVerticalN);
      const [low, high] = [rise(r.bowVerticalN - step), rise(r.bowVerticalN + step)];
      const bend = (high[K.HEIGHT_BY_VERTICAL]! - low[K.HEIGHT_BY_VERTICAL]!) / (2 * step);
      near(
        out[K.BEND],
        bend,
        1e-3 * (Math.abs(bend) + out[K.HEIGHT_BY_VERTICAL]! / r.loadN),
        "bend",
      );
    },
  );
});

describe("within the slack reach", () => {
  const slack = rows.filter((r) => r.loadN === 0 && r.onBottomM > 0);
  test.each(slack)("$name", (r) => {
    const p = prepared(r);
    const out = new Float64Array(K.COLUMNS).fill(NaN);
    for (const part of [0, 0.5, 0.99]) {
      expect(solveReach(p, r.heightM, part * r.reachM, out)).toBe(K.SLACK);
      expect(out[K.LOAD]).toBe(0);
      expect(out[K.REACH]).toBe(part * r.reachM);
    }
    expect(solveReach(p, r.heightM, r.reachM * (1 + 1e-6), out)).toBe(K.GROUNDED);
    expect(out[K.LOAD]).toBeGreaterThan(0);
  });
});

describe("floats on a rising bed, where some loads have no lie", () => {
  test.each([
    ["rope with a float", "rising", 3, 2, 38],
    ["rope with a float and a weight", "rough and sloping", 3, 1, 5],
  ] as const)(
    "%s, %s bed: the load that gave a reach is found again",
    (kind, bed, load, height, at) => {
      const { rode, heightM, loadN } = drawSet(kind, bed, load, height, at).at(-1)!;
      const p = prepareRode(rode);
      const out = new Float64Array(K.COLUMNS);
      const state = solveForward(p, heightM, loadN, out);
      const reachM = out[K.REACH]!;
      expect(solveReach(p, heightM, reachM, out)).toBe(state);
      expect(out[K.LOAD]! / loadN).toBeCloseTo(1, 6);
    },
  );
});
