import { describe, expect, test } from "vitest";
import { positionOf, toPlane } from "../../src/geo/plane.js";
import { pointInRing, pointToRing } from "../../src/geo/polygon.js";
import type { Position } from "../../src/core/schema.js";
import {
  neighbourGuess,
  swingCircle,
  swingClearance,
  swingEnvelope,
  swingGap,
  twoAnchorEnvelope,
  type AnchoredVessel,
  type SwingMoment,
} from "../../src/swing/index.js";
import { anchor, HOUR, lie, plane, T0 } from "../swingScene.js";
import { farthestFrom, hullWithBorder, sectorRadii, sweepBody } from "../../src/swing/sweep.js";

const RAD = Math.PI / 180;

function flat(polygon: readonly Position[]): number[] {
  const out = new Float64Array(2 * polygon.length);
  polygon.forEach((p, i) => {
    toPlane(plane, p.latDeg, p.lonDeg, out, 2 * i);
  });
  return [...out];
}
/** A point fixed to a hull, so far ahead of the bow and to starboard, as she lies. */
const spot = (reach: number, pull: number, head: number, ahead: number, starboard: number) =>
  [
    reach * Math.sin(pull * RAD) + ahead * Math.sin(head * RAD) + starboard * Math.cos(head * RAD),
    reach * Math.cos(pull * RAD) + ahead * Math.cos(head * RAD) - starboard * Math.sin(head * RAD),
  ] as const;
const holds = (ring: ArrayLike<number>, x: number, y: number) =>
  pointInRing(ring, x, y) || pointToRing(ring, x, y) < 1e-6;

