import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import { position } from "../core/schema.js";
import { build } from "./build.js";
import type { Chart } from "./chart.js";
import { collect, type CellInput, type Collected, type LayersInput } from "./collect.js";
import { datumOf, datumWarnings } from "./datum.js";

const optionsSchema = z.strictObject({
  /**
   * Datum of the depths: the VERDAT code (12 mean lower low water, 23 lowest astronomical tide ...)
   * or a name. May be left out where the chart states one (a DSID layer). Depths of a cell that
   * states another are not known.
   */
  soundingDatum: z.optional(z.union([z.number(), z.string().check(z.minLength(1))])),
  /**
   * Ground the chart covers, for charts without an M_COVR layer: polygons, each the corners in
   * order. Without either nothing counts as covered.
   */
  coverage: z.optional(z.array(z.array(position).check(z.minLength(3), z.maxLength(100_000)))),
});

/** Options of {@link readChart}. */
export type ChartOptions = Given<typeof optionsSchema>;

/** Coverage handed over by the caller, as if the chart had it. */
function addCoverage(
  collected: Collected,
  coverage: readonly (readonly { latDeg: number; lonDeg: number }[])[],
): void {
  for (const [i, corners] of coverage.entries()) {
    const ring = corners.map((c) => [c.lonDeg, c.latDeg]);
    collected.report.given++;
    collected.features.push({
      id: `coverage/${i}`,
      acronym: "M_COVR",
      cell: 0,
      geometry: { type: "Polygon", coordinates: [[...ring, ring[0]!]] },
      attributes: { CATCOV: 1 },
    });
  }
}

/**
 * A chart, indexed, from GeoJSON layers of chart objects with S-57 attributes.
 *
 * Layers come by class acronym, as FeatureCollections with names, or cell by cell; the class of a
 * feature is told by OBJL, by an `acronym`, or by the name of its layer. Everything is laid on one
 * plane round the middle of the chart, longitudes unwrapped, and indexed; the attributes, cells,
 * scales and dates are kept. What is not used is reported with the reason: no feature is dropped
 * in silence. Drawing hints such as SCAMIN are not obeyed. Depths must be in metres and positions on
 * WGS 84: a chart that states otherwise (DSPM_DUNI, DSPM_HDAT, M_UNIT, M_HDAT) is refused.
 *
 * *Valid*: charts up to some 300 km across at any latitude, across the antimeridian. *Accuracy*:
 * distances on the plane to 1e-4 of themselves at 150 km from the middle; sides straight in
 * longitude and latitude are followed within 2 cm.
 *
 * @throws InputError where a layer is no FeatureCollection, the sounding datum is neither given nor stated, or units or positions are stated to be others.
 * @source IHO S-57 edition 3.1 (2000), object catalogue; RFC 7946 (GeoJSON)
 * @example
 * ```ts
 * import { readChart } from "hawse/chart";
 * const area = [[[-30, 40], [-29.99, 40], [-29.99, 40.01], [-30, 40.01], [-30, 40]]];
 * const feature = { type: "Feature", properties: { DRVAL1: 5, DRVAL2: 10 }, geometry: { type: "Polygon", coordinates: area } };
 * const chart = readChart({ DEPARE: { type: "FeatureCollection", features: [feature] } }, { soundingDatum: 23 });
 * console.log(chart.report.used, chart.soundingDatum.name);
 * // 1 Lowest astronomical tide
 * ```
 */
export function readChart(
  collections: LayersInput | readonly CellInput[],
  options: ChartOptions = {},
): Chart {
  const { soundingDatum, coverage } = check(optionsSchema, options);
  if (typeof collections !== "object" || (collections as unknown) === null)
    refuse("", "invalid_type", "expected GeoJSON layers");
  const collected = collect(collections);
  const datum = datumOf(soundingDatum, collected.cells);
  addCoverage(collected, coverage ?? []);
  collected.report.warnings.push(...datumWarnings(collected, datum));
  return build(collected, datum);
}
