import { describe, expect, test } from "vitest";
import { utc } from "../../src/core/time.js";
import { feet, hours, minutes } from "../../src/core/units.js";
import {
  depthOverStay,
  portCurveFrom,
  secondaryTurns,
  tideHeight,
  tideSeries,
  tideTurns,
  type TideSource,
} from "../../src/tide/index.js";
import { constantsOf, stations } from "../checks/tide-stations.js";

const T0 = utc("2026-06-01T00:00Z");
const DAY = hours(24);

/** A table of turns, hours from the start and metres. */
const table = (
  rows: readonly (readonly [number, number])[],
  more: Partial<Extract<TideSource, { kind: "turns" }>> = {},
): Extract<TideSource, { kind: "turns" }> => ({
  kind: "turns",
  turns: rows.map(([h, heightM]) => ({ timeMs: T0 + hours(h), heightM })),
  datum: "LAT",
  ...more,
});

/** Two regular days. */
const REGULAR = [
  [0, 0.6],
  [6.2, 4.2],
  [12.4, 0.8],
  [18.6, 4.0],
  [24.8, 0.5],
  [31, 4.3],
  [37.2, 0.7],
] as const;

const at = (h: number): number => T0 + hours(h);

function known(source: TideSource, timeMs: number) {
  const h = tideHeight(source, timeMs);
  if (!h.known) throw new Error(h.reason);
  return h;
}

const issuesOf = (f: () => unknown): { path: string; code: string }[] => {
  try {
    f();
  } catch (error) {
    return (error as { issues: { path: string; code: string }[] }).issues;
  }
  throw new Error("nothing was refused");
};

describe("table shorter than the stay", () => {
  test("nothing is extrapolated", () => {
    const source = table(REGULAR);
    expect(tideHeight(source, at(-0.1))).toEqual({
      known: false,
      reason: "outsideTable",
    });
    expect(tideHeight(source, at(37.3))).toEqual({
      known: false,
      reason: "outsideTable",
    });
    expect(known(source, at(37.2)).heightM).toBe(0.7);
  });

  test("no least depth is told for a stay that is not covered", () => {
    const depth = depthOverStay({
      tide: table(REGULAR),
      stay: { fromMs: at(30), toMs: at(48) },
      chartedDepthM: 2,
    });
    expect(depth).toMatchObject({
      known: false,
      missing: [{ fromMs: at(37.2), toMs: at(48), reason: "outsideTable" }],
    });
    expect("least" in depth).toBe(false);
  });

  test("a series is refused with the part that is missing", () => {
    const [issue] = issuesOf(() =>
      tideSeries(table(REGULAR), {
        fromMs: at(30),
        toMs: at(48),
        stepMs: minutes(10),
      }),
    );
    expect(issue).toMatchObject({ code: "coverage" });
  });
});

describe("missing turn", () => {
  /** A day with one pair of turns less than the next. */
  const rows = [
    [0, 0.6],
    [6.2, 2.2],
    [20.1, 0.1],
    [26.2, 2.3],
  ] as const;
  const without = (i: number, count = 1) =>
    table([...REGULAR.slice(0, i), ...REGULAR.slice(i + count)]);

  test.each([1, 2, 3, 4, 5])("turn %i left out is not drawn across", (i) => {
    const source = without(i);
    const [missing] = REGULAR[i]!;
    expect(tideHeight(source, at(missing))).toEqual({
      known: false,
      reason: "suspectGap",
    });
  });

  test("a pair left out is not drawn across either", () => {
    const source = without(2, 2);
    for (const h of [8, 12.4, 16, 18.6, 22]) expect(tideHeight(source, at(h)).known).toBe(false);
    const whole = 0.6 + (3.6 * (1 - Math.cos((Math.PI * 3) / 6.2))) / 2;
    expect(known(source, at(3)).heightM).toBeCloseTo(whole, 12);
  });

  test("two high waters in a row, as the kinds say", () => {
    const source: TideSource = {
      kind: "turns",
      turns: [
        { timeMs: at(0), heightM: 4.2, kind: "high" },
        { timeMs: at(6.2), heightM: 3.9, kind: "high" },
      ],
      datum: "LAT",
    };
    expect(tideHeight(source, at(3)).known).toBe(false);
  });

  test("the stay over a gap has no least depth, and a series is refused", () => {
    const tide = without(2);
    const stay = { fromMs: at(1), toMs: at(30) };
    expect(depthOverStay({ tide, stay, chartedDepthM: 3 }).known).toBe(false);
    expect(issuesOf(() => tideSeries(tide, { ...stay, stepMs: minutes(10) }))).toHaveLength(1);
  });

  test("the caller may vouch for a long interval; the error is wide then", () => {
    const middle = at(13.15);
    expect(tideHeight(table(rows), middle).known).toBe(false);
    const h = known(table(rows, { complete: true }), middle);
    expect(h.errorM.low).toBeLessThan(-0.4 * 2.1);
    // A regular tide of the same port is not widened.
    expect(known(table(rows, { complete: true }), at(3.1)).errorM.low).toBeGreaterThan(-0.5);
  });

  test("a mixed tide may leave a pair of turns out for a day", () => {
    const type = { formNumber: 0.9, shallowRatio: 0.02 };
    expect(known(table(rows, { type }), at(13.15)).heightM).toBeCloseTo(1.15);
  });
});