describe("points of a body on its way", () => {
  const body = [1, 2, 1, -2, -12, -2, -12, 2];
  const sweep = (lies: [number, number, number, number?, number?][], between: boolean) => {
    const column = (k: number) => Float64Array.from(lies, (l) => l[k] ?? 0);
    const { points, sagM } = sweepBody(
      body,
      {
        reachM: column(0),
        pullTowardsDeg: column(1),
        headingDeg: column(2),
        sheerDeg: column(3),
        yawDeg: column(4),
      },
      between,
    );
    return { points, sagM, ring: hullWithBorder(points, sagM) };
  };
  /** Whether the hull at some lie is held, and how far the room reaches beyond the farthest of many lies. */
  const check = (ring: Float64Array, lies: [number, number, number][], beyondM: number) => {
    let far = 0;
    for (const [reach, pull, head] of lies)
      for (let k = 0; k < 8; k += 2) {
        const [x, y] = spot(reach, pull, head, body[k]!, body[k + 1]!);
        far = Math.max(far, Math.sqrt(x * x + y * y));
        expect(holds(ring, x, y)).toBe(true);
      }
    expect(farthestFrom(ring)).toBeLessThanOrEqual(far + beyondM);
    return far;
  };
  const between = (a: number, b: number, n: number) =>
    Array.from({ length: n + 1 }, (_, i) => a + ((b - a) * i) / n);

  test("at rest: four corners and no more", () => {
    const { points, sagM } = sweep([[30, 40, 215]], true);
    expect([points.length, sagM]).toEqual([8, 0]);
    for (let k = 0; k < 8; k += 2) {
      const [x, y] = spot(30, 40, 215, body[k]!, body[k + 1]!);
      expect(points[k]).toBeCloseTo(x, 12);
      expect(points[k + 1]).toBeCloseTo(y, 12);
    }
  });
  test.each([
    [20, 0],
    [0, 35],
    [25, 40],
    [1, 1],
    [90, 90],
  ])("sheer %i and yaw %i hold every lie between, and little more", (sheer, yaw) => {
    const { ring, sagM } = sweep([[30, 40, 130, sheer, yaw]], false);
    const lies: [number, number, number][] = [];
    for (const p of between(40 - sheer, 40 + sheer, 40))
      for (const h of between(130 - yaw, 130 + yaw, 40)) lies.push([30, p, h]);
    check(ring, lies, 2 * sagM + 0.05);
    // Sag of a chord of three degrees at the farthest part.
    expect(sagM).toBeLessThanOrEqual(((30 + 12.17 * 2) * (3 * RAD) ** 2) / 8);
    expect(sagM).toBeGreaterThan(0);
  });
  test("heading not known: a disc about the bow; pull not known: about the anchor", () => {
    const far = Math.sqrt(144 + 4);
    const bow = sweep([[30, 40, NaN]], false).ring;
    for (let deg = 0; deg < 360; deg += 5) {
      const at = (r: number) => [
        30 * Math.sin(40 * RAD) + r * Math.sin(deg * RAD),
        30 * Math.cos(40 * RAD) + r * Math.cos(deg * RAD),
      ];
      expect(holds(bow, at(far)[0]!, at(far)[1]!)).toBe(true);
      expect(holds(bow, at(far * 1.02)[0]!, at(far * 1.02)[1]!)).toBe(false);
      const all = sweep([[30, NaN, deg]], false).ring;
      for (const [r, held] of [
        [30 + far, true],
        [(30 + far) * 1.02, false],
      ] as const)
        expect(holds(all, r * Math.sin(deg * RAD), r * Math.cos(deg * RAD))).toBe(held);
    }
    // Sheer with a heading not known swings the disc.
    const swung = sweep([[30, 40, NaN, 30, 0]], false).ring;
    for (const p of [10, 25, 40, 55, 70]) {
      const [x, y] = spot(30, p, 0, 0, 0);
      expect(holds(swung, x, y + far)).toBe(true);
      expect(holds(swung, x + far, y)).toBe(true);
    }
  });
  test.each([
    [30, 40, 36, 100],
    [36, 40, 30, 100],
    [30, 40, 30, 41],
    [30, 350, 30, 10],
    [25, 0, 40, 90],
    [30, 40, 30, 40],
    [30, 40, 40, 40],
  ])(
    "from %i m towards %i to %i m towards %i by the shorter way, at any reach between",
    (r0, p0, r1, p1) => {
      const { ring, sagM } = sweep(
        [
          [r0, p0, p0 + 180],
          [r1, p1, p1 + 180],
        ],
        true,
      );
      const turn = ((p1 - p0 + 540) % 360) - 180;
      const lies: [number, number, number][] = [];
      const at = (k: number, reach: number) =>
        lies.push([reach, p0 + k * turn, p0 + 180 + k * turn]);
      for (const k of between(0, 1, 60)) at(k, r0 + k * (r1 - r0));
      for (const k of between(0.1, 0.9, 30)) for (const reach of between(r0, r1, 4)) at(k, reach);
      check(ring, lies, 2 * sagM + 0.05);
      // Nor does she turn beyond the end: half her beam and a metre to the side is not hers.
      if (turn > 10) expect(holds(ring, ...spot(r1, p1, p1 + 180, 0, -3.2))).toBe(false);
      // The far side of the anchor is not taken.
      const [x, y] = spot(25, p0 + turn / 2 + 180, 0, 0, 0);
      expect(holds(ring, x, y)).toBe(false);
    },
  );
  test("heading that turns round while the pull stays takes the disc about the bow", () => {
    const { ring } = sweep(
      [
        [30, 40, 220],
        [30, 50, 40],
      ],
      true,
    );
    const lies: [number, number, number][] = [];
    for (const p of between(40, 50, 10)) for (let h = 0; h < 360; h += 10) lies.push([30, p, h]);
    check(ring, lies, 0.5);
  });
  test("beyond a right angle of pull she may swing either way, within the greater reach", () => {
    const { ring } = sweep(
      [
        [30, 0, 180],
        [36, 91, 271],
      ],
      true,
    );
    const far = 36 + Math.sqrt(148);
    for (let deg = 0; deg < 360; deg += 10)
      expect(holds(ring, far * Math.sin(deg * RAD), far * Math.cos(deg * RAD))).toBe(true);
    expect(farthestFrom(ring)).toBeLessThan(far * 1.02);
    expect(
      farthestFrom(
        sweep(
          [
            [30, 0, 180],
            [NaN, NaN, NaN],
          ],
          false,
        ).ring,
      ),
    ).not.toBe(0);
  });
  test("on the way she sheers and yaws as at the ends", () => {
    const { ring, sagM } = sweep(
      [
        [30, 40, 220, 20, 0],
        [30, 70, 250, 0, 30],
      ],
      true,
    );
    const lies: [number, number, number][] = [];
    for (const k of between(0.1, 0.9, 8))
      for (const s of [-20, 0, 20])
        for (const y of [-30, 0, 30]) lies.push([30, 40 + 30 * k + s, 220 + 30 * k + y]);
    check(ring, lies, 2 * sagM + 12);
  });
});

