import { describe, expect, test } from "vitest";
import { check } from "../../src/core/check.js";
import { utc } from "../../src/core/time.js";
import { hours, minutes } from "../../src/core/units.js";
import { constantsError, cosineShare, MEAN_INTERVAL_MS, SUSPECT } from "../../src/tide/error.js";
import { median, suspectPieces } from "../../src/tide/gaps.js";
import {
  blockOf,
  harmonicHeight,
  harmonicSlope,
  prepareHarmonic,
} from "../../src/tide/harmonic.js";
import {
  depthOverStay,
  pressureSurge,
  secondaryTurns,
  tideHeight,
  tideSeries,
  tideTurns,
  type DepthOverStayInput,
  type TideSource,
} from "../../src/tide/index.js";
import { mainLows, majorTurns, withKinds, type Turn } from "../../src/tide/kinds.js";
import { tideCurve } from "../../src/tide/prepare.js";
import { constituentsSource, tideSource } from "../../src/tide/source.js";
import { overSpan } from "../../src/tide/span.js";

// What heights and depths must do by their own definition, worked out by hand: asked for where a small change of
// the code would go unnoticed by the published values.

const T0 = utc("2026-06-01T00:00Z");
const HOUR = hours(1);
const DAY = 24 * HOUR;
const at = (h: number): number => T0 + Math.round(h * HOUR);

type Table = Extract<TideSource, { kind: "turns" }>;
const table = (rows: readonly (readonly [number, number])[], more: Partial<Table> = {}): Table => ({
  kind: "turns",
  turns: rows.map(([h, heightM]) => ({ timeMs: at(h), heightM })),
  datum: "LAT",
  ...more,
});
/** Six hours up, six hours down, from 1 to 5 m. */
const EVEN = table([0, 6, 12, 18, 24].map((h, i) => [h, i % 2 === 0 ? 1 : 5] as const));

function known(source: TideSource, h: number) {
  const found = tideHeight(source, at(h));
  if (!found.known) throw new Error(found.reason);
  return found;
}
const curveOf = (source: TideSource, from: number, to: number) =>
  tideCurve(check(tideSource, source), at(from), at(to));
const issuesOf = (f: () => unknown): string[] => {
  try {
    f();
  } catch (error) {
    return (error as { issues: { path: string }[] }).issues.map((i) => i.path);
  }
  throw new Error("nothing was refused");
};

describe("over a span", () => {
  const parabola = (t: number): number => (t / HOUR - 2.3) ** 2;
  const knots = [0, 1, 2, 3, 4, 5].map((h) => h * HOUR);
  test("a turn hidden between knots is found to half a second, with few looks", () => {
    let looks = 0;
    const found = overSpan((t) => (looks++, parabola(t)), knots, 0.01);
    expect(Math.abs(found.least.timeMs - 2.3 * HOUR)).toBeLessThan(500);
    expect(found.least.value).toBeLessThan(1e-7);
    expect(found.greatest).toEqual({ value: expect.closeTo(7.29, 9) as number, timeMs: 5 * HOUR });
    expect(found.below).toHaveLength(1);
    expect(found.below[0]!.fromMs / HOUR).toBeCloseTo(2.2, 3);
    expect(found.below[0]!.toMs / HOUR).toBeCloseTo(2.4, 3);
    expect(looks).toBeLessThan(80);
  });
  test("and so is one upside down", () => {
    const found = overSpan((t) => -parabola(t), knots, -0.01);
    expect(Math.abs(found.greatest.timeMs - 2.3 * HOUR)).toBeLessThan(500);
    expect(found.least.timeMs).toBe(5 * HOUR);
    expect(found.below.map((b) => [b.fromMs / HOUR, b.toMs / HOUR])).toEqual([
      [0, expect.closeTo(2.2, 3)],
      [expect.closeTo(2.4, 3), 5],
    ]);
  });
  test("half-way between two knots, where both have the same value", () => {
    const even = (t: number): number => (t / HOUR - 2.5) ** 2;
    for (const sign of [1, -1]) {
      const { least, greatest, below } = overSpan((t) => sign * even(t), knots, null);
      expect(below, "no limit, nothing below it").toEqual([]);
      const turn = sign > 0 ? least : greatest;
      expect(Math.abs(turn.timeMs - 2.5 * HOUR)).toBeLessThan(500);
    }
  });
  test("a turn before the knot that gives it away", () => {
    const { below } = overSpan((t) => (t / HOUR - 1.7) ** 2, knots, 0.01);
    expect(below.map((b) => [b.fromMs / HOUR, b.toMs / HOUR])).toEqual([
      [expect.closeTo(1.6, 3), expect.closeTo(1.8, 3)],
    ]);
  });
  test("a level stretch: the first instant counts, and the limit itself is not below it", () => {
    const found = overSpan(() => 1, knots, 1);
    expect(found.least.timeMs).toBe(0);
    expect(found.greatest.timeMs).toBe(0);
    expect(found.below).toEqual([]);
    expect(overSpan(() => 1, knots, 1.001).below).toEqual([{ fromMs: 0, toMs: 5 * HOUR }]);
  });
  test("touching the limit at a knot is not below it", () => {
    const v = (t: number): number => Math.abs(t / HOUR - 2);
    expect(overSpan(v, [0, 2 * HOUR, 4 * HOUR], 0).below).toEqual([]);
  });
  test("what is no number is below the limit, from the last knot known to the next", () => {
    const f = (t: number): number => (t >= 2 * HOUR && t <= 3 * HOUR ? NaN : 5);
    expect(overSpan(f, knots, 1).below).toEqual([{ fromMs: HOUR, toMs: 4 * HOUR }]);
  });
});

