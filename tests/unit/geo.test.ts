import * as turf from "@turf/turf";
import polygonClipping from "polygon-clipping";
import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import {
  type BoxTree,
  buildBoxTree,
  forSegmentsNear,
  nearestOnSegments,
  nothingFound,
  pointInRings,
  rayHit,
} from "../../src/geo/boxtree.js";
import { arcAround, circleAround, lensAround, sectorAround } from "../../src/geo/circle.js";
import { ringToTree } from "../../src/geo/clearance.js";
import { destination, distance } from "../../src/geo/distance.js";
import { layPaths } from "../../src/geo/geojson.js";
import { convexHull } from "../../src/geo/hull.js";
import { northAt, planeAt, toPlane } from "../../src/geo/plane.js";
import {
  discMeetsRing,
  pointInRing,
  pointToRing,
  ringArea,
  ringToRing,
  segmentToSegment2,
} from "../../src/geo/polygon.js";

/** Reproducible numbers in [0, 1). */
function numbers(seed: number): () => number {
  let s = seed;
  return () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 4294967296;
  };
}

/** Area common to two discs, by the sum of two segments of a circle; 0 where they do not meet. */
function lensArea(distance: number, a: number, b: number): number {
  if (!(distance < a + b)) return 0;
  const least = Math.min(a, b);
  if (distance <= Math.abs(a - b)) return Math.PI * least * least;
  const d2 = distance * distance;
  const part = (r: number, s: number) => {
    const c = (d2 + r * r - s * s) / (2 * distance * r);
    const t = Math.acos(Math.max(-1, Math.min(1, c)));
    return r * r * (t - Math.sin(t) * Math.cos(t));
  };
  return part(a, b) + part(b, a);
}

/** Islands, some with a lagoon, as flat rings and as a tree. */
function islands(count: number, seed: number) {
  const rnd = numbers(seed);
  const xy: number[] = [];
  const starts = [0];
  for (let p = 0; p < count; p++) {
    const [cx, cy, r] = [rnd() * 10_000, rnd() * 10_000, 5 + rnd() * 600];
    const n = 3 + Math.floor(rnd() * 70);
    for (let k = 0; k <= n; k++) {
      const t = (2 * Math.PI * (k % n)) / n;
      const size = r * (0.6 + 0.4 * Math.sin(5 * t + p));
      xy.push(cx + size * Math.cos(t), cy + size * Math.sin(t));
    }
    starts.push(xy.length / 2);
  }
  const tree = buildBoxTree({
    xy: Float64Array.from(xy),
    starts: Int32Array.from(starts),
  });
  return { xy, starts, tree, rnd };
}

/** Every segment of some paths. */
function* segments({ xy, starts }: Pick<BoxTree, "xy" | "starts">) {
  for (let p = 0; p + 1 < starts.length; p++)
    for (let v = starts[p]!; v + 1 < starts[p + 1]!; v++)
      yield [xy[2 * v]!, xy[2 * v + 1]!, xy[2 * v + 2]!, xy[2 * v + 3]!, v] as const;
}

