import { describe, expect, test } from "vitest";
import {
  emptyRoom,
  fillRoom,
  gapAt,
  leastGapSameTime,
  noGap,
  rectangleGap,
  type LieColumns,
  type Room,
} from "../../src/swing/kernel.js";

const RAD = Math.PI / 180;
type Point = [number, number];

/** Reproducible numbers in [0, 1). */
function numbers(seed: number): () => number {
  let s = seed;
  return () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 4294967296;
  };
}

/** Corners of a rectangle about a middle, in turn. */
const corners = (x: number, y: number, deg: number, l: number, b: number): Point[] => {
  const [u, v] = [Math.sin(deg * RAD), Math.cos(deg * RAD)];
  return (
    [
      [l, b],
      [l, -b],
      [-l, -b],
      [-l, b],
    ] as const
  ).map(([a, s]) => [x + a * u + s * v, y + a * v - s * u]);
};

/** Distance from a point to a segment. */
function toSegment([px, py]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay];
  const d2 = dx * dx + dy * dy;
  const t = d2 === 0 ? 0 : Math.max(0, Math.min(1, ((px - ax) * dx + (py - ay) * dy) / d2));
  return Math.sqrt((px - ax - t * dx) ** 2 + (py - ay - t * dy) ** 2);
}

const side = ([ax, ay]: Point, [bx, by]: Point, [px, py]: Point): number =>
  (bx - ax) * (py - ay) - (by - ay) * (px - ax);

/** Least distance of two convex polygons by every side against every side. */
function apart(p: readonly Point[], q: readonly Point[]): number {
  let least = Infinity;
  const inside = (ring: readonly Point[], at: Point) => {
    const signs = ring.map((a, i) => side(a, ring[(i + 1) % ring.length]!, at));
    return signs.some((s) => s !== 0) && (signs.every((s) => s >= 0) || signs.every((s) => s <= 0));
  };
  if (p.some((at) => inside(q, at)) || q.some((at) => inside(p, at))) return 0;
  for (const [i, a] of p.entries())
    for (const [j, c] of q.entries()) {
      const [b, d] = [p[(i + 1) % p.length]!, q[(j + 1) % q.length]!];
      if (side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0) return 0;
      least = Math.min(
        least,
        toSegment(a, c, d),
        toSegment(b, c, d),
        toSegment(c, a, b),
        toSegment(d, a, b),
      );
    }
  return least;
}

describe("gap of two rectangles", () => {
  const gap = (
    [x, y]: Point,
    deg: number,
    [l, b]: Point,
    [px, py]: Point,
    other: number,
    [pl, pb]: Point,
  ) =>
    rectangleGap(
      px - x,
      py - y,
      Math.sin(deg * RAD),
      Math.cos(deg * RAD),
      l,
      b,
      Math.sin(other * RAD),
      Math.cos(other * RAD),
      pl,
      pb,
    );
  test("as every side against every side gives it, apart, touching and crossed", () => {
    const rnd = numbers(7);
    let [met, clear] = [0, 0];
    for (let i = 0; i < 600; i++) {
      const at: Point = [40 * rnd() - 20, 40 * rnd() - 20];
      const size: Point = [10 * rnd(), 5 * rnd()];
      const other: Point = [10 * rnd(), 5 * rnd()];
      const [deg, turn] = [360 * rnd(), 360 * rnd()];
      const expected = apart(corners(0, 0, deg, ...size), corners(at[0], at[1], turn, ...other));
      if (expected === 0) met++;
      else clear++;
      expect(gap([0, 0], deg, size, at, turn, other)).toBeCloseTo(expected, 9);
    }
    expect(Math.min(met, clear)).toBeGreaterThan(60);
  });
  test("by hand: side by side, end to end, corner to corner, crossed", () => {
    expect(gap([0, 0], 0, [6, 2], [10, 0], 0, [6, 2])).toBeCloseTo(6, 12);
    expect(gap([0, 0], 0, [6, 2], [0, 20], 0, [6, 2])).toBeCloseTo(8, 12);
    expect(gap([0, 0], 0, [6, 2], [7, 16], 0, [6, 2])).toBeCloseTo(5, 12);
    expect(gap([0, 0], 0, [6, 2], [0, 0], 90, [6, 2])).toBe(0);
    expect(gap([0, 0], 0, [6, 2], [4, 0], 0, [6, 2])).toBe(0);
    expect(gap([0, 0], 0, [6, 2], [0, 12], 0, [6, 2])).toBe(0);
  });
});

