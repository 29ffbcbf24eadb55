import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Drag, type Night, simulateNight } from "../../bench/simulator/night.js";
import {
  cables,
  fathoms,
  feet,
  hours,
  knots,
  minutes,
  toCables,
  toFathoms,
  toFeet,
  toHours,
  toKnots,
  toMinutes,
} from "../../src/core/units.js";
import { eventsFromDelta } from "../../src/feed/signalk.js";
import {
  type WatchEvent,
  type WatchState,
  errorRadius,
  fitSwing,
  sigmaFromAccuracy,
  startWatch,
  stepWatch,
  watchLimits,
} from "../../src/watch/index.js";
import { positionOf } from "../../src/geo/plane.js";
import { fixAt, HOME, plane, REACH_M, START } from "./watchScene.js";

/** A length, a speed and a time as they come back from a unit of the host's. */
interface Units {
  length: (m: number) => number;
  speed: (mps: number) => number;
  time: (ms: number) => number;
}
const SI: Units = { length: (m) => m, speed: (v) => v, time: (t) => t };
const HOSTS: Units[] = [
  {
    length: (m) => feet(toFeet(m)),
    speed: (v) => knots(toKnots(v)),
    time: (t) => minutes(toMinutes(t)),
  },
  {
    length: (m) => fathoms(toFathoms(m)),
    speed: (v) => knots(toKnots(v)),
    time: (t) => hours(toHours(t)),
  },
  {
    length: (m) => cables(toCables(m)),
    speed: (v) => knots(toKnots(v)),
    time: (t) => minutes(toMinutes(t)),
  },
];

/** A watch of limits and a place told in the host's units. */
const begin = (u: Units, k = 1): WatchState =>
  startWatch({
    startMs: START,
    anchor: { known: true, position: HOME, sigmaM: u.length(2 * k) },
    limits: {
      rows: [
        {
          timeMs: START,
          greatestDistanceM: u.length(REACH_M * k),
          leastDepthM: u.length(4),
          greatestDepthM: u.length(9),
        },
      ],
      distanceSigmaM: u.length(k),
    },
  });

/** All that is told of a simulated night: fix with Doppler speed, heading, wind and depth. */
function eventsOf(night: Night, u: Units): WatchEvent[] {
  const out: WatchEvent[] = [];
  for (let i = 0; i < night.steps; i++) {
    // Milliseconds are whole: what an hour's fraction leaves of one is the host's to round.
    const timeMs = START + Math.round(u.time(i * 5000));
    const x = night.x[i]! - night.setX;
    const windMps = u.speed(night.windMps[i]!);
    out.push({ kind: "wind", timeMs, windMps, windFromDeg: night.windFromDeg[i]! });
    out.push({ kind: "heading", timeMs, headingDeg: night.headingDeg[i]! });
    if (i % 6 === 0) out.push({ kind: "depth", timeMs, depthM: u.length(night.depthM[i]!) });
    if (Number.isNaN(x)) continue;
    out.push({
      ...fixAt(timeMs, x, night.y[i]! - night.setY, u.length(night.statedSigmaM)),
      sogMps: u.speed(night.sogMps[i]!),
      cogDeg: night.cogDeg[i]!,
    });
  }
  return out;
}

/** Every change of mode and of what rings, with its place in the log. */
function decisions(events: readonly WatchEvent[], begun: WatchState) {
  let state = begun;
  let before = "";
  const out: string[] = [];
  events.forEach((e, i) => {
    state = stepWatch(state, e).state;
    const now = `${state.report.mode} ${state.report.alarms.map((a) => a.code).join()}`;
    if (now !== before) out.push(`${i} ${now}`);
    before = now;
  });
  return { out, report: state.report };
}

const DRAGS: Drag[] = [{ mPerMin: 3 }, { mPerMin: 30 }];
const night = (number: number, drag: Drag) =>
  simulateNight(number, { receiver: "good", drag, hours: 3.4 });
