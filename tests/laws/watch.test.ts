import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Night, simulateNight } from "../../bench/simulator/night.js";
import {
  type LimitTable,
  type WatchEvent,
  type WatchReport,
  fitSwing,
  resumeWatch,
  saveWatch,
  startWatch,
  stepWatch,
} from "../../src/watch/index.js";
import { planeAt, positionOf } from "../../src/geo/plane.js";
import { HOME, START } from "./watchScene.js";

interface Scene {
  origin?: { latDeg: number; lonDeg: number };
  turnRad?: number;
  shiftMs?: number;
  reachM?: number;
  sigmaFactor?: number;
  steps?: number;
}

/** Events of a simulated night, put elsewhere, turned or shifted in time. */
function eventsOf(night: Night, s: Scene = {}): WatchEvent[] {
  const plane = planeAt(s.origin ?? HOME);
  const c = Math.cos(s.turnRad ?? 0);
  const n = Math.sin(s.turnRad ?? 0);
  const events: WatchEvent[] = [];
  for (let i = 0; i < (s.steps ?? night.steps); i++) {
    const timeMs = START + (s.shiftMs ?? 0) + i * 5000;
    const x = night.x[i]! - night.setX;
    const y = night.y[i]! - night.setY;
    events.push(
      Number.isNaN(x)
        ? { kind: "clock", timeMs }
        : {
            kind: "fix",
            timeMs,
            ...positionOf(plane, c * x + n * y, c * y - n * x),
            sigmaM: night.statedSigmaM * (s.sigmaFactor ?? 1),
          },
    );
  }
  return events;
}

const limitsOf = (reachM: number, shiftMs = 0): LimitTable => ({
  rows: [
    {
      timeMs: START + shiftMs,
      greatestDistanceM: reachM,
      leastDepthM: null,
      greatestDepthM: null,
    },
  ],
  distanceSigmaM: 1,
});
const begin = (s: Scene = {}) =>
  startWatch({
    startMs: START + (s.shiftMs ?? 0),
    anchor: { known: true, position: s.origin ?? HOME, sigmaM: 2 },
    limits: limitsOf(s.reachM ?? 43.5, s.shiftMs),
  });

/** Every change of mode, with its place in the log. */
function decisions(events: readonly WatchEvent[], s: Scene = {}): string[] {
  let state = begin(s);
  const out: string[] = [];
  events.forEach((e, i) => {
    const before = state.report.mode;
    state = stepWatch(state, e).state;
    if (state.report.mode !== before) out.push(`${i} ${state.report.mode}`);
  });
  return out;
}
function last(events: readonly WatchEvent[], s: Scene = {}): WatchReport {
  let state = begin(s);
  for (const e of events) state = stepWatch(state, e).state;
  return state.report;
}

const dragNight = (number: number, mPerMin = 3) =>
  simulateNight(number, { receiver: "good", drag: { mPerMin }, hours: 3.6 });
const nightNumber = fc.integer({ min: 7_000_000, max: 7_000_400 });

