import { hasSharedData, sharedJson } from "../shared-data.js";
import type { TideSource } from "../../src/tide/index.js";
import published from "./tide-constants.json" with { type: "json" };

/** Constants and levels of a station of the open data set. */
interface Station {
  name: string;
  datumsM: Record<string, number>;
  constituents: { name: string; amplitudeM: number; phaseDegGmt: number }[];
}

type Constants = Extract<TideSource, { kind: "constituents" }>;

/** NOAA stations of the open data set; none where it is absent. */
export const stations: Record<string, Station> = hasSharedData
  ? sharedJson("tide/noaa-harmonic-constants.json")
  : {};

interface Published {
  meanLevelM: number;
  constituents: Record<string, number[]>;
}

/** Constants by the station number of the check values, or null where they are not at hand. */
export function constantsOf(stationId: string): Constants | null {
  const own = (published.stations as Record<string, Published>)[stationId];
  if (own !== undefined)
    return {
      kind: "constituents",
      constituents: Object.entries(own.constituents).map(([name, [amplitudeM, phaseDeg]]) => ({
        name,
        amplitudeM: amplitudeM!,
        phaseDeg: phaseDeg!,
      })),
      meanLevelM: own.meanLevelM,
      datum: "MLLW",
    };
  const id = stationId.startsWith("noaa/") ? stationId : `noaa/${stationId}`;
  const station = stations[id];
  return station === undefined ? null : constantsFrom(station);
}

/** Source of a station of the open data set, above MLLW. */
export function constantsFrom(station: Station): Constants {
  const { MSL, MLLW } = station.datumsM;
  return {
    kind: "constituents",
    constituents: station.constituents.map((c) => ({
      name: c.name,
      amplitudeM: c.amplitudeM,
      phaseDeg: c.phaseDegGmt,
    })),
    meanLevelM: MSL! - MLLW!,
    datum: "MLLW",
  };
}

/** Differences of subordinate stations: minutes and ratios for high and low water, as NOAA publishes them. */
const SUBORDINATE: Record<
  string,
  {
    standard: string;
    highMin: number;
    lowMin: number;
    high: number;
    low: number;
  }
> = {
  "8638596": {
    standard: "8638610",
    highMin: 18,
    lowMin: 4,
    high: 1.06,
    low: 0.83,
  },
  "9446491": {
    standard: "9447130",
    highMin: 31,
    lowMin: 40,
    high: 1.18,
    low: 1.04,
  },
};

/** A station by constants of its own or by differences on its reference station. */
export function sourceOf(stationId: string): TideSource | null {
  const d = SUBORDINATE[stationId];
  if (d === undefined) return constantsOf(stationId);
  const standard = constantsOf(d.standard);
  if (standard === null) return null;
  return {
    kind: "secondary",
    standard,
    differences: {
      tableZoneHours: 0,
      highTime: [{ hourOfDay: 0, differenceMs: d.highMin * 60_000 }],
      lowTime: [{ hourOfDay: 0, differenceMs: d.lowMin * 60_000 }],
      highHeight: { ratio: d.high },
      lowHeight: { ratio: d.low },
      standardDatum: "MLLW",
    },
    datum: "MLLW",
  };
}
