import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import { readInput } from "../../src/cli/readInput.js";
import { bedNames } from "../../src/holding/beds.js";
import { holdingOf } from "../../src/holding/holding.js";
import { lie, vesselFrom } from "../../src/lie/index.js";
import { planStay, type StayInput } from "../../src/plan/index.js";
import { chain, layRode, rope } from "../../src/rode/index.js";
import { prepareRode, setPiece, settle } from "../../src/rode/prepare.js";
import {
  describeSweep,
  summariseSweep,
  sweep,
  sweepProgress,
  sweepShard,
  sweepText,
  type ColumnChunk,
  type SweepInput,
} from "../../src/sweep/index.js";
import { IN, OUT, STATICS_OUTPUTS, staticsParameters } from "../../src/sweep/staticsTable.js";
import { planeAt, positionOf } from "../../src/geo/plane.js";
import { STAY_IN, STAY_OUT, STAY_OUTPUTS, STAY_PARAMETERS } from "../../src/sweep/stayTable.js";
import { addToGroup, firstOrder, groupsOf } from "../../src/sweep/sensitivity.js";
import { countIn, emptySketch, quantileIn } from "../../src/sweep/sketch.js";
import { VERSION } from "../../src/sweep/version.js";
import packageJson from "../../package.json" with { type: "json" };
import { mixed } from "../sweepSpecs.js";

async function all(input: SweepInput, part = {}): Promise<ColumnChunk> {
  const chunks: ColumnChunk[] = [];
  for await (const c of sweep(input, part)) chunks.push(c);
  const names = Object.keys(chunks[0]!.columns);
  return {
    from: chunks[0]!.from,
    rows: chunks.reduce((n, c) => n + c.rows, 0),
    columns: Object.fromEntries(
      names.map((n) => [n, Float64Array.from(chunks.flatMap((c) => [...c.columns[n]!]))]),
    ),
  };
}

const plainSpec = (rest: Partial<SweepInput>): SweepInput => ({
  statics: { vessel: { kind: "yacht", lengthM: 11 }, rode: { chainMm: 10 } },
  fixed: { windMps: 15, depthM: 8, scope: 4 },
  seed: 1,
  ...rest,
});

const issuesOf = (input: SweepInput): string[] => {
  try {
    describeSweep(input);
  } catch (error) {
    if (error instanceof InputError) return error.issues.map((i) => `${i.path}: ${i.message}`);
    throw error;
  }
  return [];
};