describe("double high waters, stands and small tides", () => {
  const south = constantsOf("ticon/southampton-sou-gbr-da_idh")!;

  test("every turn is found, and no other: three a day and more than eight", () => {
    const fromMs = utc("2026-01-01T00:00Z");
    const span = { fromMs, toMs: fromMs + 120 * DAY };
    const all = tideTurns(south, span);
    // The same by looking at every minute.
    const level = tideSeries(south, { ...span, stepMs: minutes(1) });
    let seen = 0;
    for (let i = 1; i + 1 < level.length; i++)
      if (level[i]! > level[i - 1]! !== level[i + 1]! > level[i]!) seen++;
    expect(Math.abs(all.length - seen)).toBeLessThanOrEqual(2);
    const perDay = Array.from(
      { length: 120 },
      (_, d) => all.filter((t) => Math.floor((t.timeMs - fromMs) / DAY) === d).length,
    );
    expect(Math.min(...perDay)).toBe(3);
    expect(Math.max(...perDay)).toBeGreaterThanOrEqual(8);
    for (let i = 1; i < all.length; i++) {
      expect(all[i]!.kind).not.toBe(all[i - 1]!.kind);
      expect(all[i]!.heightM > all[i - 1]!.heightM).toBe(all[i]!.kind === "high");
    }
  });

  test("the curve of a port of double high waters is keyed to low water", () => {
    const { curve } = portCurveFrom({
      tide: south,
      span: { fromMs: T0 - 151 * DAY, toMs: T0 },
    });
    expect(curve.key).toBe("lowWater");
    const turns = tideTurns(south, { fromMs: T0 - DAY, toMs: T0 + 3 * DAY });
    const source: TideSource = { kind: "curve", curve, turns, datum: "MSL" };
    for (let h = 0; h < 48; h += 0.5) expect(tideHeight(source, at(h)).known).toBe(true);
  });

  test("a stand: two high waters of one height close together", () => {
    const source: TideSource = {
      kind: "turns",
      turns: [
        { timeMs: at(0), heightM: 0.5, kind: "low" },
        { timeMs: at(5), heightM: 4, kind: "high" },
        { timeMs: at(7), heightM: 4, kind: "high" },
        { timeMs: at(12.4), heightM: 0.6, kind: "low" },
      ],
      datum: "LAT",
    };
    expect(known(source, at(6)).heightM).toBe(4);
  });

  test("a tide that vanishes at neaps", () => {
    const dodge: TideSource = {
      kind: "constituents",
      constituents: [
        { name: "M2", amplitudeM: 0.3, phaseDeg: 40 },
        { name: "S2", amplitudeM: 0.3, phaseDeg: 90 },
      ],
      meanLevelM: 1,
      datum: "LAT",
    };
    const span = { fromMs: T0, toMs: T0 + 30 * DAY };
    const turns = tideTurns(dodge, span);
    const ranges = turns.slice(1).map((t, i) => Math.abs(t.heightM - turns[i]!.heightM));
    expect(Math.min(...ranges)).toBeLessThan(0.05);
    expect(Math.max(...ranges)).toBeGreaterThan(1.1);
    for (let i = 1; i < turns.length; i++) expect(turns[i]!.kind).not.toBe(turns[i - 1]!.kind);
    // The same turns, printed to a tenth of a metre, still make a table.
    const printed = turns.map((t) => ({
      timeMs: Math.round(t.timeMs),
      heightM: Math.round(t.heightM * 10) / 10,
    }));
    const h = tideHeight(
      { kind: "turns", turns: printed, heightStepM: 0.1, datum: "LAT" },
      turns[20]!.timeMs + hours(1),
    );
    expect(h.known).toBe(true);
  });

  test("the same height all along is level water", () => {
    const source = table([
      [0, 0.5],
      [6, 0.5],
      [12, 0.5],
    ]);
    expect(known(source, at(3)).heightM).toBe(0.5);
  });
});

