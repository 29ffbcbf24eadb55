import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import { utc } from "../../src/core/time.js";
import { knots } from "../../src/core/units.js";
import {
  ellipsesFrom,
  streamAt,
  streamBelow,
  streamTurns,
  subordinateTurns,
  type StreamSource,
} from "../../src/stream/index.js";

const HOUR = 3_600_000;
const t0 = utc("2026-06-01T00:00Z");
const slack = (h: number) => ({ kind: "slack", timeMs: t0 + h * HOUR }) as const;
const greatest = (h: number, towardsDeg: number, rateMps = 1) =>
  ({ kind: "greatest", timeMs: t0 + h * HOUR, rateMps, towardsDeg }) as const;
const reason = (s: StreamSource, h: number) => {
  const at = streamAt(s, t0 + h * HOUR);
  return at.known ? "known" : at.reason;
};

/** Rows of a stream that turns with the hour, for high waters at the given hours. */
const hourly = (
  highs: number[],
  more: Partial<Extract<StreamSource, { kind: "hourly" }>> = {},
): StreamSource => ({
  kind: "hourly",
  rows: Array.from({ length: 13 }, (_, n) => ({
    hour: n - 6,
    towardsDeg: 90,
    springMps: 1,
    neapMps: 0.5,
  })),
  highWaters: highs.map((h) => ({ timeMs: t0 + h * HOUR, rangeM: 4 })),
  springRangeM: 4,
  neapRangeM: 2,
  ...more,
});

describe("a table shorter than the stay", () => {
  test.each<[StreamSource]>([
    [{ kind: "turns", turns: [slack(0), greatest(3, 90)] }],
    [
      {
        kind: "series",
        rows: [
          { timeMs: t0, rateMps: 1, towardsDeg: 90 },
          { timeMs: t0 + 3 * HOUR, rateMps: 1, towardsDeg: 90 },
        ],
      } as const,
    ],
  ])("is never carried beyond its ends: %#", (s) => {
    expect(reason(s, -0.01)).toBe("beforeFirst");
    expect(reason(s, 0)).toBe("known");
    expect(reason(s, 3)).toBe("known");
    expect(reason(s, 3.01)).toBe("afterLast");
  });
  test("hourly rows reach six hours either side, six and a half by steps", () => {
    expect(reason(hourly([0]), -6)).toBe("known");
    expect(reason(hourly([0]), -6.01)).toBe("beforeFirst");
    expect(reason(hourly([0]), 6.01)).toBe("afterLast");
    expect(reason(hourly([0], { between: "step" }), 6.49)).toBe("known");
    expect(reason(hourly([0], { between: "step" }), 6.51)).toBe("afterLast");
  });
});

test("no rate has no negative nil in it", () => {
  const at = streamAt({ kind: "steady", rateMps: 0, towardsDeg: 225 }, t0);
  expect(JSON.parse(JSON.stringify(at))).toEqual(at);
});

describe("missing knowledge", () => {
  test("two slacks, or two greatest rates, in a row leave the time between unknown", () => {
    const s: StreamSource = {
      kind: "turns",
      turns: [slack(0), slack(6), greatest(9, 90), greatest(15, 270)],
    };
    expect(reason(s, 3)).toBe("missingTurn");
    expect(reason(s, 7)).toBe("known");
    expect(reason(s, 12)).toBe("missingTurn");
  });
  test("a quarter of more than ten hours has lost a turn", () => {
    expect(reason({ kind: "turns", turns: [slack(0), greatest(10.5, 90)] }, 5)).toBe("gap");
  });
  test("nor does a short table take its own gap for the usual time between turns", () => {
    const gap = (...turns: (ReturnType<typeof slack> | ReturnType<typeof greatest>)[]) =>
      reason({ kind: "turns", turns, rule: "sine" }, 5);
    expect(gap(slack(0), greatest(9.3, 90))).toBe("gap");
    expect(gap(slack(0), greatest(9.3, 90), slack(12.4))).toBe("gap");
    expect(gap(slack(0), greatest(7, 90))).toBe("known");
  });
  test("nor does a table of a twice-daily stream hide a pair of turns that is missing", () => {
    const turns = [greatest(0, 90), slack(3.1), greatest(6.2, 270), slack(9.3)];
    // Lost: the greatest at 12.4 h and the slack at 15.5 h.
    const lost: StreamSource = { kind: "turns", turns: [...turns, greatest(18.6, 270)] };
    expect(reason(lost, 8)).toBe("known");
    expect(reason(lost, 14)).toBe("gap");
    const late: StreamSource = { kind: "turns", turns: [...turns, greatest(17.2, 90)] };
    expect(reason(late, 14)).toBe("known");
    const daily = [greatest(0, 90), slack(6.2), greatest(12.4, 270), slack(21.7)];
    expect(reason({ kind: "turns", turns: daily }, 14)).toBe("known");
  });
  test("a missing high water leaves a gap", () => {
    expect(reason(hourly([0, 12.4]), 6.2)).toBe("known");
    expect(reason(hourly([0, 24.8]), 12.4)).toBe("gap");
  });
  test("rows far apart leave a gap unless allowed", () => {
    const rows = [0, 4].map((h) => ({
      timeMs: t0 + h * HOUR,
      rateMps: 1,
      towardsDeg: 90,
    }));
    expect(reason({ kind: "series", rows }, 2)).toBe("gap");
    expect(reason({ kind: "series", rows, longestGapMs: 4 * HOUR }, 2)).toBe("known");
  });
  test("what is unknown is not weak", () => {
    const found = streamBelow({
      stream: { kind: "turns", turns: [slack(0), slack(6)] },
      stay: { fromMs: t0 - HOUR, toMs: t0 + 7 * HOUR },
      limitMps: 5,
    });
    expect(found).toEqual({
      below: [],
      unknown: [{ fromMs: t0 - HOUR, toMs: t0 + 7 * HOUR }],
    });
  });
});