describe("borders and sectors", () => {
  const square = [10, 10, -10, 10, -10, -10, 10, -10];
  test("a border holds every place within it, and 0.4 % more", () => {
    const ring = hullWithBorder(square, 5);
    for (let deg = 0; deg < 360; deg += 7)
      for (let k = 0; k < 8; k += 2) {
        const at = (r: number) =>
          [square[k]! + r * Math.sin(deg * RAD), square[k + 1]! + r * Math.cos(deg * RAD)] as const;
        expect(holds(ring, ...at(5))).toBe(true);
      }
    expect(farthestFrom(ring)).toBeLessThan(Math.SQRT2 * 10 + 5 * 1.01);
    expect([...hullWithBorder(square, 0)]).toHaveLength(8);
    expect([...hullWithBorder(square, NaN)]).toHaveLength(8);
  });
  test("farthest in quadrants and octants of a square, by hand", () => {
    for (const r of sectorRadii(square, 4)) expect(r).toBeCloseTo(Math.SQRT2 * 10, 9);
    // A small square to north-east of the anchor: its corners at 5 and 10 m each way.
    const east = [5, 5, 10, 5, 10, 10, 5, 10];
    const radii = sectorRadii(east, 8);
    expect(radii[0]).toBeCloseTo(Math.sqrt(200), 9);
    expect(radii[1]).toBeCloseTo(Math.sqrt(200), 9);
    for (const r of radii.slice(2)) expect(r).toBe(0);
    // A bar along east and west: its ends, and where north and south cut it.
    const bar = [20, 1, -20, 1, -20, -1, 20, -1];
    const [north] = sectorRadii(bar, 360);
    expect(north).toBeCloseTo(1 / Math.cos(RAD), 9);
    expect(sectorRadii(bar, 4)[0]).toBeCloseTo(Math.sqrt(401), 9);
  });
});

describe("envelope", () => {
  const vessel = { lengthM: 12, beamM: 4 };
  test("farthest part, and whither", () => {
    const room = swingEnvelope({ anchor, vessel, moments: [lie(0, 90, 30)] });
    expect(room.radiusM).toBeCloseTo(Math.sqrt(42 * 42 + 4), 9);
    expect(Math.abs(room.radiusTowardsDeg - 90)).toBeCloseTo(Math.atan2(2, 42) / RAD, 9);
    expect(room.radiusByMomentM).toEqual([expect.closeTo(Math.sqrt(42 * 42 + 4), 9)]);
    expect(room.borderM).toBe(0);
    expect(room.areaM2).toBeCloseTo(48, 9);
    expect(room.sectors).toHaveLength(36);
    expect(room.sectors[1]).toMatchObject({ fromDeg: 10, toDeg: 20, radiusM: 0 });
    expect(room.antennaRadiusM).toBeNull();
    expect(room.from.reachM).toBe(30);
    expect(
      swingEnvelope({ anchor, vessel, moments: [lie(0, 90, 30)], reachM: 50 }).from.reachM,
    ).toBe(50);
  });
  test("the aerial's track leaves the anchor's error out and takes the way between in", () => {
    const aerial = { ...vessel, bowToAntenna: { aftM: 10, starboardM: 1 } };
    const still = swingEnvelope({
      anchor,
      vessel: aerial,
      moments: [lie(0, 90, 30)],
      anchorErrorM: 7,
    });
    expect(still.antennaRadiusM).toBeCloseTo(Math.sqrt(1601), 9);
    // Across the anchor from one side to the other she may pass anywhere round.
    const moments = [lie(0, 90, 30), lie(1, 270, 30)];
    const way = (between: "swept" | "moments") =>
      swingEnvelope({ anchor, vessel: aerial, moments, between });
    expect(way("moments").antennaRadiusM).toBeCloseTo(Math.sqrt(1601), 9);
    expect(way("swept").antennaRadiusM).toBeGreaterThanOrEqual(30 + Math.sqrt(101));
    expect(way("moments").areaM2).toBeLessThan(way("swept").areaM2);
  });
  test("sheer at a moment counts in its radius", () => {
    const [steady, sheering] = [0, 40].map(
      (sheerDeg) =>
        swingEnvelope({
          anchor,
          vessel,
          moments: [lie(0, 90, 30, { sheerDeg, yawDeg: 0, headingDeg: 300 })],
        }).radiusByMomentM[0]!,
    );
    expect(sheering).toBeGreaterThan(steady! + 0.4);
  });
  test("what was assumed is said, and only that", () => {
    const said = (input: object) =>
      swingEnvelope({ anchor, vessel, moments: [], ...input }).assumed.join("; ");
    const sheer = { sheerDeg: 10 };
    expect(said({ moments: [lie(0, 90, 30, sheer)] })).toBe("");
    expect(said({ moments: [lie(0, 90, 30, { yawDeg: 10 })] })).toBe("");
    expect(said({ moments: [lie(0, 90, 30)] })).toMatch(/^no sheer and no yaw/);
    expect(said({ moments: [lie(0, 90, 30, sheer)], vessel: { lengthM: 12 } })).toBe(
      "beam: 0.4 of the length",
    );
    expect(said({ moments: [lie(0, null, 30, sheer)] })).toMatch(/^lie not known/);
    expect(said({ moments: [lie(0, 90, 30, sheer), lie(1, null, 30)] })).toMatch(
      /lie not known.*; between moments/,
    );
    expect(said({ reachM: 30 })).toMatch(/no moments given/);
    expect(said({ moments: [lie(0, 90, 30, sheer), lie(1, 90, 30)] })).toMatch(/^between moments/);
    expect(said({ moments: [lie(0, 90, 30, sheer), lie(1, 90, 30)], between: "moments" })).toBe("");
  });
  test("a circle: reach, length and error, and the aerial abaft the bow", () => {
    const circle = swingCircle({
      anchor,
      anchorErrorM: 3,
      reachM: 30,
      lengthM: 12,
      bowToAntenna: { aftM: 9, starboardM: -2 },
    });
    expect(circle).toMatchObject({ radiusM: 45, bowRadiusM: 30 });
    expect(circle.antennaRadiusM).toBeCloseTo(Math.sqrt(39 * 39 + 4), 12);
    expect(swingCircle({ anchor, reachM: 30, lengthM: 12 }).antennaRadiusM).toBeNull();
  });
});