describe.runIf("noaa/8729840" in stations)("a diurnal tide", () => {
  test("days of one high and one low water are known when the kind is told", () => {
    const source = constantsOf("8729840")!;
    const span = { fromMs: T0, toMs: T0 + 5 * DAY };
    const turns = tideTurns(source, {
      fromMs: T0 - 2 * DAY,
      toMs: T0 + 7 * DAY,
    });
    const inDay = turns.filter((t) => t.timeMs >= T0 && t.timeMs < T0 + DAY).length;
    expect(inDay).toBe(2);
    const bare: TideSource = { kind: "turns", turns, datum: "MLLW" };
    const told: TideSource = {
      ...bare,
      type: { formNumber: 11, shallowRatio: 0.12 },
    };
    const a = tideSeries(told, { ...span, stepMs: hours(1) });
    const b = tideSeries(source, { ...span, stepMs: hours(1) });
    a.forEach((h, i) => {
      expect(Math.abs(h - b[i]!)).toBeLessThan(0.1);
    });
  });
});

describe("clock and zone", () => {
  test("a time without a zone is refused", () => {
    expect(() => utc("2026-06-01T21:30")).toThrow("zone");
  });

  test("differences are read at the hour of the table's own zone", () => {
    const rows = [
      { hourOfDay: 0, differenceMs: minutes(0) },
      { hourOfDay: 12, differenceMs: minutes(60) },
    ];
    const differences = {
      highTime: rows,
      lowTime: rows,
      highHeight: { ratio: 1 },
      lowHeight: { ratio: 1 },
    };
    const turn = { timeMs: at(12), heightM: 3, kind: "high" as const };
    const shift = (tableZoneHours: number): number =>
      secondaryTurns([turn], { ...differences, tableZoneHours })[0]!.timeMs - turn.timeMs;
    expect(shift(0)).toBe(minutes(60));
    expect(shift(-6)).toBe(minutes(30));
    expect(shift(12)).toBe(0);
  });

  test("a day with three turns", () => {
    const turns = tideTurns(table(REGULAR), {
      fromMs: T0 + hours(1),
      toMs: T0 + hours(24),
    });
    expect(turns.map((t) => t.kind)).toEqual(["high", "low", "high"]);
  });
});

describe("units, datums and signs", () => {
  test("feet taken for metres show against the mean range", () => {
    // Arletta, 11 November 2022: published in feet though metres were asked for (12.27 and -1.67 ft).
    const rows = [
      [0, 12.27],
      [7.2, -1.67],
    ] as const;
    // Mean range of the reference station, Seattle, 2.334 m, times the ratio of the heights.
    const meanRangeM = 2.334 * 1.1;
    const [issue] = issuesOf(() => tideHeight(table(rows, { meanRangeM }), at(1)));
    expect(issue!.path).toBe("turns");
    const metric = rows.map(([h, v]) => [h, feet(v)] as const);
    expect(tideHeight(table(metric, { meanRangeM }), at(1)).known).toBe(true);
  });

  test("depths and heights above different datums are not mixed", () => {
    const tide = table(REGULAR);
    const stay = { fromMs: at(1), toMs: at(20) };
    const [issue] = issuesOf(() =>
      depthOverStay({ tide, stay, chartedDepthM: 2, chartDatum: "MLLW" }),
    );
    expect(issue).toMatchObject({ path: "chartDatum", code: "datum" });
    // Boston: lowest astronomical tide lies 0.646 m below mean lower low water (NOAA CO-OPS, datums-boston).
    const shifted = depthOverStay({
      tide: { ...tide, toDatum: { datum: "MLLW", addM: -0.646 } },
      stay,
      chartedDepthM: 2,
      chartDatum: "MLLW",
    });
    const plain = depthOverStay({ tide, stay, chartedDepthM: 2 });
    if (!shifted.known || !plain.known) throw new Error("not known");
    expect(shifted.least.depthM).toBeCloseTo(plain.least.depthM - 0.646, 10);
    expect(plain.assumed).toContain("the charted depth is below LAT");
  });

  test("differences for another datum of the standard port are refused", () => {
    const zero = [{ hourOfDay: 0, differenceMs: 0 }];
    const [issue] = issuesOf(() =>
      tideHeight(
        {
          kind: "secondary",
          standard: table(REGULAR),
          differences: {
            tableZoneHours: 0,
            highTime: zero,
            lowTime: zero,
            highHeight: { ratio: 1 },
            lowHeight: { ratio: 1 },
            standardDatum: "MLLW",
          },
          datum: "MLLW",
        },
        at(3),
      ),
    );
    expect(issue).toMatchObject({ code: "datum" });
  });

  test("heights below the datum are taken off", () => {
    const depth = depthOverStay({
      tide: table([
        [0, 2],
        [6, -0.3],
      ]),
      stay: { fromMs: at(0), toMs: at(6) },
      chartedDepthM: 2,
    });
    expect(depth.known && depth.least).toEqual({ depthM: 1.7, timeMs: at(6) });
  });
});