describe("missing turns", () => {
  const list = (...rows: [h: number, heightM: number, kind: "high" | "low"][]): Turn[] =>
    rows.map(([h, heightM, kind]) => ({ timeMs: at(h), heightM, kind }));
  const suspects = (
    turns: Turn[],
    more: {
      type?: { formNumber: number; shallowRatio: null };
      complete?: boolean;
      told?: boolean[];
    } = {},
  ) =>
    suspectPieces(
      {
        turns: turns.map((t, i) => ((more.told?.[i] ?? true) ? { kind: t.kind } : {})),
        type: more.type,
        complete: more.complete ?? false,
      },
      turns,
    );
  test("the median", () => {
    expect(median([3, 1, 2])).toBe(2);
    expect(median([4, 1, 3, 10])).toBe(3.5);
    expect(median([])).toBeNaN();
  });
  test("once a day is a real tide only where every turn says what it is, or the kind of tide does", () => {
    const daily = list([0, 0, "low"], [12.4, 1, "high"], [24.8, 0, "low"], [37.2, 1, "high"]);
    expect(suspects(daily)).toEqual([false, false, false]);
    expect(suspects(daily, { told: [true, false, true, true] })).toEqual([true, true, true]);
    const type = (formNumber: number) => ({ formNumber, shallowRatio: null });
    const told = [false, false, false, false];
    expect(suspects(daily, { told, type: type(0.39) })).toEqual([true, true, true]);
    expect(suspects(daily, { told, type: type(0.4) })).toEqual([false, false, false]);
  });
  test("a pair of turns left out of a table of a mixed tide is missed", () => {
    const left = list([0, 4, "high"], [6.2, 0, "low"], [24.8, 4, "high"], [31, 0, "low"]);
    const told = [false, false, false, false];
    for (const formNumber of [0.3, 0.9, 1.4])
      expect(suspects(left, { told, type: { formNumber, shallowRatio: null } })).toEqual([
        false,
        true,
        false,
      ]);
    const vanished = list([0, 4, "high"], [6.2, 0, "low"], [23.3, 4, "high"]);
    expect(suspects(vanished, { told, type: { formNumber: 0.9, shallowRatio: null } })).toEqual([
      false,
      false,
    ]);
  });
  test("the longest interval that passes", () => {
    const turns = (ms: number): Turn[] => [
      { timeMs: T0, heightM: 0, kind: "low" },
      { timeMs: T0 + ms, heightM: 3, kind: "high" },
    ];
    const told = [false, false];
    expect(suspects(turns(SUSPECT * MEAN_INTERVAL_MS), { told })).toEqual([false]);
    expect(suspects(turns(SUSPECT * MEAN_INTERVAL_MS + 1), { told })).toEqual([true]);
  });
  test("a short table that tells its kinds does not take its own gap for the usual interval", () => {
    expect(suspects(list([0, 4, "high"], [18.6, 0, "low"]))).toEqual([true]);
    expect(suspects(list([0, 4, "high"], [6.2, 0, "low"], [24.8, 4, "high"]))).toEqual([
      false,
      true,
    ]);
    expect(suspects(list([0, 1, "high"], [12.4, 0, "low"]))).toEqual([false]);
    expect(suspects(list([0, 1, "high"], [15.4, 0, "low"]))).toEqual([false]);
    expect(suspects(list([0, 1, "high"], [15.6, 0, "low"]))).toEqual([true]);
    // Where the kind of tide is told to be twice daily, that holds.
    const twice = { type: { formNumber: 0.1, shallowRatio: null } };
    const daily = list([0, 4, "high"], [12.4, 0, "low"], [31, 4, "high"]);
    expect(suspects(daily, twice)).toEqual([true, true]);
  });
  test("two waters of a kind are a stand up to four hours, and a missing turn beyond", () => {
    expect(suspects(list([0, 4, "high"], [4, 4.2, "high"]))).toEqual([false]);
    expect(suspects(list([0, 4, "high"], [4.01, 4.2, "high"]))).toEqual([true]);
  });
  test("a high water below the low water beside it is not believed", () => {
    expect(suspects(list([0, 3, "low"], [6, 2.9, "high"]))).toEqual([true]);
    expect(suspects(list([0, 3, "high"], [6, 3.1, "low"]))).toEqual([true]);
    expect(suspects(list([0, 3, "low"], [6, 3, "high"], [12, 3, "low"]))).toEqual([false, false]);
  });
});

