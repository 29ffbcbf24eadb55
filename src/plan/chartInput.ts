import * as z from "zod/mini";

/** GeoJSON handed on to the chart reader, which looks at every feature itself. */
const collection = z.looseObject({
  type: z.literal("FeatureCollection"),
  features: z.array(z.unknown()).check(z.maxLength(500_000)),
});

/** Chart layers for a plan. */
export const chartLayers = z.strictObject({
  /** Datum the depths are charted to: its name or its VERDAT code; as the chart states unless given. */
  soundingDatum: z.optional(z.union([z.string(), z.number()])),
  /** GeoJSON FeatureCollections by S-57 class acronym. */
  layers: z.record(z.string(), collection),
});
