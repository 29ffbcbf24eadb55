import { feet, toFeet } from "../../src/core/units.js";
import { nodeFactors } from "../../src/tide/astro.js";
import {
  depthOverStay,
  pressureSurge,
  secondaryTurns,
  tideHeight,
  tideSeries,
  tideTurns,
  type TideSource,
} from "../../src/tide/index.js";
import { majorTurns } from "../../src/tide/kinds.js";
import { runChecks, type Adapter, type Check, type Measured, type NotCompared } from "./harness.js";
import { constantsOf, sourceOf, stations } from "./tide-stations.js";

const MINUTE = 60_000;
const HOUR = 3_600_000;
const DAY = Date.UTC(2026, 5, 1);
const ABSENT: NotCompared = {
  notCompared: "the constants of this station are not at hand",
};

/** A local clock time of an example day, as an instant. */
const clock = (text: string): number => {
  const [h, m] = text.split(":");
  return DAY + (Number(h) * 60 + Number(m)) * MINUTE;
};

const num = (record: Record<string, unknown>, key: string): number => record[key] as number;
const text = (record: Record<string, unknown>, key: string): string => record[key] as string;

/** Height that must be known, in metres. */
function height(source: TideSource, timeMs: number): number {
  const h = tideHeight(source, timeMs);
  return h.known ? h.heightM : NaN;
}

const turns = (
  rows: readonly (readonly [number, number])[],
  rule: "cosine" | "twelfths" = "cosine",
): TideSource => ({
  kind: "turns",
  turns: rows.map(([timeMs, heightM]) => ({ timeMs, heightM })),
  rule,
  datum: "chart datum",
});

/** Six hours from 0 to 1 m. */
const unitRise = (rule: "cosine" | "twelfths") =>
  turns(
    [
      [DAY, 0],
      [DAY + 6 * HOUR, 1],
    ],
    rule,
  );

const anyTime: Adapter = ({ inputs, expected }) => [
  {
    quantity: "height between turns, half-cosine",
    got: toFeet(
      height(
        turns([
          [clock(text(inputs, "lwTimeLocal")), feet(num(inputs, "lwHeightFt"))],
          [clock(text(inputs, "hwTimeLocal")), feet(num(inputs, "hwHeightFt"))],
        ]),
        clock(text(inputs, "timeLocal")),
      ),
    ),
    expected: expected["heightFt"],
    tolerance: 0.1,
    unit: "ft",
  },
];

const fractions: Adapter = ({ inputs, expected }) =>
  (inputs["fractionOfDuration"] as number[]).map((x, i) => ({
    quantity: "half-cosine, share of range",
    got: height(unitRise("cosine"), DAY + x * 6 * HOUR),
    expected: (expected["fractionOfRange"] as number[])[i],
    tolerance: 1e-6,
    unit: "of range",
  }));

const increments: Adapter = ({ inputs, expected }) =>
  (inputs["sixth"] as number[]).map((sixth, i) => ({
    quantity: "rule of twelfths, increment of a sixth",
    got:
      12 *
      (height(unitRise("twelfths"), DAY + sixth * HOUR) -
        height(unitRise("twelfths"), DAY + (sixth - 1) * HOUR)),
    expected: (expected["twelfths"] as number[])[i],
    tolerance: 1e-9,
    unit: "twelfths",
  }));

const twelfthsAgainstCosine: Adapter = ({ expected }) => {
  const steps = { fromMs: DAY, toMs: DAY + 6 * HOUR, stepMs: 1000 };
  const a = tideSeries(unitRise("twelfths"), steps);
  const b = tideSeries(unitRise("cosine"), steps);
  const gap = Array.from(a, (v, i) => Math.abs(v - b[i]!));
  const nodes = gap.filter((_, i) => i % 3600 === 0);
  return [
    ["maxFractionOfRange", Math.max(...gap)] as const,
    ["atNodesFractionOfRange", Math.max(...nodes)] as const,
  ].map(([key, got]) => ({
    quantity: "twelfths against half-cosine, largest difference",
    got,
    expected: expected[key],
    tolerance: 5e-5,
    unit: "of range",
  }));
};

