import { describe, expect, test } from "vitest";
import { evenShares } from "../../src/core/draws.js";
import { normalAt } from "../../src/core/normal.js";
import { InputError } from "../../src/core/errors.js";
import { destination } from "../../src/geo/index.js";
import {
  byWeight,
  judged,
  lesser,
  spansBelow,
  weightiest,
  type Criterion,
} from "../../src/plan/criteria.js";
import { briefText, planStay, seekBerth, type StayInput } from "../../src/plan/index.js";
import { marginOf } from "../../src/plan/margins.js";
import { chain } from "../../src/rode/index.js";
import { bay, bayLayers, HERE, steadyWind, T0, without } from "../openBay.js";
import { demo, demoWith } from "../scenario.js";

const HOUR = 3_600_000;
const codes = (input: StayInput): string[] => planStay(input).reasons.map((r) => r.code);
const reason = (input: StayInput, code: string) =>
  planStay(input).reasons.find((r) => r.code === code);

describe("criteria", () => {
  const times = [0, 1000, 2000, 3000];
  const criterion = (
    values: number[],
    limit: number,
    severity: Criterion["severity"],
  ): Criterion => ({
    code: `c.${severity}`,
    severity,
    values: Float64Array.from(values),
    limit,
    basis: "a test",
  });

  test("a limit is passed where the straight line between moments meets it", () => {
    expect(spansBelow(times, Float64Array.of(2, 0, -2, 2), 1)).toEqual([
      { fromMs: 500, toMs: 2750 },
    ]);
  });

  test("a value at its limit has passed it; what is not known opens no span", () => {
    expect(spansBelow(times, Float64Array.of(1, 5, NaN, 1), 1)).toEqual([
      { fromMs: 0, toMs: 0 },
      { fromMs: 3000, toMs: 3000 },
    ]);
  });

  test("a limit passed until nothing more is known is passed to the end", () => {
    const toMs = (...values: number[]): number | undefined =>
      judged([0, 10, 20, 30], {
        code: "x",
        severity: "warning",
        values: Float64Array.from(values),
        limit: 1,
        basis: "",
      })!.toMs;
    expect(toMs(2, 0, NaN, NaN)).toBe(30);
    expect(toMs(2, 0, NaN, 2)).toBe(20);
    expect(toMs(2, 0, 2, NaN)).toBe(15);
    expect(toMs(2, 2, 2, 0)).toBe(30);
  });

  test("a reason carries the worst value, its moment, and the first and last passing", () => {
    const r = judged(times, criterion([3, -1, 4, 0.5], 1, "stop"))!;
    expect(r).toMatchObject({ value: -1, atMs: 1000, limit: 1, fromMs: 500, toMs: 3000 });
    expect(judged(times, criterion([3, 2, 4, 1.5], 1, "stop"))).toBeNull();
    expect(judged(times, criterion([NaN, NaN, NaN, NaN], 1, "stop"))).toBeNull();
  });

  test("of a ladder the first rung that is passed counts", () => {
    const ladder = [
      criterion([3, 2, 2, 2], 1, "stop"),
      criterion([3, 2, 2, 2], 2.5, "warning"),
      criterion([3, 2, 2, 2], 9, "caution"),
    ];
    expect(weightiest(times, ladder)?.severity).toBe("warning");
  });

  test("reasons stand by weight, then by the hour", () => {
    const at = (severity: Criterion["severity"], fromMs: number) => ({
      code: "x",
      severity,
      value: 0,
      limit: 0,
      basis: "a test",
      fromMs,
    });
    const sorted = [at("caution", 0), at("stop", 9), at("stop", 2), at("warning", 1)].sort(
      byWeight,
    );
    expect(sorted.map((r) => [r.severity, r.fromMs])).toEqual([
      ["stop", 2],
      ["stop", 9],
      ["warning", 1],
      ["caution", 0],
    ]);
  });

  test("what is not known is less than anything, whatever comes after it", () => {
    expect(lesser(NaN, 1)).toBeNaN();
    expect(lesser(1, NaN)).toBeNaN();
    expect(lesser(2, 1)).toBe(1);
    // Two moments of four entries: the first two of each are the forecast's.
    const fan = [9, 12, 8, NaN, 20, 19, 7, 15];
    const { fanM, forecastM } = marginOf(
      Int32Array.of(0, 4, 8),
      (i) => fan[i]!,
      (i) => i !== 5,
    );
    expect([...fanM]).toEqual([NaN, 7]);
    expect([...forecastM]).toEqual([9, 20]);
  });
});