describe("a scenario", () => {
  test("of the statics model is what lie, layRode and holding say", async () => {
    const vessel = vesselFrom({ kind: "yacht", lengthM: 11 });
    const { rows, columns } = await all(mixed);
    const at = (name: string, r: number) => columns[name]![r]!;
    const beds = ["sand, firm", "mud, soft", "rock"] as const;
    for (let r = 0; r < rows; r += 97) {
      const wind = lie({
        vessel,
        windMps: at("windMps", r),
        windFromDeg: 0,
        streamMps: at("streamMps", r),
        streamTowardsDeg: at("streamTowardsDeg", r),
        depthM: at("depthM", r),
      });
      expect(at("pullN", r)).toBeCloseTo(wind.pullN, 6);
      const out = at("lengthOutM", r);
      const segments = [{ ...chain(10), lengthM: Math.min(25, out) }];
      if (out > 25) segments.push({ ...rope("polyamide", 14), lengthM: out - 25 });
      const laid = layRode({
        segments,
        bowHeightAboveAnchorM: at("depthM", r) + vessel.bowHeightM,
        horizontalLoadN: at("pullN", r),
      });
      expect(at("reachM", r)).toBeCloseTo(laid.horizontalReachM, 8);
      expect(at("bowTensionN", r)).toBeCloseTo(laid.bowTensionN, 5);
      expect(at("pullAngleDeg", r)).toBeCloseTo(laid.pullAngleDeg, 8);
      const held = holdingOf({
        anchor: { type: "fixedPlough", massKg: at("anchorMassKg", r) },
        seabed: beds[r % 12 < 4 ? 0 : r % 12 < 8 ? 1 : 2],
        pullAngleDeg: at("pullAngleDeg", r),
      }).ultimateN;
      if (held === null) expect(at("holdingN", r)).toBeNaN();
      else {
        expect(Math.abs(at("holdingN", r) - held.likely)).toBeLessThan(2e-4 * held.likely + 1e-9);
        expect(Math.abs(at("holdingLowN", r) - held.low)).toBeLessThan(2e-4 * held.low + 1e-9);
      }
    }
  });

  test("does not hang on those worked out before it", async () => {
    // Slack rodes of the same length go first; indices pass 2^32, where the low bits begin anew.
    const spec = plainSpec({
      statics: {
        vessel: { kind: "yacht", lengthM: 11 },
        rode: { chainMm: 10, rope: { fibre: "polyamide", diameterMm: 14 } },
      },
      fixed: {},
      axes: [
        { name: "chainM", values: [0, 10, 200] },
        { name: "windMps", values: [0, 10] },
      ],
      draws: [
        { name: "depthM", spread: "uniform", low: 0.1, high: 60 },
        { name: "scope", spread: "uniform", low: 1, high: 12 },
      ],
      rows: 6 * 2 ** 33,
      outputs: ["reachM", "bowTensionN", "pullAngleDeg", "onBottomM"],
    });
    const from = 6 * (2 ** 32 - 500);
    const part = { fromScenario: from, toScenario: from + 6000 };
    const together = await all(spec, part);
    for (const chunkRows of [1, 7, 700])
      expect((await all({ ...spec, chunkRows }, part)).columns).toEqual(together.columns);
    for (let i = 1; i < 6000; i += 18)
      for (const at of [i, i + 2, i + 4]) {
        const alone = await all(spec, { fromScenario: from + at, toScenario: from + at + 1 });
        for (const [name, column] of Object.entries(together.columns))
          expect(alone.columns[name]![0], `${name} of ${at}`).toBe(column[at]);
      }
    // What an index beyond 2^32 draws is not what the one 2^32 before it does.
    const before = await all(spec, { fromScenario: 0, toScenario: 6 });
    const after = await all(spec, { fromScenario: 6 * 2 ** 32, toScenario: 6 * 2 ** 32 + 6 });
    expect(after.columns["depthM"]).not.toEqual(before.columns["depthM"]);
  });

  test("of a whole stay is what planStay says", async () => {
    const stay = readInput("shared/scenarios/gannick-bay.json") as StayInput;
    const changed: StayInput = {
      ...stay,
      chartedDepthM: 3,
      surgeM: { low: 0.1, likely: 0.3, high: 0.5 },
      forecast: {
        ...stay.forecast!,
        rows: stay.forecast!.rows.map((r) => ({
          ...r,
          windMps: r.windMps * 1.25,
          gustMps: r.gustMps! * 1.25,
          windFromDeg: (r.windFromDeg + 20) % 360,
        })),
      },
    };
    const plan = planStay(changed);
    const { columns } = await all({
      stay,
      fixed: { windFactor: 1.25, windTurnDeg: 20, surgeM: 0.3, chartedDepthM: 3 },
      seed: 1,
      outputs: [
        "leastDepthM",
        "pullN",
        "gustPullN",
        "reachM",
        "pullAngleDeg",
        "rodeOutM",
        "lengthForPullM",
        "holdingRatioWorst",
        "verdict",
        "underKeelSwingM",
        "roomM",
        "waveHeightM",
      ],
    });
    const { moments, limiting } = plan;
    const most = (v: (number | null)[]) => Math.max(...v.map((x) => x ?? NaN));
    const expected: Record<string, number> = {
      leastDepthM: Math.min(...moments.depthM.map((x) => x ?? NaN)),
      pullN: most(moments.pullN),
      gustPullN: most(moments.gustPullN),
      reachM: most(moments.gustReachM),
      pullAngleDeg: most(moments.pullAngleDeg),
      rodeOutM: plan.rode.lengthOutM,
      lengthForPullM: plan.rode.forPullM!,
      holdingRatioWorst: limiting.holding.value!,
      verdict: ["suitable", "withCare", "unsuitable", "cannotTell"].indexOf(plan.verdict),
      underKeelSwingM: limiting.depth.value!,
      roomM: limiting.room.value!,
      waveHeightM: limiting.shelter.value!,
    };
    for (const [name, value] of Object.entries(expected))
      expect(columns[name]![0], name).toBeCloseTo(value, 6);
  });

  test("goes by the chart, not by what was told of the place she had, where the anchor is moved", async () => {
    const given = readInput("shared/scenarios/gannick-bay.json") as StayInput;
    const tackle = { ...given.tackle, provedN: 4000, lengthOutM: 45 };
    const stay: StayInput = { ...given, seabed: "S", tackle };
    const outputs = ["leastDepthM", "holdingRatio", "underKeelSwingM"];
    const moved = { name: "eastM", values: [0, 60] };
    const { columns } = await all({ stay, axes: [moved], seed: 1, outputs });
    const bare: StayInput = { ...stay, tackle: { ...tackle } };
    delete bare.chartedDepthM;
    delete bare.seabed;
    delete bare.tackle.provedN;
    const elsewhere = planStay({
      ...bare,
      position: positionOf(planeAt(stay.position), 60, 0),
    });
    const [here, there] = columns["leastDepthM"]!;
    expect(there!).not.toBeCloseTo(here!, 2);
    expect(there!).toBeCloseTo(Math.min(...elsewhere.moments.depthM.map((x) => x ?? NaN)), 6);
    expect(columns["underKeelSwingM"]![1]).toBeCloseTo(elsewhere.limiting.depth.value ?? NaN, 6);
    // With no chart nothing is known of the new place, unless the sweep tells it.
    const uncharted = { ...stay };
    delete uncharted.chart;
    const blind = await all({ stay: uncharted, axes: [moved], seed: 1, outputs });
    expect(blind.columns["leastDepthM"]![0]).not.toBeNaN();
    expect(blind.columns["leastDepthM"]![1]).toBeNaN();
    expect(blind.columns["holdingRatio"]![1]).toBeNaN();
    const fixed = { chartedDepthM: 3, seabed: "sand, firm" };
    const told = await all({ stay: uncharted, axes: [moved], fixed, seed: 1, outputs });
    expect(told.columns["leastDepthM"]![1]).toBe(told.columns["leastDepthM"]![0]);
    expect(told.columns["holdingRatio"]![1]).toBeGreaterThan(0);
  });

  test("gets the rode that prepareRode would make", () => {
    const piece = { lengthM: 1.5, weightInWaterNPerM: 1.5, axialStiffnessN: 1e6 + 0.5 };
    const rode = prepareRode({ segments: [piece, piece] });
    setPiece(rode, 0, 22, 19.2, 8e6);
    setPiece(rode, 1, 31, 0.12, 1.1e5);
    settle(rode);
    expect(rode).toEqual(
      prepareRode({
        segments: [
          { lengthM: 22, weightInWaterNPerM: 19.2, axialStiffnessN: 8e6 },
          { lengthM: 31, weightInWaterNPerM: 0.12, axialStiffnessN: 1.1e5 },
        ],
      }),
    );
  });

  test("without a holding figure for its bed has none, and counts as unknown", async () => {
    const s = await summariseSweep({ sweep: mixed, exceedance: [{ of: "holdingUsed", limit: 1 }] });
    expect(s.exceedance[0]!.unknown).toBeGreaterThanOrEqual(1 / 3);
    expect(s.columns["holdingN"]!.unknown).toBe(4000);
  });
});