describe("laws of the watch", () => {
  test("elsewhere, turned about, or another day: the same decisions", () => {
    fc.assert(
      fc.property(
        nightNumber,
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.constantFrom(
          { latDeg: -33.2, lonDeg: 151.4 },
          { latDeg: 1.5, lonDeg: 179.9999 },
          { latDeg: 78, lonDeg: -180 },
        ),
        fc.integer({ min: -400, max: 400 }),
        (number, turnRad, origin, days) => {
          const night = dragNight(number);
          const plain = decisions(eventsOf(night));
          expect(plain.some((d) => d.endsWith("dragging"))).toBe(true);
          const turned = { turnRad };
          expect(decisions(eventsOf(night, turned), turned)).toEqual(plain);
          const moved = { origin };
          expect(decisions(eventsOf(night, moved), moved)).toEqual(plain);
          const shifted = { shiftMs: days * 86_400_000 + 7_000 };
          expect(decisions(eventsOf(night, shifted), shifted)).toEqual(plain);
        },
      ),
      { numRuns: 4 },
    );
  });

  test("told twice, nothing changes", () => {
    fc.assert(
      fc.property(nightNumber, (number) => {
        const events = eventsOf(dragNight(number));
        const twice = events.flatMap((e) => [e, e]);
        const once = decisions(events).map((d) => d.split(" ")[1]);
        expect(decisions(twice).map((d) => d.split(" ")[1])).toEqual(once);
        expect(last(twice).excess).toEqual(last(events).excess);
      }),
      { numRuns: 4 },
    );
  });

  test("a gap never makes her surer", () => {
    fc.assert(
      fc.property(
        nightNumber,
        fc.integer({ min: 300, max: 1200 }),
        fc.integer({ min: 30, max: 200 }),
        (number, from, length) => {
          const night = simulateNight(number, { receiver: "good", hours: 2 });
          const events = eventsOf(night);
          const gapped = events.filter((_, i) => i < from || i > from + length);
          const spread = (r: WatchReport) =>
            r.excess.map((e) =>
              e.excessM === null || e.spreads === null || e.spreads === 0
                ? Infinity
                : e.excessM / e.spreads,
            );
          const upTo = (all: readonly WatchEvent[]) =>
            all.filter((e) => e.timeMs <= START + (from + length + 5) * 5000);
          const whole = spread(last(upTo(events)));
          spread(last(upTo(gapped))).forEach((s, w) => {
            // What was learned of the receiver differs by the blocks that are missing, no more.
            expect(s).toBeGreaterThan(0.9 * whole[w]!);
          });
        },
      ),
      { numRuns: 8 },
    );
  });

  test("farther out is never nearer to quiet; more rode is never sooner an alarm", () => {
    fc.assert(
      fc.property(nightNumber, fc.double({ min: 0, max: 30, noNaN: true }), (number, moreM) => {
        const events = eventsOf(dragNight(number));
        const alarm = (s: Scene) => {
          const at = decisions(events, s).find((d) => d.endsWith("dragging"));
          return at === undefined ? Infinity : Number(at.split(" ")[0]);
        };
        expect(alarm({ reachM: 43.5 + moreM })).toBeGreaterThanOrEqual(alarm({}));
      }),
      { numRuns: 5 },
    );
  });

  test("a drag twice as fast is an alarm no later", () => {
    fc.assert(
      fc.property(nightNumber, (number) => {
        const at = (mPerMin: number) =>
          Number(
            decisions(eventsOf(dragNight(number, mPerMin)))
              .find((d) => d.endsWith("dragging"))!
              .split(" ")[0],
          );
        expect(at(8)).toBeLessThanOrEqual(at(4));
      }),
      { numRuns: 4 },
    );
  });

  test("a crash at any event changes nothing, to the bit", () => {
    fc.assert(
      fc.property(nightNumber, fc.integer({ min: 1, max: 97 }), (number, k) => {
        const events = eventsOf(dragNight(number), { steps: 2400 });
        let whole = begin();
        let broken = begin();
        events.forEach((e, i) => {
          const a = stepWatch(whole, e);
          const b = stepWatch(broken, e);
          if (i % 29 === 0) expect(b.report).toEqual(a.report);
          whole = a.state;
          broken = i % k === 0 ? resumeWatch(saveWatch(b.state)) : b.state;
        });
        expect(saveWatch(broken)).toBe(saveWatch(whole));
        expect(broken.report).toEqual(whole.report);
      }),
      { numRuns: 3 },
    );
  });

  test("old states stay as they were, and every report is finite and plain", () => {
    const events = eventsOf(dragNight(7_000_011));
    let state = begin();
    const kept = new Map<string, string>();
    events.forEach((e, i) => {
      const { state: next, report } = stepWatch(state, e);
      if (i % 400 === 0) {
        const text = JSON.stringify(state);
        expect(text).not.toContain("null,null");
        kept.set(text, JSON.stringify(stepWatch(state, e)));
        expect(JSON.parse(JSON.stringify(report))).toEqual(report);
        expect(JSON.parse(JSON.stringify(next))).toEqual(next);
      }
      state = next;
    });
    for (const [text, answer] of kept) {
      const again = JSON.parse(text) as typeof state;
      const i = events.findIndex(
        (e) => e.timeMs === START + [...kept.keys()].indexOf(text) * 2_000_000,
      );
      expect(JSON.stringify(stepWatch(again, events[i]!))).toBe(answer);
    }
  });

  test("a circle is found wherever it lies, however large", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -500, max: 500, noNaN: true }),
        fc.double({ min: -500, max: 500, noNaN: true }),
        fc.double({ min: 5, max: 200, noNaN: true }),
        fc.double({ min: 1.5, max: 6, noNaN: true }),
        (x, y, r, arc) => {
          const points = Array.from({ length: 12 }, (_, i) => ({
            eastM: x + r * Math.sin((arc * i) / 11),
            northM: y + r * Math.cos((arc * i) / 11),
          }));
          for (const method of ["geometric", "taubin", "pratt", "kasa"] as const) {
            const fit = fitSwing({ points, method });
            expect(fit.known).toBe(true);
            if (!fit.known) continue;
            expect(Math.abs(fit.eastM - x)).toBeLessThan(1e-4 * r);
            expect(Math.abs(fit.northM - y)).toBeLessThan(1e-4 * r);
            expect(Math.abs(fit.radiusM - r)).toBeLessThan(1e-4 * r);
          }
        },
      ),
      { numRuns: 60 },
    );
  });
});