describe("secondary port", () => {
  const differences = {
    tableZoneHours: 0,
    highTime: [{ hourOfDay: 0, differenceMs: minutes(20) }],
    lowTime: [{ hourOfDay: 0, differenceMs: minutes(-10) }],
    highHeight: {
      rows: [
        { standardHeightM: 4, differenceM: 1 },
        { standardHeightM: 3, differenceM: 0.6 },
      ],
    },
    lowHeight: { rows: [{ standardHeightM: 1, differenceM: 0.1 }] },
  };

  test("beyond the tabulated heights the difference goes on and is flagged", () => {
    const turn = { timeMs: T0, heightM: 4.5, kind: "high" as const };
    const [linear] = secondaryTurns([turn], differences);
    expect(linear).toMatchObject({ extrapolated: true });
    expect(linear!.heightM).toBeCloseTo(4.5 + 1.2, 10);
    const [constant] = secondaryTurns([turn], {
      ...differences,
      beyond: "constant",
    });
    expect(constant).toMatchObject({ extrapolated: true, heightM: 5.5 });
    const [inside] = secondaryTurns([{ ...turn, heightM: 3.5 }], differences);
    expect(inside).toMatchObject({ extrapolated: false });
  });

  test("the flag reaches heights and depths", () => {
    const tide: TideSource = {
      kind: "secondary",
      standard: table(REGULAR),
      differences,
      datum: "LAT",
    };
    expect(known(tide, at(4)).extrapolated).toBe(true);
    const depth = depthOverStay({
      tide,
      stay: { fromMs: at(2), toMs: at(30) },
      chartedDepthM: 3,
    });
    expect(depth.known && depth.extrapolated).toBe(true);
  });

  test("so does that of a standard port's own curve far beyond its ranges", () => {
    const springs = [0, 0.5, 1, 0.5, 0];
    const tide: TideSource = {
      kind: "secondary",
      standard: {
        ...table(REGULAR),
        kind: "curve",
        curve: { key: "highWater", springs, neaps: springs, springsRangeM: 1.2, neapsRangeM: 0.6 },
      },
      differences: { ...differences, highHeight: { ratio: 1 }, lowHeight: { ratio: 1 } },
      datum: "LAT",
    };
    expect(known(tide, at(10)).extrapolated).toBe(true);
  });

  test("the least depth counts the error of both tides at a low water", () => {
    const tide: TideSource = {
      kind: "secondary",
      standard: table([
        [0, 0],
        [6.2, 6],
        [12.4, 0],
        [18.6, 1],
        [24.8, 0],
      ]),
      differences: { ...differences, highHeight: { ratio: 1 }, lowHeight: { ratio: 1 } },
      datum: "LAT",
    };
    const lowWaterMs = at(12.4) - minutes(10);
    const depth = depthOverStay({
      tide,
      stay: { fromMs: lowWaterMs - hours(1), toMs: lowWaterMs + hours(1) },
      chartedDepthM: 3,
    });
    const before = known(tide, lowWaterMs - 1);
    expect(depth.known && depth.low.least.depthM).toBeLessThanOrEqual(
      3 + before.heightM + before.errorM.low + 1e-6,
    );
  });

  test("a lone turn must say whether it is high or low water", () => {
    expect(issuesOf(() => secondaryTurns([{ timeMs: T0, heightM: 0.4 }], differences))).toEqual([
      expect.objectContaining({ path: "[0].kind", code: "unknown_kind" }),
    ]);
  });

  test("the seasonal change is taken off before and added after", () => {
    const [turn] = secondaryTurns([{ timeMs: T0, heightM: 4.1, kind: "high" }], {
      ...differences,
      seasonal: { standardM: 0.1, secondaryM: 0.2 },
    });
    expect(turn!.heightM).toBeCloseTo(4 + 1 + 0.2, 10);
  });

  test("a gap at the standard port is a gap at the secondary port", () => {
    const standard = table([...REGULAR.slice(0, 2), ...REGULAR.slice(3)]);
    const tide: TideSource = {
      kind: "secondary",
      standard,
      differences,
      datum: "LAT",
    };
    expect(tideHeight(tide, at(12.4))).toEqual({
      known: false,
      reason: "suspectGap",
    });
  });

  test("a standard port of double high waters: no jump at any turn", () => {
    const south = constantsOf("ticon/southampton-sou-gbr-da_idh")!;
    const { curve } = portCurveFrom({
      tide: south,
      span: { fromMs: T0 - 151 * DAY, toMs: T0 },
    });
    const turns = tideTurns(south, { fromMs: T0 - DAY, toMs: T0 + 3 * DAY });
    const tide: TideSource = {
      kind: "secondary",
      standard: { kind: "curve", curve, turns, datum: "MSL" },
      differences: { ...differences, highHeight: { ratio: 1.1 } },
      datum: "MSL",
    };
    for (const turn of tideTurns(tide, { fromMs: T0, toMs: T0 + DAY }))
      for (const side of [-1, 1])
        expect(Math.abs(known(tide, turn.timeMs + side).heightM - turn.heightM)).toBeLessThan(
          0.001,
        );
  });

  test("the turns of the curve are the turns by the differences", () => {
    const tide: TideSource = {
      kind: "secondary",
      standard: constantsOf("8555889")!,
      differences: { ...differences, highHeight: { ratio: 1.1 } },
      datum: "LAT",
    };
    const span = { fromMs: T0, toMs: T0 + 2 * DAY };
    for (const turn of tideTurns(tide, span)) {
      expect(known(tide, turn.timeMs).heightM).toBeCloseTo(turn.heightM, 6);
      const sign = turn.kind === "high" ? 1 : -1;
      for (const side of [-1, 1])
        expect(
          sign * (turn.heightM - known(tide, turn.timeMs + side * minutes(15)).heightM),
        ).toBeGreaterThan(0);
    }
  });
});