describe("kinds of turns", () => {
  const of = (...heights: number[]) =>
    withKinds(heights.map((heightM, i) => ({ timeMs: at(6 * i), heightM })));
  const heights = (turns: readonly Turn[]) => turns.map((t) => t.heightM);
  test("the upper end of a long fall is a high water", () => {
    expect(of(5, 4.9, 0).map((t) => t.kind)).toEqual(["high", "high", "low"]);
    expect(of(0, 2, 3).map((t) => t.kind)).toEqual(["low", "high", "high"]);
    expect(of(2, 2, 2).map((t) => t.kind)).toEqual(["high", "low", "high"]);
  });
  test("a printed table drops what is under its share of the ninetieth part of the ranges", () => {
    expect(heights(majorTurns(of(0, 4, 2, 2.4, 0, 4), 0.12))).toEqual([0, 4, 0, 4]);
    expect(heights(majorTurns(of(0, 4, 2, 3, 0, 4), 0.25))).toEqual([0, 4, 2, 3, 0, 4]);
    expect(heights(majorTurns(of(0, 4, 2, 2.9, 0, 4), 0.25))).toEqual([0, 4, 0, 4]);
  });
  test("at either end one turn goes, not a pair", () => {
    expect(heights(majorTurns(of(3.9, 4, 0, 4, 0), 0.12))).toEqual([4, 0, 4, 0]);
    expect(heights(majorTurns(of(0, 4, 0, 4, 3.9), 0.12))).toEqual([0, 4, 0, 4]);
  });
  test("the least pair goes first", () => {
    // The rise of 0.1 goes; the fall of 0.4 that is left is too great to go.
    expect(heights(majorTurns(of(4, 0, 1.9, 1.65, 1.75, 1.5, 4, 0), 0.07))).toEqual([
      4, 0, 1.9, 1.5, 4, 0,
    ]);
    expect(majorTurns([], 0.12)).toEqual([]);
    expect(heights(majorTurns(of(1, 2), 0.5))).toEqual([1, 2]);
  });
  test("of low waters of one tide the lowest stays, of two alike the first", () => {
    const lows = (...rows: [h: number, heightM: number, kind?: "high"][]) =>
      mainLows(
        rows.map(([h, heightM, kind]) => ({ timeMs: at(h), heightM, kind: kind ?? "low" })),
      ).map((t) => (t.timeMs - T0) / HOUR);
    expect(lows([0, 0.5], [2, 3, "high"], [4, 2.8], [6, 3, "high"], [12, 0.4])).toEqual([0, 12]);
    expect(lows([0, 0.5], [12.4, 3, "high"], [24.8, 0.4])).toEqual([0, 24.8]);
    expect(lows([0, 0.5], [3, 0.5], [12, 0.5])).toEqual([0, 12]);
    expect(lows([0, 0.5], [7.5, 0.4])).toEqual([7.5]);
    expect(lows([0, 0.5], [7.6, 0.4])).toEqual([0, 7.6]);
  });
});

