/**
 * Heights at which the touchdown stands next to the end of a piece, or a weight is about to be lifted: the
 * curve of the height bends anew there, and a step of the search is not to be taken across.
 */
import { expect, test } from "vitest";
import { BOW_VERTICAL, COLUMNS, HEIGHT, place } from "../../src/rode/kernel.js";
import { ROW, TAN, TOP } from "../../src/rode/places.js";
import { prepareRode, type PreparedRode } from "../../src/rode/prepare.js";
import { solveForward } from "../../src/rode/solve.js";
import { randomNumbers } from "../rodeRandom.js";

const random = randomNumbers(31);
const even = (low: number, high: number) => low + (high - low) * random();

function rode(hangs: boolean, slopeDeg: number): PreparedRode {
  const piece = () => ({
    lengthM: even(2, 30),
    weightInWaterNPerM: even(0.2, 40),
    axialStiffnessN: Math.exp(even(10, 17)),
  });
  return prepareRode({
    segments: [piece(), piece(), piece()],
    weights: hangs ? [{ fromAnchorM: even(1, 6), weightInWaterN: even(5, 400) }] : [],
    seabedSlopeDeg: slopeDeg,
  });
}

/** Marks of a rode, all but the last, which is infinite. */
const marksOf = (p: PreparedRode): number[] => [...p.subarray(p[TOP]! + ROW, -1)];

test.each([
  [false, 0],
  [true, 0],
  [false, 4],
  [true, -3],
])("the bow is met on either side of a mark (weight %s, bed %s degrees)", (hangs, slopeDeg) => {
  const out = new Float64Array(COLUMNS);
  const worst = { missM: 0, what: "" };
  let laid = 0;
  for (let k = 0; k < 300; k++) {
    const p = rode(hangs, slopeDeg);
    const loadN = Math.exp(even(3, 9));
    for (const mark of marksOf(p))
      for (let exponent = 0; exponent <= 10; exponent++)
        for (const side of [-1, 1]) {
          const v = loadN * p[TAN]! + mark * (1 + side * 10 ** -exponent * 0.3);
          place(p, loadN, v, out);
          const heightM = out[HEIGHT]!;
          if (!(heightM > 0.01) || solveForward(p, heightM, loadN, out) < 0) continue;
          laid++;
          place(p, loadN, out[BOW_VERTICAL]!, out);
          const missM = Math.abs(out[HEIGHT]! - heightM) / Math.max(1, heightM);
          if (missM > worst.missM)
            Object.assign(worst, { missM, what: `${k} ${mark} ${exponent} ${side}` });
        }
  }
  expect(laid).toBeGreaterThan(5000);
  expect(worst.missM, worst.what).toBeLessThan(1e-12);
});
