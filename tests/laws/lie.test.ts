import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { turnDeg } from "../../src/core/angles.js";
import {
  balancingWind,
  gusts,
  lie,
  streamLoad,
  vesselFrom,
  waveLoad,
  windAtHeight,
  windLoad,
  type Lie,
} from "../../src/lie/index.js";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const kind = fc.constantFrom(
  "yacht" as const,
  "motorBoat" as const,
  "catamaran" as const,
  "workboat" as const,
);
const boat = fc.record({ kind, lengthM: number(4, 24) }).map((sketch) => vesselFrom(sketch));
const weather = fc.record({
  windMps: number(0, 40),
  windFromDeg: number(0, 360),
  streamMps: number(0, 4),
  streamTowardsDeg: number(0, 360),
});
const waves = fc.option(
  fc.record({
    significantHeightM: number(0, 3),
    fromDeg: number(0, 360),
    periodS: number(1, 12),
  }),
  { nil: undefined },
);
const scene = fc
  .record({ vessel: boat, weather, waves })
  .map(({ vessel, weather: w, waves: v }) => ({
    vessel,
    ...w,
    ...(v === undefined ? {} : { waves: v }),
  }));

const turned = (deg: number, by: number) => (((deg + by) % 360) + 360) % 360;
/** Clear of the places where a heading or a direction is not defined. */
const firm = (l: Lie) => l.settled > 0.01 && l.pullN > 1;