describe("range beyond the curve", () => {
  const curve = {
    key: "highWater" as const,
    springs: [0, 0.5, 1, 0.5, 0],
    neaps: [0, 0.5, 1, 0.5, 0],
    springsRangeM: 4,
    neapsRangeM: 2,
  };
  test.each([
    [1, true],
    [2, false],
    [4, false],
    [5, true],
  ])("a range of %d m", (rangeM, flagged) => {
    const { turns } = table([
      [0, 0],
      [6, rangeM],
    ]);
    const source: TideSource = { kind: "curve", curve, turns, datum: "LAT" };
    expect(known(source, at(2)).extrapolated).toBe(flagged);
  });
});

describe("surge", () => {
  const base = {
    tide: table(REGULAR),
    stay: { fromMs: at(1), toMs: at(30) },
    chartedDepthM: 2,
  };

  test("a series that rises through the stay moves the least depth", () => {
    const row = (h: number, likely: number) => ({
      timeMs: at(h),
      low: likely - 0.1,
      likely,
      high: likely + 0.2,
    });
    const later = { ...base, stay: { fromMs: at(7), toMs: at(30) } };
    const depth = depthOverStay({
      ...later,
      surgeM: [row(0, -0.5), row(12, 0), row(31, 0.6)],
    });
    const plain = depthOverStay(later);
    if (!depth.known || !plain.known) throw new Error("not known");
    // Without surge the lowest water is the last one (0.5 m), with it the one before.
    expect(plain.least.timeMs).toBe(at(24.8));
    expect(Math.abs(depth.least.timeMs - at(12.4))).toBeLessThan(minutes(20));
    expect(depth.low.least.depthM).toBeLessThan(depth.least.depthM);
    expect(depth.high.greatest.depthM).toBeGreaterThan(depth.greatest.depthM);
  });

  test("a series that ends before the stay is a gap", () => {
    const row = (h: number) => ({ timeMs: at(h), low: 0, likely: 0, high: 0 });
    expect(depthOverStay({ ...base, surgeM: [row(0), row(20)] })).toMatchObject({
      known: false,
      missing: [{ fromMs: at(20), toMs: at(30), reason: "outsideSurge" }],
    });
  });

  test("the spread widens the error of a height on its own side", () => {
    const bare = known(table(REGULAR), at(3));
    const h = tideHeight(table(REGULAR), at(3), {
      surgeM: { low: -0.4, likely: -0.1, high: 0.1 },
    });
    if (!h.known) throw new Error(h.reason);
    expect(h.heightM).toBeCloseTo(bare.heightM - 0.1, 12);
    expect(h.errorM.low).toBeCloseTo(bare.errorM.low - 0.3, 12);
    expect(h.errorM.high).toBeCloseTo(bare.errorM.high + 0.2, 12);
  });
});

