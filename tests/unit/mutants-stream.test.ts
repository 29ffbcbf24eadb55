import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import { utc } from "../../src/core/time.js";
import {
  ellipsesFrom,
  streamAt,
  streamBelow,
  streamTurns,
  subordinateTurns,
  type StreamSource,
} from "../../src/stream/index.js";

// What a stream must do by its own definition, worked out by hand: asked for where a small change of the code
// would go unnoticed by the published values.

const HOUR = 3_600_000;
const t0 = utc("2026-06-01T00:00Z");
const at = (h: number) => t0 + h * HOUR;
const slack = (h: number) => ({ kind: "slack", timeMs: at(h) }) as const;
const turn = (kind: "least" | "greatest", h: number, towardsDeg: number, rateMps: number) => ({
  kind,
  timeMs: at(h),
  rateMps,
  towardsDeg,
});
const row = (h: number, rateMps: number, towardsDeg: number) => ({
  timeMs: at(h),
  rateMps,
  towardsDeg,
});
const series = (...rows: ReturnType<typeof row>[]): StreamSource => ({ kind: "series", rows });
const span = (from: number, to: number) => ({ fromMs: at(from), toMs: at(to) });

function known(source: StreamSource, h: number) {
  const found = streamAt(source, at(h));
  if (!found.known) throw new Error(found.reason);
  return found;
}
const parts = (source: StreamSource, h: number) => {
  const { eastMps, northMps } = known(source, h);
  return [eastMps, northMps];
};
const near = (...xs: number[]) => xs.map((x) => expect.closeTo(x, 9) as number);
const codes = (f: () => unknown) => {
  try {
    f();
  } catch (e) {
    if (e instanceof InputError) return e.issues.map((i) => `${i.path} ${i.code}`);
  }
  throw new Error("expected an InputError");
};

type Hourly = Extract<StreamSource, { kind: "hourly" }>;
/** One row an hour from -6 to 6 setting to 30°, 2 m/s at springs and 1 m/s at neaps. */
const hourly = (highs: [h: number, rangeM: number][], more: Partial<Hourly> = {}): Hourly => ({
  kind: "hourly",
  rows: Array.from({ length: 13 }, (_, n) => ({
    hour: n - 6,
    towardsDeg: 30,
    springMps: 2,
    neapMps: 1,
  })),
  highWaters: highs.map(([h, rangeM]) => ({ timeMs: at(h), rangeM })),
  springRangeM: 4,
  neapRangeM: 2,
  ...more,
});

describe("parts of the vector", () => {
  test("east and north of a steady stream", () => {
    expect(parts({ kind: "steady", rateMps: 2, towardsDeg: 30 }, 0)).toEqual(near(1, Math.sqrt(3)));
    expect(parts({ kind: "steady", rateMps: 2, towardsDeg: 240 }, 0)).toEqual(
      near(-Math.sqrt(3), -1),
    );
  });
  test("the vector goes straight between rows, and stands at each of them", () => {
    const s = series(row(0, 1, 30), row(2, 3, 30), row(3, 3, 120));
    expect(parts(s, 0.5)).toEqual(near(0.75, 1.5 * Math.cos(Math.PI / 6)));
    expect(parts(s, 2)).toEqual(near(1.5, 3 * Math.cos(Math.PI / 6)));
    expect(parts(s, 3)).toEqual(near(3 * Math.cos(Math.PI / 6), -1.5));
    // Half way through a right angle: 45° on, at cos 45° of the rate.
    expect(known(s, 2.5)).toMatchObject({
      rateMps: expect.closeTo(3 * Math.SQRT1_2, 9) as number,
      towardsDeg: expect.closeTo(75, 9) as number,
    });
  });
  test("an hourly row sets where it says", () => {
    expect(parts(hourly([[0, 4]]), 0)).toEqual(near(1, Math.sqrt(3)));
  });
  test("no stream has no set, whichever way the row points", () => {
    expect(known({ kind: "steady", rateMps: 0, towardsDeg: 200 }, 0).towardsDeg).toBe(0);
  });
  test("a row before a gap still stands at its own instant", () => {
    const s = series(row(0, 1, 90), row(4, 2, 90), row(5, 2, 90));
    expect(known(s, 0).rateMps).toBe(1);
    expect(streamAt(s, at(0.001))).toEqual({ known: false, reason: "gap" });
    expect(streamAt(s, at(3.999))).toEqual({ known: false, reason: "gap" });
    expect(known(s, 4).rateMps).toBe(2);
  });
});

