import { knots, minutes, toKnots, toMinutes } from "../../src/core/units.js";
import { utc } from "../../src/core/time.js";
import {
  streamAt,
  streamBelow,
  subordinateTurns,
  type StreamSource,
} from "../../src/stream/index.js";
import { hasSharedData } from "../shared-data.js";
import { foremanFit } from "./foreman.js";
import { runChecks, type Adapter, type Check, type Measured } from "./harness.js";

const HOUR = 3_600_000;
const DAY = "2026-06-01T";
const at0 = utc(`${DAY}12:00Z`);

/** Rate at the instant in knots; NaN where unknown. */
function rateKn(source: StreamSource, timeMs: number): number {
  const s = streamAt(source, timeMs);
  return s.known ? toKnots(s.rateMps) : NaN;
}

/** An hourly source with the same row in every hour. */
const sameEveryHour = (i: Record<string, number>): StreamSource => ({
  kind: "hourly",
  rows: Array.from({ length: 13 }, (_, n) => ({
    hour: n - 6,
    towardsDeg: 90,
    springMps: knots(i["springRateKn"]!),
    neapMps: knots(i["neapRateKn"]!),
  })),
  highWaters: [{ timeMs: at0, rangeM: i["rangeM"]! }],
  springRangeM: i["springRangeM"]!,
  neapRangeM: i["neapRangeM"]!,
});

function rateAtRange(c: Check): Measured[] {
  const got = rateKn(sameEveryHour(c.inputs as Record<string, number>), at0);
  const printed = {
    quantity: "stream: rate at range",
    got,
    expected: c.expected["rateKn"],
    tolerance: c.tolerance === "exact" ? 0 : 0.05,
    unit: "kn",
  };
  const linear = /linear value (\d\.\d+)/.exec(c.tolerance);
  if (!linear) return [printed];
  return [printed, { ...printed, expected: Number(linear[1]), tolerance: 5e-4 }];
}

/** Six hours from slack to slack with a greatest rate of 1 m/s in the middle. */
const halfSine = (rule: "sine" | "fiftyNinety"): StreamSource => ({
  kind: "turns",
  rule,
  turns: [
    { kind: "slack", timeMs: at0 },
    { kind: "greatest", timeMs: at0 + 3 * HOUR, rateMps: 1, towardsDeg: 70 },
    { kind: "slack", timeMs: at0 + 6 * HOUR },
  ],
});

const fractionAt = (source: StreamSource, timeMs: number): number => {
  const s = streamAt(source, timeMs);
  return s.known ? s.rateMps : NaN;
};

/** Mean over an hour by Simpson's rule at minutes. */
function hourMean(source: StreamSource, fromMs: number): number {
  let sum = 0;
  for (let m = 0; m <= 60; m++)
    sum += (m % 60 === 0 ? 1 : m % 2 === 1 ? 4 : 2) * fractionAt(source, fromMs + m * 60_000);
  return sum / 180;
}

function slackDuration(c: Check): Measured[] {
  const i = c.inputs as {
    maxKn: number;
    thresholdKn: number[];
    halfCycleMin: number;
  };
  const quarter = minutes(i.halfCycleMin / 2);
  const greatest = { kind: "greatest", rateMps: knots(i.maxKn) } as const;
  const stream: StreamSource = {
    kind: "turns",
    turns: [
      { ...greatest, timeMs: at0 - quarter, towardsDeg: 10 },
      { kind: "slack", timeMs: at0 },
      { ...greatest, timeMs: at0 + quarter, towardsDeg: 190 },
    ],
  };
  return i.thresholdKn.map((threshold, n) => {
    const { below } = streamBelow({
      stream,
      stay: { fromMs: at0 - quarter, toMs: at0 + quarter },
      limitMps: knots(threshold),
    });
    return {
      quantity: "stream: duration of slack",
      got: below.reduce((sum, b) => sum + toMinutes(b.toMs - b.fromMs), 0),
      expected: (c.expected["durationMin"] as number[])[n],
      tolerance: 1.5,
      unit: "min",
    };
  });
}