describe("malformed input", () => {
  const bad = (turns: { timeMs: number; heightM: number }[]) =>
    issuesOf(() => tideHeight({ kind: "turns", turns, datum: "LAT" }, T0)).map((i) => i.path);

  test("an instant that is none is told as such", () => {
    const turns = [
      { timeMs: at(0), heightM: 1 },
      { timeMs: at(6), heightM: 3 },
    ];
    for (const bad of [new Date(T0), "2026-06-01T06:00Z", undefined])
      expect(
        issuesOf(() => tideHeight({ kind: "turns", turns, datum: "LAT" }, bad as never)),
      ).toMatchObject([{ path: "timeMs" }]);
  });
  test("unsorted, doubled and missing figures name their row", () => {
    expect(
      bad([
        { timeMs: at(0), heightM: 1 },
        { timeMs: at(6), heightM: 3 },
        { timeMs: at(6), heightM: 3 },
      ]),
    ).toEqual(["turns[2].timeMs"]);
    expect(
      bad([
        { timeMs: at(6), heightM: 1 },
        { timeMs: at(0), heightM: 3 },
      ]),
    ).toEqual(["turns[1].timeMs"]);
    expect(
      bad([
        { timeMs: at(0), heightM: NaN },
        { timeMs: at(6), heightM: Infinity },
      ]),
    ).toEqual(["turns[0].heightM", "turns[1].heightM"]);
  });

  test("a constituent given twice, by whatever name, is refused; one of no amplitude does no harm", () => {
    const of = (...rows: [string, number][]): TideSource => ({
      kind: "constituents",
      constituents: rows.map(([name, amplitudeM]) => ({ name, amplitudeM, phaseDeg: 0 })),
      meanLevelM: 0,
      datum: "MSL",
    });
    for (const twice of [
      ["M2", "m2"],
      ["LAM2", "LDA2"],
    ])
      expect(
        issuesOf(() => tideHeight(of([twice[0]!, 1], ["S2", 1], [twice[1]!, 1]), T0)),
      ).toMatchObject([{ path: "constituents[2].name", code: "duplicate" }]);
    expect(known(of(["M2", 1], ["M2", 0]), T0)).toEqual({
      ...known(of(["M2", 1]), T0),
    });
  });

  test("a constituent that is not known is never left out", () => {
    const of = (name: string): TideSource => ({
      kind: "constituents",
      constituents: [{ name, amplitudeM: 0.1, phaseDeg: 0 }],
      meanLevelM: 0,
      datum: "MSL",
    });
    expect(issuesOf(() => tideHeight(of("X9"), T0))[0]).toMatchObject({
      path: "constituents[0].name",
      code: "unknown_constituent",
    });
    const own: TideSource = {
      kind: "constituents",
      constituents: [
        {
          name: "SEICHE",
          amplitudeM: 0.1,
          phaseDeg: 90,
          argument: { speedDegPerHour: 90, at2000Deg: 0 },
        },
      ],
      meanLevelM: 0,
      datum: "MSL",
    };
    // 90° an hour from 2000-01-01T00:00Z with a lag of 90°: highest one hour later.
    expect(known(own, utc("2000-01-01T01:00Z")).heightM).toBeCloseTo(0.1, 9);
  });

  test("an argument is not given for a name that has one", () => {
    const source: TideSource = {
      kind: "constituents",
      constituents: [
        {
          name: "M2",
          amplitudeM: 1,
          phaseDeg: 0,
          argument: { speedDegPerHour: 28.98, at2000Deg: 0 },
        },
      ],
      meanLevelM: 0,
      datum: "MSL",
    };
    expect(issuesOf(() => tideHeight(source, T0))).toHaveLength(1);
  });
});

