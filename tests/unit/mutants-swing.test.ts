import { describe, expect, test } from "vitest";
import { planeAt, positionOf, toPlane } from "../../src/geo/plane.js";
import {
  swingClearance,
  swingEnvelope,
  swingGap,
  twoAnchorEnvelope,
  type AnchoredVessel,
  type SwingMoment,
} from "../../src/swing/index.js";
import { anchor, lie, plane, T0 } from "../swingScene.js";
import { sectorRadii } from "../../src/swing/sweep.js";

// What room and clearances must do by their own definition, worked out by hand: asked for where a small change of
// the code would go unnoticed by the other tests.

const RAD = Math.PI / 180;
const vessel = { lengthM: 12, beamM: 4 };
const lonLat = ([x, y]: readonly [number, number]) => {
  const p = positionOf(plane, x, y);
  return [p.lonDeg, p.latDeg];
};
type Corner = readonly [eastM: number, northM: number];
const polygon = (...corners: Corner[]) => ({
  type: "Polygon" as const,
  coordinates: [[...corners, corners[0]!].map(lonLat)],
});
const box = (x0: number, y0: number, x1: number, y1: number) =>
  polygon([x0, y0], [x1, y0], [x1, y1], [x0, y1]);
const line = (...corners: Corner[]) => ({
  type: "LineString" as const,
  coordinates: corners.map(lonLat),
});
const point = (x: number, y: number) => ({ type: "Point" as const, coordinates: lonLat([x, y]) });
const deep = { id: "deep", geometry: box(-300, -300, 300, 300), leastDepthM: 5 };
const none = {
  shore: [],
  hazards: [],
  depthAreas: [deep],
  restricted: [],
  depthNeededM: 2.5,
  tideHeightM: 0.5,
};
const still = swingEnvelope({ anchor, vessel, moments: [lie(0, 90, 30)] });

describe("gap of two far apart near the pole", () => {
  // The neighbour lies one degree of longitude to the east, where north has turned by nearly a degree.
  const place = { latDeg: 80, lonDeg: 20 };
  const other = { latDeg: 80, lonDeg: 21 };
  const at = (a: typeof place, pull: number, more: Partial<SwingMoment> = {}): AnchoredVessel => ({
    anchor: a,
    vessel: { lengthM: 0, beamM: 0 },
    moments: [lie(0, pull, 2000, more)],
  });
  /** A place by metres east and north of the vessel's own anchor, on the plane of the first. */
  const onFirst = (a: typeof place, eastM: number, northM: number) => {
    const p = positionOf(planeAt(a), eastM, northM);
    const out = new Float64Array(2);
    toPlane(planeAt(place), p.latDeg, p.lonDeg, out, 0);
    return [out[0]!, out[1]!] as const;
  };
  const bow = (a: typeof place, pull: number) =>
    onFirst(a, 2000 * Math.sin(pull * RAD), 2000 * Math.cos(pull * RAD));
  const apart = ([ax, ay]: readonly number[], [bx, by]: readonly number[]) =>
    Math.sqrt((bx! - ax!) * (bx! - ax!) + (by! - ay!) * (by! - ay!));
  test("the neighbour's bearings are those of her own anchor", () => {
    for (const pull of [0, 60, 180, 270]) {
      const between = apart(bow(place, pull), bow(other, pull));
      const gap = swingGap(at(place, pull), at(other, pull)).leastGapM;
      expect(Math.abs(gap - between)).toBeLessThan(0.05);
    }
  });
  test("and so is where she heads", () => {
    // 200 m of hull: laid by the other's north its far end would lie 3 m off.
    const { leastGapM } = swingGap(at(place, 180), {
      anchor: other,
      vessel: { lengthM: 200, beamM: 0 },
      moments: [lie(0, 0, 0, { headingDeg: 0 })],
    });
    const stern = apart(bow(place, 180), onFirst(other, 0, -200));
    expect(stern).toBeLessThan(apart(bow(place, 180), onFirst(other, 0, 0)) - 5);
    expect(Math.abs(leastGapM - stern)).toBeLessThan(0.05);
  });
  test("a heading that is not known is the worst of all, on either vessel", () => {
    const long = { vessel: { lengthM: 50, beamM: 4 } };
    const gap = (headingDeg: number | null) =>
      swingGap(at(place, 0), { ...at(other, 0, { headingDeg }), ...long }).leastGapM;
    const unknown = gap(null);
    for (let headingDeg = 0; headingDeg < 360; headingDeg += 10)
      expect(unknown).toBeLessThan(gap(headingDeg) + 1e-6);
  });
});