const nightNumber = fc.integer({ min: 7_300_000, max: 7_300_400 });

describe("laws of units", () => {
  test("told in feet, fathoms, cables, knots, minutes or hours: the same decisions", () => {
    fc.assert(
      fc.property(nightNumber, fc.constantFrom(...DRAGS), (number, drag) => {
        const n = night(number, drag);
        const plain = decisions(eventsOf(n, SI), begin(SI));
        expect(plain.out.some((d) => d.includes("dragging"))).toBe(true);
        for (const u of HOSTS) {
          const other = decisions(eventsOf(n, u), begin(u));
          expect(other.out).toEqual(plain.out);
          other.report.excess.forEach((e, w) => {
            expect(e.excessM).toBeCloseTo(plain.report.excess[w]!.excessM!, 9);
          });
        }
      }),
      { numRuns: 3 },
    );
  });

  test("told in radians by a bus, or in degrees: the same decisions", () => {
    const RAD = Math.PI / 180;
    const updates = (e: WatchEvent): { path: string; value: unknown }[] => {
      switch (e.kind) {
        case "fix":
          return [
            {
              path: "navigation.position",
              value: { latitude: e.latDeg, longitude: e.lonDeg },
            },
            { path: "navigation.speedOverGround", value: e.sogMps },
            { path: "navigation.courseOverGroundTrue", value: e.cogDeg! * RAD },
          ];
        case "heading":
          return [{ path: "navigation.headingTrue", value: e.headingDeg * RAD }];
        default:
          return [];
      }
    };
    fc.assert(
      fc.property(nightNumber, fc.constantFrom(...DRAGS), (number, drag) => {
        const told = eventsOf(night(number, drag), SI).filter((e) => updates(e).length > 0);
        const bus = told.flatMap((e) => {
          const timestamp = new Date(e.timeMs).toISOString();
          const { events } = eventsFromDelta({ updates: [{ timestamp, values: updates(e) }] });
          // A bus states no spread of one axis.
          return events.map((b) => (b.kind === "fix" ? { ...b, sigmaM: 1.5 } : b));
        });
        const plain = told.map((e) => (e.kind === "fix" ? { ...e, sigmaM: 1.5 } : e));
        expect(bus.map((e) => e.kind)).toEqual(plain.map((e) => e.kind));
        const said = decisions(plain, begin(SI)).out;
        expect(said.some((d) => d.includes("dragging"))).toBe(true);
        expect(decisions(bus, begin(SI)).out).toEqual(said);
      }),
      { numRuns: 2 },
    );
  });
});

