import { expect, test } from "vitest";
import { knots, planStay } from "../../src/index.js";
import { bay, steadyWind } from "../openBay.js";

/** Pulls over a stay of six hours in a wind against a stream. */
const pulls = (windKn: number, gustKn: number, streamKn: number, windFromDeg: number) =>
  planStay({
    ...bay(),
    vessel: { kind: "workboat", lengthM: 12, draughtM: 1.2 },
    stream: { kind: "steady", rateMps: knots(streamKn), towardsDeg: 0 },
    forecast: steadyWind(knots(windKn), windFromDeg, knots(gustKn)),
  }).moments;

test("a gust against the stream never makes the hardest pull less than that of the mean wind", () => {
  for (const windFromDeg of [0, 20, 45])
    for (const [wind, gust] of [
      [10, 14],
      [15, 20],
      [20, 26],
      [25, 32],
    ] as const) {
      const { pullN, gustPullN } = pulls(wind, gust, 4.5, windFromDeg);
      pullN.forEach((p, i) => {
        expect(gustPullN[i]!).toBeGreaterThanOrEqual(p!);
      });
    }
});
