import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { nextSunEvent } from "../../src/daylight/index.js";
import {
  lightIntensity,
  signalsDue,
  signalsOver,
  type SignalsDue,
  type SignalsDueInput,
} from "../../src/signals/index.js";

const lengthM = fc.double({ min: 1, max: 300, noNaN: true });
const circumstances: fc.Arbitrary<SignalsDueInput> = fc.record({
  lengthM,
  situation: fc.constantFrom("anchored", "aground"),
  period: fc.constantFrom("day", "night", "twilight"),
  restrictedVisibility: fc.boolean(),
  nearTraffic: fc.boolean(),
  regime: fc.constantFrom("colregs", "usInland"),
  specialAnchorage: fc.boolean(),
  nondescriptCraft: fc.boolean(),
});
const count = (of: readonly { count: number }[]) => of.reduce((n, x) => n + x.count, 0);
const owes = (d: SignalsDue) => [
  count(d.lights),
  count(d.shapes),
  d.sound ? 1 : 0,
  d.sound?.bell.owed ? 1 : 0,
  d.sound?.gong ? 1 : 0,
  d.deckLights.obligation === "owed" ? 1 : 0,
];

describe("signals due", () => {
  test("survive JSON, leave the input alone and come out the same twice", () => {
    fc.assert(
      fc.property(circumstances, (c) => {
        const before = structuredClone(c);
        const due = signalsDue(c);
        expect(JSON.parse(JSON.stringify(due))).toEqual(due);
        expect(c).toEqual(before);
        expect(signalsDue(c)).toEqual(due);
      }),
    );
  });
  // Rules 30 and 35 only ever ask more of a longer vessel.
  test("never grow less with length", () => {
    fc.assert(
      fc.property(circumstances, lengthM, (c, other) => {
        const [short, long] = [c.lengthM, other].sort((a, b) => a - b);
        const a = owes(signalsDue({ ...c, lengthM: short! }));
        const b = owes(signalsDue({ ...c, lengthM: long! }));
        a.forEach((n, i) => {
          expect(b[i]).toBeGreaterThanOrEqual(n);
        });
      }),
    );
  });
  test("never grow less with traffic near, poor visibility or outside special areas", () => {
    fc.assert(
      fc.property(circumstances, (c) => {
        const least = owes(signalsDue({ ...c, nearTraffic: false, specialAnchorage: true }));
        const most = owes(signalsDue({ ...c, nearTraffic: true, specialAnchorage: false }));
        const clear = owes(signalsDue({ ...c, restrictedVisibility: false }));
        const poor = owes(signalsDue({ ...c, restrictedVisibility: true }));
        least.forEach((n, i) => {
          expect(most[i]).toBeGreaterThanOrEqual(n);
          expect(poor[i]).toBeGreaterThanOrEqual(clear[i]!);
        });
      }),
    );
  });
  test("name a rule for everything shown, sounded or let go", () => {
    fc.assert(
      fc.property(circumstances, (c) => {
        const d = signalsDue(c);
        for (const item of [...d.lights, ...d.shapes, ...d.exemptions])
          expect(d.rules).toContain(item.rule);
        if (d.sound) expect(d.rules).toContain(d.sound.rule);
        if (d.lights.length + d.shapes.length === 0) expect(d.exemptions.length).toBeGreaterThan(0);
      }),
    );
  });
  test("a local rule without relief leaves no exemption", () => {
    fc.assert(
      fc.property(circumstances, (c) => {
        const d = signalsDue({
          ...c,
          localRule: { rule: "harbour by-law 7", noRelief: true },
        });
        expect(d.exemptions).toEqual([]);
        expect(d.rules).toContain("harbour by-law 7");
      }),
    );
  });
});

describe("signals over a stay", () => {
  const stayAt = fc.record({
    latDeg: fc.double({ min: -85, max: 85, noNaN: true }),
    lonDeg: fc.double({ min: -180, max: 180, noNaN: true }),
    fromMs: fc.integer({
      min: Date.UTC(2020, 0, 1),
      max: Date.UTC(2035, 0, 1),
    }),
    hours: fc.integer({ min: 1, max: 100 }),
  });
  test("the timeline has neither gap nor overlap, and lights burn from sunset to sunrise", () => {
    fc.assert(
      fc.property(stayAt, lengthM, ({ latDeg, lonDeg, fromMs, hours }, l) => {
        const stay = { fromMs, toMs: fromMs + hours * 3_600_000 };
        const position = { latDeg, lonDeg };
        const { timeline } = signalsOver({
          vessel: { lengthM: l },
          position,
          stay,
        });
        expect(timeline[0]!.fromMs).toBe(stay.fromMs);
        expect(timeline.at(-1)!.toMs).toBe(stay.toMs);
        timeline.forEach((s, i) => {
          if (i > 0) expect(s.fromMs).toBe(timeline[i - 1]!.toMs);
          expect(s.due.lights.length > 0).toBe(s.period !== "day");
        });
        const sunset = nextSunEvent({
          position,
          afterMs: fromMs,
          kind: "sunset",
        });
        if (sunset.occurs && sunset.timeMs < stay.toMs)
          expect(timeline.some((s) => s.fromMs === sunset.timeMs)).toBe(true);
      }),
      { numRuns: 60 },
    );
  });
});

// The law of Allard: twice as far through air that takes nothing needs four times the light.
test("intensity follows the square of the range in perfectly clear air", () => {
  fc.assert(
    fc.property(fc.double({ min: 100, max: 10_000, noNaN: true }), (rangeM) => {
      const one = lightIntensity({ rangeM, transmissivity: 1 }).intensityCd;
      const two = lightIntensity({ rangeM: 2 * rangeM, transmissivity: 1 });
      expect(two.intensityCd / one).toBeCloseTo(4, 10);
    }),
  );
});
