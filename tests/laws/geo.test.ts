import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { buildBoxTree, nearestOnSegments, pointInRings, rayHit } from "../../src/geo/boxtree.js";
import { destination, distance } from "../../src/geo/distance.js";
import { convexHull } from "../../src/geo/hull.js";
import { planeAt, positionOf, toPlane } from "../../src/geo/plane.js";
import { pointInRing, pointToRing, pointToSegment2, ringArea } from "../../src/geo/polygon.js";

const position = fc.record({
  latDeg: fc.double({ min: -90, max: 90, noNaN: true }),
  lonDeg: fc.double({ min: -180, max: 180, noNaN: true }),
});
const bearing = fc.double({ min: 0, max: 360, noNaN: true });
const coordinate = fc.double({ min: -1000, max: 1000, noNaN: true });
const points = (min: number, max: number) =>
  fc
    .array(fc.tuple(coordinate, coordinate), { minLength: min, maxLength: max })
    .map((p) => p.flat());

describe("geodesics", () => {
  test("out and back again", () => {
    fc.assert(
      fc.property(
        position,
        bearing,
        fc.double({ min: 0.001, max: 1e7, noNaN: true }),
        (from, bearingDeg, distanceM) => {
          const to = destination({ from, bearingDeg, distanceM });
          expect(to.lonDeg).toBeGreaterThanOrEqual(-180);
          expect(to.lonDeg).toBeLessThan(180);
          const way = distance({ from, to });
          expect(Math.abs(way.distanceM - distanceM)).toBeLessThan(1e-5);
          expect(way.bearingDeg).toBeGreaterThanOrEqual(0);
          expect(way.bearingDeg).toBeLessThan(360);
        },
      ),
    );
  });
  test("as far there as back, never shorter by way of a third place, the same after whole turns", () => {
    fc.assert(
      fc.property(position, position, position, (a, b, c) => {
        const d = (from: typeof a, to: typeof a) => distance({ from, to }).distanceM;
        expect(Math.abs(d(a, b) - d(b, a))).toBeLessThan(1e-3);
        expect(d(a, c)).toBeLessThanOrEqual(d(a, b) + d(b, c) + 1e-3);
        const turned = { ...b, lonDeg: b.lonDeg + (b.lonDeg > 0 ? -360 : 360) };
        expect(Math.abs(d(a, turned) - d(a, b))).toBeLessThan(1e-5);
      }),
    );
  });
  test("plane and back, within 10 km, anywhere", () => {
    fc.assert(
      fc.property(
        position,
        fc.double({ min: -7000, max: 7000, noNaN: true }),
        fc.double({ min: -7000, max: 7000, noNaN: true }),
        (origin, east, north) => {
          const plane = planeAt(origin);
          const p = positionOf(plane, east, north);
          const out = new Float64Array(2);
          toPlane(plane, p.latDeg, p.lonDeg, out, 0);
          expect(Math.hypot(out[0]! - east, out[1]! - north)).toBeLessThan(1e-5);
        },
      ),
    );
  });
});

describe("polygons", () => {
  test("a hull holds every point, turns one way and is its own hull", () => {
    fc.assert(
      fc.property(points(3, 900), (xy) => {
        const hull = convexHull(xy);
        if (hull.length < 6) return;
        for (let i = 0; i < xy.length; i += 2)
          expect(
            pointInRing(hull, xy[i]!, xy[i + 1]!) || pointToRing(hull, xy[i]!, xy[i + 1]!) < 1e-9,
          ).toBe(true);
        expect(ringArea(hull)).toBeGreaterThanOrEqual(0);
        expect([...convexHull(hull)]).toEqual([...hull]);
      }),
      { numRuns: 60 },
    );
  });
  test("distance to a segment: none of its points is nearer, one is that near", () => {
    fc.assert(
      fc.property(points(3, 3), ([x, y, ax, ay, bx, by]) => {
        const d = Math.sqrt(pointToSegment2(x!, y!, ax!, ay!, bx!, by!));
        // Thirds of the segment narrowed down to the nearest point, without the projection formula.
        const at = (u: number) =>
          Math.hypot(ax! + u * (bx! - ax!) - x!, ay! + u * (by! - ay!) - y!);
        let [lo, hi] = [0, 1];
        for (let i = 0; i < 100; i++) {
          const [p, q] = [lo + (hi - lo) / 3, hi - (hi - lo) / 3];
          if (at(p) < at(q)) hi = q;
          else lo = p;
        }
        expect(Math.abs(d - Math.min(at(0), at(1), at(lo)))).toBeLessThan(1e-6);
      }),
    );
  });
});

describe("box tree", () => {
  const scene = fc.tuple(points(4, 300), coordinate, coordinate, bearing);
  test("a ray never hits before the nearest segment, and hits what it is aimed at", () => {
    fc.assert(
      fc.property(scene, ([xy, x, y, deg]) => {
        const tree = buildBoxTree({
          xy: Float64Array.from(xy),
          starts: Int32Array.of(0, xy.length / 2),
        });
        const near = nearestOnSegments(tree, x, y);
        const [dx, dy] = [Math.sin(deg), Math.cos(deg)];
        expect(rayHit(tree, x, y, dx, dy)).toBeGreaterThanOrEqual(near - 1e-9);
        // Aimed at the middle of a segment and not along it.
        const [ux, uy] = [(xy[2]! - xy[0]!) / 2, (xy[3]! - xy[1]!) / 2];
        const [ex, ey] = [xy[0]! + ux - x, xy[1]! + uy - y];
        const [d, half] = [Math.hypot(ex, ey), Math.hypot(ux, uy)];
        if (Math.abs(ex * uy - ey * ux) < 1e-3 * d * half || d * half < 1e-6) return;
        expect(rayHit(tree, x, y, ex / d, ey / d)).toBeLessThan(d + 1e-6 * (1 + d));
      }),
    );
  });
  test("inside is the same for a ring in any order of its start and sense", () => {
    fc.assert(
      fc.property(scene, ([xy, x, y]) => {
        const pairs = Array.from({ length: xy.length / 2 }, (_, i) => [xy[2 * i]!, xy[2 * i + 1]!]);
        const inside = (p: number[][]) => {
          const ring = Float64Array.from([...p, p[0]!].flat());
          return pointInRings(
            buildBoxTree({
              xy: ring,
              starts: Int32Array.of(0, ring.length / 2),
            }),
            x,
            y,
          );
        };
        // On the very edge either answer may come.
        if (pointToRing(xy, x, y) < 1e-6) return;
        const want = inside(pairs);
        expect(inside([...pairs].reverse())).toBe(want);
        expect(inside([...pairs.slice(3), ...pairs.slice(0, 3)])).toBe(want);
        expect(pointInRing(xy, x, y)).toBe(want);
      }),
    );
  });
});