/** Time difference in minutes at a standard high water, tabulated at two clock times of the same zone. */
function timeDifference(
  standardMs: number,
  zoneHours: number,
  at: string[],
  minutes: number[],
): number {
  const rows = at.map((t, i) => ({
    hourOfDay: (clock(t) - DAY) / HOUR,
    differenceMs: minutes[i]! * MINUTE,
  }));
  const [turn] = secondaryTurns([{ timeMs: standardMs, heightM: 4, kind: "high" }], {
    tableZoneHours: zoneHours,
    highTime: rows,
    lowTime: rows,
    highHeight: { ratio: 1 },
    lowHeight: { ratio: 1 },
  });
  return (turn!.timeMs - standardMs) / MINUTE;
}

/** The clock of an example may be ahead of the zone of its table. */
const timeDifferenceCheck =
  (times: string, result: string, tolerance: number): Adapter =>
  ({ inputs, expected }) => {
    const ahead = (inputs["zoneOffsetH"] as number | undefined) ?? 0;
    const standard = clock(text(inputs, "standardHwTimeLocal")) - ahead * HOUR;
    const got = timeDifference(
      standard,
      0,
      inputs[times] as string[],
      inputs["differencesMin"] as number[],
    );
    return [
      {
        quantity: "secondary port, time difference",
        got,
        expected: expected["differenceMin"],
        tolerance,
        unit: "min",
      },
      {
        quantity: "secondary port, time of high water",
        got: (standard - DAY) / MINUTE + got,
        expected: (clock(text(expected, result)) - DAY) / MINUTE,
        tolerance,
        unit: "min",
      },
    ];
  };

const heightDifference: Adapter = ({ inputs, expected }) => {
  const rows = [
    {
      standardHeightM: num(inputs, "mhwsM"),
      differenceM: num(inputs, "diffMhwsM"),
    },
    {
      standardHeightM: num(inputs, "mhwnM"),
      differenceM: num(inputs, "diffMhwnM"),
    },
  ];
  const standardM = num(inputs, "standardHwHeightM");
  const zero = [{ hourOfDay: 0, differenceMs: 0 }];
  const [turn] = secondaryTurns([{ timeMs: DAY, heightM: standardM, kind: "high" }], {
    tableZoneHours: 0,
    highTime: zero,
    lowTime: zero,
    highHeight: { rows },
    lowHeight: { rows },
  });
  return [
    {
      quantity: "secondary port, height difference",
      got: turn!.heightM - standardM,
      expected: expected["differenceM"],
      tolerance: 0.01,
      unit: "m",
    },
    {
      quantity: "secondary port, height of high water",
      got: turn!.heightM,
      expected: expected["secondaryHwHeightM"],
      tolerance: 0.01,
      unit: "m",
    },
  ];
};

/** Range between two turns as the turns of a table give it. */
function rangeBetween(low: number, high: number): number {
  const source = turns([
    [DAY, low],
    [DAY + 6 * HOUR, high],
  ]);
  const found = tideTurns(source, { fromMs: DAY, toMs: DAY + 6 * HOUR });
  return found[1]!.heightM - found[0]!.heightM;
}

const range =
  (lowKey: string, highKey: string, key: string): Adapter =>
  ({ inputs, expected }) => [
    {
      quantity: "range",
      got: rangeBetween(num(inputs, lowKey), num(inputs, highKey)),
      expected: expected[key],
      tolerance: 1e-12,
      unit: "as printed",
    },
  ];

