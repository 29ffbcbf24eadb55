import { expect, test } from "vitest";
import { hours, knots, planStay, utc } from "../../src/index.js";

const from = utc("2026-06-16T17:00Z");

/** Pulls over a stay of six hours in a wind against a stream. */
function pulls(windKn: number, gustKn: number, streamKn: number, windFromDeg: number) {
  const { moments } = planStay({
    position: { latDeg: 47.2, lonDeg: -20.4 },
    stay: { fromMs: from, toMs: from + hours(6) },
    vessel: { kind: "workboat", lengthM: 12, draughtM: 1.2 },
    tackle: {
      anchor: { type: "rollBarScoop", massKg: 20 },
      rode: [{ kind: "chain", diameterMm: 8, lengthM: 50 }],
    },
    chartedDepthM: 5,
    seabed: "S",
    tide: {
      kind: "turns",
      datum: "LAT",
      turns: [3, 1, 3].map((heightM, i) => ({ timeMs: from + hours(6.2 * (i - 0.5)), heightM })),
    },
    stream: { kind: "steady", rateMps: knots(streamKn), towardsDeg: 0 },
    forecast: {
      rows: [0, 6].map((h) => ({
        timeMs: from + hours(h),
        windMps: knots(windKn),
        gustMps: knots(gustKn),
        windFromDeg,
      })),
    },
    neighbours: [],
  });
  return moments;
}

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
