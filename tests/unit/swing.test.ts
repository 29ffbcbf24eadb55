import * as turf from "@turf/turf";
import polygonClipping from "polygon-clipping";
import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import { planeAt, positionOf, toPlane } from "../../src/geo/plane.js";
import { pointInRing, pointToRing, ringArea, ringToRing } from "../../src/geo/polygon.js";
import type { Position } from "../../src/core/schema.js";
import {
  type AnchoredVessel,
  neighbourGuess,
  swingCircle,
  swingClearance,
  swingEnvelope,
  swingGap,
  type SwingMoment,
  twoAnchorEnvelope,
} from "../../src/swing/index.js";

const RAD = Math.PI / 180;
const T0 = Date.UTC(2026, 5, 1, 18);
const HOUR = 3_600_000;
const PLACES: Position[] = [
  { latDeg: 50, lonDeg: -4 },
  { latDeg: -17, lonDeg: 179.9999 },
  { latDeg: 80, lonDeg: -179.9999 },
];

/** Reproducible numbers in [0, 1). */
function numbers(seed: number): () => number {
  let s = seed;
  return () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 4294967296;
  };
}

/** Corners of the rectangle about a hull, worked out on its own: bow at the reach, hull astern of it. */
function outline(m: SwingMoment, lengthM: number, beamM: number): [number, number][] {
  const [p, h] = [m.pullTowardsDeg! * RAD, m.headingDeg! * RAD];
  const bow = [m.reachM * Math.sin(p), m.reachM * Math.cos(p)] as const;
  const at = (aft: number, side: number): [number, number] => [
    bow[0] - aft * Math.sin(h) + side * Math.cos(h),
    bow[1] - aft * Math.cos(h) - side * Math.sin(h),
  ];
  const b = beamM / 2;
  return [at(0, b), at(0, -b), at(lengthM, -b), at(lengthM, b)];
}

/** An object without one of its keys. */
const without = <T extends object>(from: T, key: keyof T): Partial<T> =>
  Object.fromEntries(Object.entries(from).filter(([k]) => k !== key)) as Partial<T>;

/** A polygon of positions as metres about a place. */
function flat(place: Position, polygon: readonly Position[]): number[] {
  const plane = planeAt(place);
  const out = new Float64Array(2 * polygon.length);
  polygon.forEach((p, i) => {
    toPlane(plane, p.latDeg, p.lonDeg, out, 2 * i);
  });
  return [...out];
}

const someMoments = (seed: number, count: number, spread = 360): SwingMoment[] => {
  const rnd = numbers(seed);
  return Array.from({ length: count }, (_, i) => {
    const pullTowardsDeg = (40 + spread * rnd()) % 360;
    return {
      timeMs: T0 + i * HOUR,
      reachM: 20 + 20 * rnd(),
      pullTowardsDeg,
      headingDeg: (pullTowardsDeg + 150 + 60 * rnd()) % 360,
    };
  });
};

