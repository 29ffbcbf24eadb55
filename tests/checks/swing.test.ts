import * as turf from "@turf/turf";
import gl from "geographiclib-geodesic";
import polygonClipping from "polygon-clipping";
import { expect, test } from "vitest";
import { planeAt, toPlane } from "../../src/geo/plane.js";
import { swingCircle, swingClearance, swingEnvelope } from "../../src/swing/index.js";
import { type Measured, reportRows } from "./harness.js";

const RAD = Math.PI / 180;
const T0 = Date.UTC(2026, 5, 1);
const anchors = [0, 50, -70, 80].map((latDeg) => ({
  latDeg,
  lonDeg: 179.9998,
}));
const part = (i: number, salt: number) => ((i + 1) * salt) % 1;
const moments = Array.from({ length: 120 }, (_, i) => ({
  timeMs: T0 + i * 600_000,
  reachM: 20 + 15 * part(i, 0.618034),
  pullTowardsDeg: 360 * part(i, 0.754878),
  headingDeg: 360 * part(i, 0.56984),
}));

/** Corners of a hull 12 m by 4 m, bow at the reach. */
const corners = (m: (typeof moments)[number]): [number, number][] => {
  const [p, h] = [m.pullTowardsDeg * RAD, m.headingDeg * RAD];
  return [
    [0, 2],
    [0, -2],
    [12, -2],
    [12, 2],
  ].map(([aft, side]) => [
    m.reachM * Math.sin(p) - aft! * Math.sin(h) + side! * Math.cos(h),
    m.reachM * Math.cos(p) - aft! * Math.cos(h) - side! * Math.sin(h),
  ]);
};

test("rooms and clearances against general-purpose libraries", () => {
  const measured: Measured[] = [];
  const outlines = moments.map(corners);
  const hull = turf.convex(turf.points(outlines.flat()))!.geometry.coordinates[0]! as [
    number,
    number,
  ][];
  const flatArea = (ring: [number, number][]) =>
    Math.abs(
      ring.reduce((sum, [x, y], i) => {
        const [nx, ny] = ring[(i + 1) % ring.length]!;
        return sum + (x * ny - nx * y) / 2;
      }, 0),
    );
  for (const anchor of anchors) {
    const room = swingEnvelope({
      anchor,
      vessel: { lengthM: 12, beamM: 4 },
      moments,
      between: "moments",
    });
    const at = new Float64Array(2);
    const ring = room.polygon.map((p): [number, number] => {
      toPlane(planeAt(anchor), p.latDeg, p.lonDeg, at, 0);
      return [at[0]!, at[1]!];
    });
    let corner = 0;
    for (const [x, y] of hull)
      corner = Math.max(corner, Math.min(...ring.map(([a, b]) => Math.hypot(a - x, b - y))));
    const first: [number, number][][] = [outlines[0]!];
    const union = polygonClipping.union(
      first,
      ...outlines.slice(1).map((o): [number, number][][] => [o]),
    );
    const grown = ring.map(([x, y]): [number, number] => [x * (1 + 1e-9), y * (1 + 1e-9)]);
    const outside = polygonClipping
      .difference(union, [grown])
      .reduce((sum, p) => sum + flatArea(p[0]!), 0);
    // A mark at a known place; how far it is from the circle, by the geodesic of the reference library.
    const mark = gl.Geodesic.WGS84.Direct(anchor.latDeg, anchor.lonDeg, 33, 217.25);
    const clear = swingClearance(swingCircle({ anchor, reachM: 30, lengthM: 12 }), {
      hazards: [
        {
          id: "mark",
          kind: "rock",
          leastDepthM: null,
          geometry: {
            type: "Point",
            coordinates: [mark.lon2!, mark.lat2!],
          },
        },
      ],
    });
    const row = (quantity: string, got: number, expected: number, unit: string): Measured => ({
      quantity,
      got,
      expected,
      tolerance: 1e-6,
      unit,
    });
    measured.push(
      row("envelope, corners against turf", corner, 0, "m"),
      row("envelope, area against turf's hull", room.areaM2, flatArea(hull), "m²"),
      row("hulls left outside, polygon-clipping", outside, 0, "m²"),
      row("clearance of a circle, geographiclib", clear.hazard!.distanceM, 217.25 - 42, "m"),
    );
  }
  for (const m of measured)
    expect(Math.abs((m.got as number) - (m.expected as number)), m.quantity).toBeLessThan(
      m.tolerance!,
    );
  reportRows(
    "swing",
    "@turf/turf 7.4, polygon-clipping 0.15, geographiclib-geodesic 2.2",
    measured,
  );
});