describe("room on the way between", () => {
  test("no less than the farthest of any sheer, half-way between the steps followed", () => {
    const room = swingEnvelope({
      anchor,
      vessel: { lengthM: 12, beamM: 0 },
      moments: [lie(0, 90, 30, { sheerDeg: 4, yawDeg: 0 })],
    });
    // Straight out, in the middle of the sheer, is no place that the three steps of it stop at.
    expect(room.radiusByMomentM[0]).toBeGreaterThanOrEqual(42);
    expect(room.radiusByMomentM[0]).toBeLessThan(42.02);
  });
  test("a shoal that only the stern's arc between two moments touches decides from the first of them", () => {
    const moments = [lie(0, 0, 30), lie(1, 80, 30)];
    const room = swingEnvelope({ anchor, vessel: { lengthM: 12, beamM: 0 }, moments });
    // Beyond a line square to 40°, half-way between two of the steps the turn is followed in.
    const shoal = (fromM: number) => {
      const [u, v] = [Math.sin(40 * RAD), Math.cos(40 * RAD)];
      const corner = (along: number, side: number): Corner => [
        along * u + side * v,
        along * v - side * u,
      ];
      const geometry = polygon(
        corner(fromM, -9),
        corner(fromM + 9, -9),
        corner(fromM + 9, 9),
        corner(fromM, 9),
      );
      const depthAreas = [deep, { id: "shoal", geometry, leastDepthM: 1 }];
      return swingClearance(room, { ...none, depthAreas }).depth.moments.map((m) => m.areaId);
    };
    expect(shoal(41.995)).toEqual(["shoal", "deep"]);
    expect(shoal(42.05)).toEqual(["deep", "deep"]);
  });
  test("a corner on the line between two sectors counts in both", () => {
    // Three corners in eastern sectors and one due north, in order and in the reverse of it.
    const ring = [0, 10, 5, 7, 5, 12];
    for (const one of [ring, [5, 12, 5, 7, 0, 10]]) {
      expect([...sectorRadii(one, 4)]).toEqual([13, 0, 0, 10]);
      const west = one.map((v, i) => (i % 2 === 0 ? -v : v));
      expect([...sectorRadii(west, 4)]).toEqual([10, 0, 0, 13]);
    }
  });
  test("sectors of a ring are the same whichever way round its corners are told", () => {
    const bar = [20, 1, -20, 1, -20, -1, 20, -1];
    const back = [20, -1, -20, -1, -20, 1, 20, 1];
    const there = sectorRadii(bar, 360);
    sectorRadii(back, 360).forEach((r, i) => {
      expect(r).toBeCloseTo(there[i]!, 9);
    });
  });
});

describe("two anchors", () => {
  test("rodes that reach each other to the very metre are fast", () => {
    const leg = { anchor, reachM: 0 };
    const room = twoAnchorEnvelope({ kind: "vee", first: leg, second: leg, vessel });
    expect(room).toMatchObject({ reaches: true, slackM: 0 });
    expect(room.radiusM).toBeGreaterThanOrEqual(room.radiusAloneM);
  });
});

