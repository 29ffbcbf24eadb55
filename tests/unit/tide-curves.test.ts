import { describe, expect, test } from "vitest";
import { check } from "../../src/core/check.js";
import { utc } from "../../src/core/time.js";
import { hours } from "../../src/core/units.js";
import { factorsFor } from "../../src/tide/cubic.js";
import { depthOverStay, tideHeight, type TideSource } from "../../src/tide/index.js";
import {
  knotError,
  knotHeight,
  knotsOf,
  noKnots,
  pieceAt,
  pushKnot,
  type Knots,
} from "../../src/tide/knots.js";
import { tideCurve } from "../../src/tide/prepare.js";
import { tideSource } from "../../src/tide/source.js";

// Curves between turns, worked out by hand.

const T0 = utc("2026-06-01T00:00Z");
const HOUR = hours(1);
const at = (h: number): number => T0 + Math.round(h * HOUR);
type Row = readonly [h: number, heightM: number];
type Table = Extract<TideSource, { kind: "turns" }>;
const turns = (rows: readonly Row[]) => rows.map(([h, heightM]) => ({ timeMs: at(h), heightM }));
const table = (rows: readonly Row[], more: Partial<Table> = {}): Table => ({
  kind: "turns",
  turns: turns(rows),
  datum: "LAT",
  ...more,
});
const EVEN = [0, 6, 12, 18, 24].map((h, i) => [h, i % 2 === 0 ? 1 : 5] as const);
const curveOf = (source: TideSource, from = 0, to = 24) =>
  tideCurve(check(tideSource, source), at(from), at(to));
const hoursOf = (times: readonly number[]) => times.map((t) => (t - T0) / HOUR);

describe("knots", () => {
  const uneven = Float64Array.from([0, 1, 2, 50, 51, 52, 53, 300, 301, 1000]);
  test("the piece of an instant, however uneven the knots", () => {
    for (const times of [uneven, uneven.subarray(0, 2), Float64Array.from([5])])
      for (const t of [-1, 0.5, 1.5, 25, 51.5, 200, 300.5, 999.9, 1001, ...uneven]) {
        const inside = t >= times[0]! && t <= times.at(-1)!;
        const expected = inside ? times.findLastIndex((k) => k <= t) : -1;
        expect(pieceAt(times, t), `${t}`).toBe(expected);
      }
    expect(pieceAt(uneven, NaN)).toBe(-1);
  });
  const knots = (rule: Knots["rule"], known = [true, true, false]): Knots => {
    const list = noKnots();
    // t³ over 1000, in thousands: heights and slopes of it.
    [0, 1000, 3000].forEach((timeMs, i) => {
      const x = timeMs / 1000;
      pushKnot(list, {
        timeMs,
        heightM: x * x * x,
        known: known[i]!,
        slope: (3 * x * x) / 1000,
        low: -x,
        high: 2 * x,
      });
    });
    return knotsOf(list, rule);
  };
  test("a cubic is drawn as it is, a straight line straight", () => {
    const cubic = knots("cubic");
    for (const x of [0, 0.25, 0.9, 1, 1.5, 2.7, 3])
      expect(knotHeight(cubic, 1000 * x)).toBeCloseTo(x * x * x, 12);
    expect(knotHeight(knots("linear"), 2000)).toBeCloseTo(14, 12);
    expect(knotHeight(knots("cosine"), 1500)).toBeCloseTo(1 + 26 * (0.5 - Math.SQRT1_2 / 2), 12);
  });
  test("between knots that are not joined nothing is known, at them it is", () => {
    const k = knots("linear", [true, false, false]);
    expect([500, 1000, 1001, 2999, 3000, 3001, -1].map((t) => knotHeight(k, t))).toEqual([
      0.5,
      1,
      NaN,
      NaN,
      27,
      NaN,
      NaN,
    ]);
  });
  test("errors go straight between knots", () => {
    const k = knots("linear");
    expect([0, 500, 1000, 1500, 3000].map((t) => knotError(k, k.high, t))).toEqual([0, 1, 2, 3, 6]);
    expect(knotError(k, k.low, 1500)).toBe(-1.5);
    expect(knotError(k, k.low, 3001)).toBeNaN();
    expect(knotError(k, k.low, -1)).toBeNaN();
  });
  test("a knot told twice says anew only whether what follows is known", () => {
    const list = noKnots();
    for (const known of [true, false])
      pushKnot(list, { timeMs: 0, heightM: known ? 1 : 9, known, beyond: true });
    expect([list.times, list.heights, list.known, list.beyond]).toEqual([[0], [1], [0], [1]]);
  });
});

