import gl from "geographiclib-geodesic";
import { expect, test } from "vitest";
import { geodesicDirect, geodesicInverse } from "../../src/geo/geodesic.js";
import { planeAt, positionOf, toPlane } from "../../src/geo/plane.js";
import { distance } from "../../src/geo/distance.js";
import { type Measured, reportRows } from "./harness.js";

const wgs84 = gl.Geodesic.WGS84;
const reference = (
  lat1: number,
  lon1: number,
  lat2: number,
  lon2: number,
): { distanceM: number; bearingDeg: number } => {
  const r = wgs84.Inverse(lat1, lon1, lat2, lon2);
  return { distanceM: r.s12!, bearingDeg: r.azi1! };
};
const arrive = (lat: number, lon: number, bearing: number, d: number) => {
  const r = wgs84.Direct(lat, lon, bearing, d);
  return { latDeg: r.lat2!, lonDeg: r.lon2! };
};

const LATITUDES = [0, 12, -30, 50, 60, -70, 74.9, 75.1, 80, -85, 89, 89.999, 90, -90];
const LONGITUDES = [0, 179.9999, -179.9999, 57.3];
const BEARINGS = Array.from({ length: 16 }, (_, i) => 22.5 * i);

/** Worst of a figure over latitudes, longitudes and bearings. */
function worst(
  latitudes: readonly number[],
  distances: readonly number[],
  error: (lat: number, lon: number, bearing: number, d: number) => number,
): number {
  let most = 0;
  for (const lat of latitudes)
    for (const lon of LONGITUDES)
      for (const bearing of BEARINGS)
        for (const d of distances) {
          const e = error(lat, lon, bearing, d);
          if (!(e <= most)) most = Number.isNaN(e) ? Infinity : e;
        }
  return most;
}

/** How far the plane puts a position from where the geodesic goes, m. */
const planeError = (lat: number, lon: number, bearing: number, d: number) => {
  const there = arrive(lat, lon, bearing, d);
  const out = new Float64Array(2);
  toPlane(planeAt({ latDeg: lat, lonDeg: lon }), there.latDeg, there.lonDeg, out, 0);
  const rad = (bearing * Math.PI) / 180;
  return Math.hypot(out[0]! - d * Math.sin(rad), out[1]! - d * Math.cos(rad));
};

const inverseError = (lat: number, lon: number, bearing: number, d: number) => {
  const there = arrive(lat, lon, bearing, d);
  const own = geodesicInverse({ latDeg: lat, lonDeg: lon }, there);
  return Math.abs(own.distanceM - reference(lat, lon, there.latDeg, there.lonDeg).distanceM);
};

const directError = (lat: number, lon: number, bearing: number, d: number) => {
  const there = arrive(lat, lon, bearing, d);
  const own = geodesicDirect({ latDeg: lat, lonDeg: lon }, bearing, d);
  return reference(there.latDeg, there.lonDeg, own.latDeg, own.lonDeg).distanceM;
};

/** Distance between the ends when our own bearing and distance are followed by the reference. */
const bearingError = (lat: number, lon: number, bearing: number, d: number) => {
  const there = arrive(lat, lon, bearing, d);
  const own = geodesicInverse({ latDeg: lat, lonDeg: lon }, there);
  const back = arrive(lat, lon, own.bearingDeg, own.distanceM);
  return reference(there.latDeg, there.lonDeg, back.latDeg, back.lonDeg).distanceM;
};

const backAgain = (lat: number, lon: number, bearing: number, d: number) => {
  const plane = planeAt({ latDeg: lat, lonDeg: lon });
  const rad = (bearing * Math.PI) / 180;
  const [east, north] = [d * Math.sin(rad), d * Math.cos(rad)];
  const p = positionOf(plane, east, north);
  const out = new Float64Array(2);
  toPlane(plane, p.latDeg, p.lonDeg, out, 0);
  return Math.hypot(out[0]! - east, out[1]! - north);
};