describe("hourly rows", () => {
  test("half-way between two high waters the row belongs to the first", () => {
    const s = hourly([
      [0, 4],
      [12, 2],
    ]);
    expect([5, 6, 7].map((h) => known(s, h).rateMps)).toEqual(near(2, 2, 1));
    expect([4, 6, 8].map((h) => known(s, h).flags.length)).toEqual([0, 0, 0]);
  });
  test("in steps each row is held half an hour either side", () => {
    const rows = Array.from({ length: 13 }, (_, n) => ({
      hour: n - 6,
      towardsDeg: 0,
      springMps: n,
      neapMps: n,
    }));
    const s = hourly([[0, 4]], { rows, between: "step" });
    const hours = [-6.49, -6, -5.51, -5.49, 0.49, 0.51, 5.6, 6.49];
    expect(hours.map((h) => known(s, h).rateMps)).toEqual(near(0, 0, 0, 1, 6, 7, 12, 12));
    expect(streamAt(s, at(-6.51))).toEqual({ known: false, reason: "beforeFirst" });
  });
  test("the doubt about the range is that of the nearest high water", () => {
    const s = hourly([
      [0, 3],
      [12, 1],
    ]);
    const flags = [-3, 0, 5.9, 6, 6.1, 11, 14].map((h) => known(s, h).flags.join());
    expect(flags).toEqual(["", "", "", "", "belowNeaps", "belowNeaps", "belowNeaps"]);
  });
  test("at neaps and at springs themselves nothing is carried beyond the table", () => {
    const flags = [1.999, 2, 4, 4.001, 5, 5.001].map((range) =>
      known(hourly([[0, range]]), 0).flags.join(),
    );
    expect(flags).toEqual([
      "belowNeaps",
      "",
      "",
      "aboveSprings",
      "aboveSprings",
      "farAboveSprings",
    ]);
  });
});

describe("the error stated with a rate", () => {
  test("from turns: two sigma, each 6.1 % of the greatest rate", () => {
    const s: StreamSource = {
      kind: "turns",
      turns: [
        turn("greatest", 0, 90, 1),
        slack(3),
        turn("greatest", 6, 270, 2.5),
        turn("least", 9, 0, 0.2),
      ],
    };
    expect(known(s, 1).errorMps).toBeCloseTo(2 * 0.061 * 2.5, 9);
    expect(known(s, 1).basis).toContain("slack and greatest rate");
  });
  test("from hourly rows: half the printed figure, and the straight line of an hour below a sine", () => {
    const halfPrintedMps = (0.05 * 1852) / 3600;
    const angle = (2 * Math.PI) / 12.42;
    const rows = [1, 3, 2].map((springMps, hour) => ({
      hour,
      towardsDeg: 0,
      springMps,
      neapMps: 0.5,
    }));
    const s = hourly([[0, 4]], { rows });
    expect(known(s, 1).errorMps).toBeCloseTo(halfPrintedMps + ((angle * angle) / 8) * 3, 3);
    // A row held half an hour is off by up to half the change of an hour, a quarter of the greatest rate near slack.
    expect(known({ ...s, between: "step" }, 1).errorMps).toBeCloseTo(halfPrintedMps + 0.75, 3);
    expect(known(s, 1).basis).toContain("hourly rows");
  });
  test("none where the source states none", () => {
    for (const s of [
      { kind: "steady", rateMps: 1, towardsDeg: 0 } as const,
      series(row(0, 1, 0), row(1, 1, 0)),
    ])
      expect(known(s, 0)).toMatchObject({
        errorMps: null,
        basis: `${s.kind} as given, no error stated`,
        flags: [],
      });
  });
});