describe("gap at any time", () => {
  const vessel = { lengthM: 12, beamM: 4 };
  const at = (eastM: number, moments: SwingMoment[], more: object = {}): AnchoredVessel => ({
    anchor: positionOf(plane, eastM, 0),
    vessel,
    moments,
    ...more,
  });
  test("of two at rest is the gap of their hulls; the moments of either are compared", () => {
    // Ends of the hulls at 42 m and 200 - 42 m.
    const gap = swingGap(at(0, [lie(0, 90, 30)]), at(200, [lie(0, 270, 30)]));
    expect(gap.leastGapM).toBeCloseTo(200 - 84, 3);
    expect(gap.gapAtWorstM).toBeCloseTo(200 - 84, 3);
    expect(gap).toMatchObject({
      atMs: T0,
      anyTime: { overlaps: false },
      sameTime: { atWorstMoments: 0 },
    });
    expect(gap.anyTime.leastGapM).toBe(gap.gapAtWorstM);
    const later = swingGap(at(0, [lie(0, 270, 30), lie(1, 90, 30)]), at(200, [lie(1, 270, 30)]));
    expect(later.sameTime.moments.map((m) => m.timeMs)).toEqual([T0, T0 + HOUR]);
    expect(later.sameTime.atWorstMoments).toBe(1);
    expect(later.atMs).toBe(T0 + HOUR);
    const unknown = swingGap(
      at(0, [lie(0, 90, 30, { headingDeg: null })]),
      at(200, [lie(0, 270, 30)]),
    );
    expect(unknown.sameTime.atWorstMoments).toBe(1);
    expect(unknown.leastGapM).toBeLessThan(gap.leastGapM + 1e-6);
  });
  test("touching rooms overlap; no more than touching at the same moment is nil", () => {
    const gap = swingGap(at(0, [lie(0, 90, 30)]), at(60, [lie(0, 270, 30)]));
    expect(gap).toMatchObject({
      leastGapM: 0,
      gapAtWorstM: 0,
      anyTime: { overlaps: true, leastGapM: 0 },
    });
  });
});

describe("gap of two that swing", () => {
  const vessel = { lengthM: 12, beamM: 4 };
  const at = (eastM: number, moments: SwingMoment[]): AnchoredVessel => ({
    anchor: positionOf(plane, eastM, 0),
    vessel,
    moments,
  });
  test("apart at every moment, near at their worst", () => {
    const gap = swingGap(
      at(0, [lie(0, 90, 30), lie(1, 270, 30)]),
      at(200, [lie(0, 90, 30), lie(1, 270, 30)]),
    );
    expect(gap.leastGapM).toBeCloseTo(200 - 12, 3);
    expect(gap.gapAtWorstM).toBeLessThan(116.01);
    expect(gap.gapAtWorstM).toBeGreaterThan(115);
  });
  test("the way between counts at any time", () => {
    const gap = swingGap(
      at(0, [lie(0, 60, 30), lie(1, 120, 30)]),
      at(200, [lie(0, 270, 30), lie(1, 270, 30)]),
    );
    expect(gap.gapAtWorstM).toBeLessThan(116.05);
    expect(gap.leastGapM).toBeGreaterThan(118);
    const other = swingGap(
      at(0, [lie(0, 90, 30), lie(1, 90, 30)]),
      at(200, [lie(0, 240, 30), lie(1, 300, 30)]),
    );
    expect(other.gapAtWorstM).toBeLessThan(116.05);
  });
  test("moments of both in order of time", () => {
    const gap = swingGap(at(0, [lie(1, 90, 30)]), at(200, [lie(0, 90, 30), lie(2, 90, 30)]));
    expect(gap.sameTime.moments.map((m) => m.timeMs - T0)).toEqual([0, HOUR, 2 * HOUR]);
  });
});