describe("stated errors", () => {
  const type = (formNumber: number, shallowRatio: number | null) => ({ formNumber, shallowRatio });
  test("of the half-cosine, by the kind of tide", () => {
    expect(cosineShare(undefined, 1)).toBe(0.22);
    expect(cosineShare(type(0.1, null), 1)).toBe(0.22);
    expect(cosineShare(type(0.1, 0.1), 1)).toBeCloseTo(0.012 + 0.13, 12);
    expect(cosineShare(type(0.5, 0.1), 1)).toBeCloseTo(0.03 + 0.05, 12);
    expect(cosineShare(type(0.1, 0.1), 1.3)).toBeCloseTo(0.142, 12);
    expect(cosineShare(type(0.1, 0.1), 1.31)).toBeCloseTo(0.284, 12);
    expect(cosineShare(undefined, SUSPECT)).toBe(0.42);
    expect(cosineShare(type(0.1, 0), SUSPECT)).toBeCloseTo(0.024, 12);
    expect(cosineShare(type(0.1, 0), SUSPECT + 0.01)).toBe(0.42);
    expect(cosineShare(type(0.1, 0), NaN)).toBe(0.42);
  });
  test("never less for a longer interval, nor for shallower water", () => {
    for (const form of [0.1, 0.4, 1, 5])
      for (const ratio of [0, 0.1, 0.3, 0.4, 1]) {
        const shares = [0.5, 1.3, 1.4, 1.6, 2].map((times) =>
          cosineShare(type(form, ratio), times),
        );
        expect([...shares].sort((a, b) => a - b)).toEqual(shares);
        expect(cosineShare(type(form, ratio + 0.1), 1)).toBeGreaterThanOrEqual(shares[0]!);
      }
  });
  test("of constants: a centimetre and 0.8 % of the amplitudes", () => {
    expect(
      constantsError({ constituents: [{ amplitudeM: 1.5 }, { amplitudeM: 0.5 }] }),
    ).toBeCloseTo(0.026, 12);
  });
  test("at a turn half the printed step, between turns the rule's share of the ranges besides", () => {
    const source = { ...EVEN, heightStepM: 0.1, type: { formNumber: 0.1, shallowRatio: 0.1 } };
    for (const h of [0, 6, 24]) expect(known(source, h).errorM.high).toBeCloseTo(0.05, 12);
    // The share counts the range of the interval and a quarter of the usual one.
    const middle = 0.05 + 0.142 * (4 + 0.25 * 4);
    expect(known(source, 3).errorM.high).toBeCloseTo(middle, 12);
    expect(known(source, 3).errorM.low).toBeCloseTo(-middle, 12);
    expect(known({ ...source, rule: "twelfths" }, 3).errorM.high).toBeCloseTo(
      middle + 0.02555 * 4,
      12,
    );
  });
  test("an interval is never measured against one shorter than that of the moon", () => {
    const rows = [0, 3, 6, 12, 15].map((h, i) => [h, i % 2 === 0 ? 0 : 2] as const);
    // Six hours are no long interval, though the others are three hours.
    expect(known(table(rows), 9).errorM.high).toBeCloseTo(0.005 + 0.22 * (2 + 0.25 * 2), 12);
  });
  test("a curve that carries its own error states that one", () => {
    const curve = {
      key: "highWater" as const,
      springs: [0, 0.5, 1, 0.4, 0],
      neaps: [0, 0.5, 1, 0.4, 0],
      springsRangeM: 4,
      neapsRangeM: 2,
    };
    const errors = { errorLow: [0, -0.05, 0, -0.1, 0], errorHigh: [0, 0.02, 0, 0.04, 0] };
    const { turns } = EVEN;
    const source: TideSource = {
      kind: "curve",
      turns,
      datum: "LAT",
      curve: { ...curve, ...errors },
    };
    expect(known(source, 3).errorM.low).toBeCloseTo(-(4 * 0.05) - 0.005, 12);
    expect(known(source, 9).errorM.high).toBeCloseTo(4 * 0.04 + 0.005, 12);
    const plain: TideSource = { kind: "curve", turns, datum: "LAT", curve };
    expect(known(plain, 3).errorM.low).toBeCloseTo(-(0.005 + 0.22 * 5), 12);
    expect(known(plain, 3).basis).toContain("high water");
    expect(known({ ...plain, curve: { ...curve, key: "lowWater" } }, 3).basis).toContain(
      "low water",
    );
  });
  test("the error ends at the turns on either side, for the water does not pass them", () => {
    const printed = 0.005;
    for (const rule of ["cosine", "twelfths"] as const) {
      const curve = curveOf({ ...EVEN, rule }, 0, 24);
      let short = 0;
      for (let h = 0; h <= 24; h += 0.1) {
        const t = at(h);
        const [low, high] = [curve.errorLowAt(t), curve.errorHighAt(t)];
        const height = curve.heightAt(t);
        expect(height + low).toBeGreaterThanOrEqual(1 - printed - 1e-9);
        expect(height + high).toBeLessThanOrEqual(5 + printed + 1e-9);
        // Whichever side is not cut short states the whole error, alike on either.
        const whole = Math.max(-low, high);
        if (-low < whole - 1e-9) expect(height + low).toBeCloseTo(1 - printed, 9);
        if (high < whole - 1e-9) expect(height + high).toBeCloseTo(5 + printed, 9);
        if (Math.abs(low + high) > 1e-9) short++;
      }
      expect(short).toBeGreaterThan(100);
      expect(curve.errorLowAt(at(3))).toBe(-curve.errorHighAt(at(3)));
    }
  });
  test("the rule is told", () => {
    expect(known(EVEN, 3).basis).toMatch(/^half-cosine/);
    expect(known({ ...EVEN, rule: "twelfths" }, 3).basis).toMatch(/^rule of twelfths/);
  });
  test("nothing is stated outside the table", () => {
    const curve = curveOf(EVEN, 0, 24);
    for (const h of [-0.1, 24.1]) {
      expect(curve.errorHighAt(at(h))).toBeNaN();
      expect(curve.errorLowAt(at(h))).toBeNaN();
    }
  });
});

describe("gaps of a table", () => {
  const curve = curveOf(
    table([
      [0, 1],
      [6, 5],
      [18, 4],
      [24, 1],
      [30, 5],
    ]),
    -10,
    40,
  );
  const gaps = (from: number, to: number) =>
    curve
      .gaps(at(from), at(to))
      .map((g) => [(g.fromMs - T0) / HOUR, (g.toMs - T0) / HOUR, g.reason]);
  test("before, between and after", () => {
    expect(gaps(-5, 35)).toEqual([
      [-5, 0, "outsideTable"],
      [6, 18, "suspectGap"],
      [30, 35, "outsideTable"],
    ]);
    expect(gaps(0, 6)).toEqual([]);
    expect(gaps(18, 30)).toEqual([]);
    expect(gaps(7, 8)).toEqual([[7, 8, "suspectGap"]]);
  });
  test("an instant is in a gap or not", () => {
    for (const h of [0, 3, 6, 18, 30]) expect(gaps(h, h)).toEqual([]);
    expect(gaps(-1, -1)).toEqual([[-1, -1, "outsideTable"]]);
    expect(gaps(12, 12)).toEqual([[12, 12, "suspectGap"]]);
    expect(gaps(31, 31)).toEqual([[31, 31, "outsideTable"]]);
  });
  test("breaks lie inside the span alone", () => {
    expect(curve.breaks(at(0), at(24)).map((t) => (t - T0) / HOUR)).toEqual([6, 18]);
    expect(curve.breaks(at(29), at(99)).map((t) => (t - T0) / HOUR)).toEqual([30]);
  });
});