describe("between least and greatest", () => {
  const turns = (rule: "sine" | "fiftyNinety", ...list: ReturnType<typeof turn>[]) =>
    ({ kind: "turns", rule, turns: list }) as StreamSource;
  // Towards a, and at right angles to it, anticlockwise.
  const along = (deg: number, rate: number) => [
    rate * Math.sin((deg * Math.PI) / 180),
    rate * Math.cos((deg * Math.PI) / 180),
  ];
  test("square to each other they are the axes of an ellipse", () => {
    const s = turns("sine", turn("least", 0, 30, 0.5), turn("greatest", 3, 120, 1));
    // A third of the quarter is 30° round the ellipse.
    const [a, b] = [along(120, 0.5), along(30, 0.5 * Math.cos(Math.PI / 6))];
    expect(parts(s, 1)).toEqual(near(a[0]! + b[0]!, a[1]! + b[1]!));
    const back = turns("sine", turn("greatest", 0, 120, 1), turn("least", 3, 30, 0.5));
    expect(parts(back, 2)).toEqual(near(a[0]! + b[0]!, a[1]! + b[1]!));
  });
  test("in line with each other they are a mean flow and a tide: half a cosine", () => {
    const s = turns(
      "sine",
      turn("least", 0, 200, 0.4),
      turn("greatest", 3, 200, 1),
      turn("least", 6, 200, 0.4),
    );
    const rates = [1, 2, 4, 5].map((h) => known(s, h).rateMps);
    expect(rates).toEqual(near(0.55, 0.85, 0.85, 0.55));
    expect(known(s, 4).towardsDeg).toBeCloseTo(200, 9);
  });
  test("by fifty and ninety the part across dies as the part along grows", () => {
    const s = turns("fiftyNinety", turn("least", 0, 0, 0.5), turn("greatest", 3, 90, 1));
    expect(parts(s, 1)).toEqual(near(0.5, 0.25));
    expect(parts(s, 2)).toEqual(near(0.9, 0.05));
    const fromSlack: StreamSource = {
      kind: "turns",
      rule: "fiftyNinety",
      turns: [slack(0), turn("greatest", 3, 90, 1), slack(6)],
    };
    expect([0.5, 1.5, 2.5, 4.5].map((h) => known(fromSlack, h).rateMps)).toEqual(
      near(0.25, 0.7, 0.95, 0.7),
    );
  });
  test("ten hours are the longest quarter of a once-daily stream, eight where a table does not show one", () => {
    const quarter = (h: number) => [slack(0), turn("greatest", h, 90, 1)];
    const daily = [...quarter(10), slack(16.2)];
    expect(known({ kind: "turns", turns: daily }, 10 / 3).rateMps).toBeCloseTo(0.5, 9);
    expect(known({ kind: "turns", turns: quarter(8) }, 8 / 3).rateMps).toBeCloseTo(0.5, 9);
    expect(streamAt({ kind: "turns", turns: quarter(8.1) }, at(4)).known).toBe(false);
  });
});

describe("turns of a table", () => {
  test("a turn is known at its own instant, whatever is missing beside it", () => {
    const s: StreamSource = {
      kind: "turns",
      turns: [turn("greatest", 0, 30, 2), turn("greatest", 6, 210, 1), slack(9), slack(15)],
    };
    expect(parts(s, 0)).toEqual(near(1, Math.sqrt(3)));
    expect(parts(s, 6)).toEqual(near(-0.5, -Math.sqrt(3) / 2));
    expect(parts(s, 9)).toEqual([0, 0]);
    expect(parts(s, 15)).toEqual([0, 0]);
    for (const h of [0.001, 5.999, 9.001]) expect(streamAt(s, at(h)).known).toBe(false);
  });

  test("slack beside slack takes the set from the other side, or none", () => {
    const found = streamTurns(
      { kind: "turns", turns: [turn("greatest", 0, 90, 1), slack(3), slack(6)] },
      span(0, 9),
    );
    expect(found.map((t) => t.towardsDeg)).toEqual([90, 270, 0]);
  });
});