describe("depth over a stay", () => {
  test("the lowest water of the stay, not the next one", () => {
    const depth = depthOverStay({
      tide: table(REGULAR),
      stay: { fromMs: at(2), toMs: at(30) },
      chartedDepthM: 1.5,
      limitM: 2.2,
      nowMs: at(8),
    });
    if (!depth.known) throw new Error("not known");
    expect(depth.least).toEqual({ depthM: 2, timeMs: at(24.8) });
    expect(depth.greatest).toMatchObject({ depthM: 5.7, timeMs: at(6.2) });
    // Under 2.2 m: height under 0.7 m, only about the last low water (0.5 m).
    expect(depth.below).toHaveLength(1);
    const [{ fromMs, toMs }] = depth.below as [{ fromMs: number; toMs: number }];
    for (const [t, d] of [
      [fromMs, 6.2],
      [toMs, 6.2],
    ] as const)
      expect(known(table(REGULAR), t).heightM, String(d)).toBeCloseTo(0.7, 3);
    // Half-cosine: 0.2 of 3.5 m is reached after 6.2 h / pi * acos(1 - 2 * 0.2 / 3.5) before low water.
    const early = (6.2 / Math.PI) * Math.acos(1 - (2 * 0.2) / 3.5);
    expect((fromMs - at(24.8)) / hours(1)).toBeCloseTo(-early, 3);
    const now = known(table(REGULAR), at(8)).heightM;
    expect(depth.fallFromNowM).toBeCloseTo(now - 0.5, 10);
    expect(depth.riseFromNowM).toBeCloseTo(
      Math.max(now, known(table(REGULAR), at(30)).heightM, 4) - now,
      10,
    );
  });

  test("a stay of one instant", () => {
    const depth = depthOverStay({
      tide: table(REGULAR),
      stay: { fromMs: at(3), toMs: at(3) },
      chartedDepthM: 2,
      limitM: 10,
    });
    if (!depth.known) throw new Error("not known");
    expect(depth.least.depthM).toBe(depth.greatest.depthM);
    expect(depth.below).toEqual([{ fromMs: at(3), toMs: at(3) }]);
  });

  test("a limit that is never or always reached", () => {
    const input = {
      tide: table(REGULAR),
      stay: { fromMs: at(2), toMs: at(30) },
      chartedDepthM: 1.5,
    };
    const never = depthOverStay({ ...input, limitM: 0 });
    const always = depthOverStay({ ...input, limitM: 100 });
    expect(never.known && never.below).toEqual([]);
    expect(always.known && always.below).toEqual([input.stay]);
  });
});

test("the year's step in node factors is no hole and no turn of its own", () => {
  const source = constantsOf("8555889")!;
  const newYear = utc("2027-01-01T00:00Z");
  const span = { fromMs: newYear - DAY, toMs: newYear + DAY };
  const turns = tideTurns(source, span);
  expect(turns.length).toBeGreaterThanOrEqual(7);
  expect(turns.length).toBeLessThanOrEqual(8);
  const greatestStep = (nodes: "midYear" | "continuous"): number => {
    const h = tideSeries({ ...source, nodes }, { ...span, stepMs: minutes(1) });
    return Math.max(...h.slice(1).map((v, i) => Math.abs(v - h[i]!)));
  };
  // No more than 0.75 m at 28.98 degrees an hour: 0.64 cm a minute, and some more for the other constituents.
  expect(greatestStep("continuous")).toBeLessThan(0.009);
  // The step itself is real: predictions of one year and the next do not meet.
  expect(greatestStep("midYear")).toBeLessThan(0.05);
  const level = tideSeries(source, { ...span, stepMs: minutes(1) });
  const depth = depthOverStay({
    tide: source,
    stay: span,
    chartedDepthM: 0,
    limitM: 0.5,
  });
  expect(depth.known && depth.least.depthM).toBeCloseTo(Math.min(...level), 3);
});