describe("depth over a stay", () => {
  const over = (more: Partial<DepthOverStayInput> = {}) =>
    depthOverStay({
      tide: EVEN,
      stay: { fromMs: at(2), toMs: at(20) },
      chartedDepthM: 2,
      ...more,
    });
  const knownDepth = (more: Partial<DepthOverStayInput> = {}) => {
    const found = over(more);
    if (!found.known) throw new Error("not known");
    return found;
  };
  const row = (h: number, likely: number) => ({
    timeMs: at(h),
    low: likely - 0.1,
    likely,
    high: likely + 0.2,
  });

  test("a surge out of order, and a now outside the stay, are refused", () => {
    const one = { timeMs: at(0), low: 0, likely: 0, high: 0 };
    const two = { ...one, timeMs: at(24) };
    for (const bad of [{ low: 0.1 }, { high: -0.1 }])
      expect(issuesOf(() => over({ surgeM: [one, { ...two, ...bad }] }))).toHaveLength(1);
    for (const h of [1.9, 20.1]) expect(issuesOf(() => over({ nowMs: at(h) }))).toEqual(["nowMs"]);
    for (const h of [2, 20]) expect(knownDepth({ nowMs: at(h) }).known).toBe(true);
  });
  test("what was taken for granted is said, and nothing else", () => {
    expect(knownDepth().assumed).toEqual(["the charted depth is below LAT", "no surge"]);
    const all = { chartDatum: "LAT", surgeM: { low: 0, likely: 0, high: 0 } };
    expect(knownDepth(all).assumed).toEqual([]);
  });
  test("one surge for all of the stay moves each side by its own end", () => {
    const plain = knownDepth();
    const moved = knownDepth({ surgeM: { low: -0.4, likely: 0.1, high: 0.3 } });
    expect(moved.least.depthM - plain.least.depthM).toBeCloseTo(0.1, 9);
    expect(moved.low.least.depthM - plain.low.least.depthM).toBeCloseTo(-0.4, 9);
    expect(moved.high.greatest.depthM - plain.high.greatest.depthM).toBeCloseTo(0.3, 9);
  });
  test("a short surge counts at its own instant, and only inside the stay", () => {
    const surgeM = [row(0, 0), row(9, 0), row(9.1, 3), row(9.2, 0), row(24, 0)];
    const found = knownDepth({ surgeM });
    expect(found.greatest.timeMs).toBe(at(9.1));
    expect(found.greatest.depthM).toBeCloseTo(2 + known(EVEN, 9.1).heightM + 3, 9);
    const later = [row(0, 0), row(20, 0), row(21, 9), row(24, -9)];
    expect(knownDepth({ surgeM: later }).greatest.depthM).toBeCloseTo(7, 6);
    expect(knownDepth({ surgeM: later }).least.depthM).toBeCloseTo(3, 6);
    const before = [row(0, 9), row(1, -9), row(2, 0), row(24, 0)];
    expect(knownDepth({ surgeM: before }).greatest.depthM).toBeCloseTo(7, 6);
    expect(knownDepth({ surgeM: before }).least.depthM).toBeCloseTo(3, 6);
  });
  test("no minute of the stay is beyond least and greatest on any side", () => {
    const surgeM = [row(0, 0), row(7, -0.8), row(13, 0.9), row(24, -0.5)];
    const uneven = table([
      [0, 5],
      [6, 1],
      [11, 2],
      [18, 0.8],
      [24, 6],
    ]);
    const cases = [EVEN, uneven].flatMap((tide) => [{ tide }, { tide, surgeM }]);
    for (const more of cases) {
      const found = knownDepth(more);
      const curve = curveOf(more.tide, 0, 24);
      const surgeAt = (t: number, shift: number) => {
        const i = surgeM.findLastIndex((r) => r.timeMs <= t);
        const [a, b] = [surgeM[i]!, surgeM[i + 1]!];
        const part = (t - a.timeMs) / (b.timeMs - a.timeMs);
        return "surgeM" in more ? a.likely + part * (b.likely - a.likely) + shift : 0;
      };
      const sides = [
        [found, 0, () => 0],
        [found.low, -0.1, curve.errorLowAt],
        [found.high, 0.2, curve.errorHighAt],
      ] as const;
      for (const [side, shift, error] of sides) {
        const sampled = Array.from({ length: 18 * 720 + 1 }, (_, m) => {
          const t = at(2) + m * minutes(1 / 12);
          return 2 + curve.heightAt(t) + error(t) + surgeAt(t, shift);
        });
        const [least, greatest] = [Math.min(...sampled), Math.max(...sampled)];
        // Where the error ends at a turn the depth may have a corner between two samples.
        expect(side.least.depthM).toBeCloseTo(least, 4);
        expect(side.greatest.depthM).toBeCloseTo(greatest, 3);
        expect(side.least.depthM).toBeLessThanOrEqual(least + 1e-9);
        expect(side.greatest.depthM).toBeGreaterThanOrEqual(greatest - 1e-9);
      }
    }
  });
  test("instants at a limit lie on every rise and fall", () => {
    // 3 m of height is half of each rise and fall.
    const { below } = knownDepth({ limitM: 5 });
    expect(below.map((b) => [(b.fromMs - T0) / HOUR, (b.toMs - T0) / HOUR])).toEqual([
      [2, expect.closeTo(3, 3)],
      [expect.closeTo(9, 3), expect.closeTo(15, 3)],
    ]);
  });

  describe("not known throughout", () => {
    const stay = (from: number, to: number) => ({ fromMs: at(from), toMs: at(to) });
    const part = (more: Partial<DepthOverStayInput>) => {
      const found = over(more);
      if (found.known) throw new Error("known");
      return found;
    };
    test("a surge that begins late or ends early", () => {
      const missing = (...rows: ReturnType<typeof row>[]) =>
        part({ surgeM: rows }).missing.map((g) => [
          (g.fromMs - T0) / HOUR,
          (g.toMs - T0) / HOUR,
          g.reason,
        ]);
      expect(missing(row(5, 0), row(24, 0))).toEqual([[2, 5, "outsideSurge"]]);
      expect(missing(row(5, 0), row(19, 0))).toEqual([
        [2, 5, "outsideSurge"],
        [19, 20, "outsideSurge"],
      ]);
      expect(missing(row(30, 0), row(40, 0))).toEqual([[2, 20, "outsideSurge"]]);
      expect(missing(row(-9, 0), row(-8, 0))).toEqual([[2, 20, "outsideSurge"]]);
      expect(over({ surgeM: [row(2, 0), row(20, 0)] }).known).toBe(true);
    });
    test("what is known of the rest is told apart", () => {
      const found = part({ stay: stay(-5, 9), limitM: 5 });
      expect(found.knownPart).toMatchObject({
        least: { depthM: 3, timeMs: at(0) },
        greatest: { depthM: 7, timeMs: at(6) },
      });
      expect(found.knownPart!.below[0]!.fromMs).toBe(at(0));
      expect(part({ stay: stay(-5, -1) }).knownPart).toBeNull();
    });
    test("parts on both sides of a gap, each with what is below the limit", () => {
      const tide = table([
        [0, 1],
        [6, 5],
        [18, 4],
        [24, 0.5],
        [30, 5.5],
      ]);
      const found = part({ tide, stay: stay(0, 30), limitM: 3.5 });
      expect(found.missing).toEqual([{ ...stay(6, 18), reason: "suspectGap" }]);
      expect(found.knownPart).toMatchObject({
        least: { depthM: 2.5, timeMs: at(24) },
        greatest: { depthM: 7.5, timeMs: at(30) },
      });
      expect(found.knownPart!.below).toHaveLength(2);
      const alike = part({
        tide: table([
          [0, 1],
          [6, 5],
          [18, 5],
          [24, 1],
        ]),
        stay: stay(0, 24),
      });
      expect(alike.knownPart).toMatchObject({
        least: { timeMs: at(0) },
        greatest: { timeMs: at(6) },
      });
      const mirrored = table([
        [0, 5.5],
        [6, 0.5],
        [12, 4],
        [24, 5],
        [30, 1],
      ]);
      expect(part({ tide: mirrored, stay: stay(0, 30) }).knownPart).toMatchObject({
        least: { depthM: 2.5, timeMs: at(6) },
        greatest: { depthM: 7.5, timeMs: at(0) },
      });
    });
    test("gaps of tide and surge are taken in the order of time", () => {
      const found = part({ stay: stay(2, 30), surgeM: [row(10, 0), row(40, 0)], limitM: 0 });
      expect(found.knownPart!.below).toEqual([]);
      // Known from 10 h, where the surge begins, to 24 h, where the table ends.
      expect(found.knownPart).toMatchObject({
        least: { timeMs: at(12) },
        greatest: { timeMs: at(18) },
      });
    });
    test("gaps that overlap count once", () => {
      const found = part({ stay: stay(-8, 9), surgeM: [row(3, 0), row(40, 0)] });
      expect(found.knownPart!.least.timeMs).toBe(at(3));
    });
  });
});

