import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type AnchoredVessel,
  swingClearance,
  swingEnvelope,
  swingGap,
} from "../../src/swing/index.js";
import { planeAt, positionOf } from "../../src/geo/plane.js";

const T0 = Date.UTC(2026, 5, 1);
const degrees = fc.double({ min: 0, max: 359.9, noNaN: true });
const moment = fc.record({
  reachM: fc.double({ min: 5, max: 60, noNaN: true }),
  pullTowardsDeg: fc.option(degrees, { freq: 8 }),
  headingDeg: fc.option(degrees, { freq: 8 }),
  sheerDeg: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 40, noNaN: true })),
});
const vessel = fc.record({
  lengthM: fc.double({ min: 3, max: 25, noNaN: true }),
  beamM: fc.double({ min: 1, max: 8, noNaN: true }),
  sternOverhangM: fc.double({ min: 0, max: 5, noNaN: true }),
});
const anchored: fc.Arbitrary<AnchoredVessel> = fc
  .record({
    latDeg: fc.double({ min: -85, max: 85, noNaN: true }),
    lonDeg: fc.double({ min: -180, max: 180, noNaN: true }),
    anchorErrorM: fc.double({ min: 0, max: 15, noNaN: true }),
    vessel,
    moments: fc.array(moment, { minLength: 1, maxLength: 8 }),
  })
  .map(({ latDeg, lonDeg, moments, ...rest }) => ({
    ...rest,
    anchor: { latDeg, lonDeg },
    moments: moments.map((m, i) => ({ ...m, timeMs: T0 + i * 600_000 })),
  }));

/** The same vessel with every lie turned. */
const turned = (v: AnchoredVessel, by: number): AnchoredVessel => ({
  ...v,
  moments: v.moments.map((m) => ({
    ...m,
    pullTowardsDeg: m.pullTowardsDeg === null ? null : (m.pullTowardsDeg + by) % 360,
    headingDeg: m.headingDeg === null ? null : (m.headingDeg + by) % 360,
  })),
});
/** The same vessel a way off. */
const moved = (v: AnchoredVessel, east: number, north: number) => ({
  ...v,
  anchor: positionOf(planeAt(v.anchor), east, north),
});
const runs = { numRuns: 60 };

describe("envelope", () => {
  test("turning the scene turns the room", () => {
    fc.assert(
      fc.property(anchored, (v) => {
        const a = swingEnvelope(v);
        const b = swingEnvelope(turned(v, 90));
        expect(b.radiusM).toBeCloseTo(a.radiusM, 6);
        expect(b.areaM2 / a.areaM2).toBeCloseTo(1, 6);
        a.sectors.forEach((s, i) => {
          const there = b.sectors[(i + 9) % 36]!;
          expect(Math.abs(there.radiusM - s.radiusM)).toBeLessThan(0.06 * a.radiusM);
        });
      }),
      runs,
    );
  });
  test("a whole turn of longitude changes nothing", () => {
    fc.assert(
      fc.property(anchored, (v) => {
        const { latDeg, lonDeg } = v.anchor;
        const anchor = { latDeg, lonDeg: lonDeg + (lonDeg > 0 ? -360 : 360) };
        const a = swingEnvelope(v);
        const b = swingEnvelope({ ...v, anchor });
        expect(b.areaM2).toBe(a.areaM2);
        expect(b.sectors).toEqual(a.sectors);
      }),
      runs,
    );
  });
  test("less known, more reach, more error, more sheer: never less room", () => {
    fc.assert(
      fc.property(anchored, fc.double({ min: 0, max: 20, noNaN: true }), (v, more) => {
        // Outlines of discs and chords of turns lie outside by up to 0.2 %.
        const room = swingEnvelope(v).radiusM;
        const also = [
          { ...v, anchorErrorM: (v.anchorErrorM ?? 0) + more },
          {
            ...v,
            moments: v.moments.map((m) => ({
              ...m,
              sheerDeg: (m.sheerDeg ?? 0) + more,
            })),
          },
          {
            ...v,
            moments: v.moments.map((m) => ({ ...m, pullTowardsDeg: null })),
          },
        ];
        for (const other of also)
          expect(swingEnvelope(other).radiusM).toBeGreaterThanOrEqual(room * (1 - 2e-3));
        const some = { ...v, moments: v.moments.slice(1), reachM: 5 };
        expect(swingEnvelope(some).areaM2).toBeLessThanOrEqual(
          swingEnvelope({ ...v, reachM: 5 }).areaM2 * (1 + 1e-9) +
            (some.moments.length === 0 ? 1e9 : 0),
        );
      }),
      runs,
    );
  });
});

