import { expect, test } from "vitest";
import { calibrate } from "../../bench/calibration/calibrate.js";

test("what a plan says comes about as often, tenth by tenth", () => {
  const tenths = calibrate(24, 30, 300, 4).filter((t) => t.nights >= 90);
  expect(tenths.length).toBeGreaterThan(4);
  for (const t of tenths) {
    // Three points, and three standard errors of as many nights.
    const chance = 3 * Math.sqrt((t.said * (1 - t.said)) / t.nights);
    expect(Math.abs(t.said - t.came)).toBeLessThan(0.03 + chance);
  }
}, 120_000);
