import { readdirSync } from "node:fs";
import { hours, knots } from "../../src/core/units.js";
import type { StayInput } from "../../src/plan/input.js";
import { sharedJson } from "../shared-data.js";

type Layers = NonNullable<StayInput["chart"]>["layers"];

/** All layers of one extract of the open chart data, by class. */
export function chartLayers(extract: string): Layers {
  const folder = new URL(`../../../shared/data/enc/${extract}/`, import.meta.url);
  return Object.fromEntries(
    readdirSync(folder)
      .filter((f) => f.endsWith(".geojson"))
      .map((f): [string, Layers[string]] => [f.slice(0, -8), sharedJson(`enc/${extract}/${f}`)]),
  );
}

interface Station {
  constituents: { name: string; amplitudeM: number; phaseDegGmt: number }[];
  datumsM: Record<string, number>;
}

/** Published constants of a station as a source, heights above mean lower low water. */
export function stationTide(id: string): NonNullable<StayInput["tide"]> {
  const all: Record<string, Station> = sharedJson("tide/noaa-harmonic-constants.json");
  const { constituents, datumsM } = all[id]!;
  return {
    kind: "constituents",
    datum: "Mean lower low water",
    meanLevelM: datumsM["MSL"]! - datumsM["MLLW"]!,
    constituents: constituents
      .filter((c) => c.amplitudeM > 0)
      .map((c) => ({ name: c.name, amplitudeM: c.amplitudeM, phaseDeg: c.phaseDegGmt })),
  };
}

const at = Date.UTC(2026, 6, 14, 1);

/** An invented forecast: a fair evening, then a fresh wind from the other side in the morning. */
const forecast = (evening: number, morning: number): StayInput["forecast"] => ({
  issuedMs: at - hours(6),
  rows: [
    { timeMs: at, windMps: knots(8), windFromDeg: evening, gustMps: knots(11) },
    { timeMs: at + hours(6), windMps: knots(6), windFromDeg: evening, gustMps: knots(9) },
    { timeMs: at + hours(10), windMps: knots(12), windFromDeg: morning, gustMps: knots(18) },
    { timeMs: at + hours(14), windMps: knots(16), windFromDeg: morning, gustMps: knots(23) },
  ],
});

const yacht = {
  vessel: { kind: "yacht", lengthM: 10.5, draughtM: 1.9, displacementKg: 5500, bowHeightM: 1.2 },
  tackle: {
    anchor: { type: "rollBarScoop", massKg: 20 },
    rode: [
      { kind: "chain", diameterMm: 10, lengthM: 60 },
      { kind: "rope", fibre: "polyamide", diameterMm: 16, lengthM: 40 },
    ],
  },
  neighbours: [],
  stay: { fromMs: at, toMs: at + hours(14) },
} satisfies Partial<StayInput>;

/** A berth on the chart of 1:15 000; tide of the nearest station with published constants, which lies some 40 km off. */
export const deepBay = (): StayInput => ({
  ...yacht,
  name: "Real chart, 1:15 000",
  position: { latDeg: 47.2858, lonDeg: -122.4155 },
  chartedDepthM: 10.3,
  zoneOffsetMinutes: -420,
  chart: { soundingDatum: 12, layers: chartLayers("us5wa22m-commencement-bay") },
  tide: stationTide("noaa/9447130"),
  stream: { kind: "steady", rateMps: 0.1, towardsDeg: 300 },
  forecast: forecast(20, 330),
});

/** A berth on the chart of 1:80 000, quality C and worse; an invented tide table of 0.4 m range. */
export const shoalBay = (): StayInput => ({
  ...yacht,
  name: "Real chart, 1:80 000",
  position: { latDeg: 38.9196997, lonDeg: -76.2761417 },
  zoneOffsetMinutes: -240,
  chart: { soundingDatum: 12, layers: chartLayers("us4md81m-eastern-bay") },
  tide: {
    kind: "turns",
    datum: "Mean lower low water",
    turns: [-4, 2.2, 8.4, 14.6].map((h, i) => ({
      timeMs: at + hours(h),
      heightM: i % 2 === 0 ? 0.45 : 0.05,
    })),
  },
  stream: { kind: "steady", rateMps: 0.15, towardsDeg: 200 },
  forecast: forecast(170, 310),
});
