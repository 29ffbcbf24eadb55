import { planeAt, positionOf } from "../../src/geo/plane.js";
import {
  type StartWatchInput,
  type WatchEvent,
  type WatchState,
  startWatch,
} from "../../src/watch/index.js";

export const START = Date.UTC(2026, 0, 1);
export const HOME = { latDeg: 50, lonDeg: -4 };
export const plane = planeAt(HOME);
export const REACH_M = 43.5;

export type Fix = WatchEvent & { kind: "fix" };

/** A fix so many metres east and north of the anchor. */
export const fixAt = (timeMs: number, x: number, y: number, sigmaM: number): Fix => ({
  kind: "fix",
  timeMs,
  ...positionOf(plane, x, y),
  sigmaM,
});

/** A watch over a vessel whose anchor is known. */
export const begin = (more: Partial<StartWatchInput> = {}): WatchState =>
  startWatch({
    startMs: START,
    anchor: { known: true, position: HOME, sigmaM: 2 },
    limits: {
      rows: [
        { timeMs: START, greatestDistanceM: REACH_M, leastDepthM: null, greatestDepthM: null },
      ],
      distanceSigmaM: 1,
    },
    ...more,
  });
