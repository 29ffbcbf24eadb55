import { describe, expect, test } from "vitest";
import {
  emptyRoom,
  gapAt,
  leastGapSameTime,
  noGap,
  rectangleGap,
  type Room,
} from "../../src/swing/kernel.js";
import { cornersOf, sweepBody } from "../../src/swing/sweep.js";

// The least of the gaps, asked for where the ways of telling soon that a moment is farther off are all but wrong.

const RAD = Math.PI / 180;

/** Reproducible numbers in [0, 1). */
function numbers(seed: number): () => number {
  let s = seed;
  return () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 4294967296;
  };
}

interface Lying {
  eastM: number;
  northM: number;
  headDeg: number;
  halfLengthM: number;
  halfBeamM: number;
  marginM: number;
}
/** A room of given moments, filled by hand. */
function roomOf(lies: readonly Lying[]): Room {
  const room = emptyRoom(lies.length);
  lies.forEach((l, i) => {
    const half = Math.sqrt(l.halfLengthM * l.halfLengthM + l.halfBeamM * l.halfBeamM);
    room.x[i] = l.eastM;
    room.y[i] = l.northM;
    room.ux[i] = Math.sin(l.headDeg * RAD);
    room.uy[i] = Math.cos(l.headDeg * RAD);
    room.halfLengthM[i] = l.halfLengthM;
    room.halfBeamM[i] = l.halfBeamM;
    room.marginM[i] = l.marginM;
    room.aroundM[i] = l.marginM + half;
  });
  return room;
}

describe("least gap where two moments are all but alike", () => {
  test("the nearer one is found, by however little it is nearer", () => {
    const rnd = numbers(23);
    const somehow = (): Lying => ({
      eastM: 0,
      northM: 0,
      headDeg: 360 * rnd(),
      halfLengthM: 8 * rnd(),
      halfBeamM: 4 * rnd(),
      marginM: rnd(),
    });
    /** The second so far off in a direction that the gap is as wanted. */
    const off = (a: Lying, b: Lying, towardsDeg: number, gapM: number): Lying => {
      const at = (d: number) => ({
        ...b,
        eastM: d * Math.sin(towardsDeg * RAD),
        northM: d * Math.cos(towardsDeg * RAD),
      });
      let [near, far] = [0, 100];
      for (let k = 0; k < 60; k++) {
        const mid = (near + far) / 2;
        if (gapAt(roomOf([a]), 0, roomOf([at(mid)]), 0) < gapM) near = mid;
        else far = mid;
      }
      return at(far);
    };
    for (let i = 0; i < 400; i++) {
      const [a0, b0, a1, b1] = [somehow(), somehow(), somehow(), somehow()];
      const gapM = 0.1 + 20 * rnd();
      const first = off(a0, b0, 360 * rnd(), gapM + 1e-4);
      const second = off(a1, b1, 360 * rnd(), gapM);
      const out = noGap();
      leastGapSameTime(roomOf([a0, a1]), roomOf([first, second]), out);
      expect(out.i).toBe(1);
      expect(out.gapM).toBeCloseTo(gapM, 9);
    }
  });
  test("points a hair off the meridian or the parallel of each other", () => {
    const at = (eastM: number, northM: number): Lying => ({
      eastM,
      northM,
      headDeg: 0,
      halfLengthM: 0,
      halfBeamM: 0,
      marginM: 1,
    });
    const a = roomOf([at(0, 0), at(0, 0)]);
    for (const turned of [false, true]) {
      const there = (d: number) => (turned ? at(d, 0.01) : at(0.01, d));
      const out = noGap();
      leastGapSameTime(a, roomOf([there(10.03), there(10.01)]), out);
      expect(out.i).toBe(1);
      expect(out.gapM).toBeCloseTo(8.01, 5);
    }
  });
  test("of two alike the first is told", () => {
    const at = (eastM: number): Lying => ({
      eastM,
      northM: 0,
      headDeg: 0,
      halfLengthM: 6,
      halfBeamM: 2,
      marginM: 0,
    });
    const out = noGap();
    leastGapSameTime(roomOf([at(0), at(0)]), roomOf([at(20), at(20)]), out);
    expect(out).toEqual({ gapM: 16, i: 0 });
  });
});

test("a hull broader than long across another: crossed though no corner lies within the other", () => {
  // Two metres long and forty broad, heading east, over one of four by ten heading north, 15 m along.
  for (const along of [0, 15, -15, 21]) {
    expect(rectangleGap(0, along, 0, 1, 2, 5, 1, 0, 1, 20)).toBe(0);
    expect(rectangleGap(0, -along, 1, 0, 1, 20, 0, 1, 2, 5)).toBe(0);
  }
  expect(rectangleGap(0, 23, 0, 1, 2, 5, 1, 0, 1, 20)).toBeCloseTo(1, 12);
});

test("a body without columns of sheer and yaw lies steady", () => {
  const body = cornersOf({ aheadM: 1, asternM: 12, halfBeamM: 2, farthestM: 13 });
  const lie = {
    reachM: Float64Array.of(30),
    pullTowardsDeg: Float64Array.of(40),
    headingDeg: Float64Array.of(215),
  };
  const zero = Float64Array.of(0);
  expect(sweepBody(body, lie, true)).toEqual(
    sweepBody(body, { ...lie, sheerDeg: zero, yawDeg: zero }, true),
  );
  const sheering = { ...lie, sheerDeg: Float64Array.of(10) };
  expect(sweepBody(body, sheering, true)).toEqual(
    sweepBody(body, { ...sheering, yawDeg: Float64Array.of(10) }, true),
  );
});