const belowSeventy = LATITUDES.filter((l) => Math.abs(l) <= 70);
const rows: [string, readonly number[], number[], typeof planeError, number][] = [
  ["plane to 2 km, to latitude 70", belowSeventy, [1, 50, 500, 2000], planeError, 1e-5],
  [
    "plane to 10 km, every latitude",
    LATITUDES,
    [1, 500, 2000, 5000, 7999, 10_000],
    planeError,
    1e-5,
  ],
  ["plane to 100 km, every latitude", LATITUDES, [20_000, 50_000, 100_000], planeError, 1e-4],
  ["plane to 300 km, every latitude", LATITUDES, [300_000], planeError, 5e-3],
  ["plane to 1000 km, every latitude", LATITUDES, [1_000_000], planeError, 0.6],
  ["plane and back, to 100 km", LATITUDES, [10, 2000, 100_000], backAgain, 1e-4],
  ["distance to 1000 km", LATITUDES, [1, 100, 10_000, 1_000_000], inverseError, 2e-5],
  ["destination to 1000 km", LATITUDES, [1, 100, 10_000, 1_000_000], directError, 2e-5],
  ["bearing followed to 1000 km", LATITUDES, [1, 100, 10_000, 1_000_000], bearingError, 3e-5],
  ["distance anywhere", LATITUDES, [5e6, 1e7, 1.5e7, 1.99e7], inverseError, 2e-4],
  ["destination anywhere", LATITUDES, [5e6, 1e7, 1.5e7, 1.99e7], directError, 2e-4],
];

const measured: Measured[] = [];
test.each(rows)("%s", (quantity, latitudes, distances, error, tolerance) => {
  const got = worst(latitudes, distances, error);
  measured.push({ quantity, got, expected: 0, tolerance, unit: "m" });
  expect(got).toBeLessThanOrEqual(tolerance);
});

test("nearly antipodal pairs", () => {
  let most = 0;
  for (const lat of [0, 0.0001, -0.3, 10, -45, 80])
    for (const dLat of [-0.5, -0.1, 0, 1e-5, 0.2])
      for (const dLon of [179.3, 179.39, 179.5, 179.9, 180, -179.7]) {
        const a = { latDeg: lat, lonDeg: -3 };
        const b = { latDeg: -lat + dLat, lonDeg: -3 + dLon };
        const own = geodesicInverse(a, b);
        const ref = reference(a.latDeg, a.lonDeg, b.latDeg, b.lonDeg);
        most = Math.max(most, Math.abs(own.distanceM - ref.distanceM));
        const end = arrive(a.latDeg, a.lonDeg, own.bearingDeg, own.distanceM);
        const miss = reference(end.latDeg, end.lonDeg, b.latDeg, b.lonDeg);
        expect(miss.distanceM).toBeLessThan(0.02);
      }
  measured.push({
    quantity: "distance of nearly antipodal pairs",
    got: most,
    expected: 0,
    tolerance: 2e-4,
    unit: "m",
  });
  expect(most).toBeLessThan(2e-4);
});

test("published line of 55 km", () => {
  // Flinders Peak to Buninyong, Geocentric Datum of Australia Technical Manual (ICSM), worked
  // example of Vincenty's formulae; figures from memory. GRS 80, which differs from WGS 84 by 0.1 mm in the polar radius.
  const dms = (d: number, m: number, s: number) => d + m / 60 + s / 3600;
  const way = distance({
    from: { latDeg: -dms(37, 57, 3.7203), lonDeg: dms(144, 25, 29.5244) },
    to: { latDeg: -dms(37, 39, 10.1561), lonDeg: dms(143, 55, 35.3839) },
  });
  measured.push(
    {
      quantity: "published line of 55 km, distance",
      got: way.distanceM,
      expected: 54_972.271,
      tolerance: 1e-3,
      unit: "m",
    },
    {
      quantity: "published line of 55 km, bearing",
      got: way.bearingDeg,
      expected: dms(306, 52, 5.37),
      tolerance: 3e-6,
      unit: "deg",
    },
  );
  expect(way.distanceM).toBeCloseTo(54_972.271, 3);
  expect(Math.abs(way.bearingDeg - dms(306, 52, 5.37))).toBeLessThan(3e-6);
});

test("report", () => {
  expect(measured).toHaveLength(rows.length + 3);
  reportRows(
    "geo",
    "geographiclib-geodesic 2.2 (C. F. F. Karney, Journal of Geodesy 87, 2013); ICSM GDA Technical Manual",
    measured,
  );
});