describe("turns of rows", () => {
  const kinds = (s: StreamSource, from = 0, to = 20) =>
    streamTurns(s, span(from, to)).map((t) => [
      t.kind,
      (t.timeMs - t0) / HOUR,
      Math.round(t.towardsDeg),
    ]);
  test("none where the rate only rises or only falls, or stands on the way", () => {
    expect(kinds(series(row(0, 1, 30), row(2, 2, 30), row(4, 3, 30)))).toEqual([]);
    expect(kinds(series(row(0, 3, 30), row(2, 2, 30), row(4, 1, 30)))).toEqual([]);
    expect(kinds(series(row(0, 3, 30), row(2, 2, 30), row(4, 2, 30), row(6, 1, 30)))).toEqual([]);
    expect(kinds(series(row(0, 0, 30), row(2, 2, 30)))).toEqual([]);
  });
  test("a greatest at the row, a least between rows", () => {
    expect(kinds(series(row(0, 1, 200), row(2, 2, 200), row(4, 1, 200)))).toEqual([
      ["greatest", 2, 200],
    ]);
    // From east to north in a straight line: least half way, towards north-east.
    const [least] = streamTurns(series(row(0, 1, 90), row(2, 1, 0)), span(0, 2));
    expect(least).toMatchObject({ kind: "least", timeMs: at(1) });
    expect(least!.rateMps).toBeCloseTo(Math.SQRT1_2, 9);
    expect(least!.towardsDeg).toBeCloseTo(45, 9);
  });
  test("slack on the very row takes the set that follows", () => {
    expect(kinds(series(row(0, 1, 90), row(2, 0, 0), row(4, 1, 270)))).toEqual([["slack", 2, 270]]);
    const [s] = kinds(series(row(0, 1, 30), row(2, 1, 210)));
    expect(s).toEqual(["slack", 1, 210]);
  });
  test("a gap yields no turn, nor does what lies on its other side", () => {
    expect(kinds(series(row(0, 1, 90), row(4, 1, 270)))).toEqual([]);
    expect(kinds(series(row(0, 1, 90), row(3, 1, 270)))).toEqual([["slack", 1.5, 270]]);
    const s = series(row(0, 1, 90), row(2, 2, 90), row(8, 2, 90), row(10, 1, 90));
    expect(kinds(s)).toEqual([]);
  });
});

describe("turns of ellipses", () => {
  const ellipse = (
    speedDegPerHour: number,
    semiMajorMps: number,
    semiMinorMps: number,
    majorTowardsDeg: number,
  ) => ({ speedDegPerHour, semiMajorMps, semiMinorMps, majorTowardsDeg, greatestAtMs: t0 });
  test("least a quarter of the period after greatest, whichever way the long axis lies", () => {
    for (const toDeg of [30, 150]) {
      const [least] = streamTurns(
        { kind: "ellipse", constituents: [ellipse(30, 1, 0.3, toDeg)] },
        span(1, 5),
      );
      expect(least!.kind).toBe("least");
      expect(Math.abs(least!.timeMs - at(3))).toBeLessThan(1000);
      expect(least!.rateMps).toBeCloseTo(0.3, 9);
    }
  });
  test("at any instant and below a limit as the cosine of a reversing stream has it", () => {
    const source: StreamSource = { kind: "ellipse", constituents: [ellipse(30, 2, 0, 90)] };
    for (const h of [0, 1, 2.5, 7]) {
      const eastMps = expect.closeTo(2 * Math.cos((h * Math.PI) / 6), 9) as number;
      const northMps = expect.closeTo(0, 9) as number;
      expect(streamAt(source, at(h))).toMatchObject({ known: true, eastMps, northMps });
    }
    // Below half of it for an hour on either side of the slack in the third hour.
    const { below, unknown } = streamBelow({ stream: source, stay: span(0, 6), limitMps: 1 });
    expect(unknown).toEqual([]);
    expect(below.map((b) => [b.fromMs - t0, b.toMs - t0].map((ms) => ms / HOUR))).toEqual([
      [expect.closeTo(2, 5), expect.closeTo(4, 5)],
    ]);
  });
  test("slack of a reversing stream, with the set that follows", () => {
    const [found] = streamTurns(
      { kind: "ellipse", constituents: [ellipse(30, 1, 0, 60)] },
      span(1, 5),
    );
    expect(found).toMatchObject({ kind: "slack" });
    expect(found!.towardsDeg).toBeCloseTo(240, 6);
  });
  test("a slow constituent beside a fast one hides no turn", () => {
    const found = streamTurns(
      { kind: "ellipse", constituents: [ellipse(1, 0.01, 0, 90), ellipse(30, 1, 0, 90)] },
      span(1, 49),
    );
    // Eight greatest rates in 48 hours of a twelve-hour period, and a slack between each two.
    expect(found.filter((t) => t.kind === "greatest")).toHaveLength(8);
    expect(found.filter((t) => t.kind === "slack")).toHaveLength(8);
  });
  test("a stream ten million times weaker turns at the same instants", () => {
    const times = (scale: number) =>
      streamTurns(
        { kind: "ellipse", constituents: [ellipse(30, scale, scale * 0.3, 45)] },
        span(1, 25),
      ).map((t) => Math.round((t.timeMs - t0) / HOUR));
    expect(times(1)).toEqual([3, 6, 9, 12, 15, 18, 21, 24]);
    expect(times(1e-7)).toEqual(times(1));
  });
});

