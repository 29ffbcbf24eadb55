import type { StayInput } from "../src/plan/input.js";

/** Start of the stay. */
export const T0 = Date.UTC(2026, 5, 1, 12);
const HOUR = 3_600_000;
/** Where the anchor lies: nowhere in particular. */
export const HERE = { latDeg: 40, lonDeg: -30 };

type Ring = [number, number][];

const box = (halfDeg: number): Ring => [
  [HERE.lonDeg - halfDeg, HERE.latDeg - halfDeg],
  [HERE.lonDeg + halfDeg, HERE.latDeg - halfDeg],
  [HERE.lonDeg + halfDeg, HERE.latDeg + halfDeg],
  [HERE.lonDeg - halfDeg, HERE.latDeg + halfDeg],
  [HERE.lonDeg - halfDeg, HERE.latDeg - halfDeg],
];
const area = (properties: object, halfDeg = 0.05) => ({
  type: "Feature",
  properties,
  geometry: { type: "Polygon", coordinates: [box(halfDeg)] },
});
const layer = (...features: object[]) => ({ type: "FeatureCollection" as const, features });

/** Layers of a chart of a square bay: one depth, sand, shore 600 m off on all sides. */
export const bayLayers = (depthM: number) => ({
  M_COVR: layer(area({ CATCOV: 1 })),
  M_QUAL: layer(area({ CATZOC: 1 })),
  DEPARE: layer(area({ DRVAL1: depthM, DRVAL2: depthM })),
  SBDARE: layer(area({ NATSUR: "4" })),
  COALNE: layer({
    type: "Feature",
    properties: {},
    geometry: { type: "LineString", coordinates: box(0.007) },
  }),
});

/** Rows of a forecast, three hours apart, that blow alike. */
export const steadyWind = (windMps: number, windFromDeg: number, gustMps?: number) => ({
  issuedMs: T0 - HOUR,
  rows: [-1, 2, 5, 8].map((h) => ({
    timeMs: T0 + h * HOUR,
    windMps,
    windFromDeg,
    ...(gustMps !== undefined && { gustMps }),
  })),
});

/** A short stay in a bay in which everything is known. */
export const bay = (depthM = 6, windMps = 7): StayInput => ({
  position: HERE,
  stay: { fromMs: T0, toMs: T0 + 6 * HOUR },
  stepMs: 30 * 60_000,
  vessel: { kind: "yacht", lengthM: 10, draughtM: 1.5 },
  tackle: {
    anchor: { type: "rollBarScoop", massKg: 25 },
    rode: [{ kind: "chain", diameterMm: 10, lengthM: 80 }],
  },
  tide: {
    kind: "turns",
    datum: "lowest astronomical tide",
    turns: [-3, 3, 9].map((h, i) => ({ timeMs: T0 + h * HOUR, heightM: i === 1 ? 2 : 1 })),
  },
  surgeM: { low: -0.1, likely: 0, high: 0.1 },
  stream: { kind: "steady", rateMps: 0, towardsDeg: 0 },
  forecast: steadyWind(windMps, 200),
  neighbours: [],
  chart: { soundingDatum: "lowest astronomical tide", layers: bayLayers(depthM) },
});

/** The same without one of its parts. */
export const without = <T extends object>(whole: T, key: string): T =>
  Object.fromEntries(Object.entries(whole).filter(([k]) => k !== key)) as T;
