import * as z from "zod/mini";
import type { Geometry } from "./geojson.js";

const lonLat = z.array(z.number()).check(
  z.minLength(2),
  z.refine((p) => Math.abs(p[0]!) <= 360 && Math.abs(p[1]!) <= 90, "expected longitude, latitude"),
);
const line = z.array(lonLat);

/** A GeoJSON geometry (RFC 7946). */
export const geometry: z.ZodMiniType<Geometry, Geometry> = z.discriminatedUnion("type", [
  z.looseObject({ type: z.literal("Point"), coordinates: lonLat }),
  z.looseObject({
    type: z.enum(["MultiPoint", "LineString"]),
    coordinates: line,
  }),
  z.looseObject({
    type: z.enum(["MultiLineString", "Polygon"]),
    coordinates: z.array(line),
  }),
  z.looseObject({
    type: z.literal("MultiPolygon"),
    coordinates: z.array(z.array(line)),
  }),
  z.looseObject({
    type: z.literal("GeometryCollection"),
    get geometries() {
      return z.array(geometry);
    },
  }),
]);
