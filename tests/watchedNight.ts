import type { WatchDrawn } from "../src/figure/watchFigure.js";
import { startWatch } from "../src/watch/startwatch.js";
import { stepWatch } from "../src/watch/stepwatch.js";

/** A night of fixes a few seconds apart round a place, dragging from the fourth hour on. */
export function watchedNight(hours: number, everyS: number): WatchDrawn {
  const startMs = Date.UTC(2026, 5, 1, 20);
  let state = startWatch({
    startMs,
    anchor: { known: true, position: { latDeg: 50, lonDeg: -20 } },
    limits: {
      rows: [{ timeMs: startMs, greatestDistanceM: 45, leastDepthM: null, greatestDepthM: null }],
      distanceSigmaM: 1,
    },
  });
  const reports = [];
  const track = [];
  for (let s = 0; s < hours * 3600; s += everyS) {
    const bearing = 0.9 * Math.sin(s / 1300) + 0.4 * Math.sin(s / 170);
    const r = 36 + 3 * Math.sin(s / 40) + 0.025 * Math.max(0, s - 4 * 3600);
    const at = {
      timeMs: startMs + s * 1000,
      latDeg: 50 + (r * Math.cos(bearing)) / 111_200,
      lonDeg: -20 + (r * Math.sin(bearing)) / 71_600,
    };
    state = stepWatch(state, { kind: "fix", ...at, sigmaM: 1.5 }).state;
    track.push(at);
    reports.push(state.report);
  }
  return { reports, track, zoneOffsetMinutes: 60 };
}
