// Inputs take what is documented, and no other field, kind or unit.
import {
  chain,
  compareBerths,
  describeSweep,
  prepareCoast,
  rodeForLoad,
  signalKDelta,
  swingClearance,
  swingCircle,
  weakestLink,
  layRode,
  lie,
  planStay,
  readChart,
  rope,
  startWatch,
  stepWatch,
  tideHeight,
  utc,
  type StayInput,
  type TideSource,
  type WatchEvent,
} from "hawse";

const at = utc("2026-06-01T00:00Z");
const turns = [
  { timeMs: at, heightM: 0.7 },
  { timeMs: at + 22_320_000, heightM: 4.4 },
];

tideHeight({ kind: "turns", datum: "LAT", turns }, at);
tideHeight({ kind: "turns", datum: "LAT", turns }, at, {});
// @ts-expect-error no such kind of table
export const table: TideSource = { kind: "almanac", datum: "LAT", turns };

layRode({
  segments: [
    { ...rope("polyamide", 14), lengthM: 20 },
    { ...chain(8), lengthM: 10 },
  ],
  bowHeightAboveAnchorM: 6,
  horizontalLoadN: 500,
});
// @ts-expect-error a rode needs its load
layRode({ segments: [{ ...chain(8), lengthM: 30 }], bowHeightAboveAnchorM: 6 });
// @ts-expect-error a segment needs its length
layRode({ segments: [chain(8)], bowHeightAboveAnchorM: 6, horizontalLoadN: 500 });
// @ts-expect-error a fibre that is not in the table
rope("hemp", 14);

const least: StayInput = {
  position: { latDeg: 47.2, lonDeg: -20.4 },
  stay: { fromMs: at, toMs: at + 3_600_000 },
  vessel: { kind: "yacht", lengthM: 10 },
  tackle: {
    anchor: { type: "rollBarScoop", massKg: 20 },
    rode: [{ kind: "chain", diameterMm: 8, lengthM: 50 }],
  },
};
planStay(least);
planStay({ ...least, chartedDepthM: 3, seabed: "S", neighbours: [], zoneOffsetMinutes: 60 });
// @ts-expect-error a misspelt field is refused
planStay({ ...least, chartedDepth: 3 });
// @ts-expect-error a vessel of no known kind
planStay({ ...least, vessel: { kind: "raft", lengthM: 10 } });
// @ts-expect-error undefined is not the same as left out
planStay({ ...least, chartedDepthM: null });

// @ts-expect-error a lie needs a vessel and her weather
lie({});

const watch = startWatch({
  startMs: at,
  anchor: { known: true, position: { latDeg: 50, lonDeg: -4 } },
  limits: {
    rows: [{ timeMs: at, greatestDistanceM: 40, leastDepthM: null, greatestDepthM: null }],
    distanceSigmaM: 1,
  },
});
const event: WatchEvent = { kind: "fix", timeMs: at, latDeg: 50, lonDeg: -4, sigmaM: 2 };
stepWatch(watch, event);
// @ts-expect-error an event of no known kind
stepWatch(watch, { kind: "bell", timeMs: at });

readChart({ DEPARE: { type: "FeatureCollection", features: [] } });
// @ts-expect-error a chart is layers, not a text
readChart("chart.000");

describeSweep({
  statics: { vessel: { kind: "yacht", lengthM: 11 }, rode: { chainMm: 10 } },
  axes: [{ name: "windMps", from: 5, to: 25, count: 5 }],
  fixed: { depthM: 6, lengthOutM: 40, chainM: 40 },
  seed: 1,
});

// Lists are only read: constant ones will do, at any depth.
const constant = {
  kind: "turns",
  datum: "LAT",
  turns: [
    { timeMs: 0, heightM: 0.7 },
    { timeMs: 22_320_000, heightM: 4.4 },
  ],
} as const;
tideHeight(constant, at);
const tackle = {
  anchor: { type: "rollBarScoop", massKg: 20 },
  rode: [{ kind: "chain", diameterMm: 8, lengthM: 50 }],
} as const;
export const tackled: Pick<StayInput, "tackle" | "tide"> = { tackle, tide: constant };
tackled.tide = constant;
// @ts-expect-error what is constant is still checked
tideHeight({ ...constant, turns: [{ timeMs: 0, heightM: "0.7" }] as const }, at);
const axes = [{ name: "windMps", values: [5, 10] }] as const;
describeSweep({ axes, fixed: { depthM: 8, scope: 4 }, seed: 1 });

const rode = {
  segments: [{ ...chain(8), lengthM: 40 }],
  bowHeightAboveAnchorM: 9,
  horizontalLoadN: 800,
} as const;
layRode(rode);
rodeForLoad(rode);
weakestLink({ parts: [{ name: "chain", kind: "chain", breakingN: 32_000 }] as const });
const berths: readonly StayInput[] = [least];
compareBerths(berths, { purpose: "night" });

// What comes from elsewhere as an interface has no field for every name, and will do all the same.
interface Geo {
  type: "FeatureCollection";
  features: { type: "Feature"; properties: object | null; geometry: Line }[];
}
interface Line {
  type: "LineString";
  coordinates: number[][];
}
declare const geo: Geo;
planStay({ ...least, coast: geo, chart: { layers: { COALNE: geo } } });
prepareCoast({ coast: geo, banks: [{ outline: geo, dryingHeightM: 1 }] });
// One written on the spot may have more fields than are read.
prepareCoast({ coast: { type: "LineString", coordinates: [], bbox: [0, 0, 1, 1] } });
declare const shore: Line;
swingClearance(swingCircle({ anchor: least.position, reachM: 30, lengthM: 10 }), {
  shore: [{ id: "the shore", geometry: shore }],
});
// A watch's report goes out as it is.
signalKDelta({ report: watch.report });
// @ts-expect-error a report has a mode
signalKDelta({ report: { ...watch.report, mode: "asleep" } });
