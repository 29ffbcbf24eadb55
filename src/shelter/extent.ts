import * as z from "zod/mini";
import { degrees } from "../core/schema.js";
import type { ShorePaths } from "./shoreline.js";

/** Schema of an {@link Extent}. */
export const extentSchema = z
  .strictObject({
    /** Western edge. */
    westDeg: degrees({ min: -360, max: 360 }),
    /** Southern edge. */
    southDeg: degrees({ min: -90, max: 90 }),
    /** Eastern edge; east of the western one, beyond 180 where the extent crosses the antimeridian. */
    eastDeg: degrees({ min: -360, max: 720 }),
    /** Northern edge. */
    northDeg: degrees({ min: -90, max: 90 }),
  })
  .check(
    z.refine(
      (e) => e.eastDeg > e.westDeg && e.northDeg > e.southDeg,
      "expected east of west and north of south",
    ),
  );

/** Part of the earth that a coast covers. */
export type Extent = z.infer<typeof extentSchema>;

/** A vertex this near the border of the extent, in degrees, lies on it: 1 m. */
const ON_BORDER_DEG = 1e-5;

/** The `bbox` member of a GeoJSON object as an extent; null where there is none. */
export function extentOf(geojson: Readonly<Record<string, unknown>>): Extent | null {
  const box = geojson["bbox"];
  if (!Array.isArray(box) || (box.length !== 4 && box.length !== 6)) return null;
  const [w, s] = box as number[];
  const [e, n] = box.slice(box.length / 2) as number[];
  const east = e! < w! ? e! + 360 : e!;
  const found = z.safeParse(extentSchema, {
    westDeg: w,
    southDeg: s,
    eastDeg: east,
    northDeg: n,
  });
  return found.success ? found.data : null;
}

/** Longitude brought into the turn that starts half a turn west of the middle of an extent. */
function unwrap(extent: Extent, lonDeg: number): number {
  const middle = 0.5 * (extent.westDeg + extent.eastDeg);
  return lonDeg - 360 * Math.round((lonDeg - middle) / 360);
}

/** Whether a position lies inside an extent. */
export function covers(extent: Extent, latDeg: number, lonDeg: number): boolean {
  const lon = unwrap(extent, lonDeg);
  return (
    lon >= extent.westDeg &&
    lon <= extent.eastDeg &&
    latDeg >= extent.southDeg &&
    latDeg <= extent.northDeg
  );
}

/** Side of the extent a vertex lies on as bits: 1 west, 2 east, 4 south, 8 north. */
export function borderSides(extent: Extent, latDeg: number, lonDeg: number): number {
  const lon = unwrap(extent, lonDeg);
  return (
    (Math.abs(lon - extent.westDeg) < ON_BORDER_DEG ? 1 : 0) |
    (Math.abs(lon - extent.eastDeg) < ON_BORDER_DEG ? 2 : 0) |
    (Math.abs(latDeg - extent.southDeg) < ON_BORDER_DEG ? 4 : 0) |
    (Math.abs(latDeg - extent.northDeg) < ON_BORDER_DEG ? 8 : 0)
  );
}

/** Steps along each side of the border, so that its parallels keep their bend. */
const STEPS = 128;

/** Border of an extent as a ring. */
export function borderRing(extent: Extent): ShorePaths {
  const { westDeg: w, eastDeg: e, southDeg: s, northDeg: n } = extent;
  const corners = [
    [w, s],
    [e, s],
    [e, n],
    [w, n],
    [w, s],
  ] as const;
  const ring: number[] = [];
  for (let side = 0; side < 4; side++)
    for (let i = 0; i < STEPS; i++) {
      const [a, b] = [corners[side]!, corners[side + 1]!];
      ring.push(a[0] + ((b[0] - a[0]) * i) / STEPS, a[1] + ((b[1] - a[1]) * i) / STEPS);
    }
  ring.push(w, s);
  return {
    lonLat: Float64Array.from(ring),
    starts: [0, ring.length / 2],
    areas: [],
  };
}