const adapters: Record<string, Adapter> = {
  "navy-sewells-subordinate": (c) => {
    const i = c.inputs as Record<string, number> & {
      refSlack: string;
      refMax: string;
    };
    const [slack, greatest] = subordinateTurns({
      turns: [
        { kind: "slack", timeMs: utc(`${DAY}${i.refSlack}Z`) },
        {
          kind: "greatest",
          timeMs: utc(`${DAY}${i.refMax}Z`),
          rateMps: knots(i["refMaxKn"]!),
          towardsDeg: 60,
        },
      ],
      floodTowardsDeg: 60,
      differences: {
        beforeFloodMs: minutes(i["slackDiffMin"]!),
        floodMs: minutes(i["maxDiffMin"]!),
        beforeEbbMs: 0,
        ebbMs: 0,
        floodRatio: i["ratio"]!,
        ebbRatio: 1,
        floodTowardsDeg: 60,
        ebbTowardsDeg: 240,
      },
    });
    const clock = (ms: number) => new Date(ms).toISOString().slice(11, 16);
    return [
      {
        quantity: "stream: subordinate time",
        got: clock(slack!.timeMs),
        expected: c.expected["slack"],
      },
      {
        quantity: "stream: subordinate time",
        got: clock(greatest!.timeMs),
        expected: c.expected["max"],
      },
      {
        quantity: "stream: subordinate rate",
        got: greatest!.kind === "greatest" ? toKnots(greatest!.rateMps) : null,
        expected: c.expected["maxKn"],
        tolerance: 1e-9,
        unit: "kn",
      },
    ];
  },
  "rule-50-90": (c) =>
    (c.inputs["third"] as number[]).map((third, n) => ({
      quantity: "stream: 50/90 rule",
      got: fractionAt(halfSine("fiftyNinety"), at0 + third * HOUR),
      expected: (c.expected["fraction"] as number[])[n],
      tolerance: 1e-12,
      unit: "of greatest",
    })),
  "thirds-rule-hourly-means": (c) =>
    (c.inputs["hour"] as number[]).map((hour, n) => ({
      quantity: "stream: mean over an hour",
      got: hourMean(halfSine("sine"), at0 + (hour - 1) * HOUR),
      expected: (c.expected["meanFractionOfMax"] as number[])[n],
      tolerance: 1e-4,
      unit: "of greatest",
    })),
  "vector-interp": (c) => {
    const i = c.inputs as Record<string, number>;
    const source: StreamSource = {
      kind: "series",
      rows: [
        {
          timeMs: at0,
          rateMps: knots(i["fromRateKn"]!),
          towardsDeg: i["fromSetDeg"]!,
        },
        {
          timeMs: at0 + HOUR,
          rateMps: knots(i["toRateKn"]!),
          towardsDeg: i["toSetDeg"]!,
        },
      ],
    };
    return [
      {
        quantity: "stream: between rows",
        got: rateKn(source, at0 + i["fraction"]! * HOUR),
        expected: c.expected["rateKn"],
        tolerance: 1e-9,
        unit: "kn",
      },
    ];
  },
  "period-step-read": (c) => {
    const hw = utc(`${DAY}${c.inputs["hw"] as string}Z`);
    const source: StreamSource = {
      kind: "hourly",
      rows: [-2, -1, 0, 1, 2].map((hour) => ({
        hour,
        towardsDeg: 90,
        springMps: 10 + hour,
        neapMps: 10 + hour,
      })),
      highWaters: [{ timeMs: hw, rangeM: 4 }],
      springRangeM: 4,
      neapRangeM: 2,
      between: "step",
    };
    const clock = (ms: number) => new Date(ms).toISOString().slice(11, 16);
    const held: number[] = [];
    for (let t = hw - HOUR; t <= hw + HOUR; t += 60_000)
      if (Math.round(fractionAt(source, t)) === 10) held.push(t);
    return [
      {
        quantity: "stream: row held",
        got: {
          hwRowFrom: clock(held[0]!),
          hwRowTo: clock(held.at(-1)! + 60_000),
        },
        expected: c.expected,
      },
    ];
  },
  "ellipse-m2-foreman": (c) => {
    if (!hasSharedData) return { notCompared: "the open data set is absent" };
    const m2 = foremanFit().stream.constituents[0]!;
    const fromEast = (90 - m2.majorTowardsDeg + 360) % 180;
    return [
      {
        quantity: "stream: ellipse, axes",
        got: m2.semiMajorMps,
        expected: c.expected["semiMajorMs"],
        tolerance: 0.01,
        relative: true,
      },
      {
        quantity: "stream: ellipse, axes",
        got: m2.semiMinorMps,
        expected: c.expected["semiMinorMs"],
        tolerance: 0.01,
        relative: true,
      },
      {
        quantity: "stream: ellipse, direction",
        got: fromEast,
        expected: c.expected["inclinationDegFromEastCcw"],
        tolerance: 0.5,
        unit: "deg",
      },
    ];
  },
  "mean-flow-foreman": (c) => {
    if (!hasSharedData) return { notCompared: "the open data set is absent" };
    const { stream, residualRmsMps } = foremanFit();
    const got = {
      meanEastMs: stream.meanEastMps,
      meanNorthMs: stream.meanNorthMps,
      residualRmsMs: residualRmsMps,
    };
    return Object.entries(got).map(([key, value]) => ({
      quantity: `stream: ${key} of a record`,
      got: value,
      expected: c.expected[key],
      tolerance: 0.003,
      unit: "m/s",
    }));
  },
  "half-sine-error-noaa": () => ({
    notCompared: "needs the constants of 837 current stations, which are not kept here",
  }),
  "noaa-current-constants-pollock-rip": () => ({
    notCompared:
      "constants of one station as a data set carries them; nothing is computed from them",
  }),
};

runChecks("stream", (c) => {
  const start = Object.keys(adapters).find((key) => c.id.startsWith(key));
  if (start !== undefined) return adapters[start]!(c);
  return c.id.startsWith("slack-duration") ? slackDuration(c) : rateAtRange(c);
});