/** The source works at mid-interval; the half-cosine at the true instant is in its tolerance. */
const subordinateRatio: Adapter = ({ inputs, expected }) => {
  const difference = [{ hourOfDay: 0, differenceMs: num(inputs, "lwTimeDiffMin") * MINUTE }];
  const source = (rule: "cosine" | "twelfths"): TideSource => ({
    kind: "secondary",
    standard: {
      kind: "turns",
      turns: [
        {
          timeMs: clock(text(inputs, "hwTime")),
          heightM: feet(num(inputs, "hwFt")),
        },
        {
          timeMs: clock(text(inputs, "lwTime")),
          heightM: feet(num(inputs, "lwFt")),
        },
      ],
      rule,
      datum: "MLLW",
    },
    differences: {
      tableZoneHours: 0,
      highTime: [{ hourOfDay: 0, differenceMs: 0 }],
      lowTime: difference,
      highHeight: { ratio: num(inputs, "ratioHw") },
      lowHeight: { ratio: num(inputs, "ratioLw") },
    },
    datum: "MLLW",
  });
  const middle =
    (clock(text(inputs, "hwTime")) + clock(text(inputs, "lwTime")) + difference[0]!.differenceMs) /
    2;
  return [
    {
      quantity: "secondary port by ratio, then twelfths",
      got: toFeet(height(source("twelfths"), middle)),
      expected: expected["heightTwelfthsFt"],
      tolerance: 0.1,
      unit: "ft",
    },
    {
      quantity: "secondary port by ratio, then half-cosine",
      got: toFeet(height(source("cosine"), clock(text(inputs, "timeLocal")))),
      expected: 5.44,
      tolerance: 0.02,
      unit: "ft",
    },
  ];
};

/** "2 min, 0.025 m …" */
function minutesAndMetres(tolerance: string): [number, number] {
  const [, min, m] = /([\d.]+) min[^,]*, ([\d.]+) m/.exec(tolerance)!;
  return [Number(min), Number(m)];
}

function nearestTurn(source: TideSource, timeMs: number, kind: string) {
  return tideTurns(source, {
    fromMs: timeMs - 4 * HOUR,
    toMs: timeMs + 4 * HOUR,
  })
    .filter((t) => t.kind === kind)
    .sort((a, b) => Math.abs(a.timeMs - timeMs) - Math.abs(b.timeMs - timeMs))[0];
}

function againstTurn(
  source: TideSource,
  expected: { timeUtc: string; heightM: number; kind: string },
  [minutes, metres]: readonly [number, number],
  label: string,
): Measured[] {
  const at = Date.parse(expected.timeUtc);
  const turn = nearestTurn(source, at, expected.kind === "H" ? "high" : "low");
  return [
    {
      quantity: `${label}, time`,
      got: turn === undefined ? null : (turn.timeMs - at) / MINUTE,
      expected: 0,
      tolerance: minutes,
      unit: "min",
    },
    {
      quantity: `${label}, height`,
      got: turn?.heightM,
      expected: expected.heightM,
      tolerance: metres,
      unit: "m",
    },
  ];
}

const publishedTurn: Adapter = ({ id, inputs, expected, tolerance }) => {
  const source = sourceOf(text(inputs, "stationId"));
  if (source === null) return ABSENT;
  return againstTurn(
    source,
    {
      ...(expected as { timeUtc: string; heightM: number }),
      kind: text(inputs, "kind"),
    },
    minutesAndMetres(tolerance),
    `published turns, ${id.split("-")[1]!}`,
  );
};

const publishedLevel: Adapter = ({ inputs, expected }) => {
  const source = sourceOf(text(inputs, "stationId"));
  if (source === null) return ABSENT;
  return [
    {
      quantity: "published six-minute levels",
      got: height(source, Date.parse(text(inputs, "timeUtc"))),
      expected: expected["levelM"],
      tolerance: 0.005,
      unit: "m",
    },
  ];
};

/** Published levels carry present-day mean sea level, the constants do not: the bias is stated with the check. */
const biasedTurn: Adapter = ({ inputs, expected }) => {
  const source = sourceOf(text(inputs, "station"));
  if (source === null) return ABSENT;
  const measured = againstTurn(
    source,
    {
      ...(expected as { timeUtc: string; heightM: number }),
      kind: text(inputs, "kind"),
    },
    [3, 0],
    "published turns, Brisbane Bar",
  );
  const got = measured[1]!.got as number;
  return [
    measured[0]!,
    {
      quantity: "published turns, Brisbane Bar, stated height bias",
      got: got - num(expected, "heightM"),
      expected: -0.125,
      tolerance: 0.02,
      unit: "m",
    },
  ];
};