describe("axes and draws", () => {
  test("run through the grid, the last axis fastest, with the same draws in every cell", async () => {
    const { columns } = await all(mixed);
    for (let r = 0; r < 36; r++) {
      expect(bedNames[columns["seabed"]![r]!]).toBe(
        ["sand, firm", "mud, soft", "rock"][Math.floor((r % 12) / 4)],
      );
      expect(columns["lengthOutM"]![r]).toBeCloseTo(20 + (40 / 3) * (r % 4), 12);
      expect(columns["windMps"]![r]).toBe(columns["windMps"]![12 * Math.floor(r / 12)]);
    }
    expect(columns["windMps"]![12]).not.toBe(columns["windMps"]![0]);
  });

  test("have the means and spreads they are asked for", async () => {
    const of = (spread: object) => ({ name: "windMps", ...spread }) as never;
    const cases: [object, number, number][] = [
      [{ spread: "uniform", low: 5, high: 15 }, 10, 10 / Math.sqrt(12)],
      [
        { spread: "triangular", low: 2, likely: 4, high: 12 },
        6,
        Math.sqrt((4 + 16 + 144 - 8 - 24 - 48) / 18),
      ],
      [{ spread: "normal", mean: 20, sigma: 2 }, 20, 2],
      // Mean and variance of the log-normal and, by the gamma function at 1.5 and 2, of the Rayleigh distribution.
      [
        { spread: "logNormal", median: 8, sigmaLog: 0.3 },
        8 * Math.exp(0.045),
        8 * Math.exp(0.045) * Math.sqrt(Math.exp(0.09) - 1),
      ],
      [
        { spread: "weibull", scale: 8, shape: 2 },
        4 * Math.sqrt(Math.PI),
        8 * Math.sqrt(1 - Math.PI / 4),
      ],
      [{ spread: "choice", values: [4, 8], weights: [3, 1] }, 5, Math.sqrt(3)],
    ];
    for (const method of ["random", "even"] as const)
      for (const [spread, mean, sigma] of cases) {
        const rows = 65_536;
        const { columns } = await all(
          plainSpec({
            fixed: { depthM: 8, scope: 4 },
            draws: [of(spread)],
            rows,
            method,
            outputs: ["pullN"],
          }),
        );
        const x = columns["windMps"]!;
        const m = x.reduce((a, b) => a + b, 0) / rows;
        const s = Math.sqrt(x.reduce((a, b) => a + (b - m) * (b - m), 0) / rows);
        const error = sigma / Math.sqrt(rows);
        expect(Math.abs(m - mean), JSON.stringify(spread)).toBeLessThan(
          (method === "even" ? 0.5 : 5) * error,
        );
        expect(Math.abs(s / sigma - 1), JSON.stringify(spread)).toBeLessThan(0.02);
      }
  });

  test("go together as they are asked to", async () => {
    const draw = (name: string, low: number, high: number) =>
      ({ name, spread: "uniform", low, high }) as const;
    const { columns, rows } = await all(
      plainSpec({
        fixed: { scope: 4 },
        draws: [draw("windMps", 5, 15), draw("depthM", 5, 15)],
        correlations: [{ between: ["windMps", "depthM"], rho: 0.7 }],
        rows: 100_000,
        outputs: ["pullN"],
      }),
    );
    const [a, b] = [columns["windMps"]!, columns["depthM"]!];
    let sum = 0;
    for (let r = 0; r < rows; r++) sum += (a[r]! - 10) * (b[r]! - 10);
    // Pearson's relation between the correlation of normal scores and that of even shares: 6/pi asin(rho/2).
    expect(sum / rows / (100 / 12)).toBeCloseTo((6 / Math.PI) * Math.asin(0.35), 2);
  });
});

