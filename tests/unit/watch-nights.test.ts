import { describe, expect, test } from "vitest";
import { dragRow, shareOf } from "../../bench/simulator/accuracy.js";
import { simulateNight } from "../../bench/simulator/night.js";
import { persistence, traceNight } from "../../bench/simulator/trace.js";

/** A small slice of the nights in docs/watch-accuracy.md, other numbers than any used there. */
const FIRST = 8_000_000;
const GOOD = { receiver: "good" } as const;

const drags = (mPerMin: number, count: number, given = { anchor: true }) => {
  const nights = Array.from({ length: count }, (_, n) =>
    simulateNight(FIRST + n, { ...GOOD, drag: { mPerMin }, hours: 6 }),
  );
  const traces = nights.map((night) => traceNight(night, given));
  return { nights, traces };
};

describe("simulated nights", () => {
  test("few false alarms on quiet nights, and hardly ever in doubt", () => {
    let alarms = 0;
    let doubt = 0;
    let steps = 0;
    for (let n = 0; n < 60; n++) {
      const night = simulateNight(FIRST + n, GOOD);
      const trace = traceNight(night, { anchor: true });
      if (trace.alarmStep >= 0) alarms++;
      doubt += trace.cannotTell.reduce((s, v) => s + v, 0);
      steps += night.steps;
    }
    // One night in fifty would give more than five in sixty less than once in a thousand runs.
    expect(alarms).toBeLessThanOrEqual(5);
    expect(doubt / steps).toBeLessThan(0.01);
  });

  test.each([
    [0.5, 15, 26],
    [3.087, 24, 35],
    [30.87, 44, 75],
  ])("a drag of %f m/min is found in time", (mPerMin, median, ninety) => {
    const { nights, traces } = drags(mPerMin, 20);
    const row = dragRow("", nights, traces, (t) => t.alarmStep);
    expect(row.medianM).toBeLessThanOrEqual(median);
    expect(row.ninetyM).toBeLessThanOrEqual(ninety);
    expect(row.never).toBe(0);
    expect(row.late - row.lateButBlind).toBe(0);
  });

  test("neither plain rule is as good at both ends", () => {
    const slow = drags(0.5, 12);
    const fast = drags(30.87, 12);
    const medians = (rule: Parameters<typeof dragRow>[3]) =>
      [slow, fast].map((d) => dragRow("", d.nights, d.traces, rule).medianM);
    const [ours, minute, five] = [
      medians((t) => t.alarmStep),
      // Margins of the published table for one false alarm in fifty nights: 20 m and 10 m beyond.
      medians((t) => persistence(t.excess, 20, 60, 5)),
      medians((t) => persistence(t.excess, 10, 300, 5)),
    ];
    expect(ours[0]!).toBeLessThan(minute[0]!);
    expect(ours[1]!).toBeLessThan(minute[1]!);
    expect(ours[1]!).toBeLessThan(0.5 * five[1]!);
  });

  test("with neither anchor nor heading she is never said to lie", () => {
    for (let n = 0; n < 5; n++) {
      const night = simulateNight(FIRST + n, GOOD);
      const trace = traceNight(night, { anchor: false });
      for (let i = 0; i < night.steps; i++) expect(trace.cannotTell[i]! + trace.blind[i]!).toBe(1);
    }
  });

  test("the intervals are those of the tables", () => {
    // Clopper and Pearson's exact interval for 0 and 2 of 20: 0–0.1684, 0.0123–0.3170.
    expect(shareOf(0, 20).high).toBeCloseTo(0.1684, 4);
    expect(shareOf(2, 20).low).toBeCloseTo(0.0123, 4);
    expect(shareOf(2, 20).high).toBeCloseTo(0.317, 4);
  });
});