const computedExtremes: Adapter = ({ inputs, expected }) => {
  const source = sourceOf(text(inputs, "stationId"));
  if (source === null) return ABSENT;
  const rows = expected["extremes"] as {
    timeUtc: string;
    heightM: number;
    kind: string;
  }[];
  const found = tideTurns(source, {
    fromMs: Date.parse(text(inputs, "fromUtc")),
    toMs: Date.parse(text(inputs, "toUtc")),
  });
  return [
    {
      quantity: "turns in two days, number",
      got: found.length,
      expected: rows.length,
    },
    ...rows.flatMap((row) =>
      againstTurn(source, row, [2, 0.015], "turns against an independent sum"),
    ),
  ];
};

/** A level above station datum brought to MLLW by the stated shift. */
const datums: Adapter = ({ inputs, expected }) => {
  const levels = stations[`noaa/${text(inputs, "stationId")}`]?.datumsM;
  if (levels === undefined) return ABSENT;
  return Object.entries(expected).map(([key, value]) => {
    const heightM = levels[key.slice(0, -1).toUpperCase()]!;
    const got = height(
      {
        ...turns([
          [DAY, heightM],
          [DAY + 6 * HOUR, heightM + 1],
        ]),
        toDatum: { datum: "MLLW", addM: -levels["MLLW"]! },
      },
      DAY,
    );
    return {
      quantity: "levels brought to another datum",
      got,
      expected: value,
      tolerance: 0.001,
      unit: "m",
    };
  });
};

const nodes: Adapter = ({ inputs, expected }) => {
  const factors = nodeFactors(Date.parse(text(inputs, "timeUtc")));
  return Object.entries(expected).map(([key, value]) => {
    const isAngle = key.startsWith("u");
    const name = key.slice(1).replace("Deg", "") as keyof typeof factors;
    return {
      quantity: isAngle ? "node angles" : "node factors",
      got: isAngle ? factors[name].uDeg : factors[name].f,
      expected: value,
      tolerance: isAngle ? 0.1 : 0.002,
      unit: isAngle ? "°" : "",
    };
  });
};

/** The half-cosine between the turns a printed table would keep, against the whole curve, for a year. */
const halfCosineError: Adapter = ({ inputs, expected }) => {
  const source = constantsOf(text(inputs, "stationId"));
  if (source === null) return ABSENT;
  const fromMs = Date.UTC(num(inputs, "year"), 0, 1);
  const toMs = Date.UTC(num(inputs, "year") + 1, 0, 1);
  const stepMs = num(inputs, "sampleS") * 1000;
  const margin = 2 * 24 * HOUR;
  const every = tideTurns(source, {
    fromMs: fromMs - margin,
    toMs: toMs + margin,
  });
  const table = majorTurns(every, 0.12);
  const steps = { fromMs, toMs, stepMs };
  const whole = tideSeries(source, steps);
  const drawn = tideSeries({ kind: "turns", turns: table, complete: true, datum: "MLLW" }, steps);
  const over = Array.from(drawn, (v, i) => 100 * (v - whole[i]!));
  const size = over.map(Math.abs).sort((a, b) => a - b);
  const rms = Math.sqrt(over.reduce((s, e) => s + e * e, 0) / over.length);
  const measured = {
    rmsCm: rms,
    p95AbsCm: size[Math.floor(0.95 * size.length)]!,
    maxAbsCm: size.at(-1)!,
    maxOverpredictCm: Math.max(...over),
  };
  // Where high water doubles all the year, the one worst instant hangs on which of two nearly equal
  // high waters the table keeps, and four small constituents are missing here: it is not compared.
  const doubles = every.length > 1.2 * table.length;
  return Object.entries(measured)
    .filter(([key]) => !(doubles && key === "maxOverpredictCm"))
    .map(([key, got]) => ({
      quantity: `error of the half-cosine over a year, ${key.replace("Cm", "")}`,
      got,
      expected: expected[key],
      tolerance: 0.1,
      relative: true,
    }));
};