describe("depth under her", () => {
  test("no moments: all of the room, at no instant", () => {
    const room = swingEnvelope({ anchor, vessel, moments: [], reachM: 30 });
    const west = { id: "west", geometry: box(-42, -5, -38, 5), leastDepthM: 1 };
    const { depth } = swingClearance(room, { ...none, depthAreas: [deep, west] });
    expect(depth).toEqual({
      known: true,
      leastDepthM: 1.5,
      atMs: null,
      moments: [{ timeMs: null, leastChartedDepthM: 1, leastDepthM: 1.5, areaId: "west" }],
    });
  });
  test("the least known depth stays the least where a later moment's is not known", () => {
    const room = swingEnvelope({
      anchor,
      vessel,
      moments: [
        lie(0, 90, 30, { tideHeightM: 1 }),
        lie(1, 90, 30, { tideHeightM: 2 }),
        lie(2, 90, 30),
      ],
    });
    const { depth } = swingClearance(room, { ...none, tideHeightM: undefined });
    expect(depth.moments.map((m) => m.leastDepthM)).toEqual([6, null, null]);
    expect(depth).toMatchObject({ known: false, leastDepthM: 6, atMs: T0 });
  });
  test("charted at one moment, not at the next: said", () => {
    const room = swingEnvelope({ anchor, vessel, moments: [lie(0, 90, 30), lie(1, 0, 30)] });
    const east = { ...deep, geometry: box(-300, -300, 300, 20) };
    const later = swingEnvelope({ anchor, vessel, moments: [lie(0, 0, 30), lie(1, 90, 30)] });
    for (const [r, known] of [
      [room, [false, false]],
      [later, [false, true]],
    ] as const) {
      const got = swingClearance(r, { ...none, depthAreas: [east] });
      expect(got.depth.moments.map((m) => m.leastChartedDepthM !== null)).toEqual(known);
      expect(got.reasons.map((x) => x.code)).toEqual(["depth.notCharted"]);
    }
  });
  test("a line of soundings decides where it crosses her, but charts no ground", () => {
    const soundings = { id: "line", geometry: line([35, -50], [35, 50]), leastDepthM: 3 };
    const under = (...depthAreas: object[]) =>
      swingClearance(still, { ...none, depthAreas } as never).depth;
    expect(under(soundings, deep)).toMatchObject({ known: true, leastDepthM: 3.5 });
    expect(under(soundings)).toMatchObject({ known: false, leastDepthM: null });
  });
});

describe("things about her", () => {
  test("the nearest water too shoal, past deeper water that is nearer", () => {
    const near = { id: "near", geometry: box(50, -9, 60, 9), leastDepthM: 3 };
    const far = { id: "far", geometry: box(70, -9, 80, 9), leastDepthM: 1 };
    const shoal = (depthAreas: object[], more: object = {}) =>
      swingClearance(still, { ...none, depthAreas, ...more } as never).shoal;
    expect(shoal([deep, near, far])?.id).toBe("far");
    expect(shoal([deep, near, far])?.distanceM).toBeCloseTo(28, 3);
    expect(shoal([deep, near])).toBeNull();
  });
  test("without a tide or a depth needed no spare depth and no shoal water is told", () => {
    const hazards = [{ id: "r", kind: "rock", geometry: point(36, 0), leastDepthM: 9 }];
    for (const left of ["tideHeightM", "depthNeededM"]) {
      const got = swingClearance(still, { ...none, hazards, [left]: undefined });
      expect(got.hazardsMet[0]).toMatchObject({ spareDepthM: null });
      expect(got.shoal).toBeNull();
      expect(got.reasons.find((r) => r.code === "hazard.underHull")!.severity).toBe("stop");
    }
  });
  test("of a thing of ground and points the nearer part counts, in whichever order", () => {
    const parts = (x: number, west: number) => ({
      type: "GeometryCollection" as const,
      geometries: [box(x, -5, x + 5, 5), point(west, 0)],
    });
    const at = (x: number, p: number) =>
      swingClearance(still, { ...none, shore: [{ id: "s", geometry: parts(x, p) }] }).shore!
        .distanceM;
    expect(at(60, 90)).toBeCloseTo(18, 3);
    expect(at(90, 60)).toBeCloseTo(18, 3);
  });
  test("of two areas she lies in the one given first is told", () => {
    const about = (id: string) => ({ id, kind: "cables", geometry: box(-200, -200, 200, 200) });
    const { restricted } = swingClearance(still, { ...none, restricted: [about("a"), about("b")] });
    expect(restricted).toMatchObject({ id: "a", distanceM: 0 });
  });
});