describe("pressure", () => {
  test("the spread reaches from no answer of the sea to the full one", () => {
    const high = pressureSurge({ pressureHpa: 1040 });
    expect(high.surgeM).toBeLessThan(0);
    expect(high.spreadM).toEqual({ low: high.surgeM, likely: high.surgeM, high: 0 });
    const low = pressureSurge({ pressureHpa: 980 });
    expect(low.spreadM).toEqual({ low: 0, likely: low.surgeM, high: low.surgeM });
  });
});

describe("differences", () => {
  const none = [{ hourOfDay: 0, differenceMs: 0 }];
  type Of = Parameters<typeof secondaryTurns>[1];
  const turnAt = (h: number, heightM: number, more: Partial<Of>) =>
    secondaryTurns([{ timeMs: at(h), heightM, kind: "high" }], {
      tableZoneHours: 0,
      highTime: none,
      lowTime: none,
      highHeight: { ratio: 1 },
      lowHeight: { ratio: 1 },
      ...more,
    })[0]!;
  test("hours of the day are those of a clock ahead of UTC by the zone", () => {
    const highTime = [
      { hourOfDay: 0, differenceMs: 0 },
      { hourOfDay: 6, differenceMs: minutes(60) },
    ];
    const shift = (h: number, tableZoneHours: number) =>
      (turnAt(h, 3, { highTime, tableZoneHours }).timeMs - at(h)) / minutes(1);
    expect(shift(3, 3)).toBeCloseTo(60, 9);
    expect(shift(3, -3)).toBeCloseTo(0, 9);
    expect(shift(2, 1)).toBeCloseTo(30, 9);
    // On from six o'clock round midnight: eighteen hours down again.
    expect(shift(15, 0)).toBeCloseTo(30, 9);
  });
  test("a ratio and what is added, a constant difference, and rows", () => {
    expect(turnAt(0, 3, { highHeight: { ratio: 2, addM: 0.5 } })).toMatchObject({
      heightM: 6.5,
      extrapolated: false,
    });
    const one = { rows: [{ standardHeightM: 9, differenceM: 0.25 }] };
    expect(turnAt(0, 3, { highHeight: one })).toMatchObject({ heightM: 3.25, extrapolated: false });
    const rows = [
      { standardHeightM: 4, differenceM: 0 },
      { standardHeightM: 1, differenceM: 0 },
      { standardHeightM: 2, differenceM: 1 },
    ];
    const of = (m: number, beyond: "linear" | "constant" = "linear") => {
      const t = turnAt(0, m, { highHeight: { rows }, beyond });
      return [t.heightM - m, t.extrapolated];
    };
    expect([1, 1.5, 2, 3, 4].map((m) => of(m))).toEqual([
      [0, false],
      [0.5, false],
      [1, false],
      [0.5, false],
      [0, false],
    ]);
    expect(of(0.5)).toEqual([-0.5, true]);
    expect(of(6)).toEqual([-1, true]);
    expect(of(0.5, "constant")).toEqual([0, true]);
    expect(of(6, "constant")).toEqual([0, true]);
  });
});