const powers = fc.constantFrom(0.25, 0.5, 2, 4);
const length = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("laws of scale, where nothing has a length of its own", () => {
  test("limits of a scene so many times as large are so many times as large", () => {
    fc.assert(
      fc.property(powers, length(20, 60), length(1, 12), length(0, 8), (k, rode, depth, aft) => {
        const of = (f: number) =>
          watchLimits({
            stay: { timeMs: [START, START + 3_600_000], depthM: [f * depth, f * (depth + 1)] },
            rode: { lengthM: f * rode, sigmaM: f * 0.7 },
            bowHeightM: f,
            antenna: { abaftBowM: f * aft, athwartM: f * 0.4, sigmaM: f * 0.3 },
            depthSigmaM: f * 0.3,
          });
        const [one, many] = [of(1), of(k)];
        expect(many.distanceSigmaM).toBe(k * one.distanceSigmaM);
        many.rows.forEach((row, i) => {
          expect(row.greatestDistanceM).toBe(k * one.rows[i]!.greatestDistanceM);
          expect(row.leastDepthM).toBe(k * one.rows[i]!.leastDepthM!);
          expect(row.greatestDepthM).toBe(k * one.rows[i]!.greatestDepthM!);
        });
      }),
    );
  });

  test("so are the radius that holds a share of fixes, and a spread from a stated accuracy", () => {
    fc.assert(
      fc.property(powers, length(0.5, 20), length(0.5, 20), (k, sigma1M, sigma2M) => {
        const of = (f: number) =>
          errorRadius({ sigma1M: f * sigma1M, sigma2M: f * sigma2M, share: 0.95 });
        expect(of(k)).toBeCloseTo(k * of(1), 9);
        const sigma = (f: number) => sigmaFromAccuracy({ accuracyM: f * sigma1M, share: 0.95 });
        expect(sigma(k)).toBe(k * sigma(1));
      }),
    );
  });

  test("so is a circle of swinging, and its middle", () => {
    fc.assert(
      fc.property(powers, length(5, 60), length(1.5, 6), (k, r, arc) => {
        const of = (f: number) => {
          const fit = fitSwing({
            points: Array.from({ length: 12 }, (_, i) => ({
              eastM: f * (20 + r * Math.sin((arc * i) / 11) + 0.3 * Math.sin(7 * i)),
              northM: f * (r * Math.cos((arc * i) / 11) + 0.3 * Math.cos(5 * i)),
            })),
          });
          if (!fit.known) throw new Error("no circle");
          return fit;
        };
        const [one, many] = [of(1), of(k)];
        for (const key of ["eastM", "northM", "radiusM"] as const)
          expect(many[key]).toBeCloseTo(k * one[key], 6);
      }),
    );
  });
});

/*
 * The watch itself has lengths of its own: a metre that nobody states, a receiver presumed until it has
 * shown itself, metres that bound the limits, a speed no vessel at anchor reaches. So a scene twice as
 * large is another scene to it. What holds: excesses are twice as large, and in spreads never smaller,
 * since of a larger scene all that is less.
 */
describe("laws of scale, where the watch has lengths of its own", () => {
  const wobble = (s: number, seed: number) =>
    0.6 * Math.sin(s * 0.7 + seed) + 0.3 * Math.cos(s * 1.9 + seed);
  /** An hour at her place, then half an hour so much farther out, taken at no more than a metre in 5 s. */
  function said(k: number, seed: number, outM: number) {
    let state = begin(SI, k);
    let rang = Infinity;
    for (let i = 0; i < 1080; i++) {
      const out = Math.min(outM, Math.max(0, 0.2 * (i - 720)));
      const x = k * wobble(5 * i, seed);
      const y = -k * (REACH_M - 2 + out + wobble(5 * i + 1, seed));
      const at = positionOf(plane, x, y);
      state = stepWatch(state, {
        kind: "fix",
        timeMs: START + 5000 * i,
        ...at,
        sigmaM: 1.5 * k,
      }).state;
      if (rang === Infinity && state.report.alarms.some((a) => a.code === "drag")) rang = i;
    }
    return { excess: state.report.excess, rang };
  }

  test("a larger scene: excess in proportion, in spreads never less, alarm never later", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1000 }),
        length(0, 40),
        fc.constantFrom(0.5, 1, 2),
        (seed, outM, k) => {
          const [small, large] = [said(k, seed, outM), said(2 * k, seed, outM)];
          large.excess.forEach((e, w) => {
            const less = small.excess[w]!;
            expect(e.excessM!).toBeCloseTo(2 * less.excessM!, 6);
            if (less.excessM! >= 0) expect(e.spreads!).toBeGreaterThanOrEqual(less.spreads! - 1e-9);
          });
          expect(large.rang).toBeLessThanOrEqual(small.rang);
        },
      ),
      { numRuns: 25 },
    );
  });

  test("it does have them: the same excess of so many spreads told is not one to it", () => {
    const [small, large] = [said(0.5, 3, 12), said(2, 3, 12)];
    expect(large.excess[0]!.spreads!).toBeGreaterThan(1.2 * small.excess[0]!.spreads!);
  });
});