/** Names of places in their order; an enumeration has its numbers as keys besides. */
const namesOf = (places: object) => Object.keys(places).filter((k) => Number.isNaN(Number(k)));

describe("a sweep", () => {
  test("has no output of the name of an input", () => {
    const f = {
      bowHeightM: 1,
      chainWeightNPerM: 1,
      chainStiffnessN: 1,
      ropeWeightNPerM: 1,
      ropeStiffnessN: 1,
      breakingN: 1,
    };
    const models = [
      [staticsParameters(f), STATICS_OUTPUTS, IN, OUT],
      [STAY_PARAMETERS, STAY_OUTPUTS, STAY_IN, STAY_OUT],
    ] as const;
    for (const [parameters, outputs, places, results] of models) {
      const names = [...parameters, ...outputs].map((c) => c.name);
      expect(new Set(names).size).toBe(names.length);
      expect(parameters.map((p) => p.name)).toEqual(namesOf(places));
      expect(outputs.map((p) => p.name)).toEqual(namesOf(results));
    }
  });

  test("refuses what it does not know, with what it does, all at once", () => {
    const issues = issuesOf(
      plainSpec({
        axes: [
          { name: "depthFt", values: [10] },
          { name: "windMps", values: [-1] },
        ],
        fixed: { scope: 4, seabed: "sandy" },
        outputs: ["reach"],
      }),
    );
    expect(issues.some((i) => /depthFt.*windMps.*Did you mean depthM, in metres/.test(i))).toBe(
      true,
    );
    expect(
      issues.some((i) => /axes\[1\].values\[0\]: windMps of -1: expected 0 to 90/.test(i)),
    ).toBe(true);
    expect(issues.some((i) => /fixed.seabed: expected one of .*"sand, firm"/.test(i))).toBe(true);
    expect(issues.some((i) => /outputs\[0\].*pullN, rodeOutM/.test(i))).toBe(true);
    expect(issues.some((i) => i.includes("depthM is needed"))).toBe(true);
  });

  test.each<[string, Partial<SweepInput>, RegExp]>([
    [
      "both lengths",
      { fixed: { windMps: 5, depthM: 5, scope: 4, lengthOutM: 20 } },
      /one of lengthOutM and scope/,
    ],
    ["one input twice", { axes: [{ name: "windMps", values: [1] }] }, /more than once/],
    [
      "rows that do not fit",
      { axes: [{ name: "yawDeg", values: [0, 30] }], rows: 3 },
      /multiple of 2|2 scenarios/,
    ],
    [
      "draws without rows",
      { draws: [{ name: "yawDeg", spread: "uniform", low: 0, high: 40 }] },
      /number of scenarios/,
    ],
    [
      "a spread out of bounds",
      {
        fixed: { depthM: 5, scope: 4 },
        rows: 5,
        draws: [{ name: "windMps", spread: "normal", mean: -5, sigma: 1 }],
      },
      /more than half/,
    ],
    ["holding without a bed", { outputs: ["holdingN"] }, /holding needs/],
    [
      "an axis of one value with two ends",
      { axes: [{ name: "yawDeg", from: 0, to: 30, count: 1 }] },
      /axes\[0\]\.count: expected at least 2/,
    ],
    [
      "a uniform spread out of bounds, once",
      {
        fixed: { depthM: 5, scope: 4 },
        rows: 5,
        draws: [{ name: "windMps", spread: "uniform", low: -5, high: 5 }],
      },
      /^draws\[0\]\.low: windMps of -5[^\n]*$/,
    ],
  ])("refuses %s", (_, rest, message) => {
    expect(issuesOf(plainSpec(rest)).join("\n")).toMatch(message);
  });

  test("means by a name the one that differs by its unit, if any", () => {
    const meant = (name: string) =>
      /Did you mean (\w+)/.exec(issuesOf(plainSpec({ axes: [{ name, values: [1] }] })).join())?.[1];
    const cases: [string, string | undefined][] = [
      ["windFromRad", "windFromDeg"],
      ["windKn", "windMps"],
      ["wind", "windMps"],
      ["chainWeightKgPerM", "chainWeightNPerM"],
      ["anchorMassLb", "anchorMassKg"],
      ["lengthFt", "lengthOutM"],
      ["bowTensionKn", undefined],
    ];
    for (const [name, expected] of cases) expect(meant(name), name).toBe(expected);
  });

  test("refuses more cells than can be counted, and a pair of draws correlated twice", () => {
    const axes = ["windMps", "depthM", "scope", "yawDeg"].map((name) => ({
      name,
      from: 1,
      to: 2,
      count: 100_000,
    }));
    expect(issuesOf(plainSpec({ fixed: {}, axes })).join()).toMatch(/at most 2\^50/);
    const draws = ["windMps", "depthM"].map((name) => ({
      name,
      spread: "uniform" as const,
      low: 1,
      high: 2,
    }));
    const correlations = [
      { between: ["windMps", "depthM"] as [string, string], rho: 0.5 },
      { between: ["depthM", "windMps"] as [string, string], rho: -0.5 },
    ];
    expect(
      issuesOf(plainSpec({ fixed: { scope: 4 }, draws, correlations, rows: 4 })).join(),
    ).toMatch(/correlations\[1\].between: .*already/);
  });

  test("ends an axis at the value given, where reckoned it lies beside it", async () => {
    const [from, to] = [6.12, 14.65];
    expect(from + (to - from)).not.toBe(to);
    const axes = [{ name: "depthM", from, to, count: 5 }];
    const { columns } = await all(plainSpec({ fixed: { windMps: 5, scope: 4 }, axes }));
    expect([columns["depthM"]![0], columns["depthM"]![4]]).toEqual([from, to]);
  });

  test("takes draws that follow from each other", async () => {
    const names = ["windMps", "depthM", "yawDeg"];
    const draws = names.map((name) => ({ name, spread: "uniform" as const, low: 1, high: 2 }));
    const of = (a: number, b: number, rho: number) => ({
      between: [names[a]!, names[b]!] as [string, string],
      rho,
    });
    const spec = (correlations: ReturnType<typeof of>[]) =>
      plainSpec({ fixed: { scope: 4 }, draws, correlations, rows: 500, outputs: ["pullN"] });
    const { columns, rows } = await all(spec([of(0, 1, 1), of(0, 2, -1), of(1, 2, -1)]));
    for (let r = 0; r < rows; r++) {
      expect(columns["depthM"]![r]).toBeCloseTo(columns["windMps"]![r]!, 12);
      expect(columns["yawDeg"]![r]).toBeCloseTo(3 - columns["windMps"]![r]!, 12);
    }
    expect(issuesOf(spec([of(0, 1, 0.6), of(0, 2, 0.8)]))).toEqual([]);
    expect(issuesOf(spec([of(0, 1, 1), of(0, 2, 0.5)])).join()).toMatch(/not positive definite/);
  });

  test("refuses correlations that cannot be", () => {
    const names = ["windMps", "depthM", "yawDeg"];
    const draws = names.map((name) => ({ name, spread: "uniform" as const, low: 1, high: 20 }));
    const between = (a: number, b: number, rho: number) => ({
      between: [names[a]!, names[b]!] as [string, string],
      rho,
    });
    const correlations = [between(0, 1, 0.9), between(1, 2, 0.9), between(0, 2, -0.9)];
    expect(
      issuesOf(plainSpec({ fixed: { scope: 4 }, draws, correlations, rows: 10 })).join(),
    ).toMatch(/not positive definite/);
  });

  test("stops when told, and goes on where it stopped", async () => {
    const signal = { aborted: false };
    let done = 0;
    const first: number[] = [];
    for await (const c of sweep(mixed, { signal })) {
      done += c.rows;
      first.push(...c.columns["reachM"]!);
      if (done >= 3000) signal.aborted = true;
    }
    expect(done).toBe(3000);
    const rest = await all(mixed, { fromScenario: done });
    expect([...first, ...rest.columns["reachM"]!]).toEqual([
      ...(await all(mixed)).columns["reachM"]!,
    ]);
  });

  test("names its version", () => {
    expect(VERSION).toBe(packageJson.version);
    expect(describeSweep(mixed)).toMatchObject({
      rows: 12_000,
      cells: 12,
      seed: 20260601,
      model: "statics",
    });
  });
});