describe("weak stream", () => {
  const below = (stream: StreamSource, stay: { fromMs: number; toMs: number }, limitMps: number) =>
    streamBelow({ stream, stay, limitMps });
  test("gaps between rows are unknown from row to row", () => {
    const s = series(row(0, 1, 90), row(2, 1, 90), row(7, 1, 90), row(9, 1, 90));
    expect(below(s, span(0, 9), 2)).toEqual({
      below: [span(0, 2), span(7, 9)],
      unknown: [span(2, 7)],
    });
    const far = hourly([
      [0, 4],
      [24, 4],
    ]);
    expect(below(far, span(0, 24), 3)).toEqual({
      below: [span(0, 6), span(18, 24)],
      unknown: [span(6, 18)],
    });
    expect(
      below(
        {
          kind: "turns",
          turns: [turn("greatest", 0, 90, 1), slack(3), slack(9), turn("greatest", 12, 90, 1)],
        },
        span(0, 12),
        1,
      ),
    ).toEqual({ below: [span(0, 3), span(9, 12)], unknown: [span(3, 9)] });
  });
  test("nothing is told of the time outside the stay", () => {
    const s = series(row(0, 1, 90), row(3, 1, 270), row(6, 1, 90), row(8, 1, 90));
    // Straight from 1 to -1 in three hours: under 0.5 for the middle half of them.
    const found = below(s, span(1, 5), 0.5);
    expect(found.unknown).toEqual([]);
    const hours = found.below.map((b) => [(b.fromMs - t0) / HOUR, (b.toMs - t0) / HOUR]);
    expect(hours).toEqual([
      [1, expect.closeTo(2.25, 5)],
      [expect.closeTo(3.75, 5), 5],
    ]);
    expect(below(s, span(1, 5), 2).below).toEqual([span(1, 5)]);
  });
  test("a rate at the limit is not above it, and one that rises from it is", () => {
    const steady = (rateMps: number): StreamSource => ({ kind: "steady", rateMps, towardsDeg: 90 });
    expect(below(steady(1), span(0, 1), 1).below).toEqual([span(0, 1)]);
    expect(below(steady(1.001), span(0, 1), 1).below).toEqual([]);
    expect(below(series(row(0, 1, 90), row(2, 2, 90)), span(0, 2), 1).below).toEqual([]);
  });
  test("rows held in steps are taken with the vector between them", () => {
    const rows = [0, 2, 0].map((rate, i) => ({
      hour: i - 1,
      towardsDeg: 90,
      springMps: rate,
      neapMps: rate,
    }));
    const s = (between: "step" | "vector") => hourly([[0, 4]], { rows, between });
    const found = below(s("step"), span(-1, 1), 0.5);
    expect(found).toEqual(below(s("vector"), span(-1, 1), 0.5));
    expect(found.below[0]!.toMs).toBeCloseTo(at(-0.75), -1);
  });
});