describe("envelope", () => {
  const vessel = { lengthM: 12, beamM: 4 };
  test("of the moments alone is the hull of the hulls: turf, polygon-clipping", () => {
    for (const anchor of PLACES)
      for (const count of [1, 2, 25, 500]) {
        const moments = someMoments(count, count);
        const room = swingEnvelope({
          anchor,
          vessel,
          moments,
          between: "moments",
        });
        const ring = flat(anchor, room.polygon);
        const corners = moments.flatMap((m) => outline(m, 12, 4));
        const ref = turf.convex(turf.points(corners))!.geometry.coordinates[0]! as [
          number,
          number,
        ][];
        expect(ringToRing(ring, ref.flat())).toBe(0);
        for (const [x, y] of ref) expect(pointToRing(ring, x, y)).toBeLessThan(1e-6);
        expect(room.areaM2).toBeCloseTo(Math.abs(ringArea(ref.flat())), 6);
        const union = polygonClipping.union(
          ...(moments.slice(0, 40).map((m) => [outline(m, 12, 4)]) as [
            [number, number][][],
            ...[number, number][][][],
          ]),
        );
        const own = [
          Array.from(
            { length: ring.length / 2 },
            (_, i) =>
              [ring[2 * i]! * (1 + 1e-9), ring[2 * i + 1]! * (1 + 1e-9)] as [number, number],
          ),
        ];
        const left = polygonClipping.difference(union, own);
        expect(left.reduce((sum, p) => sum + Math.abs(ringArea(p[0]!.flat())), 0)).toBeLessThan(
          1e-5,
        );
        expect(room.borderM).toBe(0);
      }
  });
  test("sectors: the farthest of the polygon within each wedge, polygon-clipping", () => {
    const anchor = PLACES[0]!;
    const room = swingEnvelope({
      anchor,
      vessel,
      moments: someMoments(5, 6, 100),
      between: "moments",
      sectors: 12,
    });
    const ring = flat(anchor, room.polygon);
    const own = [
      Array.from(
        { length: ring.length / 2 },
        (_, i) => [ring[2 * i]!, ring[2 * i + 1]!] as [number, number],
      ),
    ];
    expect(room.sectors.some((s) => s.radiusM === 0)).toBe(true);
    for (const s of room.sectors) {
      const ray = (deg: number): [number, number] => [
        500 * Math.sin(deg * RAD),
        500 * Math.cos(deg * RAD),
      ];
      const wedge: [number, number][][] = [
        [[0, 0], ray(s.fromDeg), ray((s.fromDeg + s.toDeg) / 2), ray(s.toDeg)],
      ];
      // Rounded to a tenth of a micrometre: the library trips over the last digits.
      const grid = (p: [number, number][][]) =>
        p.map((r) =>
          r.map(
            ([x, y]) => [Math.round(x * 1e7) / 1e7, Math.round(y * 1e7) / 1e7] as [number, number],
          ),
        );
      const part = polygonClipping.intersection(grid(own), grid(wedge));
      const far = Math.max(0, ...part.flat(2).map(([x, y]) => Math.hypot(x, y)));
      expect(s.radiusM).toBeCloseTo(far, 6);
    }
    expect(Math.max(...room.sectors.map((s) => s.radiusM))).toBeCloseTo(room.radiusM, 9);
  });
  test("holds every hull on the way between, whichever way she turns", () => {
    const anchor = PLACES[2]!;
    for (const [from, to] of [
      [10, 95],
      [10, 150],
      [350, 20],
      [0, 180],
    ] as const) {
      const lie = (timeMs: number, deg: number, reachM: number) => ({
        timeMs,
        reachM,
        pullTowardsDeg: deg,
        headingDeg: (deg + 180) % 360,
      });
      const room = swingEnvelope({
        anchor,
        vessel,
        moments: [lie(T0, from, 30), lie(T0 + HOUR, to, 36)],
      });
      const ring = flat(anchor, room.polygon);
      const turn = ((to - from + 540) % 360) - 180;
      const ways = Math.abs(turn) > 90 ? [turn, turn - Math.sign(turn) * 360] : [turn];
      for (const way of ways)
        for (let k = 0; k <= 200; k++) {
          const deg = (from + (way * k) / 200 + 720) % 360;
          for (const [x, y] of outline(lie(0, deg, 30 + (6 * k) / 200), 12, 4))
            expect(pointInRing(ring, x, y) || pointToRing(ring, x, y) < 1e-6).toBe(true);
        }
    }
  });
  test("sheer, yaw, anchor error and what is not known widen it, and hold every case", () => {
    const anchor = PLACES[1]!;
    const moment = {
      timeMs: T0,
      reachM: 30,
      pullTowardsDeg: 60,
      headingDeg: 230,
      sheerDeg: 20,
      yawDeg: 35,
    };
    const room = swingEnvelope({
      anchor,
      vessel,
      anchorErrorM: 6,
      moments: [moment],
    });
    const ring = flat(anchor, room.polygon);
    const rnd = numbers(9);
    for (let i = 0; i < 3000; i++) {
      const turn = rnd() * 7;
      for (const [x, y] of outline(
        {
          ...moment,
          pullTowardsDeg: 60 + 40 * rnd() - 20,
          headingDeg: 230 + 70 * rnd() - 35,
        },
        12,
        4,
      ))
        expect(pointInRing(ring, x + 6 * Math.sin(turn), y + 6 * Math.cos(turn))).toBe(true);
    }
    const round = (m: Partial<SwingMoment>) =>
      swingEnvelope({
        anchor,
        vessel,
        moments: [{ ...moment, sheerDeg: 0, yawDeg: 0, ...m }],
      });
    expect(round({ pullTowardsDeg: null }).radiusM).toBeGreaterThanOrEqual(30 + Math.hypot(12, 2));
    expect(round({ headingDeg: null }).areaM2).toBeGreaterThan(Math.PI * 148);
    expect(
      swingEnvelope({ anchor, vessel, moments: [], reachM: 30 }).radiusM,
    ).toBeGreaterThanOrEqual(30 + Math.hypot(12, 2));
  });
  test("grows as the water falls: the same rode in less water", () => {
    // Common practice, no source; the reach is that of a taut rode, sqrt(length² - height²).
    const moments = [7, 5, 3].map((depth, i) => ({
      timeMs: T0 + i * HOUR,
      reachM: Math.sqrt(28 * 28 - (depth + 1) ** 2),
      pullTowardsDeg: 90,
      headingDeg: 270,
    }));
    const { radiusByMomentM } = swingEnvelope({
      anchor: PLACES[0]!,
      vessel,
      moments,
    });
    expect(radiusByMomentM[1]).toBeGreaterThan(radiusByMomentM[0]!);
    expect(radiusByMomentM[2]).toBeGreaterThan(radiusByMomentM[1]!);
  });
  test("aerial: where the receiver's track must keep within", () => {
    const moments = [{ timeMs: T0, reachM: 30, pullTowardsDeg: 90, headingDeg: 270 }];
    const room = swingEnvelope({
      anchor: PLACES[0]!,
      vessel: { ...vessel, bowToAntenna: { aftM: 10, starboardM: 1 } },
      moments,
    });
    expect(room.antennaRadiusM).toBeCloseTo(Math.hypot(40, 1), 9);
    expect(
      swingCircle({
        anchor: PLACES[0]!,
        reachM: 30,
        lengthM: 12,
        bowToAntenna: { aftM: 10 },
      }).antennaRadiusM,
    ).toBe(40);
  });
  test("refuses what would hide a fault", () => {
    const moments = someMoments(1, 2);
    const anchor = PLACES[0]!;
    expect(() => swingEnvelope({ anchor, vessel, moments: moments.slice().reverse() })).toThrow(
      /order of time/,
    );
    expect(() => swingEnvelope({ anchor, vessel, moments: [] })).toThrow(/moments or reachM/);
    expect(() =>
      swingEnvelope({
        anchor,
        vessel: { ...vessel, sternOverhang: 3 },
        moments,
      }),
    ).toThrow(InputError);
    expect(() =>
      swingEnvelope({
        anchor,
        vessel,
        moments: [{ ...moments[0]!, reachM: NaN }],
      }),
    ).toThrow(InputError);
  });
});