describe("the judgement", () => {
  test("a stop outweighs what is not known, what is not known outweighs a caution", () => {
    const unknown = without(bay(), "neighbours");
    expect(planStay(unknown).verdict).toBe("cannotTell");
    expect(planStay({ ...unknown, chartedDepthM: -1 }).verdict).toBe("unsuitable");
    expect(planStay({ ...bay(), limits: { underKeelM: 20, roomM: 5 } }).verdict).toBe("withCare");
  });

  test("danger begins when the falling tide has fallen to her draught", () => {
    // 2 m and a cosine of 1 m over nothing charted, draught 1.5 m: cos = -1/2 after two thirds of the fall.
    const input: StayInput = {
      ...bay(0),
      stepMs: 60_000,
      surgeM: { low: 0, likely: 0, high: 0 },
      tide: {
        kind: "turns",
        datum: "lowest astronomical tide",
        turns: [3, 1, 3].map((heightM, i) => ({ timeMs: T0 + 6 * i * HOUR, heightM })),
      },
    };
    const aground = reason(input, "depth.aground")!;
    expect(aground.severity).toBe("stop");
    expect((aground.fromMs! - T0) / HOUR).toBeCloseTo(4, 2);
    // The lowest water is at the end: 1 m under a draught of 1.5 m.
    expect(aground.value).toBeCloseTo(-0.5, 6);
    expect(planStay(input).danger.atMs!).toBeLessThanOrEqual(aground.fromMs!);
  });
});

test("a gust that one row of the forecast tells is not forgotten beside a row without gusts", () => {
  const input = bay();
  const rows = input.forecast!.rows.map((row, i) => (i === 1 ? { ...row, gustMps: 25 } : row));
  const { timeMs, gustMps } = planStay({
    ...input,
    forecast: { ...input.forecast!, rows },
  }).moments;
  const alone = planStay(input).moments.gustMps;
  // Told at two hours into the stay, between rows an hour before it and five hours into it.
  timeMs.forEach((t, i) => {
    if (t < T0 + 5 * HOUR) expect(gustMps[i]).toBe(25);
    else expect(gustMps[i]).toBe(alone[i]);
  });
});

describe("the ladder of holding, on an anchor that holds what it was proved to", () => {
  /** A bay in which the anchor holds just so many times the pull of the gusts. */
  const held = (times: number): StayInput => {
    const input = bay(6, 12);
    const peak = Math.max(...planStay(input).moments.gustPullN.map((p) => p!));
    const anchor = { type: "grapnel", massKg: 1 } as const;
    return { ...input, tackle: { ...input.tackle, anchor, provedN: times * peak } };
  };

  test.each([
    [0.9, "holding.less", "stop"],
    [1.4, "holding.thin", "warning"],
  ] as const)("%d times the pull", (times, code, severity) => {
    const r = reason(held(times), code)!;
    expect(r.severity).toBe(severity);
    expect(r.value).toBeCloseTo(times, 2);
  });

  test("1.6 times the pull is enough by the likely figure", () => {
    const found = codes(held(1.6));
    expect(found).not.toContain("holding.less");
    expect(found).not.toContain("holding.thin");
  });

  test("a pull that lifts a little takes no more than the curve of lifted pulls does", () => {
    const { holdingLikelyN, pullAngleDeg } = planStay({
      ...held(2),
      tackle: { ...held(2).tackle, lengthOutM: 30 },
    }).moments;
    const proved = held(2).tackle.provedN!;
    pullAngleDeg.forEach((deg, i) => {
      // 1 at 0°, 0.75 at 5°: a twentieth a degree.
      if (deg! < 5) expect(holdingLikelyN[i]!).toBeCloseTo(proved * (1 - 0.05 * deg!), 3);
    });
  });
});