describe("box tree against looking at every segment", () => {
  const { tree, rnd } = islands(200, 7);
  test("nearest, ray, inside, near a box", () => {
    for (let q = 0; q < 1500; q++) {
      const [x, y, a] = [rnd() * 12_000 - 1000, rnd() * 12_000 - 1000, rnd() * 7];
      const [dx, dy] = q % 5 === 0 ? [0, q % 2 ? 1 : -1] : [Math.cos(a), Math.sin(a)];
      let [least, hit, odd] = [Infinity, Infinity, false];
      for (const [ax, ay, bx, by] of segments(tree)) {
        least = Math.min(least, segmentToSegment2(x, y, x, y, ax, ay, bx, by));
        const sa = dx * (ay - y) - dy * (ax - x);
        const sb = dx * (by - y) - dy * (bx - x);
        if (sa <= 0 !== sb <= 0) {
          const u = sa / (sa - sb);
          const t = (ax + u * (bx - ax) - x) * dx + (ay + u * (by - ay) - y) * dy;
          if (t >= 0) hit = Math.min(hit, t);
        }
        if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) odd = !odd;
      }
      const found = nothingFound();
      const d = nearestOnSegments(tree, x, y, Infinity, found);
      expect(d).toBeCloseTo(Math.sqrt(least), 8);
      expect(Math.hypot(found.x - x, found.y - y)).toBeCloseTo(d, 8);
      expect(nearestOnSegments(tree, x, y, d * 0.999)).toBe(Infinity);
      const r = rayHit(tree, x, y, dx, dy);
      if (hit === Infinity) expect(r).toBe(Infinity);
      else expect(r).toBeCloseTo(hit, 6);
      if (r < Infinity) expect(rayHit(tree, x, y, dx, dy, r - 1e-3)).toBe(Infinity);
      expect(pointInRings(tree, x, y)).toBe(odd);
    }
  });
  test("segments near a box: none missed, each once", () => {
    for (let q = 0; q < 100; q++) {
      const [x0, y0] = [rnd() * 9000, rnd() * 9000];
      const [x1, y1] = [x0 + rnd() * 900, y0 + rnd() * 900];
      const seen: number[] = [];
      forSegmentsNear(tree, x0, y0, x1, y1, (v, w) => {
        expect(w).toBe(v + 1);
        seen.push(v);
      });
      const want = [...segments(tree)]
        .filter(
          ([ax, ay, bx, by]) =>
            Math.min(ax, bx) <= x1 &&
            Math.max(ax, bx) >= x0 &&
            Math.min(ay, by) <= y1 &&
            Math.max(ay, by) >= y0,
        )
        .map((s) => s[4]);
      expect(seen.sort((a, b) => a - b)).toEqual(want);
    }
  });
  test("a ray through a shared vertex, along a segment, and a lone point", () => {
    const t = buildBoxTree({
      xy: Float64Array.of(10, -5, 10, 0, 10, 5, 20, 0, 30, 0, 50, 0),
      starts: Int32Array.of(0, 3, 5, 6),
    });
    expect(rayHit(t, 0, 0, 1, 0)).toBe(10);
    expect(rayHit(t, 15, 0, 1, 0)).toBe(5);
    expect(rayHit(t, 25, 0, 1, 0)).toBe(0);
    expect(rayHit(t, 40, 0, 1, 0)).toBe(10);
    expect(rayHit(t, 40, 1, 1, 0)).toBe(Infinity);
    expect(nearestOnSegments(t, 50, 3)).toBe(3);
  });
  test("nothing there, and figures that are missing", () => {
    const none = buildBoxTree({
      xy: new Float64Array(0),
      starts: Int32Array.of(0),
    });
    expect(nearestOnSegments(none, 0, 0)).toBe(Infinity);
    expect(rayHit(none, 0, 0, 1, 0)).toBe(Infinity);
    expect(pointInRings(none, 0, 0)).toBe(false);
    forSegmentsNear(none, -1, -1, 1, 1, () => expect.unreachable());
    expect(nearestOnSegments(tree, NaN, 0)).toBeNaN();
    expect(rayHit(tree, 0, 0, NaN, 1)).toBeNaN();
  });
  test("a hole is outside", () => {
    const square = (r: number) => [
      [-r, -r],
      [r, -r],
      [r, r],
      [-r, r],
      [-r, -r],
    ];
    const plane = planeAt({ latDeg: 0, lonDeg: 0 });
    const t = buildBoxTree(
      layPaths(plane, [{ type: "Polygon", coordinates: [square(0.02), square(0.01)] }]),
    );
    expect(pointInRings(t, 0, 0)).toBe(false);
    expect(pointInRings(t, 1700, 0)).toBe(true);
    expect(pointInRings(t, 3000, 0)).toBe(false);
  });
});