describe("neighbours", () => {
  const base = { kind: "yacht", lengthM: 10, position: anchor } as const;
  // The shares and multiples are this library's round figures, from the 4 and 6 times the depth of common practice.
  test.each([
    [{ lengthOutM: 33 }, 33, "rode out as given"],
    [{ depthM: 5, make: "chain" }, 30, "rode out 6 times the depth"],
    [{ depthM: 5, make: "chainAndRope" }, 45, "rode out 9 times the depth"],
    [{ depthM: 5 }, 45, "rode out 9 times the depth"],
    [{ make: "chain" }, 50, "rode out all she carries: 5 lengths of hers, at least 50 m"],
    [{ make: "chain", lengthM: 12 }, 60, "5 lengths"],
    [{ lengthM: 12 }, 84, "7 lengths"],
    [{ lengthM: 5 }, 70, "7 lengths"],
  ] as const)("%j: %i m out, %s", (more, lengthOutM, by) => {
    const guess = neighbourGuess({ ...base, ...more });
    expect(guess.lengthOutM).toBeCloseTo(lengthOutM, 9);
    expect(guess.assumed.join("; ")).toContain(by);
  });
  test("beam by kind, place, and what was assumed of them", () => {
    const guess = neighbourGuess({ ...base, positionIs: "anchor", lengthOutM: 40 });
    expect(guess.neighbour).toMatchObject({
      anchor,
      anchorErrorM: 10,
      reachM: 40,
      moments: [],
      vessel: { lengthM: 10, beamM: expect.closeTo(3.6, 12) as number },
    });
    expect(guess.worst.radiusM).toBeCloseTo(10 + 40 + Math.sqrt(100 + 3.6 ** 2 / 4), 9);
    expect(guess.assumed).toEqual([
      "beam 0.36 of the length",
      "rode out as given",
      "anchor where it was given",
      "no sheer and no yaw",
      "place known to one length of hers",
      "lies any way round",
    ]);
    const lies = [{ timeMs: T0, pullTowardsDeg: 90, headingDeg: 270 }];
    const known = neighbourGuess({
      ...base,
      positionIs: "anchor",
      positionErrorM: 0,
      lies,
      lengthOutM: 40,
    });
    expect(known.assumed).toHaveLength(4);
    expect(known.neighbour).toMatchObject({
      anchorErrorM: 0,
      moments: [{ ...lies[0], reachM: 40 }],
    });
  });
  test("seen where she lies: half a length and her rode, or towards where she pulls from", () => {
    const anywhere = neighbourGuess({ ...base, lengthOutM: 40, positionErrorM: 3 });
    expect(anywhere.neighbour).toMatchObject({ anchor, anchorErrorM: 3 + 5 + 40, reachM: 40 });
    const { neighbour } = neighbourGuess({
      ...base,
      lengthOutM: 40,
      positionErrorM: 3,
      seenPullTowardsDeg: 30,
    });
    // A quarter to all of her rode back: 25 m to south-south-west, 15 m more or less and the 30 m of doubt taken wide.
    const [x, y] = flat([neighbour.anchor]);
    expect(x).toBeCloseTo(-25 * Math.sin(30 * RAD), 6);
    expect(y).toBeCloseTo(-25 * Math.cos(30 * RAD), 6);
    expect(neighbour).toMatchObject({ anchorErrorM: 3 + 5 + 30, reachM: 25 });
  });
});