describe("moments", () => {
  const squall = (atMs: number) => {
    const row = (timeMs: number, windMps: number, gustMps: number) => ({
      timeMs,
      windMps,
      gustMps,
      windFromDeg: 200,
    });
    return {
      ...bay(),
      forecast: {
        rows: [
          row(T0 - HOUR, 5, 8),
          row(atMs - 300_000, 5, 8),
          row(atMs, 30, 40),
          row(atMs + 300_000, 5, 8),
          row(T0 + 8 * HOUR, 5, 8),
        ],
      },
    };
  };

  test("a squall between two steps is not passed over", () => {
    for (const at of [2, 2.25, 2.31]) {
      const plan = planStay(squall(T0 + at * HOUR));
      expect(plan.verdict, `at ${at} h`).toBe("unsuitable");
      expect(Math.max(...plan.moments.gustMps.map((g) => g!))).toBe(40);
    }
  });

  test("low water between two steps is the least water under the keel", () => {
    const turns = [-5.6, 0.6, 6.8].map((h, i) => ({
      timeMs: T0 + h * HOUR,
      heightM: i === 1 ? 0 : 8,
    }));
    const plan = planStay({
      ...bay(),
      stepMs: HOUR,
      tide: { kind: "turns", datum: "lowest astronomical tide", turns },
    });
    expect(plan.limiting.depth.atMs).toBe(T0 + 0.6 * HOUR);
    expect(Math.min(...plan.moments.depthM.map((d) => d!))).toBeCloseTo(6, 9);
  });

  test("the stream at its strongest stands between two steps", () => {
    const rows = [0, 1.5, 3, 6].map((h, i) => ({
      timeMs: T0 + h * HOUR,
      rateMps: [0.2, 1.2, 0.2, 0.2][i]!,
      towardsDeg: 20,
    }));
    const plan = planStay({ ...bay(), stepMs: HOUR, stream: { kind: "series", rows } });
    expect(Math.max(...plan.moments.streamMps.map((m) => m!))).toBeCloseTo(1.2, 9);
  });

  test("a stay of one instant is judged at that instant", () => {
    const stay = { fromMs: T0, toMs: T0 };
    expect(planStay({ ...bay(), stay }).verdict).toBe("suitable");
    expect(planStay({ ...bay(6, 30), stay }).verdict).toBe("unsuitable");
    expect(planStay({ ...bay(-1), chartedDepthM: -1, stay }).danger).toMatchObject({
      atMs: T0,
      code: "depth.aground",
    });
  });
});

describe("rode to veer", () => {
  test("no length is run out where there is no water at letting go", () => {
    const plan = planStay({ ...bay(-2), chartedDepthM: -2 });
    expect(plan.rode.firstLengthM).toBeNull();
    expect(briefText(plan)).not.toContain("run out");
  });

  test("the rule is four times the greatest depth with the bow's height, all chain", () => {
    const { rode } = planStay(bay());
    expect(rode.byRuleM).toBeCloseTo(4 * rode.greatestHeightM, 9);
  });

  test("the length for the pull is that of a chain that just lies on the bed", () => {
    const { rode, moments } = planStay(bay(6, 15));
    const i = moments.timeMs.indexOf(rode.forPullAtMs!);
    const w = chain(10).weightInWaterNPerM;
    // Within the surge and error between likely and greatest depth: 0.1 m and the chart's 0.56 m.
    const height = (more: number) => moments.depthM[i]! + more + 0.11 * 10;
    const length = (h: number) => Math.sqrt(h * (h + (2 * rode.forPullN!) / w));
    expect(rode.forPullM!).toBeGreaterThan(length(height(0)) * 0.99);
    expect(rode.forPullM!).toBeLessThan(length(height(1.2)) * 1.01);
  });

  test("what is out counts, and what is aboard is the most", () => {
    const input = bay(6, 15);
    const free = planStay(input).rode;
    const given = planStay({ ...input, tackle: { ...input.tackle, lengthOutM: 30 } }).rode;
    expect(given.lengthOutM).toBe(30);
    expect(given.toVeerM).toBeCloseTo(free.lengthOutM - 30, 9);
    const short: StayInput = {
      ...input,
      tackle: { ...input.tackle, rode: [{ kind: "chain", diameterMm: 10, lengthM: 35 }] },
    };
    expect(planStay(short).rode).toMatchObject({ lengthOutM: 35, enough: false });
  });
});