describe("gap", () => {
  const pair = (
    seed: number,
    apart: number,
    place: Position,
    count = 25,
  ): [AnchoredVessel, AnchoredVessel] => {
    const b = positionOf(planeAt(place), apart * Math.cos(seed), apart * Math.sin(seed));
    return [
      {
        anchor: place,
        vessel: { lengthM: 12, beamM: 4 },
        moments: someMoments(seed, count),
      },
      {
        anchor: b,
        vessel: { lengthM: 9, beamM: 3 },
        moments: someMoments(seed + 99, count),
      },
    ];
  };
  test("at the same moment: each hull laid on the ground on its own, polygons against polygons", () => {
    let met = 0;
    for (const place of PLACES)
      for (let seed = 1; seed < 12; seed++) {
        const [a, b] = pair(seed, 40 + 8 * seed, place);
        const got = swingGap(a, b);
        const plane = planeAt(place);
        let least = Infinity;
        let atMs = 0;
        a.moments.forEach((m, i) => {
          const ra = outline(m, 12, 4).flat();
          // The neighbour's corners as positions about her own anchor, then on the plane of the first.
          const own = planeAt(b.anchor);
          const rb = flat(
            place,
            outline(b.moments[i]!, 9, 3).map(([x, y]) => positionOf(own, x, y)),
          );
          const d = ringToRing(ra, rb);
          expect(got.sameTime.moments[i]!.gapM).toBeCloseTo(d, 6);
          if (d < least) [least, atMs] = [d, m.timeMs];
        });
        if (least === 0) met++;
        expect(plane.latDeg).toBe(place.latDeg);
        expect(got.leastGapM).toBeCloseTo(least, 6);
        expect(got.atMs).toBe(atMs);
        expect(got.gapAtWorstM).toBeLessThanOrEqual(got.leastGapM);
        const back = swingGap(b, a);
        expect(back.leastGapM).toBeCloseTo(got.leastGapM, 5);
      }
    expect(met).toBeGreaterThan(2);
  });
  test("two that lie alike keep apart though their circles cross", () => {
    const lie = [0, 90, 180, 270].map((deg, i) => ({
      timeMs: T0 + i * HOUR,
      reachM: 30,
      pullTowardsDeg: deg,
      headingDeg: (deg + 180) % 360,
    }));
    const vessel = { lengthM: 12, beamM: 4 };
    const at = (lonDeg: number): AnchoredVessel => ({
      anchor: { latDeg: 0, lonDeg },
      vessel,
      moments: lie,
    });
    const gap = swingGap(at(0), at(0.0005));
    expect(gap.leastGapM).toBeCloseTo(111319.49079327358 * 0.0005 - 12, 3);
    expect(gap.gapAtWorstM).toBe(0);
    expect(gap.anyTime.overlaps).toBe(true);
  });
  test("what is not known of one counts at its worst", () => {
    const [a, b] = pair(3, 150, PLACES[0]!);
    const known = swingGap(a, b);
    const half = swingGap(a, { ...b, moments: b.moments.slice(0, 5) });
    expect(half.sameTime.atWorstMoments).toBe(20);
    expect(half.leastGapM).toBeLessThanOrEqual(known.leastGapM);
    const none = swingGap(a, { ...b, moments: [], reachM: 40 });
    expect(none.leastGapM).toBeLessThanOrEqual(half.leastGapM);
    const lost = swingGap(a, {
      ...b,
      moments: b.moments.map((m) => ({ ...m, pullTowardsDeg: null })),
    });
    expect(lost.leastGapM).toBeLessThanOrEqual(known.leastGapM);
    expect(lost.sameTime.atWorstMoments).toBe(25);
    const off = swingGap({ ...a, anchorErrorM: 7 }, b);
    expect(off.leastGapM).toBeCloseTo(known.leastGapM - 7, 9);
  });
  test("two whose middles fall on one spot at a later moment", () => {
    const at = (reachM: number, i: number) => ({
      timeMs: T0 + i * HOUR,
      reachM,
      pullTowardsDeg: null,
      headingDeg: null,
    });
    const lone = (lonDeg: number, reaches: number[]): AnchoredVessel => ({
      anchor: { latDeg: 0, lonDeg },
      vessel: { lengthM: 3, beamM: 1 },
      moments: reaches.map(at),
    });
    const gap = swingGap(lone(0, [5, 5]), {
      ...lone(0, [5, 5]),
      moments: [{ timeMs: T0, reachM: 60, pullTowardsDeg: 0, headingDeg: 0 }, at(5, 1)],
    });
    expect(gap.sameTime.moments[0]!.gapM).toBeGreaterThan(40);
    expect(gap.leastGapM).toBe(0);
    expect(gap.atMs).toBe(T0 + HOUR);
  });
  test("no moment at all: the rooms alone", () => {
    const lone = (lonDeg: number) => ({
      anchor: { latDeg: 0, lonDeg },
      vessel: { lengthM: 10, beamM: 0 },
      moments: [],
      reachM: 30,
    });
    const gap = swingGap(lone(0), lone(0.001));
    expect(gap.atMs).toBeNull();
    expect(gap.sameTime.leastGapM).toBeNull();
    expect(gap.leastGapM).toBeLessThan(111.3195 - 80 + 1e-3);
    expect(gap.leastGapM).toBeGreaterThan(111.3195 - 80 - 0.1);
  });
});