test("between two high waters each row stands at its own range, and on its own side of the middle", () => {
  const s = {
    ...hourly([]),
    highWaters: [
      { timeMs: t0, rangeM: 4 },
      { timeMs: t0 + 11 * HOUR, rangeM: 2 },
    ],
  } as StreamSource;
  const rate = (h: number) => {
    const at = streamAt(s, t0 + h * HOUR);
    return at.known ? at.rateMps : NaN;
  };
  expect([3, 5, 5.5, 6, 8].map(rate)).toEqual(
    [1, 1, 0.75, 0.5, 0.5].map((x) => expect.closeTo(x, 12) as number),
  );
});

describe("range", () => {
  const at = (rangeM: number) =>
    streamAt({ ...hourly([0]), highWaters: [{ timeMs: t0, rangeM }] } as StreamSource, t0);
  test("beyond neaps and springs the rate is carried on, and it is said", () => {
    expect(at(3)).toMatchObject({ rateMps: 0.75, flags: [] });
    expect(at(1)).toMatchObject({ rateMps: 0.25, flags: ["belowNeaps"] });
    expect(at(4.5)).toMatchObject({ rateMps: 1.125, flags: ["aboveSprings"] });
    expect(at(5.1)).toMatchObject({ flags: ["farAboveSprings"] });
  });
});

describe("turns", () => {
  // The short axis of an ellipse is its least rate: no slack (definition).
  test("a stream that goes round has a least rate and no slack", () => {
    const found = streamTurns(
      {
        kind: "ellipse",
        constituents: [
          {
            speedDegPerHour: 30,
            semiMajorMps: 1,
            semiMinorMps: 0.3,
            majorTowardsDeg: 0,
            greatestAtMs: t0,
          },
        ],
      },
      { fromMs: t0 + 1, toMs: t0 + 12 * HOUR - 1 },
    );
    expect(found.map((t) => t.kind)).toEqual(["least", "greatest", "least"]);
    // Anticlockwise from north: west first.
    expect(found.map((t) => Math.round(t.towardsDeg))).toEqual([270, 180, 90]);
    expect(found[0]!.timeMs).toBeCloseTo(t0 + 3 * HOUR, -1);
    expect(found[0]!.rateMps).toBeCloseTo(0.3, 9);
  });
  test("a reversing series has its slack where the vector passes through nil", () => {
    const rows = [
      { timeMs: t0, rateMps: 1, towardsDeg: 90 },
      { timeMs: t0 + HOUR, rateMps: 1, towardsDeg: 270 },
    ];
    expect(streamTurns({ kind: "series", rows }, { fromMs: t0, toMs: t0 + HOUR })).toEqual([
      {
        timeMs: t0 + HOUR / 2,
        kind: "slack",
        rateMps: expect.closeTo(0, 12) as number,
        towardsDeg: 270,
      },
    ]);
  });
  test("a table gives its own turns back, slack with the set that follows", () => {
    const s: StreamSource = {
      kind: "turns",
      turns: [slack(0), greatest(3, 90), slack(6)],
    };
    expect(streamTurns(s, { fromMs: t0, toMs: t0 + 6 * HOUR })).toEqual([
      { ...slack(0), rateMps: 0, towardsDeg: 90 },
      greatest(3, 90),
      { ...slack(6), rateMps: 0, towardsDeg: 270 },
    ]);
  });
  test("a steady stream has none", () => {
    expect(
      streamTurns({ kind: "steady", rateMps: 1, towardsDeg: 0 }, { fromMs: t0, toMs: t0 + HOUR }),
    ).toEqual([]);
  });
});

