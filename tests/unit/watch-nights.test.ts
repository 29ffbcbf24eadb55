import { describe, expect, test } from "vitest";
import { dragRow, shareOf } from "../../bench/simulator/found.js";
import { simulateNight } from "../../bench/simulator/night.js";
import { type Given, persistence, traceNight, watchFor } from "../../bench/simulator/trace.js";
import { Column, Slot } from "../../src/watch/memory.js";

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

  test("what the sheet of errors tells wrongly reaches the watch", () => {
    const night = simulateNight(FIRST, GOOD);
    const told = (given: Partial<Given>) => {
      const { open, limits } = watchFor(night, { anchor: true, ...given });
      return {
        reachM: limits[Column.REACH]!,
        leastM: limits[Column.LEAST]!,
        sigmaM: Math.sqrt(open[Slot.REACH_VAR]!),
        anchorM: open[Slot.ANCHOR_SIGMA]!,
        everyS: open[Slot.CADENCE]!,
      };
    };
    const plain = told({});
    expect(plain.reachM - told({ rodeOffM: -3 }).reachM).toBeCloseTo(3, 0);
    expect(plain.reachM - told({ antennaOffM: -9 }).reachM).toBeCloseTo(9, 9);
    expect(told({ depthOffM: 1 }).leastM - plain.leastM).toBeCloseTo(1, 1);
    expect(told({ rodeSigmaM: 3 }).sigmaM).toBeGreaterThan(3);
    expect(told({ statedPart: 0.5 }).anchorM).toBeLessThan(plain.anchorM);
    expect(told({ everyS: 180 }).everyS).toBe(180);
    const blow = simulateNight(FIRST, { ...GOOD, windy: true, hours: 2 });
    const placed = (headingOffDeg: number) =>
      traceNight(blow, { anchor: false, heading: true, headingOffDeg }).excess.slice(1200);
    expect(placed(0)).not.toEqual(placed(20));
  });

  test("and what it makes otherwise is otherwise", () => {
    const base = { ...GOOD, windy: true, hours: 2 } as const;
    const plain = simulateNight(FIRST, base);
    const swing = (n: typeof plain) => {
      // Change of heading in 5 s, which gusts and tide have no part in.
      let sum = 0;
      for (let i = 1; i < n.steps; i++) {
        const turn = Math.abs(n.headingDeg[i]! - n.headingDeg[i - 1]!) % 360;
        sum += Math.min(turn, 360 - turn);
      }
      return sum / n.steps;
    };
    expect(swing(simulateNight(FIRST, { ...base, yawDeg: 40 }))).toBeGreaterThan(
      1.3 * swing(plain),
    );
    const second = simulateNight(FIRST, { ...base, stepS: 1 });
    expect([second.steps, second.stepS]).toEqual([7200, 1]);
    // The shorter its errors last, the more a fix differs from the next.
    const flutter = (tauS: number) => {
      const n = simulateNight(FIRST, { ...base, tauS });
      const truth = simulateNight(FIRST, { ...base, receiver: "perfect" });
      const off = Array.from(n.x, (x, i) => x - truth.x[i]!).filter((v) => !Number.isNaN(v));
      const steps = off.slice(1).map((v, i) => Math.abs(v - off[i]!));
      return steps.sort((a, b) => a - b)[steps.length >> 1]!;
    };
    expect(flutter(60)).toBeGreaterThan(2 * flutter(600));
  });
});