describe("room of a moment", () => {
  const hull = { aheadM: 2, asternM: 10, halfBeamM: 1.5, farthestM: Math.sqrt(100 + 2.25) };
  const of = (lie: Record<string, number>, error = 0): Room => {
    const columns = Object.fromEntries(
      Object.entries({ reachM: 30, pullTowardsDeg: 30, headingDeg: 200, ...lie }).map(([k, v]) => [
        k,
        Float64Array.of(v),
      ]),
    ) as unknown as LieColumns;
    const room = emptyRoom(1);
    fillRoom(room, 100, -50, error, hull, columns);
    return room;
  };
  test("the middle of the hull lies abaft the bow by half of what is astern less half of what is ahead", () => {
    const room = of({}, 3);
    const bow = [100 + 30 * Math.sin(30 * RAD), -50 + 30 * Math.cos(30 * RAD)];
    expect(room.x[0]).toBeCloseTo(bow[0]! - 4 * Math.sin(200 * RAD), 12);
    expect(room.y[0]).toBeCloseTo(bow[1]! - 4 * Math.cos(200 * RAD), 12);
    expect([room.ux[0], room.uy[0]]).toEqual([Math.sin(200 * RAD), Math.cos(200 * RAD)]);
    expect([room.halfLengthM[0], room.halfBeamM[0], room.marginM[0]]).toEqual([6, 1.5, 3]);
    expect(room.aroundM[0]).toBeCloseTo(3 + Math.sqrt(36 + 2.25), 12);
  });
  test("heading not known: anywhere round the bow", () => {
    const room = of({ headingDeg: NaN }, 3);
    expect(room.x[0]).toBeCloseTo(100 + 30 * Math.sin(30 * RAD), 12);
    expect(room.y[0]).toBeCloseTo(-50 + 30 * Math.cos(30 * RAD), 12);
    expect([room.halfLengthM[0], room.halfBeamM[0]]).toEqual([0, 0]);
    expect(room.marginM[0]).toBeCloseTo(3 + hull.farthestM, 12);
    expect(room.aroundM[0]).toBe(room.marginM[0]);
  });
  test("pull not known: anywhere round the anchor, whatever the heading", () => {
    for (const headingDeg of [200, NaN]) {
      const room = of({ pullTowardsDeg: NaN, headingDeg }, 3);
      expect([room.x[0], room.y[0], room.halfLengthM[0], room.halfBeamM[0]]).toEqual([
        100, -50, 0, 0,
      ]);
      expect(room.marginM[0]).toBeCloseTo(3 + 30 + hull.farthestM, 12);
      expect([room.ux[0], room.uy[0]]).toEqual([0, 1]);
    }
  });
  test("sheer and yaw: the chords of bow and stern; yaw as the sheer where it is not told", () => {
    const chord = (r: number, deg: number) => 2 * r * Math.sin((deg * RAD) / 2);
    expect(of({ sheerDeg: 20, yawDeg: 35 }).marginM[0]).toBeCloseTo(
      chord(30, 20) + chord(hull.farthestM, 35),
      12,
    );
    expect(of({ sheerDeg: 20 }).marginM[0]).toBeCloseTo(
      chord(30, 20) + chord(hull.farthestM, 20),
      12,
    );
    expect(of({ yawDeg: 35 }).marginM[0]).toBeCloseTo(chord(hull.farthestM, 35), 12);
    // No turn brings a part farther than right across.
    expect(of({ sheerDeg: 200, yawDeg: 0 }).marginM[0]).toBeCloseTo(60, 12);
    expect(of({ headingDeg: NaN, sheerDeg: 20, yawDeg: 35 }).marginM[0]).toBeCloseTo(
      chord(30, 20) + hull.farthestM,
      12,
    );
  });
});

describe("least gap at the same moments", () => {
  const random = (rnd: () => number, count: number, x: number): Room => {
    const room = emptyRoom(count);
    const column = (of: () => number) => Float64Array.from({ length: count }, of);
    fillRoom(
      room,
      x,
      0,
      rnd() < 0.3 ? 4 * rnd() : 0,
      { aheadM: 1, asternM: 12, halfBeamM: 2, farthestM: Math.sqrt(148) },
      {
        reachM: column(() => 15 + 25 * rnd()),
        pullTowardsDeg: column(() => (rnd() < 0.1 ? NaN : 360 * rnd())),
        headingDeg: column(() => (rnd() < 0.1 ? NaN : 360 * rnd())),
        sheerDeg: column(() => (rnd() < 0.5 ? 0 : 20 * rnd())),
      },
    );
    return room;
  };
  test("is the least of the gaps one by one, the first of them, margins taken off", () => {
    const rnd = numbers(11);
    for (let scene = 0; scene < 60; scene++) {
      const count = 1 + Math.floor(20 * rnd());
      const [a, b] = [random(rnd, count, 0), random(rnd, count, 200 * rnd())];
      const gaps = Array.from({ length: count }, (_, i) => gapAt(a, i, b, i));
      gaps.forEach((gap, i) => {
        const ring = (r: Room) =>
          corners(
            r.x[i]!,
            r.y[i]!,
            Math.atan2(r.ux[i]!, r.uy[i]!) / RAD,
            r.halfLengthM[i]!,
            r.halfBeamM[i]!,
          );
        const expected = apart(ring(a), ring(b)) - a.marginM[i]! - b.marginM[i]!;
        expect(gap).toBeCloseTo(Math.max(0, expected), 9);
      });
      const out = noGap();
      expect(out).toEqual({ gapM: Infinity, i: -1 });
      leastGapSameTime(a, b, out);
      expect(out.gapM).toBe(Math.min(...gaps));
      expect(out.i).toBe(gaps.indexOf(out.gapM));
    }
  });
  test("compares only moments that both have", () => {
    const rnd = numbers(3);
    const [a, b] = [random(rnd, 8, 0), random(rnd, 5, 90)];
    const gaps = Array.from({ length: 5 }, (_, i) => gapAt(a, i, b, i));
    for (const [p, q] of [
      [a, b],
      [b, a],
    ] as const) {
      const out = { gapM: 5, i: 3 };
      leastGapSameTime(p, q, out);
      expect(out.gapM).toBeCloseTo(Math.min(...gaps), 9);
      expect(out.i).toBeLessThan(5);
      leastGapSameTime(emptyRoom(0), q, out);
      expect(out).toEqual({ gapM: Infinity, i: -1 });
    }
  });
  test("a figure that is missing is no gap, and is not lost among others", () => {
    const rnd = numbers(5);
    const [a, b] = [random(rnd, 6, 0), random(rnd, 6, 90)];
    for (const at of [0, 3, 5]) {
      const torn = { ...a, x: a.x.slice() };
      torn.x[at] = NaN;
      const out = noGap();
      leastGapSameTime(torn, b, out);
      expect([out.gapM, out.i]).toEqual([NaN, at]);
    }
  });
});