test("a least rate takes the ratio of the greatest beside it", () => {
  const d = {
    beforeFloodMs: 1,
    floodMs: 2,
    beforeEbbMs: 3,
    ebbMs: 4,
    floodRatio: 2,
    ebbRatio: 0.5,
    floodTowardsDeg: 10,
    ebbTowardsDeg: 190,
  };
  const least = {
    kind: "least",
    timeMs: t0 + 6 * HOUR,
    rateMps: knots(1),
    towardsDeg: 90,
  } as const;
  const out = subordinateTurns({
    turns: [greatest(3, 80), least, greatest(9, 260), slack(12)],
    floodTowardsDeg: 90,
    differences: d,
  });
  expect(out).toEqual([
    { ...greatest(3, 10, 2), timeMs: t0 + 3 * HOUR + 2 },
    {
      ...least,
      timeMs: least.timeMs + 3,
      rateMps: knots(0.5),
      towardsDeg: 190,
    },
    { ...greatest(9, 190, 0.5), timeMs: t0 + 9 * HOUR + 4 },
    { kind: "slack", timeMs: t0 + 12 * HOUR + 1 },
  ]);
});

test("constituents that the record cannot tell apart are named", () => {
  const rows = Array.from({ length: 60 }, (_, i) => ({
    timeMs: t0 + i * HOUR,
    eastMps: Math.cos(i),
    northMps: 0,
  }));
  const { notSeparated } = ellipsesFrom({
    rows,
    speedsDegPerHour: [28.9841042, 30],
  });
  expect(notSeparated).toEqual([[28.9841042, 30]]);
});

test("a record shorter than a turn of a constituent does not tell it from the mean flow", () => {
  const of = (hours: number) =>
    ellipsesFrom({
      rows: Array.from({ length: 4 * hours + 1 }, (_, i) => ({
        timeMs: t0 + (i * HOUR) / 4,
        eastMps: Math.cos(i / 8),
        northMps: 0,
      })),
      speedsDegPerHour: [30],
    }).notSeparated;
  expect(of(6)).toEqual([[0, 30]]);
  expect(of(12)).toEqual([]);
});

describe("refuses", () => {
  const turn = slack(0);
  test.each([
    ["turns out of order", { kind: "turns", turns: [slack(3), turn] }],
    ["a doubled turn", { kind: "turns", turns: [turn, turn] }],
    [
      "an hour left out",
      {
        ...hourly([0]),
        rows: [-1, 1].map((hour) => ({
          hour,
          towardsDeg: 1,
          springMps: 1,
          neapMps: 1,
        })),
      },
    ],
    [
      "a rate without a set",
      {
        ...hourly([0]),
        rows: [0, 1].map((hour) => ({
          hour,
          towardsDeg: null,
          springMps: 1,
          neapMps: 0,
        })),
      },
    ],
    ["neaps above springs", hourly([0], { neapRangeM: 5 })],
    ["NaN", { kind: "steady", rateMps: NaN, towardsDeg: 0 }],
    ["a misspelt field", { kind: "steady", rateMps: 1, towardDeg: 0 }],
  ])("%s", (_, s) => {
    expect(() => streamAt(s as StreamSource, t0)).toThrow(InputError);
  });
});

describe("turns of an ellipse", () => {
  const ellipse = (semiMinorMps: number): StreamSource => ({
    kind: "ellipse",
    constituents: [
      {
        speedDegPerHour: 28.9841042,
        semiMajorMps: 0.8,
        semiMinorMps,
        majorTowardsDeg: 90,
        greatestAtMs: t0,
      },
    ],
  });
  test("a turn on the very end of an interval belongs to it", () => {
    for (const [fromMs, toMs] of [
      [t0, t0 + HOUR],
      [t0 - HOUR, t0],
      [t0, t0],
    ] as const)
      expect(streamTurns(ellipse(0.2), { fromMs, toMs })).toEqual([
        expect.objectContaining({ kind: "greatest", timeMs: t0 }),
      ]);
  });
  test("a stream that goes round at one rate has none", () => {
    expect(streamTurns(ellipse(0.8), { fromMs: t0, toMs: t0 + 48 * HOUR })).toEqual([]);
  });
});
