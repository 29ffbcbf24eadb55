import { utc } from "../../src/core/time.js";
import { ellipsesFrom } from "../../src/stream/index.js";
import { sharedText } from "../shared-data.js";

/** Speeds of the constituents, degrees an hour: Schureman, SP 98 (1940), table 2. */
const SPEEDS: Record<string, number> = {
  M2: 28.9841042,
  S2: 30,
  N2: 28.4397295,
  K1: 15.0410686,
  O1: 13.9430356,
  M4: 57.9682084,
  MS4: 58.9841042,
  Q1: 13.3986609,
  MK3: 44.0251729,
};

/** Ellipses fitted to the published record: the principal lunar first. */
export function foremanFit() {
  const rows = sharedText("tide/tidal-current-foreman7077-1972-hourly.csv")
    .split("\n")
    .slice(1)
    .map((line) => line.split(","))
    .filter((f) => f.length === 3 && f[1] !== "" && f[2] !== "")
    .map(([time, u, v]) => ({
      timeMs: utc(time!),
      eastMps: Number(u),
      northMps: Number(v),
    }));
  return ellipsesFrom({ rows, speedsDegPerHour: Object.values(SPEEDS) });
}
