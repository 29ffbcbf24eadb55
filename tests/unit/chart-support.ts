import { readdirSync } from "node:fs";
import { hasSharedData, sharedJson } from "../shared-data.js";
import { readChart } from "../../src/chart/index.js";
import type { Chart, LayerInput } from "../../src/chart/index.js";

/** A feature of a chart layer, as GDAL writes it. */
export interface Feature {
  type: "Feature";
  properties: Record<string, string | number | string[]>;
  geometry: {
    type: string;
    coordinates: number[] | number[][] | number[][][] | number[][][][];
  };
}
/** A chart layer, as GDAL writes it. */
export interface Layer extends LayerInput {
  type: "FeatureCollection";
  name: string;
  features: Feature[];
}

/** The two real areas: folder, clip box west, south, east, north, and number of features. */
export const AREAS = [
  {
    folder: "us5wa22m-commencement-bay",
    box: [-122.452, 47.268, -122.405, 47.298],
  },
  { folder: "us4md81m-eastern-bay", box: [-76.32, 38.88, -76.2, 38.99] },
] as const;

/** All layers of a real area. */
export function realLayers(folder: string): Record<string, Layer> {
  const root = new URL(`../../../shared/data/enc/${folder}/`, import.meta.url);
  const names = readdirSync(root).filter((f) => f.endsWith(".geojson"));
  return Object.fromEntries(
    names.map((f) => [f.replace(".geojson", ""), sharedJson<Layer>(`enc/${folder}/${f}`)]),
  );
}

/** The real areas read, where the data set is there. */
export const realCharts = (): {
  layers: Record<string, Layer>;
  chart: Chart;
  box: readonly [number, number, number, number];
}[] =>
  hasSharedData
    ? AREAS.map(({ folder, box }) => {
        const layers = realLayers(folder);
        return { layers, box, chart: readChart(layers, { soundingDatum: 12 }) };
      })
    : [];

/** A feature of an invented chart. */
export const feature = (type: string, coordinates: unknown, properties: object = {}): object => ({
  type: "Feature",
  properties,
  geometry: { type, coordinates },
});

/** A layer of an invented chart. */
export const layer = (...features: object[]): LayerInput => ({
  type: "FeatureCollection",
  features,
});

/** Ring of a box, anticlockwise. */
export const box = (west: number, south: number, east: number, north: number): number[][] => [
  [west, south],
  [east, south],
  [east, north],
  [west, north],
  [west, south],
];

/** A box as an area of an invented chart. */
export const boxArea = (
  bounds: readonly [number, number, number, number],
  properties: object = {},
): object => feature("Polygon", [box(...bounds)], properties);

/** The water of the invented chart: west, south, east, north. */
export const WORLD = [-30.1, 39.9, -29.9, 40.1] as const;
/** Its middle. */
export const HERE = { latDeg: 40, lonDeg: -30 };
/** An area to be asked about. */
export const circle = (radiusM: number, centre = HERE) => ({ centre, radiusM });

/** An invented chart: covered, charted 5 to 10 m deep and well surveyed, with what else is given. */
export const chartWith = (layers: Record<string, LayerInput> = {}): Chart =>
  readChart(
    {
      M_COVR: layer(boxArea(WORLD, { CATCOV: 1 })),
      DEPARE: layer(boxArea(WORLD, { DRVAL1: 5, DRVAL2: 10 })),
      M_QUAL: layer(boxArea(WORLD, { CATZOC: 1 })),
      ...layers,
    },
    { soundingDatum: 23 },
  );
/** An area of 200 m about the middle. */
export const small = (properties: object) =>
  layer(boxArea([-30.001, 39.999, -29.999, 40.001], properties));
/** An object at a point. */
export const point = (properties: object, lonDeg = -30, latDeg = 40) =>
  feature("Point", [lonDeg, latDeg], properties);