describe("neighbours", () => {
  /** Both lie to a strong stream towards 020°, hardly any wind, so that nobody yaws. */
  const beside = (bearingDeg: number, distanceM: number): StayInput => ({
    ...bay(6),
    positionErrorM: 0,
    stream: { kind: "steady", rateMps: 1.2, towardsDeg: 20 },
    forecast: steadyWind(0.1, 200, 0.1),
    neighbours: [
      {
        name: "her",
        vessel: { kind: "yacht", lengthM: 10, beamM: 3.4 },
        position: destination({ from: HERE, bearingDeg, distanceM }),
        positionErrorM: 0,
        lengthOutM: 40,
      },
    ],
  });

  test("abeam of the stream the gap is the distance of the anchors less half of each beam", () => {
    const input = beside(110, 60);
    input.vessel = { ...input.vessel, beamM: 3.4 };
    expect(planStay(input).room.neighbours![0]!.leastGapM).toBeCloseTo(60 - 3.4, 0);
  });

  test("astern she meets one whose anchor lies within her own hull", () => {
    const found = planStay(beside(20, 4));
    expect(found.room.neighbours![0]!.leastGapM).toBe(0);
    expect(found.reasons.find((r) => r.code === "room.neighbour")?.severity).toBe("stop");
  });

  test("where nothing settles how she lies, she may lie anywhere", () => {
    const input = {
      ...beside(110, 60),
      stream: { kind: "steady", rateMps: 0, towardsDeg: 0 } as const,
    };
    input.forecast = steadyWind(0, 200, 0);
    const room = planStay(input).room.neighbours![0]!;
    // Two circles of some 30 m and a hull's length about anchors 60 m apart.
    expect(room.leastGapM).toBe(0);
    expect(room.leastForecastGapM).toBeNull();
  });

  test("none told is not none there", () => {
    const input = without(bay(), "neighbours");
    expect(planStay(input).unknown).toContain("unknown.neighbours");
    expect(planStay(bay()).unknown).toEqual([]);
  });
});

describe("dangers in the swing", () => {
  const { latDeg, lonDeg } = bay().position;
  const at = (eastM: number, northM: number): [number, number] => [
    lonDeg + eastM / (111_320 * Math.cos((latDeg * Math.PI) / 180)),
    latDeg + northM / 111_000,
  ];
  const layer = (type: string, coordinates: unknown, properties = {}) => ({
    type: "FeatureCollection" as const,
    features: [{ type: "Feature", properties, geometry: { type, coordinates } }],
  });
  const withLayer = (more: Record<string, ReturnType<typeof layer>>): StayInput => ({
    ...bay(6, 12),
    forecast: steadyWind(12, 240),
    chart: { ...bay().chart!, layers: { ...bayLayers(6), ...more } },
  });

  test("she comes against a pontoon to leeward wherever along it she lies, not at its nearest end alone", () => {
    // Its nearest part lies 20 m east of the anchor, she to the north-east, across it.
    const ring = [at(20, -300), at(60, -300), at(60, 300), at(20, 300), at(20, -300)];
    const over = planStay(withLayer({ PONTON: layer("Polygon", [ring]) }));
    expect(over.reasons[0]).toMatchObject({ code: "room.hazard", severity: "stop", value: 0 });
    expect(briefText(over).replace(/\s+/g, " ")).toContain("(structure, 20 m from the anchor)");
    // A jetty drawn as a line, which she would lie beyond.
    const line = [at(12, -300), at(12, 300)];
    const beyond = planStay(withLayer({ COALNE: layer("LineString", line) }));
    expect(beyond.reasons[0]).toMatchObject({ code: "room.shore", severity: "stop", value: 0 });
  });

  test.each([
    ["dries", { WATLEV: 4, VALSOU: -1 }, 0],
    ["is awash", { WATLEV: 5 }, 0],
    ["has no depth charted", { WATLEV: 3 }, 0],
    ["lies deep", { WATLEV: 3, VALSOU: 5 }, 500],
  ])("a search takes no berth with a rock in its circle that %s", (_, properties, roomM) => {
    const rock = layer("Point", at(20, 10), properties);
    const area = { centre: bay().position, radiusM: 25 };
    const { field, best } = seekBerth({ ...withLayer({ UWTROC: rock }), area, spacingM: 20 });
    for (const m of field.roomM) expect(Math.floor(m! / 500) * 500).toBe(roomM);
    expect(field.verdict.includes("suitable")).toBe(roomM > 0);
    expect(best.length).toBe(roomM > 0 ? 1 : 0);
  });
});

