import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import { utc } from "../../src/core/time.js";
import { signalsDue, signalsOver } from "../../src/signals/index.js";

const base = {
  lengthM: 11,
  situation: "anchored",
  period: "night",
  restrictedVisibility: false,
} as const;

describe("signals due", () => {
  test("unless traffic is denied it is taken to be near", () => {
    expect(signalsDue({ ...base, lengthM: 5 }).lights).toHaveLength(1);
    expect(signalsDue({ ...base, lengthM: 5, nearTraffic: false }).lights).toEqual([]);
  });
  // Rule 30(e) gives relief from lights and shapes, not from Rule 35.
  test("under 7 m in a quiet place still sounds in fog", () => {
    const due = signalsDue({
      ...base,
      lengthM: 5,
      nearTraffic: false,
      restrictedVisibility: true,
    });
    expect(due.sound?.rule).toBe("35(j)");
  });
  // Rule 35(g): bell forward, then gong aft.
  test("gong from 100 m", () => {
    const fog = { ...base, restrictedVisibility: true };
    expect(signalsDue({ ...fog, lengthM: 99.99 }).sound?.gong).toBeNull();
    expect(signalsDue({ ...fog, lengthM: 100 }).sound?.gong).toEqual({
      ringS: 5,
    });
  });
  // 33 CFR 83.35(l): barges and the like at any length.
  test("a long barge in a special area is let off the sound signal, not the lights", () => {
    const due = signalsDue({
      ...base,
      lengthM: 60,
      regime: "usInland",
      specialAnchorage: true,
      nondescriptCraft: true,
      restrictedVisibility: true,
    });
    expect(due.sound).toBeNull();
    expect(due.lights).toHaveLength(2);
  });
  test("a vessel aground in a special area gets no relief", () => {
    const due = signalsDue({
      ...base,
      lengthM: 15,
      situation: "aground",
      regime: "usInland",
      specialAnchorage: true,
    });
    expect(due.exemptions).toEqual([]);
    expect(due.lights.map((l) => l.colour)).toEqual(["white", "red"]);
    expect(due.lights[1]!.obligation).toBe("ifPracticable");
  });
  test("a local rule adds a ball by night and duties in words", () => {
    const due = signalsDue({
      ...base,
      localRule: {
        rule: "harbour by-law 12",
        shapesAtAllTimes: true,
        also: ["watch on channel 12"],
      },
    });
    expect(due.shapes).toHaveLength(1);
    expect(due.also).toEqual(["watch on channel 12"]);
  });
  test("lights of a local rule stand in place of those of the rules, relief or none", () => {
    const ruled = signalsDue({ ...base }).lights[0]!;
    const due = signalsDue({
      ...base,
      lengthM: 5,
      nearTraffic: false,
      localRule: {
        rule: "harbour by-law 3",
        lights: [
          {
            ...ruled,
            place: "asRuled",
            placement: "on the fairway side",
            rule: "harbour by-law 3",
          },
        ],
      },
    });
    expect(due.lights.map((l) => l.placement)).toEqual(["on the fairway side"]);
  });
  test.each([
    [{ ...base, lengthM: 0 }],
    [{ ...base, lengthM: NaN }],
    [{ ...base, nearTrafic: true }],
    [{ ...base, period: "dusk" }],
  ])("refuses %j", (input) => {
    expect(() => signalsDue(input as never)).toThrow(InputError);
  });
});

describe("signals over a stay", () => {
  const vessel = { lengthM: 11 };
  test("fog by day adds lights and sound for its span only", () => {
    const fromMs = utc("2026-06-01T10:00Z");
    const { timeline } = signalsOver({
      vessel,
      position: { latDeg: 50, lonDeg: -4 },
      stay: { fromMs, toMs: fromMs + 4 * 3_600_000 },
      restrictedVisibility: [{ fromMs: fromMs + 3_600_000, toMs: fromMs + 7_200_000 }],
    });
    expect(timeline.map((s) => [s.due.lights.length, s.due.sound !== null])).toEqual([
      [0, false],
      [1, true],
      [0, false],
    ]);
  });
  test("midnight sun: no lights; polar night: lights throughout", () => {
    const stayIn = (month: number) => ({
      fromMs: Date.UTC(2026, month, 15),
      toMs: Date.UTC(2026, month, 17),
    });
    const at = { latDeg: 75, lonDeg: 20 };
    const june = signalsOver({ vessel, position: at, stay: stayIn(5) });
    expect(june.timeline.map((s) => s.period)).toEqual(["day"]);
    const december = signalsOver({ vessel, position: at, stay: stayIn(11) });
    expect(december.timeline.map((s) => s.period)).toEqual(["night"]);
    expect(december.timeline[0]!.due.lights).toHaveLength(1);
  });
});