describe("shards", () => {
  test("a shard has its own beginning and end: others beside it are refused", async () => {
    const input = plainSpec({ axes: [{ name: "yawDeg", values: [0, 10, 20, 30] }] });
    for (const more of [{ fromScenario: 1 }, { toScenario: 3 }])
      await expect(sweep(input, { shard: { k: 1, n: 2 }, ...more }).next()).rejects.toThrow(
        InputError,
      );
  });
  test("cut every sweep without gap or overlap", async () => {
    for (const n of [1, 3, 7, 16]) {
      let at = 0;
      for (let k = 1; k <= n; k++) {
        const { from, rows } = await all(mixed, sweepShard(k, n));
        expect(from).toBe(at);
        expect(Math.abs(rows - 12_000 / n)).toBeLessThan(1);
        at += rows;
      }
      expect(at).toBe(12_000);
    }
    expect(() => sweepShard(0, 4)).toThrow(InputError);
    expect(() => sweepShard(5, 4)).toThrow(InputError);
  });
});

describe("summaries", () => {
  test("agree with the scenarios themselves", async () => {
    const { columns, rows } = await all(mixed);
    const s = await summariseSweep({
      sweep: mixed,
      exceedance: [{ of: "pullAngleDeg", limit: 5 }],
      tables: [{ by: ["lengthOutM"], of: "pullAngleDeg", limit: 5 }],
    });
    const reach = [...columns["reachM"]!].sort((a, b) => a - b);
    const col = s.columns["reachM"]!;
    expect(col.mean).toBeCloseTo(reach.reduce((a, b) => a + b, 0) / rows, 9);
    expect([col.least, col.greatest]).toEqual([reach[0], reach[rows - 1]]);
    for (const { share, value } of col.quantiles)
      expect(Math.abs(value! / reach[Math.floor(share * (rows - 1))]! - 1)).toBeLessThan(0.0051);
    const above = columns["pullAngleDeg"]!.filter((a) => a > 5).length;
    expect(s.exceedance[0]!.above).toBe(above / rows);
    const table = s.tables[0]!.rows;
    table.forEach((t, i) => {
      expect(t.at[0]).toBeCloseTo(20 + (40 / 3) * i, 9);
    });
    expect(table.reduce((n, t) => n + (t.above! * rows) / 4, 0)).toBeCloseTo(above, 6);
    expect(table[0]!.above).toBeGreaterThan(table[3]!.above!);
  });

  test("share out variance as the Ishigami function is known to", () => {
    // T. Ishigami and T. Homma (1990), a = 7, b = 0.1: S1 = 0.3139, S2 = 0.4424, S3 = 0.
    const groups = [0, 1, 2].map(() =>
      groupsOf(
        Float64Array.from({ length: 31 }, (_, i) => -Math.PI + ((i + 1) * 2 * Math.PI) / 32),
      ),
    );
    const keys = [0, 1, 2].map(directionsOfColumn);
    for (let i = 0; i < 65_536; i++) {
      const x = keys.map((at) => Math.PI * (2 * at(i) - 1));
      const [a, b, c] = x as [number, number, number];
      const y = Math.sin(a) + 7 * Math.sin(b) ** 2 + 0.1 * c ** 4 * Math.sin(a);
      groups.forEach((g, k) => {
        addToGroup(g, x[k]!, y);
      });
    }
    const found = groups.map((g) => firstOrder(g)!);
    expect(found[0]).toBeCloseTo(0.3139, 1.9);
    expect(found[1]).toBeCloseTo(0.4424, 1.9);
    expect(Math.abs(found[2]!)).toBeLessThan(0.005);
  });

  const firstOrderOf = async (rest: Partial<SweepInput>) => {
    const sweep = plainSpec({ outputs: ["rodeOutM"], ...rest });
    return (await summariseSweep({ sweep, sensitivity: ["rodeOutM"] })).sensitivity[0]!.firstOrder;
  };

  test("share out the variance of a small grid exactly", async () => {
    // Y = a b: Var(E[Y|a]) = Var(a) mean(b)^2, and so on; variances 2/3 and 32/3, means 4 and 8.
    const all = (2 / 3) * (32 / 3) + (2 / 3) * 64 + (32 / 3) * 16;
    const found = await firstOrderOf({
      fixed: {},
      axes: [
        { name: "scope", values: [3, 4, 5] },
        { name: "depthM", values: [4, 8, 12] },
        { name: "windMps", values: [1, 2, 3] },
      ],
    });
    expect(found["scope"]).toBeCloseTo(((2 / 3) * 64) / all, 12);
    expect(found["depthM"]).toBeCloseTo(((32 / 3) * 16) / all, 12);
    expect(found["windMps"]).toBeCloseTo(0, 12);
  });

  test("tell an idle draw by the draws, however many cells have the same", async () => {
    const found = await firstOrderOf({
      fixed: { windMps: 5 },
      axes: [{ name: "depthM", from: 5, to: 6, count: 50 }],
      draws: [
        { name: "scope", spread: "uniform", low: 3, high: 9 },
        { name: "yawDeg", spread: "uniform", low: 0, high: 9 },
      ],
      rows: 50 * 400,
    });
    // 31 groups more than one of 400 draws: about 8 % by chance, which is taken off.
    expect(Math.abs(found["yawDeg"]!)).toBeLessThan(0.05);
    expect(found["scope"]).toBeCloseTo(0.965, 1.5);
  });

  test("know what hangs on a rare choice", async () => {
    const found = await firstOrderOf({
      fixed: { windMps: 5, depthM: 5 },
      draws: [{ name: "scope", spread: "choice", values: [3, 30], weights: [99, 1] }],
      rows: 5000,
    });
    expect(found["scope"]).toBeCloseTo(1, 9);
  });

  test("have an error that cells with the same draws make no smaller", async () => {
    const told = async (count: number, seed: number) => {
      const sweep = plainSpec({
        fixed: { depthM: 5 },
        axes: [{ name: "windMps", from: 5, to: count === 1 ? 5 : 6, count }],
        draws: [{ name: "scope", spread: "uniform", low: 3, high: 9 }],
        rows: 200 * count,
        outputs: ["rodeOutM"],
        seed,
      });
      return (await summariseSweep({ sweep, exceedance: [{ of: "rodeOutM", limit: 30 }] }))
        .exceedance[0]!;
    };
    const one = await told(1, 1);
    expect(one.error).toBeCloseTo(Math.sqrt((one.above * (1 - one.above)) / 200), 12);
    const many = await told(20, 1);
    expect(many.above).toBeCloseTo(one.above, 12);
    expect(many.error).toBeCloseTo(one.error, 12);
  });

  test("of nothing know nothing, and have no cells without number", async () => {
    const sweep = plainSpec({ outputs: ["pullAngleDeg"] });
    const of = "pullAngleDeg";
    const none = await summariseSweep(
      { sweep, exceedance: [{ of, limit: 0 }] },
      { fromScenario: 0, toScenario: 0 },
    );
    expect(none.exceedance[0]).toEqual({ of, limit: 0, above: 0, unknown: 1, error: 0 });
    const axes = ["windMps", "depthM"].map((name) => ({ name, from: 1, to: 2, count: 100_000 }));
    const grid = plainSpec({ fixed: { scope: 4 }, axes, outputs: [of] });
    await expect(
      summariseSweep({ sweep: grid, tables: [{ by: ["windMps", "depthM"], of }] }),
    ).rejects.toThrow(/10000000000 cells/);
    await expect(
      summariseSweep({ sweep: grid, tables: [{ by: ["windMps", "windMps"], of }] }),
    ).rejects.toThrow(/two different axes/);
  });

  test("quantiles lie within what there was", async () => {
    const s = await summariseSweep({ sweep: plainSpec({ outputs: ["pullN"] }) });
    const { greatest, quantiles } = s.columns["pullN"]!;
    for (const { value } of quantiles) expect(value).toBe(greatest);
  });

  test("quantiles stand negative numbers and zeros", () => {
    const s = emptySketch();
    for (let i = -50; i <= 50; i++) countIn(s, i);
    expect(quantileIn(s, 0.5)).toBe(0);
    expect(quantileIn(s, 0)! / -50).toBeCloseTo(1, 2);
    expect(quantileIn(s, 0.75)! / 25).toBeCloseTo(1, 2);
    expect(quantileIn(emptySketch(), 0.5)).toBeNull();
  });

  test("progress tells nothing of the rate before there is one", () => {
    expect(sweepProgress(0, 10, 0)).toEqual({
      doneRows: 0,
      totalRows: 10,
      share: 0,
      rowsPerS: null,
      leftS: null,
    });
  });
});