describe("heights at even steps are those asked for one by one", () => {
  const gap = [...EVEN.slice(0, 2), [16, 4.5] as const, [22, 0.5] as const];
  const springs = [0, 0.3, 1, 0.6, 0];
  const curve = {
    key: "highWater" as const,
    springs,
    neaps: springs,
    springsRangeM: 4,
    neapsRangeM: 2,
  };
  const sources: [string, TideSource][] = [
    ["half-cosine", table(gap)],
    ["twelfths", table(gap, { rule: "twelfths" })],
    ["curve", { kind: "curve", turns: turns(gap), curve, datum: "LAT" }],
    [
      "secondary",
      {
        kind: "secondary",
        standard: table(gap),
        datum: "LAT",
        differences: {
          tableZoneHours: 0,
          highTime: [{ hourOfDay: 0, differenceMs: HOUR }],
          lowTime: [{ hourOfDay: 0, differenceMs: 0 }],
          highHeight: { ratio: 1.2 },
          lowHeight: { ratio: 0.5 },
        },
      },
    ],
  ];
  test.each(sources)("%s", (_, source) => {
    const c = curveOf(source, -5, 30);
    for (const [from, stepMs, n] of [
      [-2, HOUR, 30],
      [0, HOUR / 2, 60],
      [0.3, 61_001, 1500],
      [6, 6 * HOUR, 4],
      [7, HOUR, 3],
      [25, HOUR, 3],
      [-9, HOUR, 2],
      [3, HOUR, 1],
    ] as const) {
      const out = new Float64Array(n);
      c.fill(at(from), stepMs, out);
      out.forEach((h, k) => {
        const one = c.heightAt(at(from) + k * stepMs);
        if (Number.isNaN(one)) expect(h).toBeNaN();
        else expect(h).toBeCloseTo(one, 9);
      });
    }
  });
});