describe("constants", () => {
  const source = (
    constituents: Extract<TideSource, { kind: "constituents" }>["constituents"],
    more: Partial<Extract<TideSource, { kind: "constituents" }>> = {},
  ): Extract<TideSource, { kind: "constituents" }> => ({
    kind: "constituents",
    constituents,
    meanLevelM: 2,
    datum: "LAT",
    ...more,
  });
  const M2 = { name: "M2", amplitudeM: 1.5, phaseDeg: 120 };
  const ready = (s: ReturnType<typeof source>, fromMs: number, toMs: number) =>
    prepareHarmonic(check(constituentsSource, s), fromMs, toMs);

  test("a shift of datum is added", () => {
    const plain = known(source([M2]), 5).heightM;
    const moved = known(source([M2], { toDatum: { datum: "chart", addM: 0.7 } }), 5);
    expect(moved.heightM).toBeCloseTo(plain + 0.7, 12);
    expect(moved.datum).toBe("chart");
  });
  test("a constituent of one's own runs on from its argument at the start of 2000", () => {
    const own = { speedDegPerHour: 28, at2000Deg: 75 };
    const s = source([{ name: "OWN", amplitudeM: 1, phaseDeg: 20, argument: own }]);
    for (const h of [0, 7, 100]) {
      const elapsed = (at(h) - utc("2000-01-01T00:00Z")) / HOUR;
      const angle = ((75 + 28 * elapsed - 20) % 360) * (Math.PI / 180);
      expect(known(s, h).heightM).toBeCloseTo(2 + Math.cos(angle), 6);
    }
  });
  test("a series is within a micrometre of the sum, with node factors of the day too", () => {
    const amplitudes = {
      M2: 5,
      S2: 1.8,
      N2: 1,
      K2: 0.5,
      L2: 0.6,
      K1: 0.5,
      O1: 0.5,
      M4: 0.5,
      MS4: 0.3,
    };
    const constituents = Object.entries(amplitudes).map(([name, amplitudeM], i) => ({
      name,
      amplitudeM,
      phaseDeg: (77 * i) % 360,
    }));
    const fromMs = utc("2024-12-20T05:07Z");
    const stepMs = minutes(1);
    for (const nodes of ["midYear", "continuous"] as const) {
      const s = source(constituents, { nodes });
      const heights = tideSeries(s, { fromMs, toMs: fromMs + 10 * DAY, stepMs });
      const h = ready(s, fromMs, fromMs + 10 * DAY);
      const off = heights.map((v, k) => Math.abs(v - harmonicHeight(h, fromMs + k * stepMs)));
      expect(Math.max(...off)).toBeLessThan(1e-6);
    }
  });
  test("node factors of mid-year hold all year, those of the day change without a step", () => {
    const fromMs = utc("2029-12-29T00:00Z");
    const toMs = utc("2030-01-03T00:00Z");
    const names = ["M2", "K1", "O1", "K2"];
    const s = source(names.map((name) => ({ name, amplitudeM: 15, phaseDeg: 30 })));
    const midYear = ready(s, fromMs, toMs);
    expect([...midYear.jump]).toEqual([0, 0, 0, 1, 0, 0]);
    expect(midYear.ampRate.every((r) => r === 0)).toBe(true);
    const daily = ready({ ...s, nodes: "continuous" }, fromMs, toMs);
    expect([...daily.jump]).toEqual([0, 0, 0, 0, 0, 0]);
    for (let day = 1; day < daily.blocks; day++)
      for (let i = 0; i < daily.n; i++) {
        const [was, is] = [(day - 1) * daily.n + i, day * daily.n + i];
        expect(daily.amp[was]! + daily.ampRate[was]! * DAY).toBeCloseTo(daily.amp[is]!, 9);
        expect(daily.ampRate[was]).not.toBe(0);
        const angle = daily.phase[was]! + daily.speed[was]! * DAY - daily.phase[is]!;
        expect(Math.cos(angle)).toBeGreaterThan(1 - 1e-10);
      }
    for (let day = 1; day < daily.blocks; day++) {
      const midnight = daily.startMs + day * DAY;
      const step = harmonicHeight(daily, midnight) - harmonicHeight(daily, midnight - 1);
      expect(Math.abs(step)).toBeLessThan(1e-4);
    }
    expect(known(s, 0).basis).toContain("middle of the year");
    expect(known({ ...s, nodes: "continuous" }, 0).basis).toContain("of the day");
  });
  test("the slope is that of the height", () => {
    const t = utc("2029-09-01T23:00Z");
    const s = source([{ name: "K2", amplitudeM: 15, phaseDeg: 10 }], { nodes: "continuous" });
    const h = ready(s, t, t);
    for (const ms of [t - 7 * HOUR, t - 3 * HOUR, t]) {
      const rise = (harmonicHeight(h, ms + 5000) - harmonicHeight(h, ms - 5000)) / 10_000;
      expect(harmonicSlope(h, ms) / rise).toBeCloseTo(1, 4);
    }
  });
  test("nothing is known outside the days made ready", () => {
    const h = ready(source([{ ...M2, amplitudeM: 0 }]), T0, T0 + DAY);
    expect(h.n).toBe(0);
    expect(blockOf(h, T0)).toBe(0);
    expect(blockOf(h, T0 + 2 * DAY - 1)).toBe(1);
    for (const t of [T0 - 3 * DAY, T0 - 1, T0 + 2 * DAY]) {
      expect(blockOf(h, t)).toBe(-1);
      expect(harmonicHeight(h, t)).toBeNaN();
    }
    expect(harmonicHeight(h, T0)).toBe(2);
    const curve = curveOf(source([M2]), 0, 24);
    const end = T0 + 2 * DAY;
    for (const t of [T0 - 1, end]) {
      expect(curve.unknownAt(t)).toBe("outsideTable");
      expect(curve.errorLowAt(t)).toBeNaN();
      expect(curve.errorHighAt(t)).toBeNaN();
    }
    expect(curve.gaps(T0 - 1, T0)).toHaveLength(1);
    expect(curve.gaps(T0, end)).toEqual([{ fromMs: T0, toMs: end, reason: "outsideTable" }]);
    expect(curve.gaps(T0, end - 1)).toEqual([]);
    expect(curve.unknownAt(end - 1)).toBeNull();
    expect(curve.errorLowAt(T0)).toBeCloseTo(-0.022, 12);
    expect(curve.errorHighAt(T0)).toBeCloseTo(0.022, 12);
    expect(curve.extrapolatedAt(T0)).toBe(false);
  });
  test("both sides of the step at new year are breaks, and no other midnight", () => {
    const newYear = utc("2027-01-01T00:00Z");
    const midnights = (nodes: "midYear" | "continuous", fromMs: number, toMs: number) =>
      tideCurve(check(tideSource, source([M2], { nodes })), fromMs, toMs)
        .breaks(fromMs, toMs)
        .filter((t) => Math.abs(((t + DAY / 2) % DAY) - DAY / 2) <= 1);
    expect(midnights("midYear", newYear - DAY, newYear + DAY)).toEqual([newYear - 1, newYear]);
    expect(midnights("midYear", newYear, newYear + DAY)).toEqual([]);
    expect(midnights("midYear", newYear - DAY, newYear)).toEqual([newYear - 1]);
    expect(midnights("continuous", newYear - DAY, newYear + DAY)).toEqual([]);
    const breaks = tideCurve(check(tideSource, source([M2])), newYear - DAY, newYear + DAY).breaks(
      newYear - DAY,
      newYear + DAY,
    );
    expect([...breaks].sort((a, b) => a - b)).toEqual(breaks);
    expect(breaks.length).toBeGreaterThanOrEqual(9);
  });
  test("one turn alone knows what it is", () => {
    const turns = tideTurns(source([M2]), { fromMs: T0, toMs: T0 + DAY });
    expect(turns.length).toBeGreaterThanOrEqual(3);
    for (const { timeMs, kind } of turns)
      for (const [before, after] of [
        [2, 3],
        [0, 3],
        [3, 0],
      ] as const) {
        const found = tideTurns(source([M2]), {
          fromMs: timeMs - before * HOUR - (before === 0 ? 2 : 0),
          toMs: timeMs + after * HOUR + (after === 0 ? 2 : 0),
        });
        expect(found.map((t) => t.kind)).toEqual([kind]);
      }
  });
});