describe("refuses", () => {
  const rows = (a: Partial<Hourly["rows"][number]>): Hourly =>
    hourly([[0, 4]], {
      rows: [
        { hour: 0, towardsDeg: 10, springMps: 1, neapMps: 1 },
        { hour: 1, towardsDeg: null, springMps: 0, neapMps: 0, ...a },
      ],
    });
  test("a set left out where there is a rate, and only there", () => {
    expect(known(rows({}), 1).rateMps).toBe(0);
    for (const bad of [{ springMps: 1 }, { neapMps: 1 }, { springMps: 1, neapMps: 1 }])
      expect(codes(() => streamAt(rows(bad), t0))).toEqual(["source.rows custom"]);
  });
  test("springs no greater than neaps", () => {
    expect(codes(() => streamAt(hourly([[0, 2]], { springRangeM: 2 }), t0))).toHaveLength(1);
  });
  test("as many rows as unknowns, and speeds that cannot be told apart", () => {
    const record = (n: number) =>
      Array.from({ length: n }, (_, i) => ({
        timeMs: at(i),
        eastMps: Math.cos((i * Math.PI) / 6),
        northMps: 0,
      }));
    expect(codes(() => ellipsesFrom({ rows: record(3), speedsDegPerHour: [30] }))).toEqual([
      "rows too_small",
    ]);
    for (const other of [30, 30.0001])
      expect(
        codes(() => ellipsesFrom({ rows: record(60), speedsDegPerHour: [30, other] })),
      ).toEqual(["speedsDegPerHour inseparable"]);
  });
  test("a subordinate station without a greatest rate, and turns that overtake each other", () => {
    const differences = {
      beforeFloodMs: HOUR,
      floodMs: 0,
      beforeEbbMs: 0,
      ebbMs: 0,
      floodRatio: 1,
      ebbRatio: 1,
      floodTowardsDeg: 90,
      ebbTowardsDeg: 270,
    };
    const of = (
      turns: (ReturnType<typeof slack> | ReturnType<typeof turn>)[],
      floodMs = 0,
    ): unknown =>
      subordinateTurns({
        turns,
        floodTowardsDeg: 90,
        differences: { ...differences, floodMs },
      });
    expect(codes(() => of([slack(0), slack(3)]))).toEqual(["turns[0] order"]);
    const pair = [slack(0), turn("greatest", 1, 90, 1)];
    expect(codes(() => of(pair))).toEqual(["turns[1] order"]);
    expect(codes(() => of(pair, -1))).toEqual(["turns[1] order"]);
    expect(of(pair, 1)).toEqual([slack(1), { ...turn("greatest", 1, 90, 1), timeMs: at(1) + 1 }]);
  });
});

describe("ellipses from a record", () => {
  // A circle that turns anticlockwise and one that turns clockwise: their radii add along the long axis and
  // differ along the short one; the axis lies half-way between where they start.
  test.each([
    [0.5, 0.2, 20, 80],
    [0.2, 0.5, 20, 80],
  ])("two circles of %d and %d m/s", (left, right, leftDeg, rightDeg) => {
    const rad = Math.PI / 180;
    const rows = Array.from({ length: 49 }, (_, i) => {
      const turned = 30 * (i - 24);
      return {
        timeMs: at(i + 1),
        eastMps:
          0.3 +
          left * Math.cos((leftDeg + turned) * rad) +
          right * Math.cos((rightDeg - turned) * rad),
        northMps:
          -0.1 +
          left * Math.sin((leftDeg + turned) * rad) +
          right * Math.sin((rightDeg - turned) * rad) +
          (i % 2 === 0 ? 0.05 : -0.05),
      };
    });
    const { stream, residualRmsMps } = ellipsesFrom({ rows, speedsDegPerHour: [30] });
    const [found] = stream.constituents;
    expect(stream.meanEastMps).toBeCloseTo(0.3, 2);
    expect(stream.meanNorthMps).toBeCloseTo(-0.1, 2);
    expect(found!.semiMajorMps).toBeCloseTo(left + right, 2);
    expect(found!.semiMinorMps).toBeCloseTo(left - right, 2);
    // 50° from east, anticlockwise, after an hour's turn of 30° from the middle.
    expect(found!.majorTowardsDeg).toBeCloseTo(40, 0);
    expect(Math.abs(found!.greatestAtMs - at(26))).toBeLessThan(HOUR / 20);
    expect(residualRmsMps).toBeCloseTo(0.05, 3);
  });
  const record = (hours: number) =>
    Array.from({ length: hours + 1 }, (_, i) => ({
      timeMs: at(i),
      eastMps: Math.cos((i * Math.PI) / 6) + 0.2 * Math.cos((i * Math.PI) / 4.5),
      northMps: 0.1 * Math.sin(i),
    }));
  test("two speeds are told apart by a record of 360° of their difference, no less", () => {
    const of = (hours: number) =>
      ellipsesFrom({ rows: record(hours), speedsDegPerHour: [30, 40, 80] }).notSeparated;
    expect(of(36)).toEqual([]);
    expect(of(35)).toEqual([[30, 40]]);
  });
  test("the instant of the greatest rate lies by the middle of the record", () => {
    const { stream } = ellipsesFrom({ rows: record(60), speedsDegPerHour: [30] });
    expect(Math.abs(stream.constituents[0]!.greatestAtMs - at(30))).toBeLessThanOrEqual(6 * HOUR);
  });
});