describe("curve of a port", () => {
  const port = {
    key: "highWater" as const,
    springs: [0, 0.3, 1, 0.6, 0],
    neaps: [0, 0.5, 1, 0.4, 0],
    springsRangeM: 4,
    neapsRangeM: 2,
  };
  const drawn = (rows: readonly Row[], key: "highWater" | "lowWater" = "highWater") =>
    curveOf({ kind: "curve", turns: turns(rows), curve: { ...port, key }, datum: "LAT" }, 0, 60);

  test("factors lie between neaps and springs as the range does, half a span beyond at most", () => {
    const second = (rangeM: number) => factorsFor(port, rangeM, 1, 1)[0];
    expect([2, 3, 4, 5, 9, 1, 0].map(second)).toEqual(
      [0.5, 0.4, 0.3, 0.2, 0.2, 0.6, 0.6].map((x) => expect.closeTo(x, 12) as number),
    );
    expect(factorsFor(port, 4, 0, 4)).toEqual(port.springs);
    // A quarter of the span beyond either end is still taken; more is flagged.
    const flagged = (rangeM: number) =>
      drawn([
        [0, 1],
        [6, 1 + rangeM],
      ]).extrapolatedAt(at(3));
    expect([1.49, 1.5, 4.5, 4.51].map(flagged)).toEqual([true, false, false, true]);
  });
  test("a stand in the curve is level", () => {
    const stand = [0, 0.5, 0.5, 0.5, 1, 0.5, 0.5, 0.5, 0];
    const c = curveOf({
      kind: "curve",
      turns: turns(EVEN),
      curve: { ...port, springs: stand, neaps: stand },
      datum: "LAT",
    });
    for (const h of [1.5, 2.2, 3, 4.4]) expect(c.heightAt(at(h))).toBeCloseTo(3, 12);
  });
  test("keyed to low water: the highest factor is high water, wherever it comes", () => {
    const c = curveOf({
      kind: "curve",
      turns: turns(EVEN),
      curve: {
        ...port,
        key: "lowWater",
        springs: [0, 0.5, 1, 0.5, 0],
        neaps: [0, 1, 0.5, 0.5, 0],
        springsRangeM: 5,
        neapsRangeM: 3,
      },
      datum: "LAT",
    });
    // Range 4 m, half-way: factors 0.75 at the first and second step, brought up to 5 m.
    expect([3, 6, 9].map((h) => c.heightAt(at(h)))).toEqual(
      [5, 5, 1 + (4 * 0.5) / 0.75].map((x) => expect.closeTo(x, 12) as number),
    );
  });
  test("keyed to low water: a table without a low water tells nothing", () => {
    const tide: TideSource = {
      kind: "curve",
      turns: [0, 3].map((h) => ({ timeMs: at(h), heightM: 4, kind: "high" as const })),
      curve: { ...port, key: "lowWater" },
      datum: "LAT",
    };
    expect(tideHeight(tide, at(1))).toEqual({ known: false, reason: "outsideTable" });
    const stay = { fromMs: at(1), toMs: at(2) };
    expect(depthOverStay({ tide, stay, chartedDepthM: 2 })).toMatchObject({
      known: false,
      missing: [{ ...stay, reason: "outsideTable" }],
      knownPart: null,
    });
  });
  test("rise and fall each over their own time", () => {
    const c = drawn([
      [0, 1],
      [6, 5],
      [14, 1],
      [20, 4],
    ]);
    const heights = [0, 3, 6, 10, 14, 17, 20].map((h) => c.heightAt(at(h)));
    expect(heights).toEqual(
      [1, 1 + 4 * 0.3, 5, 1 + 4 * 0.6, 1, 1 + 3 * 0.4, 4].map(
        (x) => expect.closeTo(x, 12) as number,
      ),
    );
  });
  test("slopes: the harmonic mean of the two beside a step, nought at a turn", () => {
    const c = drawn(EVEN);
    const slope = (h: number) => (c.heightAt(at(h + 1e-3)) - c.heightAt(at(h - 1e-3))) / 2e-3;
    // Steps of three hours rise by 1.2 and 2.8 m.
    expect(slope(3)).toBeCloseTo((2 * 1.2 * 2.8) / (1.2 + 2.8) / 3, 3);
    expect(slope(6)).toBeCloseTo(0, 2);
    expect(slope(12)).toBeCloseTo(0, 2);
    // And no turn between steps.
    let before = 1;
    for (let h = 0; h <= 6; h += 0.05) {
      expect(c.heightAt(at(h))).toBeGreaterThanOrEqual(before - 1e-12);
      before = c.heightAt(at(h));
    }
  });
  test("nothing is drawn where a turn is missing", () => {
    const c = drawn([
      [0, 1],
      [6, 5],
      [18, 4],
      [24, 1],
    ]);
    expect([6, 7, 17, 18].map((h) => Number.isNaN(c.heightAt(at(h))))).toEqual([
      false,
      true,
      true,
      false,
    ]);
  });
  test("keyed to low water: evenly in time, above the line from one low water to the next", () => {
    const c = drawn(
      [
        [0, 1],
        [6, 5],
        [12, 2],
        [18, 6],
        [24, 1],
      ],
      "lowWater",
    );
    // Range 5 - 1.5 = 3.5 m: three quarters of the way to springs. High water in the middle.
    const [up, down] = [0.5 - 0.75 * 0.2, 0.4 + 0.75 * 0.2];
    expect([0, 3, 6, 9, 12, 18].map((h) => c.heightAt(at(h)))).toEqual(
      [1, 1.25 + 3.5 * up, 5, 1.75 + 3.5 * down, 2, 6].map((x) => expect.closeTo(x, 12) as number),
    );
    expect(c.heightAt(at(24))).toBe(1);
    expect(c.heightAt(at(24.1))).toBeNaN();
  });
  test("keyed to low water: no cycle longer than 1.6 tides, and none without a high water", () => {
    const long = (h: number) =>
      drawn(
        [
          [0, 1],
          [h / 2, 5],
          [h, 1],
        ],
        "lowWater",
      ).heightAt(at(3));
    expect(long(18)).not.toBeNaN();
    expect(long(20)).toBeNaN();
    // Nor where the caller vouches for every turn.
    const vouched: TideSource = {
      kind: "curve",
      turns: turns([
        [0, 1],
        [10, 5],
        [20, 1],
      ]),
      curve: { ...port, key: "lowWater" },
      complete: true,
      datum: "LAT",
    };
    expect(curveOf(vouched).heightAt(at(3))).toBeNaN();
    const c = drawn(
      [
        [0, 1],
        [6, 5],
        [12, 1],
        [30, 5],
        [36, 1],
        [42, 5],
        [48, 1],
      ],
      "lowWater",
    );
    expect([3, 20, 39].map((h) => Number.isNaN(c.heightAt(at(h))))).toEqual([false, true, false]);
  });
});