describe("how a vessel lies", () => {
  test("turning the whole scene turns heading and pull with it, and nothing else", () => {
    fc.assert(
      fc.property(scene, number(0, 360), (s, by) => {
        const a = lie(s);
        fc.pre(firm(a));
        const b = lie({
          ...s,
          windFromDeg: turned(s.windFromDeg, by),
          streamTowardsDeg: turned(s.streamTowardsDeg, by),
          ...("waves" in s
            ? {
                waves: { ...s.waves, fromDeg: turned(s.waves.fromDeg, by) },
              }
            : {}),
        });
        expect(Math.abs(turnDeg(turned(a.headingDeg!, by), b.headingDeg!))).toBeLessThan(1e-6);
        expect(Math.abs(turnDeg(turned(a.pullTowardsDeg!, by), b.pullTowardsDeg!))).toBeLessThan(
          1e-5,
        );
        expect(b.pullN).toBeCloseTo(a.pullN, 5);
        expect(b.liesTo === a.liesTo || Math.abs(a.settled - 0.15) < 1e-6).toBe(true);
      }),
    );
  });

  test("mirroring the scene mirrors heading and pull", () => {
    fc.assert(
      fc.property(boat, weather, (vessel, w) => {
        const a = lie({ vessel, ...w });
        fc.pre(firm(a));
        const b = lie({
          vessel,
          ...w,
          windFromDeg: turned(0 - w.windFromDeg, 0),
          streamTowardsDeg: turned(0 - w.streamTowardsDeg, 0),
        });
        expect(Math.abs(turnDeg(360 - a.headingDeg!, b.headingDeg!))).toBeLessThan(1e-6);
        expect(b.pullN).toBeCloseTo(a.pullN, 5);
      }),
    );
  });

  test("the turning moments of wind and stream cancel at the heading, and the forces there add up to the pull", () => {
    fc.assert(
      fc.property(boat, weather, (vessel, w) => {
        const l = lie({ vessel, ...w });
        fc.pre(firm(l));
        const offWind = turnDeg(l.headingDeg!, w.windFromDeg);
        const offStream = turnDeg(l.headingDeg!, w.streamTowardsDeg + 180);
        const wind = windLoad({
          vessel,
          windMps: w.windMps,
          offBowDeg: offWind,
        });
        const stream = streamLoad({
          vessel,
          streamMps: w.streamMps,
          offBowDeg: offStream,
        });
        const size = Math.abs(wind.momentNm!) + Math.abs(stream.momentNm);
        expect(Math.abs(wind.momentNm! + stream.momentNm)).toBeLessThan(1e-6 * size + 1e-6);
        const aft = wind.aftN! + stream.aftN;
        const across = wind.acrossN! + stream.acrossN;
        expect(Math.sqrt(aft * aft + across * across)).toBeCloseTo(l.pullN, 4);
        // Pushed aft and, with the force on the starboard side, to port.
        const pushed = turned(l.headingDeg! + 180 + (Math.atan2(across, aft) * 180) / Math.PI, 0);
        expect(Math.abs(turnDeg(pushed, l.pullTowardsDeg!))).toBeLessThan(1e-4);
      }),
    );
  });

  test("the heading is stable: pushed off it, the moments turn the bow back", () => {
    fc.assert(
      fc.property(boat, weather, number(1, 60), (vessel, w, push) => {
        const l = lie({ vessel, ...w });
        fc.pre(firm(l));
        const moment = (heading: number) =>
          windLoad({
            vessel,
            windMps: w.windMps,
            offBowDeg: turnDeg(heading, w.windFromDeg),
          }).momentNm! +
          streamLoad({
            vessel,
            streamMps: w.streamMps,
            offBowDeg: turnDeg(heading, w.streamTowardsDeg + 180),
          }).momentNm;
        expect(moment(l.headingDeg! + push)).toBeLessThan(0);
        expect(moment(l.headingDeg! - push)).toBeGreaterThan(0);
      }),
    );
  });

  test("both laws of moments put the bow between wind and stream", () => {
    const blowing = fc.record({
      windMps: number(1, 40),
      windFromDeg: number(0, 360),
      streamMps: number(0.2, 4),
      gap: number(1, 179),
      side: fc.constantFrom(-1, 1),
    });
    fc.assert(
      fc.property(boat, blowing, (vessel, { gap, side, ...w }) => {
        const streamFrom = turned(w.windFromDeg, side * gap);
        const l = lie({
          vessel,
          ...w,
          streamTowardsDeg: turned(streamFrom, 180),
        });
        for (const heading of [l.headingDeg!, l.crossFlowHeadingDeg!]) {
          const off = side * turnDeg(w.windFromDeg, heading);
          expect(off).toBeGreaterThan(-1e-6);
          expect(off).toBeLessThan(gap + 1e-6);
        }
      }),
    );
  });

  test("more wind brings the bow nearer the wind, never farther", () => {
    fc.assert(
      fc.property(boat, weather, number(1, 2), (vessel, w, more) => {
        const a = lie({ vessel, ...w });
        const b = lie({ vessel, ...w, windMps: w.windMps * more });
        fc.pre(firm(a) && firm(b) && w.windMps > 0);
        const off = (l: Lie) => Math.abs(turnDeg(w.windFromDeg, l.headingDeg!));
        expect(off(b)).toBeLessThanOrEqual(off(a) + 1e-6);
      }),
    );
  });

  test("wind alone pulls by the square of its speed, straight down wind", () => {
    fc.assert(
      fc.property(boat, number(1, 20), number(0, 359), (vessel, v, from) => {
        const at = (windMps: number) => lie({ vessel, windMps, windFromDeg: from });
        expect(at(2 * v).pullN / at(v).pullN).toBeCloseTo(4, 9);
        expect(Math.abs(turnDeg(at(v).pullTowardsDeg!, from + 180))).toBeLessThan(1e-9);
        expect(at(v).liesTo).toBe("wind");
      }),
    );
  });

  test("forces grow with areas and none is lost in shoal water", () => {
    fc.assert(
      fc.property(boat, number(0.1, 3), number(0.2, 1), (vessel, v, part) => {
        const deep = streamLoad({ vessel, streamMps: v, offBowDeg: 90 });
        const shoal = streamLoad({
          vessel,
          streamMps: v,
          offBowDeg: 90,
          depthM: vessel.draughtM / part,
        });
        expect(shoal.acrossN).toBeGreaterThanOrEqual(deep.acrossN);
      }),
    );
  });

  test("wind over the balancing wind's square share lies nearer the wind, at right angles to the stream", () => {
    fc.assert(
      fc.property(boat, number(0.2, 3), number(0.3, 3), (vessel, v, share) => {
        const windMps = balancingWind({ vessel, streamMps: v }).windMps * share;
        fc.pre(Math.abs(share - 1) > 1e-3 && windMps < 90);
        const l = lie({
          vessel,
          windMps,
          windFromDeg: 0,
          streamMps: v,
          streamTowardsDeg: 270,
        });
        expect(l.headingDeg! < 45).toBe(share > 1);
      }),
    );
  });

  test("a gust never pulls less, and yawing never eases it", () => {
    fc.assert(
      fc.property(boat, number(0, 40), number(1, 2), (vessel, v, gust) => {
        const l = lie({ vessel, windMps: v, windFromDeg: 10, gust });
        expect(l.peakPullN.low).toBeGreaterThanOrEqual(l.pullN - 1e-9);
        expect(l.peakPullN.likely).toBeGreaterThanOrEqual(l.peakPullN.low);
        expect(l.peakPullN.high).toBeGreaterThanOrEqual(l.peakPullN.likely);
      }),
    );
  });

  test("longer or deeper waves never lessen what cannot be thrown back", () => {
    fc.assert(
      fc.property(
        number(0.1, 3),
        number(1, 12),
        number(0.3, 2),
        (significantHeightM, periodS, draughtM) => {
          const of = (period: number, draught: number) =>
            waveLoad({
              significantHeightM,
              widthM: 3,
              periodS: period,
              draughtM: draught,
            }).forceN;
          const bound = waveLoad({ significantHeightM, widthM: 3 });
          expect(of(periodS * 1.5, draughtM)).toBeLessThanOrEqual(of(periodS, draughtM));
          expect(of(periodS, draughtM * 1.5)).toBeGreaterThanOrEqual(of(periodS, draughtM));
          expect(of(periodS, draughtM)).toBeLessThanOrEqual(bound.forceN);
          expect(bound.bound).toBe(true);
        },
      ),
    );
  });

  test("every function: finite or null out, input left alone, same twice, through JSON and back", () => {
    const v = number(0.01, 40);
    const plainLaw = (f: (x: never) => unknown, inputs: fc.Arbitrary<unknown>) => {
      fc.assert(
        fc.property(inputs, (x) => {
          const before = structuredClone(x);
          const a = f(x as never);
          expect(x).toEqual(before);
          expect(JSON.parse(JSON.stringify(a))).toEqual(a);
          expect(f(x as never)).toEqual(a);
        }),
        { numRuns: 60 },
      );
    };
    plainLaw(lie, scene);
    plainLaw(vesselFrom, fc.record({ kind, lengthM: number(2, 60) }));
    plainLaw(windLoad, fc.record({ vessel: boat, windMps: v, offBowDeg: number(-180, 180) }));
    plainLaw(
      streamLoad,
      fc.record({
        vessel: boat,
        streamMps: number(0, 12),
        offBowDeg: number(-180, 180),
        depthM: number(0.1, 50),
      }),
    );
    plainLaw(
      waveLoad,
      fc.record({
        significantHeightM: number(0, 5),
        widthM: number(1, 20),
        periodS: number(0.5, 20),
        draughtM: number(0.1, 4),
      }),
    );
    plainLaw(balancingWind, fc.record({ vessel: boat, streamMps: number(0, 5) }));
    plainLaw(gusts, fc.record({ windMps: v }));
    plainLaw(windAtHeight, fc.record({ windMps: v, heightM: number(0.5, 100) }));
  });
});