describe("polygons against general-purpose libraries", () => {
  const rnd = numbers(3);
  const star = (n: number, cx: number, cy: number, r: number) =>
    Array.from({ length: n }, (_, i) => {
      const t = (2 * Math.PI * i) / n;
      const s = r * (0.4 + 0.6 * rnd());
      return [cx + s * Math.cos(t), cy + s * Math.sin(t)] as [number, number];
    });
  const closed = (p: [number, number][]) => [...p, p[0]!];
  test("point in ring: turf", () => {
    const p = star(60, 0, 0, 1);
    const poly = turf.polygon([closed(p)]);
    for (let i = 0; i < 400; i++) {
      const [x, y] = [2.4 * rnd() - 1.2, 2.4 * rnd() - 1.2];
      expect(pointInRing(p.flat(), x, y)).toBe(turf.booleanPointInPolygon([x, y], poly));
    }
  });
  test("hull of many points: turf", () => {
    for (const n of [3, 10, 399, 401, 5000]) {
      const p = Array.from({ length: n }, () => {
        const t = rnd() * 7;
        const r = 40 + 2 * rnd();
        return [r * Math.cos(t), r * Math.sin(t)] as [number, number];
      });
      const own = convexHull(p.flat());
      const ref = turf.convex(turf.points(p))!.geometry.coordinates[0]!.slice(1);
      const sorted = (q: number[][]) => q.map((c) => c.join()).sort();
      expect(
        sorted(Array.from({ length: own.length / 2 }, (_, i) => [own[2 * i]!, own[2 * i + 1]!])),
      ).toEqual(sorted(ref));
      expect(ringArea(own)).toBeGreaterThan(0);
    }
  });
  test("hull of the same point, of two, of points in a line", () => {
    expect([...convexHull([1, 2])]).toEqual([1, 2]);
    expect([...convexHull([1, 2, 1, 2])]).toEqual([1, 2]);
    expect([...convexHull([1, 2, 3, 4])]).toEqual([1, 2, 3, 4]);
    expect([...convexHull([0, 0, 2, 2, 1, 1])]).toEqual([0, 0, 2, 2]);
    expect(convexHull([])).toHaveLength(0);
    const line = Array.from({ length: 1000 }, (_, i) => [i, 2 * i]).flat();
    expect([...convexHull(line)]).toEqual([0, 0, 999, 1998]);
  });
  test("whether two rings meet: polygon-clipping; and how far apart: sampling both edges", () => {
    let met = 0;
    for (let i = 0; i < 300; i++) {
      const a = star(9, 0, 0, 1);
      const b = star(9, 3 * rnd() - 1.5, 3 * rnd() - 1.5, 1);
      const d = ringToRing(a.flat(), b.flat());
      const common = polygonClipping.intersection([closed(a)], [closed(b)]);
      if (common.length > 0) {
        met++;
        expect(d).toBe(0);
      } else {
        let least = Infinity;
        for (const [p, q] of [
          [a, b],
          [b, a],
        ] as const)
          for (const [x, y] of p) least = Math.min(least, pointToRing(q.flat(), x, y));
        // Apart, the least distance starts at a corner.
        expect(d).toBeCloseTo(least, 12);
      }
      expect(ringToRing(b.flat(), a.flat())).toBeCloseTo(d, 12);
    }
    expect(met).toBeGreaterThan(50);
    expect(met).toBeLessThan(250);
  });
  test("ring to tree is ring to ring, and the point it names is that far away", () => {
    const { tree, xy, starts } = islands(40, 11);
    for (let i = 0; i < 200; i++) {
      const [cx, cy] = [rnd() * 10_000, rnd() * 10_000];
      const ring = star(12, cx, cy, 150).flat();
      let least = Infinity;
      for (let p = 0; p + 1 < starts.length; p++)
        least = Math.min(least, ringToRing(ring, xy.slice(2 * starts[p]!, 2 * starts[p + 1]!)));
      const at = nothingFound();
      const d = ringToTree(ring, tree, true, Infinity, at);
      // Islands that overlap make lagoons by the even-odd rule; a ring wholly in one is off the shore.
      if (least > 0) {
        expect(d).toBeCloseTo(least, 8);
        expect(pointToRing(ring, at.x, at.y)).toBeCloseTo(d, 6);
        expect(ringToTree(ring, tree, true, d * 0.99)).toBe(Infinity);
      }
    }
    expect(ringToTree([NaN, 0], tree, true)).toBeNaN();
  });
  test("a ring round a lone point, across a line, and inside an area", () => {
    const square = [-1, -1, 1, -1, 1, 1, -1, 1];
    const tree = (...xy: number[]) =>
      buildBoxTree({
        xy: Float64Array.from(xy),
        starts: Int32Array.of(0, xy.length / 2),
      });
    expect(ringToTree(square, tree(0.2, 0.3), false)).toBe(0);
    const at = nothingFound();
    expect(ringToTree(square, tree(-9, 0.5, 9, 0.5), false, Infinity, at)).toBe(0);
    expect([Math.abs(at.x), at.y]).toEqual([1, 0.5]);
    expect(ringToTree(square, tree(-9, -9, 9, -9, 9, 9, -9, 9, -9, -9), true)).toBe(0);
    expect(ringToTree(square, tree(-9, -9, 9, -9, 9, 9, -9, 9, -9, -9), false)).toBe(8);
    expect(ringToTree(square, tree(4, 5), false)).toBe(5);
  });
});