describe("secondary port", () => {
  const row = (differenceMs: number) => [{ hourOfDay: 0, differenceMs }];
  const differences = {
    tableZoneHours: 0,
    highTime: row(HOUR),
    lowTime: row(HOUR / 2),
    highHeight: { ratio: 1.2 },
    lowHeight: { ratio: 0.5 },
  };
  const secondary = (
    standard: Extract<TideSource, { kind: "turns" }>,
    more: Partial<Extract<TideSource, { kind: "secondary" }>> = {},
  ): TideSource => ({ kind: "secondary", standard, differences, datum: "LAT", ...more });
  const even = secondary(table(EVEN));

  test("the standard port's shape, stretched in time and height", () => {
    const c = curveOf(even);
    // Low water 0.5 m at 00:30, high water 6 m at 07:00; half-way up half-way between.
    expect([0.5, 3.75, 7, 12.5].map((h) => c.heightAt(at(h)))).toEqual(
      [0.5, 3.25, 6, 0.5].map((x) => expect.closeTo(x, 9) as number),
    );
    expect(c.heightAt(at(0.5 + 6.5 / 4))).toBeCloseTo(0.5 + 5.5 * (0.5 - Math.SQRT1_2 / 2), 9);
    expect([0.4, 24.6].map((h) => c.heightAt(at(h)))).toEqual([NaN, NaN]);
    expect([0.4, 24.6].map((h) => c.unknownAt(at(h)))).toEqual(["outsideTable", "outsideTable"]);
    expect(hoursOf(c.turns(at(0.5), at(12.5)).map((t) => t.timeMs))).toEqual([0.5, 7, 12.5]);
    expect(c.turns(at(0.6), at(12.4)).map((t) => t.kind)).toEqual(["high"]);
  });
  test("differences for the standard port's own datum are taken", () => {
    const named = secondary(table(EVEN), { differences: { ...differences, standardDatum: "LAT" } });
    expect(curveOf(named).heightAt(at(7))).toBeCloseTo(6, 12);
  });
  test("another datum is added to every height", () => {
    const c = curveOf({ ...even, toDatum: { datum: "chart", addM: 0.7 } });
    expect(c.datum).toBe("chart");
    expect(c.heightAt(at(7))).toBeCloseTo(6.7, 12);
    expect(c.heightAt(at(3.75))).toBeCloseTo(3.95, 9);
  });
  test("the standard port's error at its own range, and two centimetres and 1.5 % of the range for the differences", () => {
    const c = curveOf(even);
    const own = (0.005 + 0.22 * 5) * (5.5 / 4);
    const more = 0.02 + 0.015 * 5.5;
    expect(c.errorHighAt(at(3.75))).toBeCloseTo(own + more, 9);
    expect(c.errorLowAt(at(3.75))).toBeCloseTo(-(own + more), 9);
    // At a turn the larger of both sides counts, and at the last one that of the interval before it.
    expect(c.errorHighAt(at(24.5))).toBeCloseTo(0.005 * (5.5 / 4) + more, 9);
    expect(c.errorHighAt(at(0.4))).toBeNaN();
  });
  test("gaps are those of the standard port, at the secondary port's times", () => {
    const gap = secondary(
      table([
        [0, 1],
        [6, 5],
        [18, 4.5],
        [24, 1],
      ]),
    );
    const c = curveOf(gap, -4, 30);
    const gaps = (from: number, to: number) =>
      c.gaps(at(from), at(to)).map((g) => [...hoursOf([g.fromMs, g.toMs]), g.reason]);
    expect(gaps(-1, 27)).toEqual([
      [-1, 0.5, "outsideTable"],
      [7, 19, "suspectGap"],
      [24.5, 27, "outsideTable"],
    ]);
    expect(gaps(8, 10)).toEqual([[8, 10, "suspectGap"]]);
    expect(gaps(10, 10)).toEqual([[10, 10, "suspectGap"]]);
    for (const h of [0.5, 3, 7, 19, 24.5]) expect(gaps(h, h)).toEqual([]);
    const instant = { fromMs: at(10), toMs: at(10) };
    expect(depthOverStay({ tide: gap, stay: instant, chartedDepthM: 2 }).known).toBe(false);
    expect(gaps(0.5, 7)).toEqual([]);
    expect(gaps(19, 24.5)).toEqual([]);
  });
  test("breaks: its own turns, and those of the standard port's rule between", () => {
    const c = curveOf(secondary(table(EVEN, { rule: "twelfths" })));
    const sixths = [1, 2, 3, 4, 5].map((j) => 0.5 + (6.5 * j) / 6);
    const rounded = (list: readonly number[]) => list.map((h) => Math.round(h * 1e5) / 1e5);
    const breaks = (from: number, to: number) =>
      rounded(hoursOf([...c.breaks(at(from), at(to))].sort((a, b) => a - b)));
    expect(breaks(0.5, 7)).toEqual(rounded(sixths));
    expect(breaks(0, 7.5)).toEqual(rounded([0.5, ...sixths, 7]));
    expect(breaks(2, 5)).toEqual(rounded(sixths.filter((h) => h > 2 && h < 5)));
    expect(hoursOf(curveOf(even).breaks(at(0), at(13)))).toEqual([0.5, 7, 12.5]);
  });
  test("the flag of a turn holds on both sides of it", () => {
    const rows = [
      { standardHeightM: 3, differenceM: 0 },
      { standardHeightM: 5, differenceM: 0.5 },
    ];
    const c = curveOf(
      secondary(
        table([
          [0, 1],
          [6, 5],
          [12, 1],
          [18, 5.5],
          [24, 1],
          [30, 4],
        ]),
        { differences: { ...differences, highHeight: { rows } } },
      ),
      0,
      30,
    );
    const flags = [3, 10, 15, 20, 27, 31, 40].map((h) => c.extrapolatedAt(at(h)));
    expect(flags).toEqual([false, false, true, true, false, false, false]);
  });
  test("turns that overtake each other are refused, a small pair run together is none", () => {
    const late = { ...differences, highTime: row(7 * HOUR) };
    expect(() => curveOf(secondary(table(EVEN), { differences: late }))).toThrow("out of order");
    const dip = table(
      [
        [0, 1],
        [6, 5],
        [7, 4.8],
        [8, 5],
        [14, 1],
      ],
      { complete: true },
    );
    const merged = { ...differences, highTime: row(2 * HOUR), lowTime: row(0) };
    const c = curveOf(secondary(dip, { differences: merged }));
    expect(hoursOf(c.turns(at(0), at(24)).map((t) => t.timeMs))).toEqual([0, 10, 14]);
    // On a later tide, run together to the very instant, and two hours apart at the standard port.
    const merging = (dipAt: number, backAt: number, highMs: number) =>
      hoursOf(
        curveOf(
          secondary(
            table(
              [
                [0, 1],
                [6, 5],
                [12, 1],
                [18, 5],
                [dipAt, 4.8],
                [backAt, 5],
                [26, 1],
              ],
              { complete: true },
            ),
            { differences: { ...merged, highTime: row(highMs) } },
          ),
        )
          .turns(at(0), at(30))
          .map((t) => t.timeMs),
      );
    expect(merging(19, 20, 2 * HOUR)).toEqual([0, 8, 12, 22, 26]);
    expect(merging(19, 20, HOUR)).toEqual([0, 7, 12, 21, 26]);
    expect(merging(20, 22, 2 * HOUR)).toEqual([0, 8, 12, 24, 26]);
  });
  test("what a curve keyed to low water leaves of a high water beside the highest is shared out", () => {
    const standard: TideSource = {
      kind: "curve",
      turns: turns([
        [0, 1],
        [5, 5],
        [6, 4.6],
        [7, 4.9],
        [12, 1],
        [18, 5],
        [24, 1],
      ]),
      curve: {
        key: "lowWater",
        springs: [0, 0.6, 1, 0.6, 0],
        neaps: [0, 0.6, 1, 0.6, 0],
        springsRangeM: 4,
        neapsRangeM: 2,
      },
      complete: true,
      datum: "LAT",
    };
    const same = {
      ...differences,
      highTime: row(0),
      lowTime: row(0),
      highHeight: { ratio: 1 },
      lowHeight: { ratio: 1 },
    };
    const own = curveOf({ kind: "secondary", standard, differences: same, datum: "LAT" });
    const theirs = curveOf(standard);
    // The curve passes beside the turns at 5, 6 and 7; at the secondary port it goes through them.
    const left = (h: number, heightM: number) => heightM - theirs.heightAt(at(h));
    for (const [h, heightM] of [
      [5, 5],
      [6, 4.6],
      [7, 4.9],
    ] as const) {
      expect(own.heightAt(at(h))).toBeCloseTo(heightM, 9);
      expect(Math.abs(left(h, heightM))).toBeGreaterThan(0.01);
    }
    const between = (a: number, b: number, part: number) => {
      const h = a + part * (b - a);
      const heights: Record<number, number> = { 0: 1, 5: 5, 6: 4.6, 7: 4.9 };
      const [x, y] = [left(a, heights[a]!), left(b, heights[b]!)];
      expect(own.heightAt(at(h))).toBeCloseTo(theirs.heightAt(at(h)) + x + part * (y - x), 6);
    };
    between(5, 6, 0.25);
    between(6, 7, 0.6);
    between(0, 5, 0.4);
  });
  test("at a stand of the standard port nothing is divided by nought", () => {
    const level = table([
      [0, 2],
      [6, 2],
      [12, 2],
    ]);
    const c = tideHeight(secondary(level), at(3));
    expect(c.known && Number.isFinite(c.heightM)).toBe(true);
  });
});
