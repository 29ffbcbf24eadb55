/**
 * Charts: reading an area of 1.4 MB, one question to it, and a question to a depth area of 100,000
 * vertices against a general-purpose library.
 *
 * Each case runs `n` operations and returns a sum so that no work can be left out. `against` names
 * the case whose time is divided by this one's for the ratio. Where the open data set is absent an
 * invented chart of the same number of vertices stands in for it.
 */
import * as turf from "@turf/turf";
import {
  anchoringAt,
  coverageOf,
  depthsIn,
  hazardsIn,
  readChart,
  seabedNear,
  shoreNear,
  type LayerInput,
} from "../src/chart/index.js";
import { hasSharedData } from "../tests/shared-data.js";
import { AREAS, feature, layer, realLayers } from "../tests/unit/chart-support.js";

const VERTICES = 100_000;

/** One ragged basin about 4 km across, its shore wrinkled at every scale. */
function basin(vertices: number, lon: number, lat: number): number[][] {
  const ring = Array.from({ length: vertices - 1 }, (_, i) => {
    const t = (2 * Math.PI * i) / (vertices - 1);
    let r = 0.015;
    for (let k = 1; k < 14; k++) r += (0.0042 / 1.55 ** k) * Math.sin(2 ** k * t + 1.7 * k * k);
    return [lon + (r * Math.sin(t)) / 0.68, lat + r * Math.cos(t)];
  });
  return [...ring, ring[0]!];
}

const [west, south, east, north] = AREAS[0].box;
const middle = [(west + east) / 2, (south + north) / 2] as const;
const invented = (vertices: number): Record<string, LayerInput> => ({
  M_COVR: layer(feature("Polygon", [basin(1000, ...middle)], { CATCOV: 1 })),
  DEPARE: layer(feature("Polygon", [basin(vertices, ...middle)], { DRVAL1: 4, DRVAL2: 9 })),
});
const layers = hasSharedData ? realLayers(AREAS[0].folder) : invented(30_000);
const chart = readChart(layers, { soundingDatum: 12 });

const large = basin(VERTICES, ...middle);
const largeChart = readChart(invented(VERTICES), { soundingDatum: 12 });
const largeArea = turf.polygon([large]);

/** Circles spread over the area by the golden section, the same every run. */
const part = (i: number, salt: number) => ((i + 1) * salt) % 1;
const circles = Array.from({ length: 1024 }, (_, i) => ({
  centre: {
    latDeg: south + part(i, 0.7548776662466927) * (north - south),
    lonDeg: west + part(i, 0.6180339887498949) * (east - west),
  },
  radiusM: 30 + 70 * part(i, 0.5698402909980532),
}));
const points = circles.map(({ centre }) => ({ centre, radiusM: 0 }));

/** A case that adds up a figure over the circles. */
const over = (of: (i: number) => number) => (n: number) => {
  let sum = 0;
  for (let k = 0; k < n; k++) sum += of(k & 1023);
  return sum;
};
const QUESTION_NS = 50_000;

/** Cases: a name, what it is held against and by how much, and a run of `n` operations. */
export const cases = [
  {
    name: "read a chart of 1.4 MB",
    goalNs: 150e6,
    run: over(() => readChart(layers, { soundingDatum: 12 }).features.length),
  },
  {
    name: "anchoring in a circle",
    goalNs: QUESTION_NS,
    run: over((i) => anchoringAt(chart, circles[i]!).reasons.length),
  },
  {
    name: "least depth in a circle",
    goalNs: QUESTION_NS,
    run: over((i) => depthsIn(chart, circles[i]!).sources.length),
  },
  {
    name: "dangers in a circle",
    goalNs: QUESTION_NS,
    run: over((i) => hazardsIn(chart, circles[i]!).hazards.length),
  },
  {
    name: "seabed samples within 1 km",
    goalNs: QUESTION_NS,
    run: over((i) => seabedNear(chart, circles[i]!.centre).samples.length),
  },
  {
    name: "coverage and quality of a circle",
    goalNs: QUESTION_NS,
    run: over((i) => coverageOf(chart, circles[i]!).quality.length),
  },
  {
    name: "nearest shore",
    goalNs: QUESTION_NS,
    run: over((i) => shoreNear(chart, circles[i]!.centre).atLeastM),
  },
  {
    name: "depth at a point, depth area of 100,000 vertices: whole question",
    against: "depth at a point, depth area of 100,000 vertices: turf",
    run: over((i) => depthsIn(largeChart, points[i]!).chartedLeastM ?? 0),
  },
  {
    name: "depth at a point, depth area of 100,000 vertices: turf",
    run: over((i) => {
      const { lonDeg, latDeg } = circles[i]!.centre;
      return turf.booleanPointInPolygon([lonDeg, latDeg], largeArea) ? 4 : 0;
    }),
  },
];