describe("two anchors", () => {
  const leg = (eastM: number, reachM: number, anchorErrorM = 0) => ({
    anchor: positionOf(plane, eastM, 0),
    reachM,
    anchorErrorM,
  });
  const vessel = { lengthM: 12, beamM: 4, bowOverhangM: 1, sternOverhangM: 2 };
  const room = (kind: "vee" | "openMoor" | "foreAndAft", first: object, second: object) =>
    twoAnchorEnvelope({ kind, first, second, vessel } as never);
  test("slack: both reaches and errors, and fore and aft the hull, less the way between the anchors", () => {
    expect(room("vee", leg(0, 30, 1), leg(50, 34, 2)).slackM).toBeCloseTo(17, 4);
    expect(room("foreAndAft", leg(0, 30, 1), leg(50, 34, 2)).slackM).toBeCloseTo(29, 4);
    expect(room("vee", leg(0, 30, 1), leg(50, 34, 2)).radiusAloneM).toBeCloseTo(
      31 + Math.sqrt(14 * 14 + 4),
      9,
    );
    expect(room("vee", leg(0, 10), leg(50, 34))).toMatchObject({
      reaches: false,
      polygon: null,
      areaM2: null,
      radiusM: null,
    });
    expect(room("foreAndAft", leg(0, 10), leg(50, 34))).toMatchObject({ reaches: true });
    expect(room("vee", leg(0, 20), leg(40, 20.001)).reaches).toBe(true);
  });
  test.each(["vee", "openMoor", "foreAndAft"] as const)(
    "%s: holds what both rodes allow, and little more",
    (kind) => {
      const got = room(kind, leg(0, 30), leg(50, 34));
      const ring = flat(got.polygon!);
      const span = kind === "foreAndAft" ? 12 : 0;
      // Along the line of the anchors: the roller comes from 50 - 34 (less the hull's length) to 30, the hull beyond it.
      const far = Math.sqrt(14 * 14 + 4);
      const [west, east] = [16 - span, 30];
      if (kind === "foreAndAft") {
        expect(holds(ring, west, 0)).toBe(true);
        // Two metres trail beyond the stern, two stand out on either side.
        expect(holds(ring, 30 + 12 + 2.8, 0)).toBe(true);
        expect(holds(ring, 30 + 12 + 3.5, 0)).toBe(false);
        expect(holds(ring, west - 3.5, 0)).toBe(false);
      } else {
        for (const x of [west - far, east + far]) expect(holds(ring, x, 0)).toBe(true);
        for (const x of [west - far - 0.5, east + far + 0.5]) expect(holds(ring, x, 0)).toBe(false);
      }
      expect(got.radiusM).toBeCloseTo(farthestFrom(ring), 3);
      expect(got.areaM2).toBeGreaterThan(100);
    },
  );
});