describe("a bed of which a part has no figure", () => {
  test.each(["S.R", "R.S"])(
    "%s: the lowest holding is not known, and no berth there suitable",
    (seabed) => {
      const p = planStay({ ...bay(), seabed });
      expect(planStay(bay()).verdict).toBe("suitable");
      expect(p.verdict).toBe("cannotTell");
      expect(p.unknown).toEqual(["unknown.holding"]);
      expect(p.limiting.holding.value).toBeNull();
      const area = { centre: HERE, radiusM: 25 };
      const { field } = seekBerth({ ...bay(), seabed, area, spacingM: 20 });
      expect(new Set(field.verdict)).toEqual(new Set(["cannotTell"]));
    },
  );

  test("the brief tells the holding of which bed it is, and what else it may be", () => {
    const text = briefText(planStay({ ...bay(), seabed: "S.R" })).replace(/\s+/g, " ");
    expect(text).toMatch(/in sand, firm yours likely holds .*, but it may be sand, firm or rock\./);
  });
});

describe("charted depth of no stated quality", () => {
  test("counts with the error of the worst zone that states one", () => {
    const layers = without(bayLayers(6), "M_QUAL");
    const input = bay();
    const least = (i: StayInput) => planStay(i).limiting.depth.value!;
    const unstated = least({ ...input, chart: { ...input.chart!, layers } });
    // Zone A1 at 6 m: 0.5 m and 1 %; zone C: 2 m and 5 % (IHO S-57, CATZOC).
    expect(least(input) - unstated).toBeCloseTo(2 + 0.05 * 6 - (0.5 + 0.01 * 6), 6);
  });
});

describe("even draws", () => {
  test("every eighth holds an eighth of 1,024 shares of the first column, every third a third of 729 of the second", () => {
    const count = (column: Float64Array, parts: number) => {
      const bins = new Array<number>(parts).fill(0);
      for (const u of column) bins[Math.floor(u * parts)]!++;
      return bins;
    };
    expect(count(evenShares(1, 1024, 5)[0]!, 8)).toEqual(new Array(8).fill(128));
    expect(count(evenShares(2, 729, 5)[1]!, 3)).toEqual(new Array(3).fill(243));
  });

  test("lie in (0, 1), the same for the same start, others for another", () => {
    const all = evenShares(40, 500, 9);
    for (const column of all) for (const u of column) expect(u > 0 && u < 1).toBe(true);
    expect(evenShares(40, 500, 9)).toEqual(all);
    expect(evenShares(40, 500, 10)).not.toEqual(all);
  });

  test("a product of all parts comes out as the integral", () => {
    // The integral of the product of 2u over the unit cube of six dimensions is 1.
    const columns = evenShares(6, 4096, 3);
    let sum = 0;
    for (let i = 0; i < 4096; i++) sum += columns.reduce((p, c) => p * 2 * c[i]!, 1);
    expect(Math.abs(sum / 4096 - 1)).toBeLessThan(0.02);
  });

  test("sigmas as in every table of the normal spread", () => {
    expect(normalAt(0.5)).toBe(0);
    expect(normalAt(0.975)).toBeCloseTo(1.959963984540054, 12);
    expect(normalAt(0.05)).toBeCloseTo(-1.6448536269514722, 12);
    expect(normalAt(0.9986501019683699)).toBeCloseTo(3, 9);
  });
});

describe("what no table has", () => {
  const rope = { kind: "rope", fibre: "polyamide", diameterMm: 13, lengthM: 40 } as const;
  const issues = (change: Partial<StayInput>): string[] => {
    try {
      planStay(demoWith(change));
    } catch (error) {
      return (error as InputError).issues.map((i) => `${i.path}: ${i.message}`);
    }
    return [];
  };

  test("is told all at once, where it stands", () => {
    const { tackle } = demo();
    const found = issues({
      seabed: "quicksand",
      tackle: {
        ...tackle,
        rode: [{ kind: "chain", diameterMm: 0.008, lengthM: 50 }, rope],
        snubber: { fibre: "polyester", diameterMm: 1, lengthM: 5 },
      },
    });
    expect(found).toEqual([
      expect.stringMatching(/^tackle.rode\[0\].diameterMm: expected a size .*: 6, 7, 8, 10/),
      expect.stringMatching(/^tackle.rode\[1\].diameterMm: expected a size .* 14, /),
      expect.stringMatching(/^tackle.snubber.diameterMm: expected a size /),
      expect.stringMatching(/^seabed: cannot read "quicksand".*rock/),
    ]);
  });
  test("a bed of the holding table and one as charts have it are both taken", () => {
    for (const seabed of ["sand, firm", "S.M", ["rock"]] as StayInput["seabed"][])
      expect(issues({ seabed: seabed! })).toEqual([]);
  });
});