describe("neighbours of whom little is known", () => {
  const place = PLACES[0]!;
  test("the less is known, the more room she takes", () => {
    const base = { kind: "motorBoat", lengthM: 9, position: place } as const;
    const rooms = [
      neighbourGuess({
        ...base,
        make: "chain",
        lengthOutM: 25,
        positionIs: "anchor",
        positionErrorM: 2,
      }),
      neighbourGuess({
        ...base,
        make: "chain",
        depthM: 6,
        positionIs: "anchor",
        positionErrorM: 2,
      }),
      neighbourGuess({
        ...base,
        make: "chain",
        depthM: 6,
        positionIs: "anchor",
      }),
      neighbourGuess({ ...base, make: "chain", depthM: 6 }),
      neighbourGuess({ ...base, depthM: 6 }),
      neighbourGuess(base),
    ].map((g) => g.worst.radiusM);
    expect([...rooms].sort((a, b) => a - b)).toEqual(rooms);
    expect(new Set(rooms).size).toBe(rooms.length);
  });
  test("her anchor found from where she is seen holds the truth for any reach and heading", () => {
    const rnd = numbers(4);
    const plane = planeAt(place);
    for (let i = 0; i < 200; i++) {
      const longest = 40;
      const reach = longest * (0.25 + 0.75 * rnd());
      const [seen, later] = [360 * rnd(), 360 * rnd()];
      const heading = 360 * rnd();
      // Her middle is half a length abaft the bow.
      const middle = positionOf(
        plane,
        reach * Math.sin(seen * RAD) - 4.5 * Math.sin(heading * RAD),
        reach * Math.cos(seen * RAD) - 4.5 * Math.cos(heading * RAD),
      );
      const lies = [{ timeMs: T0, pullTowardsDeg: later, headingDeg: (later + 180) % 360 }];
      for (const seenPullTowardsDeg of [seen, undefined]) {
        const { neighbour, worst } = neighbourGuess({
          kind: "yacht",
          lengthM: 9,
          position: middle,
          positionErrorM: 0,
          lengthOutM: longest,
          lies,
          ...(seenPullTowardsDeg === undefined ? {} : { seenPullTowardsDeg }),
        });
        const room = flat(place, swingEnvelope(neighbour).polygon);
        const disc = flat(place, [worst.centre]);
        for (const [x, y] of outline(
          {
            timeMs: T0,
            reachM: reach,
            pullTowardsDeg: later,
            headingDeg: later + 180,
          },
          9,
          3,
        )) {
          expect(pointInRing(room, x, y)).toBe(true);
          expect(Math.hypot(x - disc[0]!, y - disc[1]!)).toBeLessThan(worst.radiusM + 1e-6);
        }
      }
    }
  });
});

