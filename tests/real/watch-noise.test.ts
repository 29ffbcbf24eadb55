import { existsSync, readFileSync, readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { simulateNight } from "../../bench/simulator/night.js";
import { replayReport, replayed, seriesOf } from "../../bench/simulator/replay.js";
import { readNmea0183 } from "../../src/feed/index.js";
import { startWatch, stepWatch, type WatchState } from "../../src/watch/index.js";
import { hasSharedData, sharedText } from "../shared-data.js";

const kept = JSON.parse(
  readFileSync(new URL("../../bench/watch-results.json", import.meta.url), "utf8"),
) as { replay: NonNullable<ReturnType<typeof replayReport>> };

describe.skipIf(!hasSharedData)("real receivers", () => {
  test("what the page of accuracy says of the logs is what they hold", () => {
    // As a file has it: what is no number becomes null.
    const now = JSON.parse(JSON.stringify(replayReport(0, 1, 1))) as typeof kept.replay;
    expect(now.logs).toEqual(kept.replay.logs);
    expect(now.of).toBe(kept.replay.of);
  });

  test("no series of a receiver that lies still, and no ship's stay, has come since: else it wants a trial", () => {
    const folder = new URL("../../../shared/data/", import.meta.url);
    for (const name of ["static", "ais"]) expect(existsSync(new URL(name, folder))).toBe(false);
    const hours = kept.replay.logs.map((l) => l.minutes / 60);
    expect(Math.max(...hours)).toBeLessThan(1);
    const tried = kept.replay.logs.map((l) => l.name);
    const logs = readdirSync(new URL("nmea/", folder));
    const fixes = (name: string) =>
      readNmea0183(sharedText(`nmea/${name}`)).events.filter((e) => e.kind === "fix").length;
    for (const name of logs) if (!tried.includes(name)) expect(fixes(name)).toBe(0);
  });

  test("an error put together from the log is the log's own, piece by piece, turned", () => {
    const series = seriesOf(sharedText(`nmea/${kept.replay.of}`));
    const night = simulateNight(7_400_001, { receiver: "perfect", hours: 2 });
    const real = replayed(7_400_001, night, series);
    const off = Array.from(real.x, (x, i) =>
      Math.sqrt((x - night.x[i]!) ** 2 + (real.y[i]! - night.y[i]!) ** 2),
    );
    const own = series.x.map((x, i) => Math.sqrt(x * x + series.y[i]! ** 2));
    // At the middle of each piece nothing fades: as far off as the log is somewhere.
    for (let s = 150; s < 7200; s += 300) {
      const nearest = Math.min(...own.map((o) => Math.abs(o - off[s / 5]!)));
      expect(nearest).toBeLessThan(1e-9);
    }
    expect(Math.max(...off)).toBeLessThan(Math.SQRT2 * Math.max(...own));
    // No leaps but the log's own: a second of it is never more than this.
    const step = Math.max(...off.slice(1).map((o, i) => Math.abs(o - off[i]!)));
    expect(step).toBeLessThan(20);
  });

  test("twenty minutes of it about an anchor well within reach: lying, whatever its wandering", () => {
    const { events } = readNmea0183(sharedText(`nmea/${kept.replay.of}`));
    const fixes = events.filter((e) => e.kind === "fix");
    const first = fixes[0]!;
    let state: WatchState = startWatch({
      startMs: first.timeMs,
      anchor: {
        known: true,
        position: { latDeg: first.latDeg + 20 / 111_200, lonDeg: first.lonDeg },
      },
      limits: {
        rows: [
          { timeMs: first.timeMs, greatestDistanceM: 40, leastDepthM: null, greatestDepthM: null },
        ],
        distanceSigmaM: 1,
      },
      fixEveryS: 1,
    });
    const modes = new Set<string>();
    for (const e of fixes) {
      state = stepWatch(state, e).state;
      modes.add(state.report.mode);
    }
    expect(fixes.length).toBeGreaterThan(1000);
    expect([...modes]).toEqual(["cannotTell", "lying"]);
  });
});