describe("text", () => {
  test("reads back as the same numbers", async () => {
    let csv = "";
    let jsonl = "";
    for await (const p of sweepText(mixed, "csv")) csv += p;
    for await (const p of sweepText(mixed, "jsonl")) jsonl += p;
    const { columns } = await all(mixed);
    const [head, names, ...lines] = csv.trimEnd().split("\n");
    expect(JSON.parse(head!.slice(2))).toEqual(JSON.parse(JSON.stringify(describeSweep(mixed))));
    expect(lines.length).toBe(12_000);
    const place = names!.split(",").indexOf("reachM");
    // Words with a comma in them stand in quotes.
    const fields = (line: string) =>
      line.match(/("[^"]*"|[^,]*)(,|$)/g)!.map((f) => f.replace(/,$/, ""));
    const objects = jsonl
      .trimEnd()
      .split("\n")
      .slice(1)
      .map((l) => JSON.parse(l) as Record<string, unknown>);
    for (let r = 0; r < 12_000; r += 501) {
      expect(Number(fields(lines[r]!)[place])).toBe(columns["reachM"]![r]);
      expect(objects[r]!["reachM"]).toBe(columns["reachM"]![r]);
      expect(objects[r]!["scenario"]).toBe(r);
    }
    expect(objects[8]).toMatchObject({ seabed: "rock", holdingN: null });
  });
});

/** An even column of shares. */
function directionsOfColumn(d: number): (i: number) => number {
  // Kronecker sequence of square roots of primes.
  const root = Math.sqrt([2, 3, 5][d]!);
  return (i) => ((i + 1) * root) % 1;
}