describe("two anchors", () => {
  const place = PLACES[1]!;
  const plane = planeAt(place);
  test("holds every place both rodes allow, and says when they fall short", () => {
    const rnd = numbers(6);
    for (const kind of ["vee", "openMoor", "foreAndAft"] as const) {
      const second = {
        anchor: positionOf(plane, 50, 20),
        reachM: 34,
        anchorErrorM: 1,
      };
      const room = twoAnchorEnvelope({
        kind,
        first: { anchor: place, reachM: 30 },
        second,
        vessel: { lengthM: 12, beamM: 4, sternOverhangM: 2 },
      });
      const ring = flat(place, room.polygon!);
      let tried = 0;
      for (let i = 0; i < 40_000; i++) {
        const bow = [70 * rnd() - 35, 70 * rnd() - 35] as const;
        const h = 7 * rnd();
        const stern = [bow[0] - 12 * Math.sin(h), bow[1] - 12 * Math.cos(h)] as const;
        const [x, y] = kind === "foreAndAft" ? stern : bow;
        if (Math.hypot(...bow) > 30 || Math.hypot(x - 50, y - 20) > 34) continue;
        tried++;
        const m = {
          timeMs: 0,
          reachM: Math.hypot(...bow),
          pullTowardsDeg: Math.atan2(...bow) / RAD,
          headingDeg: h / RAD,
        };
        for (const [cx, cy] of outline(m, 14, 4)) expect(pointInRing(ring, cx, cy)).toBe(true);
      }
      expect(tried).toBeGreaterThan(100);
      expect(room.radiusM!).toBeLessThanOrEqual(room.radiusAloneM * 1.02);
    }
    const short = twoAnchorEnvelope({
      kind: "vee",
      first: { anchor: place, reachM: 20 },
      second: { anchor: positionOf(plane, 50, 0), reachM: 20 },
      vessel: { lengthM: 12 },
    });
    expect(short).toMatchObject({ reaches: false, polygon: null });
    expect(short.slackM).toBeCloseTo(-10, 4);
  });
});

