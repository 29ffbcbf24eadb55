import { describe, expect, test } from "vitest";
import { portCurveFrom, tideSeries, type TideSource } from "../../src/tide/index.js";
import { constantsOf } from "../checks/tide-stations.js";
import { reportRows, type Measured } from "../checks/harness.js";
import { hasSharedData, sharedText } from "../shared-data.js";

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

interface Reading {
  timeMs: number;
  levelM: number;
}

/** Readings of a gauge; missing ones are left out. */
const gauge = (file: string): Reading[] =>
  sharedText(`tide/${file}`)
    .trim()
    .split("\n")
    .slice(1)
    .flatMap((line) => {
      const [time, level] = line.split(",");
      return level === undefined || level.trim() === ""
        ? []
        : [{ timeMs: Date.parse(time!), levelM: Number(level) }];
    });

/** Runs of readings without a gap. */
function runs(readings: readonly Reading[], stepMs: number): Reading[][] {
  const out: Reading[][] = [];
  readings.forEach((r, i) => {
    const before = readings[i - 1];
    if (before === undefined || r.timeMs - before.timeMs !== stepMs) out.push([]);
    out.at(-1)!.push(r);
  });
  return out;
}

/** Observed rises and falls: from one turn to the next within a run, turns being extreme for three hours about. */
function observedPieces(run: readonly Reading[], stepMs: number): Reading[][] {
  const reach = Math.round((3 * HOUR) / stepMs);
  const turns: number[] = [];
  for (let i = reach; i + reach < run.length; i++) {
    const window = run.slice(i - reach, i + reach + 1).map((r) => r.levelM);
    const v = run[i]!.levelM;
    const extreme = v === Math.max(...window) || v === Math.min(...window);
    if (extreme && (turns.length === 0 || i - turns.at(-1)! > reach)) turns.push(i);
  }
  return turns
    .slice(1)
    .map((to, i) => run.slice(turns[i], to + 1))
    .filter((p) => p.length * stepMs < 9 * HOUR);
}

/** Sum of squares and number of what a rule leaves of observed pieces between their own turns. */
function leftOver(
  pieces: readonly Reading[][],
  stepMs: number,
  source: (turns: { timeMs: number; heightM: number }[]) => TideSource,
): number {
  let [squares, count] = [0, 0];
  for (const piece of pieces) {
    const first = piece[0]!;
    const last = piece.at(-1)!;
    const drawn = tideSeries(
      source([first, last].map((r) => ({ timeMs: r.timeMs, heightM: r.levelM }))),
      { fromMs: first.timeMs, toMs: last.timeMs, stepMs },
    );
    piece.forEach((r, k) => (squares += (r.levelM - drawn[k]!) ** 2));
    count += piece.length;
  }
  return Math.sqrt(squares / count);
}

const GAUGES = [
  ["anchorage-9455920-2018-0405-6min.csv", "9455920", 2018, 0.4],
  ["newlondon-8461490-2013-0304-6min.csv", "8461490", 2013, 0],
] as const;

describe.runIf(hasSharedData)("published levels", () => {
  test("Honolulu, 99 six-minute levels", () => {
    const levels = sharedText("tide/noaa-honolulu-1612340-predictions-2023-08-29-6min.csv")
      .trim()
      .split("\n")
      .slice(1)
      .map((line) => line.split(","));
    const fromMs = Date.parse(levels[0]![0]!);
    const ours = tideSeries(constantsOf("1612340")!, {
      fromMs,
      toMs: Date.parse(levels.at(-1)![0]!),
      stepMs: 6 * MINUTE,
    });
    expect(ours).toHaveLength(99);
    const errors = levels.map(([time, level], k) => {
      expect(Date.parse(time!)).toBe(fromMs + k * 6 * MINUTE);
      return ours[k]! - Number(level);
    });
    const rms = Math.sqrt(errors.reduce((s, e) => s + e * e, 0) / 99);
    expect(rms).toBeLessThan(0.005);
    reportRows("tide-levels", "NOAA CO-OPS six-minute predictions", [
      {
        quantity: "99 published six-minute levels, rms",
        got: rms,
        expected: 0,
        tolerance: 0.005,
        unit: "m",
      },
    ]);
  });
});

describe.runIf(hasSharedData)("curves against gauges", () => {
  const rows: Measured[] = [];
  test.each(GAUGES)("%s", (file, station, year, least) => {
    const stepMs = 6 * MINUTE;
    const pieces = runs(gauge(file), stepMs).flatMap((r) => observedPieces(r, stepMs));
    expect(pieces.length).toBeGreaterThan(40);
    // The curve is made from constants over the half-year before the readings.
    const toMs = Date.UTC(year, 0, 1);
    const { curve } = portCurveFrom({
      tide: constantsOf(station)!,
      span: { fromMs: toMs - 183 * DAY, toMs },
    });
    const datum = "gauge";
    const plain = leftOver(pieces, stepMs, (turns) => ({
      kind: "turns",
      turns,
      complete: true,
      datum,
    }));
    const drawn = leftOver(pieces, stepMs, (turns) => ({
      kind: "curve",
      curve,
      turns,
      complete: true,
      datum,
    }));
    console.log(
      `${file}: ${pieces.length} rises and falls, half-cosine rms ${(100 * plain).toFixed(1)} cm, port curve ${(100 * drawn).toFixed(1)} cm, cut ${(100 * (1 - drawn / plain)).toFixed(0)} %`,
    );
    rows.push({
      quantity: `port curve between observed turns, part of the half-cosine's rms left, station ${station}`,
      got: drawn / plain,
      expected: 0,
      tolerance: 1 - least,
      unit: "share",
    });
    expect(1 - drawn / plain).toBeGreaterThanOrEqual(least);
    reportRows("tide-gauge", "NOAA CO-OPS gauges, six-minute readings", rows);
  });
});
