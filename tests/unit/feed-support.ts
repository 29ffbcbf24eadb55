import { utc } from "../../src/core/time.js";
import type { SignalKDeltaInput } from "../../src/feed/index.js";

/** The noon at which all of it happens. */
export const noon = utc("2026-06-01T12:00Z");

/** What a watch tells to a delta. */
export type Report = SignalKDeltaInput["report"];
/** A watch that lies quietly. */
export const report: Report = {
  atMs: noon,
  mode: "lying",
  alarms: [],
  distanceM: 24,
  greatestDistanceM: 38,
  anchor: { position: { latDeg: 50.1, lonDeg: -5.2 } },
};