describe("clearance", () => {
  const anchor = { latDeg: 80, lonDeg: 179.9999 };
  const plane = planeAt(anchor);
  const lonLat = ([x, y]: readonly [number, number]) => {
    const p = positionOf(plane, x, y);
    return [p.lonDeg, p.latDeg];
  };
  const polygon = (...rings: [number, number][][]) => ({
    type: "Polygon" as const,
    coordinates: rings.map((r) => [...r, r[0]!].map(lonLat)),
  });
  const box = (x0: number, y0: number, x1: number, y1: number): [number, number][] => [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
  const point = (x: number, y: number) => ({
    type: "Point" as const,
    coordinates: lonLat([x, y]),
  });
  const vessel = { lengthM: 12, beamM: 4 };
  const lie = (i: number, deg: number, reachM: number, tideHeightM: number) => ({
    timeMs: T0 + i * HOUR,
    reachM,
    pullTowardsDeg: deg,
    headingDeg: (deg + 180) % 360,
    tideHeightM,
  });
  const wide = {
    id: "deep",
    geometry: polygon(box(-300, -300, 300, 300)),
    leastDepthM: 5,
  };
  const none = {
    shore: [],
    hazards: [],
    depthAreas: [wide],
    restricted: [],
    depthNeededM: 2.5,
    tideHeightM: 0.5,
  };

  test("a circle: distances are those from the middle less the radius", () => {
    const circle = swingCircle({ anchor, reachM: 30, lengthM: 10 });
    const got = swingClearance(circle, {
      ...none,
      chartErrorM: 3,
      shore: [
        {
          id: "s",
          geometry: {
            type: "LineString",
            coordinates: [
              [-100, 70],
              [100, 70],
            ].map((p) => lonLat(p as [number, number])),
          },
        },
      ],
      hazards: [{ id: "r", kind: "rock", geometry: point(60, 80), leastDepthM: null }],
    });
    // A chart line is straight in longitude and latitude; ends are laid on the plane, so it is straight there: 70 m off within 1e-6 m.
    expect(got.shore!.distanceM).toBeCloseTo(27, 6);
    expect(got.hazard!.distanceM).toBeCloseTo(57, 6);
    expect(got.hazard!.towardsDeg).toBeCloseTo(Math.atan2(60, 80) / RAD, 4);
    expect(got.verdict).toBe("clear");
  });
  test("a room on the far side of a shore is in it, as she would have come across it", () => {
    const room = swingEnvelope({
      anchor,
      vessel,
      moments: [lie(0, 90, 40, 0.5), lie(1, 91, 40, 0.5)],
    });
    const shoreAt = (x: number) =>
      swingClearance(room, {
        ...none,
        shore: [
          {
            id: "jetty",
            geometry: { type: "LineString", coordinates: [lonLat([x, -200]), lonLat([x, 200])] },
          },
        ],
      });
    for (const x of [15, 35])
      expect(shoreAt(x)).toMatchObject({
        verdict: "notClear",
        shore: { id: "jetty", distanceM: 0 },
        reasons: [{ code: "shore.inRoom", severity: "stop" }],
      });
    // Astern of her and behind the anchor it is as far off as it is.
    expect(shoreAt(60).shore!.distanceM).toBeCloseTo(8, 1);
    expect(shoreAt(-20)).toMatchObject({ verdict: "clear" });
    expect(shoreAt(-20).shore!.distanceM).toBeGreaterThan(55);
  });
  test("the tide of the moment: deep enough where she is at low water, too shoal where she was at high", () => {
    const shoal = {
      id: "shoal",
      geometry: polygon(box(20, -50, 300, 50)),
      leastDepthM: 1,
    };
    const west = {
      id: "west",
      geometry: polygon(box(-300, -300, 20, 300), box(-200, -200, -150, -150)),
      leastDepthM: 5,
    };
    const rest = [
      { id: "n", geometry: polygon(box(20, 50, 300, 300)), leastDepthM: 5 },
      { id: "s", geometry: polygon(box(20, -300, 300, -50)), leastDepthM: 5 },
    ];
    const depthAreas = [shoal, west, ...rest];
    const moments = [
      lie(0, 90, 30, 3),
      lie(1, 120, 30, 2),
      lie(2, 200, 35, 0),
      lie(3, 270, 35, -0.2),
    ];
    const room = swingEnvelope({ anchor, vessel, moments });
    const got = swingClearance(room, {
      ...none,
      depthAreas,
      depthNeededM: 2.5,
    });
    expect(got.lowestTideM).toBe(-0.2);
    expect(got.depth.known).toBe(true);
    // From moment 1 to 2 she leaves the shoal while the tide falls to 0: the lower tide counts.
    expect(got.depth.moments.map((m) => m.leastDepthM)).toEqual([3, 1, 4.8, 4.8]);
    expect(got.depth.leastDepthM).toBe(1);
    expect(got.depth.atMs).toBe(T0 + HOUR);
    expect(got.verdict).toBe("notClear");
    expect(got.shoal!.id).toBe("shoal");
    const there = swingClearance(room, {
      ...none,
      depthAreas,
      depthNeededM: 0.9,
    });
    expect(there.verdict).toBe("clear");
  });
  test("what is missing is never clear", () => {
    const room = swingEnvelope({
      anchor,
      vessel,
      moments: [lie(0, 90, 30, 1)],
    });
    expect(swingClearance(room, none).verdict).toBe("clear");
    for (const key of ["shore", "hazards", "depthAreas", "restricted", "depthNeededM"] as const) {
      expect(swingClearance(room, without(none, key)).verdict).toBe("unknown");
    }
    const partly = {
      ...none,
      depthAreas: [{ ...wide, geometry: polygon(box(-300, -300, 40, 300)) }],
    };
    expect(swingClearance(room, partly).verdict).toBe("unknown");
    const holed = {
      ...none,
      depthAreas: [
        {
          ...wide,
          geometry: polygon(box(-300, -300, 300, 300), box(36, -4, 37, 4)),
        },
      ],
    };
    expect(swingClearance(room, holed).depth.known).toBe(false);
    const blank = {
      ...none,
      depthAreas: [
        wide,
        {
          ...wide,
          id: "u",
          geometry: polygon(box(30, -5, 50, 5)),
          leastDepthM: null,
        },
      ],
    };
    expect(swingClearance(room, blank).depth.known).toBe(false);
    expect(swingClearance(room, blank).verdict).not.toBe("clear");
    const noTide = without(none, "tideHeightM");
    const still = swingEnvelope({
      anchor,
      vessel,
      moments: [{ timeMs: T0, reachM: 30, pullTowardsDeg: 90, headingDeg: 270 }],
    });
    expect(swingClearance(still, noTide).verdict).toBe("unknown");
  });
  test("hazards: under the hull, under the rode, deep enough, out of reach", () => {
    const room = swingEnvelope({
      anchor,
      vessel,
      moments: [lie(0, 90, 30, 1)],
    });
    const hazard = (id: string, x: number, leastDepthM: number | null) => ({
      id,
      kind: "wreck",
      geometry: point(x, 0),
      leastDepthM,
    });
    const got = swingClearance(room, {
      ...none,
      hazards: [
        hazard("hull", 35, null),
        hazard("rode", 15, 20),
        hazard("deep", 36, 9),
        hazard("off", 60, null),
        hazard("behind", -20, 0),
      ],
    });
    expect(got.hazardsMet.map((h) => [h.id, h.underHull, h.spareDepthM])).toEqual([
      ["hull", true, null],
      ["rode", false, 18.5],
      ["deep", true, 7.5],
    ]);
    expect(got.hazard).toMatchObject({ id: "hull", distanceM: 0 });
    expect(got.verdict).toBe("notClear");
    expect(got.reasons.map((r) => r.code)).toEqual([
      "hazard.underHull",
      "hazard.underRode",
      "hazard.underHull",
    ]);
  });
  test("a restricted area she lies wholly inside, and one with a hole round her", () => {
    const room = swingEnvelope({
      anchor,
      vessel,
      moments: [lie(0, 90, 30, 1)],
    });
    const area = (geometry: ReturnType<typeof polygon>) => [
      { id: "c", kind: "cable area", geometry },
    ];
    expect(
      swingClearance(room, {
        ...none,
        restricted: area(polygon(box(-900, -900, 900, 900))),
      }).restricted!.distanceM,
    ).toBe(0);
    const hole = swingClearance(room, {
      ...none,
      restricted: area(polygon(box(-900, -900, 900, 900), box(-100, -100, 100, 100))),
    });
    expect(hole.restricted!.distanceM).toBeCloseTo(58, 6);
    expect(hole.verdict).toBe("clear");
  });
  test("what two polygons of one area share is inside it, the hole of one alone is not", () => {
    const room = swingCircle({ anchor, reachM: 20, lengthM: 10 });
    const [one, other] = [box(-150, -150, 120, 150), box(-120, -150, 150, 150)];
    const hole = box(-60, -60, 60, 60);
    const off = (...areas: [number, number][][][]) => {
      const polygons = areas.map((rings) => polygon(...rings));
      return [
        { type: "MultiPolygon" as const, coordinates: polygons.map((p) => p.coordinates) },
        { type: "GeometryCollection" as const, geometries: polygons },
      ].map(
        (geometry) =>
          swingClearance(room, { ...none, restricted: [{ id: "r", kind: "k", geometry }] })
            .restricted!.distanceM,
      );
    };
    expect(off([one], [other])).toEqual([0, 0]);
    expect(off([one], [one])).toEqual([0, 0]);
    expect(off([one, hole], [other])).toEqual([0, 0]);
    expect(off([one, hole], [other, hole]).map((d) => d.toFixed(3))).toEqual(["30.000", "30.000"]);
  });
  // RFC 7946, 3.1.1: a side is straight in longitude and latitude, so this one runs along a parallel, 40 m off.
  test("a long side along a parallel lies no farther off than the parallel", () => {
    for (const latDeg of [45, -60])
      for (const north of [1, -1]) {
        const middle = { latDeg, lonDeg: 179.9 };
        const near = positionOf(planeAt(middle), 0, 40 * north).latDeg;
        const [west, east] = [179.7, -179.9];
        const line = [
          [west, near],
          [east, near],
        ];
        const far = near + north;
        const area = [[...line, [east, far], [west, far]]];
        const around = {
          ...none,
          shore: [{ id: "s", geometry: { type: "LineString" as const, coordinates: line } }],
          restricted: [
            { id: "r", kind: "k", geometry: { type: "Polygon" as const, coordinates: area } },
          ],
        };
        const room = swingClearance(
          swingCircle({ anchor: middle, reachM: 20, lengthM: 10 }),
          around,
        );
        expect(Math.abs(room.restricted!.distanceM - 10)).toBeLessThan(0.021);
        expect(Math.abs(room.shore!.distanceM - 10)).toBeLessThan(0.021);
      }
  });
});

test("nothing but plain JSON comes out, the same twice, and inputs are left alone", () => {
  const input = {
    anchor: PLACES[0]!,
    vessel: { lengthM: 12 },
    moments: someMoments(2, 30),
  };
  const before = structuredClone(input);
  const room = swingEnvelope(input);
  const around = {
    hazards: [
      {
        id: "r",
        kind: "rock",
        geometry: { type: "Point" as const, coordinates: [-4, 50.0001] },
        leastDepthM: 1,
      },
    ],
  };
  const results = [room, swingGap(input, input), swingClearance(room, around)];
  for (const r of results) expect(JSON.parse(JSON.stringify(r))).toEqual(r);
  expect(swingEnvelope(input)).toEqual(room);
  expect(swingClearance(JSON.parse(JSON.stringify(room)) as typeof room, around)).toEqual(
    results[2],
  );
  expect(input).toEqual(before);
});