const pressure: Adapter = ({ inputs, expected, tolerance }) => {
  const reference = (inputs["referenceHPa"] as number | undefined) ?? 1013.25;
  const pressureHpa =
    (inputs["pressureHPa"] as number | undefined) ?? reference + num(inputs, "deltaPressureHPa");
  const { surgeM } = pressureSurge({ pressureHpa, meanHpa: reference });
  const inCm = expected["surgeCm"] as number | undefined;
  const [, size, unit] = /abs ([\d.]+) (c?m)/.exec(tolerance)!;
  return [
    {
      quantity: "change of level by pressure",
      got: surgeM,
      expected: inCm === undefined ? (expected["surgeM"] ?? expected["levelChangeM"]) : inCm / 100,
      tolerance: Number(size) / (unit === "cm" ? 100 : 1),
      unit: "m",
    },
  ];
};

const depth: Adapter = ({ inputs, expected }) => {
  const tideM = num(inputs, "heightOfTideM");
  const chartedDepthM =
    (inputs["chartedDepthM"] as number | undefined) ?? -num(inputs, "dryingHeightM");
  const found = depthOverStay({
    tide: turns([
      [DAY, tideM],
      [DAY + 6 * HOUR, tideM + 2],
    ]),
    stay: { fromMs: DAY, toMs: DAY + 6 * HOUR },
    chartedDepthM,
  });
  return [
    {
      quantity: "depth from charted depth and height of tide",
      got: found.known ? found.least.depthM : null,
      expected: expected["depthM"],
      tolerance: 1e-12,
      unit: "m",
    },
  ];
};

const twelfth: Adapter = ({ inputs, expected }) => [
  {
    quantity: "one twelfth of the range",
    got: height(
      turns(
        [
          [DAY, 0],
          [DAY + 6 * HOUR, num(inputs, "rangeM")],
        ],
        "twelfths",
      ),
      DAY + HOUR,
    ),
    expected: expected["twelfthM"],
    tolerance: 1e-4,
    unit: "m",
  },
];

const BY_ID: readonly (readonly [RegExp, Adapter])[] = [
  [/^height-any-time/, anyTime],
  [/^half-cosine-fractions/, fractions],
  [/^twelfths-increments/, increments],
  [/^twelfths-vs-half-cosine/, twelfthsAgainstCosine],
  [
    /^secondary-port-time-diff/,
    timeDifferenceCheck("tabulatedTimesLocal", "secondaryHwTimeLocal", 1),
  ],
  [/^secondary-port-hw-height/, heightDifference],
  [
    /^secondary-port-.*wraparound/,
    timeDifferenceCheck("tabulatedTimesUt", "secondaryHwTimeUt", 0.5),
  ],
  [/^range-negative/, range("lwFt", "hwFt", "rangeFt")],
  [/^msq-brisbane-range/, range("lwM", "hwM", "rangeM")],
  [/^subordinate-ratio/, subordinateRatio],
  [/^noaa-honolulu-6min/, publishedLevel],
  [/^noaa-/, publishedTurn],
  [/^msq-brisbane/, biasedTurn],
  [/^computed-extremes/, computedExtremes],
  [/^datums/, datums],
  [/^node-factors/, nodes],
  [/^half-cosine-error/, halfCosineError],
  [/^pressure/, pressure],
  [/^depth/, depth],
  [/^trap-.*twelfths/, twelfth],
];

runChecks("tide", (check: Check) => {
  const found = BY_ID.find(([pattern]) => pattern.test(check.id));
  if (found === undefined) throw new Error(`no adapter for ${check.id}`);
  return found[1](check);
});