describe("clearance reasons", () => {
  const vessel = { lengthM: 12, beamM: 4 };
  const lonLat = (x: number, y: number) => {
    const p = positionOf(plane, x, y);
    return [p.lonDeg, p.latDeg];
  };
  const box = (x0: number, y0: number, x1: number, y1: number) => ({
    type: "Polygon" as const,
    coordinates: [[lonLat(x0, y0), lonLat(x1, y0), lonLat(x1, y1), lonLat(x0, y1), lonLat(x0, y0)]],
  });
  const point = (x: number, y: number) => ({ type: "Point" as const, coordinates: lonLat(x, y) });
  const deep = { id: "deep", geometry: box(-300, -300, 300, 300), leastDepthM: 5 };
  const none = {
    shore: [],
    hazards: [],
    depthAreas: [deep],
    restricted: [],
    depthNeededM: 2.5,
    tideHeightM: 0.5,
  };
  const room = swingEnvelope({ anchor, vessel, moments: [lie(0, 90, 30)] });
  const codes = (around: object) =>
    swingClearance(room, { ...none, ...around }).reasons.map((r) => `${r.severity} ${r.code}`);

  test("nothing against her: none", () => {
    expect(codes({})).toEqual([]);
  });
  test("each thing not given is said", () => {
    for (const [key, said] of [
      ["shore", ["shore.notGiven"]],
      ["hazards", ["hazards.notGiven"]],
      ["restricted", ["restricted.notGiven"]],
      ["depthNeededM", ["depthNeeded.notGiven"]],
      ["depthAreas", ["depthAreas.notGiven"]],
      ["tideHeightM", ["tide.notGiven"]],
    ] as const)
      expect(codes({ [key]: undefined })).toEqual(said.map((s) => `caution ${s}`));
    expect(codes({ depthAreas: [] })).toEqual(["caution depth.notCharted"]);
    expect(codes({ depthAreas: [{ ...deep, leastDepthM: null }] })).toEqual([
      "caution depth.notCharted",
    ]);
  });
  test("shore and restricted water in the room", () => {
    const there = { id: "x", kind: "k", geometry: box(35, -5, 45, 5) };
    const shore = { id: "x", geometry: there.geometry };
    expect(codes({ shore: [shore] })).toEqual(["stop shore.inRoom"]);
    expect(codes({ restricted: [there] })).toEqual(["warning restricted.inRoom"]);
    const off = box(60, -5, 70, 5);
    expect(
      codes({ shore: [{ id: "x", geometry: off }], restricted: [{ ...there, geometry: off }] }),
    ).toEqual([]);
  });
  test("a hazard under the hull stops her unless it is known to be deep enough; under the rode it warns", () => {
    const rock = (x: number, leastDepthM: number | null) => ({
      hazards: [{ id: "r", kind: "rock", geometry: point(x, 0), leastDepthM }],
    });
    // 2.5 m needed at a tide of 0.5 m: 2 m charted is enough, and no less.
    expect(codes(rock(36, 2))).toEqual(["warning hazard.underHull"]);
    expect(codes(rock(36, 1.99))).toEqual(["stop hazard.underHull"]);
    expect(codes(rock(36, null))).toEqual(["stop hazard.underHull"]);
    expect(codes(rock(15, 2))).toEqual(["warning hazard.underRode"]);
    expect(codes(rock(15, null))).toEqual(["warning hazard.underRode"]);
    expect(codes(rock(60, null))).toEqual([]);
    expect(codes({ ...rock(36, 2), depthNeededM: undefined })).toContain("stop hazard.underHull");
    const [met] = swingClearance(room, { ...none, ...rock(36, 4) }).hazardsMet;
    expect(met).toMatchObject({ underHull: true, leastDepthM: 4, spareDepthM: 2 });
    expect(swingClearance(room, { ...none, ...rock(36, null) }).hazard).toMatchObject({
      distanceM: 0,
    });
    expect(swingClearance(room, { ...none, ...rock(36, 2) }).hazard).toBeNull();
  });
  test("too shoal, by how much, and when", () => {
    const shoal = { id: "s", geometry: box(-300, -300, 300, 300), leastDepthM: 1.9 };
    const got = swingClearance(room, { ...none, depthAreas: [shoal] });
    expect(got.reasons).toMatchObject([
      {
        code: "depth.tooShoal",
        severity: "stop",
        value: expect.closeTo(2.4, 12) as number,
        limit: 2.5,
        atMs: T0,
      },
    ]);
    expect(got.shoal).toMatchObject({ id: "s", distanceM: 0 });
    expect(
      swingClearance(room, { ...none, depthAreas: [{ ...shoal, leastDepthM: 2 }] }).verdict,
    ).toBe("clear");
    // A circle has no moments to name.
    const circle = swingClearance(swingCircle({ anchor, reachM: 30, lengthM: 12 }), {
      ...none,
      depthAreas: [shoal],
    });
    expect(circle.reasons[0]).not.toHaveProperty("atMs");
    expect(circle.depth.atMs).toBeNull();
  });
  test("the shoalest area that the room touches decides, one whose depth is not known before all", () => {
    const strip = (id: string, leastDepthM: number | null, west: number, east: number) => ({
      id,
      leastDepthM,
      geometry: box(west, -300, east, 300),
    });
    const moment = (...depthAreas: object[]) =>
      swingClearance(room, { ...none, depthAreas } as never).depth.moments[0]!;
    // The hull lies from 30 to 42 m east.
    expect(moment(strip("a", 5, -300, 36), strip("b", 4, 36, 300))).toMatchObject({
      areaId: "b",
      leastDepthM: 4.5,
    });
    expect(moment(strip("a", 3, -300, 36), strip("b", 4, 36, 300))).toMatchObject({
      areaId: "a",
      leastChartedDepthM: 3,
    });
    expect(moment(strip("a", 3, -300, 25), strip("b", 4, 25, 300))).toMatchObject({ areaId: "b" });
    expect(moment(strip("a", null, -300, 36), strip("b", 4, 36, 300))).toMatchObject({
      areaId: "a",
      leastDepthM: null,
    });
    expect(moment(strip("a", 3, -300, 36))).toMatchObject({
      areaId: null,
      leastChartedDepthM: null,
      leastDepthM: null,
    });
    expect(moment(strip("a", 3, -300, 35), strip("b", 4, 37, 300))).toMatchObject({ areaId: null });
  });
  test("a hole in the charted depths anywhere under her leaves the depth unknown, one beside her does not", () => {
    const pull = 40;
    const skew = swingEnvelope({ anchor, vessel, moments: [lie(0, pull, 30)] });
    const holed = (ahead: number, starboard: number) => {
      const [x, y] = spot(30, pull, pull + 180, ahead, starboard);
      const h = 0.2;
      const geometry = {
        type: "Polygon" as const,
        coordinates: [
          box(-300, -300, 300, 300).coordinates[0]!,
          box(x - h, y - h, x + h, y + h).coordinates[0]!,
        ],
      };
      return swingClearance(skew, { ...none, depthAreas: [{ ...deep, geometry }] }).depth.known;
    };
    for (const part of [1, 2 / 3, 1 / 3])
      for (const [a, s] of [
        [1, 1],
        [1, -1],
        [-1, 1],
        [-1, -1],
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
      ] as const) {
        expect([part, a, s, holed(-6 + 6 * a * part, 2 * s * part)]).toEqual([part, a, s, false]);
      }
    expect(holed(-6, 0)).toBe(false);
    for (const [a, s] of [
      [6, 0],
      [-18, 0],
      [-6, 8],
      [-6, -8],
    ] as const)
      expect(holed(a, s)).toBe(true);
  });
  test("the nearest of several, its kind where it has one, and the direction to it", () => {
    const rock = (id: string, x: number, y: number) => ({
      id,
      kind: "rock",
      geometry: point(x, y),
      leastDepthM: null,
    });
    const two = [rock("near", 60, 0), rock("far", 0, 90)];
    for (const hazards of [two, [...two].reverse()]) {
      const { hazard } = swingClearance(room, { ...none, hazards });
      expect(hazard).toMatchObject({ id: "near", kind: "rock" });
      expect(hazard!.towardsDeg).toBeCloseTo(90, 4);
      expect(hazard!.distanceM).toBeCloseTo(18, 4);
    }
    expect(
      swingClearance(room, { ...none, shore: [{ id: "s", geometry: box(60, -5, 70, 5) }] }).shore,
    ).toMatchObject({
      id: "s",
      kind: null,
    });
    // A line round her is no area that holds her.
    const line = {
      type: "LineString" as const,
      coordinates: box(-80, -80, 80, 80).coordinates[0]!,
    };
    expect(
      swingClearance(room, { ...none, shore: [{ id: "s", geometry: line }] }).shore!.distanceM,
    ).toBeCloseTo(38, 3);
    expect(
      swingClearance(room, { ...none, shore: [{ id: "s", geometry: box(-80, -80, 80, 80) }] })
        .shore!.distanceM,
    ).toBe(0);
  });
  test("verdict: what stands against her before what is missing, and clear only without either", () => {
    const verdict = (around: object) => swingClearance(room, { ...none, ...around }).verdict;
    const shore = [{ id: "x", geometry: box(35, -5, 45, 5) }];
    expect(verdict({})).toBe("clear");
    expect(verdict({ restricted: undefined })).toBe("unknown");
    expect(verdict({ restricted: undefined, shore })).toBe("notClear");
    expect(
      verdict({ hazards: [{ id: "r", kind: "rock", geometry: point(36, 0), leastDepthM: 9 }] }),
    ).toBe("notClear");
  });
  test("chart error comes off every distance", () => {
    const at = (chartErrorM: number) =>
      swingClearance(room, {
        ...none,
        chartErrorM,
        hazards: [{ id: "r", kind: "rock", geometry: point(52, 0), leastDepthM: null }],
      });
    expect(at(0).hazard!.distanceM).toBeCloseTo(10, 4);
    expect(at(4).hazard!.distanceM).toBeCloseTo(6, 4);
    expect(at(11).hazard!.distanceM).toBe(0);
    expect([at(9).hazardsMet.length, at(11).hazardsMet.length]).toEqual([0, 1]);
  });
  test("the lowest tide of the stay, known only where every moment's is", () => {
    const tide = (...heights: (number | undefined)[]) =>
      swingClearance(
        swingEnvelope({
          anchor,
          vessel,
          moments: heights.map((tideHeightM, i) =>
            lie(i, 90, 30, tideHeightM === undefined ? {} : { tideHeightM }),
          ),
        }),
        { ...none, tideHeightM: undefined },
      );
    expect(tide(1, 0.2, 2).lowestTideM).toBe(0.2);
    expect(tide(1, undefined, 2).lowestTideM).toBeNull();
    expect(tide(1, undefined, 2).depth).toMatchObject({ known: false, leastDepthM: 7 });
    expect(tide(1, 0.2, 2).depth).toMatchObject({ known: true, leastDepthM: 5.2, atMs: T0 });
    expect(tide(2, 1, 0.2).depth).toMatchObject({ leastDepthM: 5.2, atMs: T0 + HOUR });
  });
});