describe("circles", () => {
  test("outlines hold the circle, the arc and the lens", () => {
    const c = circleAround(3, 4, 10, 40);
    expect(pointToRing(c, 3, 4)).toBeCloseTo(10, 12);
    const s = sectorAround(0, 0, 10, 350, 100);
    for (let deg = 350.5; deg <= 449.5; deg += 0.5) {
      const [x, y] = [Math.sin((deg * Math.PI) / 180), Math.cos((deg * Math.PI) / 180)];
      expect(
        pointInRing(s, 9.9999999 * x, 9.9999999 * y) || pointToRing(s, 10 * x, 10 * y) < 1e-6,
      ).toBe(true);
      const r = rayOut(s, x, y);
      expect(r).toBeGreaterThan(10 - 1e-9);
      expect(r).toBeLessThan(10.02);
    }
    expect(arcAround(0, 0, 10, 0, 0)).toHaveLength(6);
  });
  test("lens: closed form against its outline and polygon-clipping", () => {
    for (const [d, a, b] of [
      [15, 10, 8],
      [3, 10, 8],
      [12, 5, 9],
      [1, 9, 3],
      [9, 10, 3],
    ] as const) {
      const fine = lensAround(1, 2, a, 1 + 0.6 * d, 2 + 0.8 * d, b, 0.2);
      const area = lensArea(d, a, b);
      expect(Math.abs(ringArea(fine))).toBeGreaterThanOrEqual(area * (1 - 1e-12));
      expect(Math.abs(ringArea(fine)) / area).toBeLessThan(1.0001);
      const ring = (x: number, y: number, r: number) => {
        const c = circleAround(x, y, r, 2000);
        return [
          Array.from({ length: 2000 }, (_, i) => [c[2 * i]!, c[2 * i + 1]!] as [number, number]),
        ];
      };
      const common = polygonClipping.intersection(ring(0, 0, a), ring(d, 0, b));
      expect(Math.abs(ringArea(common[0]![0]!.flat())) / area).toBeCloseTo(1, 4);
    }
    expect(lensArea(20, 10, 8)).toBe(0);
    expect(lensAround(0, 0, 1, 5, 0, 1)).toHaveLength(0);
    expect(discMeetsRing([0, 0, 1, 0, 0, 1], 3, 0, 1)).toBe(false);
    expect(discMeetsRing([0, 0, 1, 0, 0, 1], 3, 0, 2)).toBe(true);
    expect(discMeetsRing([0, 0, 1, 0, 0, 1], NaN, 0, 2)).toBe(true);
  });
});

/** How far from the origin a ring is left in a direction. */
const rayOut = (ring: Float64Array, x: number, y: number): number => {
  const xy = Float64Array.of(...ring, ring[0]!, ring[1]!);
  const tree = buildBoxTree({ xy, starts: Int32Array.of(0, xy.length / 2) });
  return rayHit(tree, 20 * x, 20 * y, -x, -y) * -1 + 20;
};

describe("plane", () => {
  test("north turns with the meridians", () => {
    // On a sphere the meridians close in by dlon sin(lat); on the plane half of that shows at 0.2 degrees off is within 1e-3 of it.
    const plane = planeAt({ latDeg: 60, lonDeg: 179.95 });
    const turn = northAt(plane, 60, -179.95);
    expect(turn).toBeCloseTo(-0.1 * Math.sin(Math.PI / 3), 3);
    expect(northAt(plane, 60.3, 179.95)).toBeCloseTo(0, 9);
  });
  test("antimeridian: the same on both sides and for any whole turn", () => {
    const out = new Float64Array(6);
    const plane = planeAt({ latDeg: 50, lonDeg: 179.999 });
    toPlane(plane, 50.001, -179.998, out, 0);
    toPlane(plane, 50.001, 180.002, out, 2);
    toPlane(planeAt({ latDeg: 50, lonDeg: -180.001 }), 50.001, -179.998, out, 4);
    expect(out[0]).toBeGreaterThan(0);
    expect(out[0]).toBeCloseTo(out[2]!, 8);
    expect(out[0]).toBeCloseTo(out[4]!, 8);
  });
  test("a position that is not one stays not one", () => {
    const out = new Float64Array(2);
    toPlane(planeAt({ latDeg: 50, lonDeg: 0 }), NaN, 0, out, 0);
    expect([...out]).toEqual([NaN, NaN]);
    toPlane(planeAt({ latDeg: 50, lonDeg: 0 }), 50, NaN, out, 0);
    expect([...out]).toEqual([NaN, NaN]);
  });
});

describe("distance and destination", () => {
  test("refuse what is no position", () => {
    const from = { latDeg: 91, lonDeg: 0 };
    expect(() => distance({ from, to: from })).toThrow(InputError);
    expect(() =>
      destination({
        from: { latDeg: 0, lonDeg: 0 },
        bearingDeg: -1,
        distanceM: 1,
      }),
    ).toThrow(InputError);
  });
  test("nothing to go", () => {
    const from = { latDeg: -12, lonDeg: 179 };
    expect(distance({ from, to: { latDeg: -12, lonDeg: -181 } })).toEqual({
      distanceM: 0,
      bearingDeg: 0,
    });
    const there = destination({ from, bearingDeg: 77, distanceM: 0 });
    expect(there.latDeg).toBeCloseTo(-12, 12);
    expect(there.lonDeg).toBeCloseTo(179, 12);
  });
});