describe("gap", () => {
  const scene = fc.tuple(
    anchored,
    anchored,
    fc.double({ min: -200, max: 200, noNaN: true }),
    fc.double({ min: -200, max: 200, noNaN: true }),
  );
  const beside = (a: AnchoredVessel, b: AnchoredVessel, e: number, n: number) => ({
    ...moved({ ...b, anchor: a.anchor }, e, n),
  });
  test("the same from either side, at most that at any time, less with less known", () => {
    fc.assert(
      fc.property(scene, ([a, b0, e, n]) => {
        const b = beside(a, b0, e, n);
        const gap = swingGap(a, b);
        const back = swingGap(b, a);
        expect(back.leastGapM).toBeCloseTo(gap.leastGapM, 3);
        expect(gap.gapAtWorstM).toBeLessThanOrEqual(gap.leastGapM);
        for (const m of gap.sameTime.moments) {
          expect(Number.isFinite(m.gapM)).toBe(true);
          expect(gap.leastGapM).toBeLessThanOrEqual(m.gapM + 1e-9);
        }
        // Sheer is allowed for by a margin all round, which may go beyond what she could reach at all.
        const steady = b.moments.map((m) => ({ ...m, sheerDeg: 0 }));
        const known = swingGap(a, { ...b, moments: steady }).leastGapM;
        const blind = {
          ...b,
          moments: steady.map((m) => ({ ...m, pullTowardsDeg: null })),
        };
        expect(swingGap(a, blind).leastGapM).toBeLessThanOrEqual(known + 1e-6);
      }),
      runs,
    );
  });
  test("further off by a metre, the gap grows by a metre at most", () => {
    fc.assert(
      fc.property(scene, ([a, b, e, n]) => {
        const near = swingGap(a, beside(a, b, e, n)).leastGapM;
        const off = swingGap(a, beside(a, b, e + 1, n)).leastGapM;
        expect(Math.abs(off - near)).toBeLessThan(1 + 1e-3);
      }),
      runs,
    );
  });
});

test("clearance: never nearer than the farthest part of the vessel leaves, and never clear of what is not known", () => {
  fc.assert(
    fc.property(anchored, fc.double({ min: 0, max: 300, noNaN: true }), degrees, (v, off, deg) => {
      const room = swingEnvelope(v);
      const rad = (deg * Math.PI) / 180;
      const p = positionOf(planeAt(v.anchor), off * Math.sin(rad), off * Math.cos(rad));
      const got = swingClearance(room, {
        hazards: [
          {
            id: "h",
            kind: "rock",
            leastDepthM: null,
            geometry: { type: "Point", coordinates: [p.lonDeg, p.latDeg] },
          },
        ],
      });
      expect(got.hazard!.distanceM).toBeGreaterThanOrEqual(off - room.radiusM - 1e-5);
      expect(got.hazard!.distanceM).toBeLessThanOrEqual(off + room.radiusM);
      expect(got.hazardsMet.some((h) => h.underHull)).toBe(got.hazard!.distanceM === 0);
      expect(got.verdict).not.toBe("clear");
    }),
    runs,
  );
});
