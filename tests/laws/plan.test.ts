import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { planStay, seekBerth, type StayInput, type Verdict } from "../../src/plan/index.js";
import { bay, bayLayers, HERE, steadyWind, without } from "../openBay.js";
import { demo, demoWith } from "../scenario.js";

const RANK: Readonly<Record<Verdict, number>> = {
  suitable: 2,
  withCare: 1,
  cannotTell: 0,
  unsuitable: 0,
};
const rank = (input: StayInput): number => RANK[planStay(input).verdict];
const RUNS = { numRuns: 25 };
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** A bay with some depth, wind, anchor and, now and then, a length of rode of the caller's own. */
const stay = fc
  .record({
    depthM: real(2.5, 12),
    windMps: real(2, 22),
    massKg: real(6, 40),
    lengthOutM: fc.option(real(15, 80)),
    rateMps: real(0, 0.5),
  })
  .map(({ depthM, windMps, massKg, lengthOutM, rateMps }) => {
    const input = bay(depthM, windMps);
    input.tackle.anchor.massKg = massKg;
    if (lengthOutM !== null) input.tackle.lengthOutM = lengthOutM;
    input.stream = { kind: "steady", rateMps, towardsDeg: 20 };
    return { input, windMps, depthM };
  });

describe("what makes a berth worse never improves the verdict", () => {
  test("more wind", () => {
    fc.assert(
      fc.property(stay, real(0.1, 10), ({ input, windMps }, more) => {
        const windier = { ...input, forecast: steadyWind(windMps + more, 200) };
        expect(rank(windier)).toBeLessThanOrEqual(rank(input));
      }),
      RUNS,
    );
  });

  test("less rode out", () => {
    fc.assert(
      fc.property(stay, real(15, 80), real(0.3, 1), ({ input }, lengthOutM, part) => {
        const out = (m: number) => ({ ...input, tackle: { ...input.tackle, lengthOutM: m } });
        expect(rank(out(part * lengthOutM))).toBeLessThanOrEqual(rank(out(lengthOutM)));
      }),
      RUNS,
    );
  });

  test("less water: a lower tide over the same rode", () => {
    fc.assert(
      fc.property(stay, real(0, 3), ({ input, depthM }, lessM) => {
        // Holding does not decide: shoaler water would better the scope.
        input.tackle.anchor.massKg = 60;
        delete input.tackle.lengthOutM;
        input.forecast = steadyWind(6, 200);
        const shoaler: StayInput = {
          ...input,
          chart: { ...input.chart!, layers: bayLayers(depthM - lessM) },
        };
        expect(rank(shoaler)).toBeLessThanOrEqual(rank(input));
      }),
      RUNS,
    );
  });

  test("worse holding: a lighter anchor, or a bed that may be softer", () => {
    fc.assert(
      fc.property(stay, real(0.2, 1), ({ input }, part) => {
        const { anchor } = input.tackle;
        const lighter = {
          ...input,
          tackle: { ...input.tackle, anchor: { ...anchor, massKg: part * anchor.massKg } },
        };
        const softer: StayInput = { ...input, seabed: ["sand, firm", "mud, soft"] };
        expect(rank(lighter)).toBeLessThanOrEqual(rank(input));
        expect(rank(softer)).toBeLessThanOrEqual(rank({ ...input, seabed: "sand, firm" }));
      }),
      RUNS,
    );
  });

  test("a larger spread of wind, surge or place, a neighbour near", () => {
    fc.assert(
      fc.property(
        stay,
        real(0, 60),
        real(0, 60),
        real(0, 360),
        real(20, 140),
        ({ input }, sigma, more, bearing, apartM) => {
          input.neighbours = [
            {
              name: "her",
              vessel: { kind: "motorBoat", lengthM: 9 },
              position: {
                latDeg: HERE.latDeg + (apartM * Math.cos((bearing * Math.PI) / 180)) / 111_000,
                lonDeg: HERE.lonDeg + (apartM * Math.sin((bearing * Math.PI) / 180)) / 85_000,
              },
            },
          ];
          const spread = (directionSigmaDeg: number, m: number): StayInput => ({
            ...input,
            positionErrorM: 2 + m,
            surgeM: { low: -m / 20, likely: 0, high: m / 20 },
            forecast: { ...input.forecast!, directionSigmaDeg },
          });
          expect(rank(spread(sigma + more, more / 4))).toBeLessThanOrEqual(rank(spread(sigma, 0)));
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe("knowing less never improves the verdict", () => {
  test.each(["tide", "chart", "stream", "neighbours", "forecast"] as const)("no %s", (key) => {
    fc.assert(
      fc.property(stay, ({ input }) => {
        const after = planStay(without(input, key));
        expect(RANK[after.verdict]).toBeLessThanOrEqual(rank(input));
        expect(after.verdict).not.toBe("suitable");
      }),
      { numRuns: 8 },
    );
  });

  test.each(["M_COVR", "M_QUAL", "DEPARE", "SBDARE", "COALNE"])("a chart without %s", (name) => {
    fc.assert(
      fc.property(stay, ({ input }) => {
        const layers = without(input.chart!.layers, name);
        const less: StayInput = { ...input, chart: { ...input.chart!, layers } };
        expect(rank(less)).toBeLessThanOrEqual(rank(input));
      }),
      { numRuns: 8 },
    );
  });

  test("a forecast that begins late or ends early", () => {
    fc.assert(
      fc.property(stay, fc.boolean(), ({ input }, end) => {
        const rows = end ? input.forecast!.rows.slice(0, 2) : input.forecast!.rows.slice(1);
        const less: StayInput = { ...input, forecast: { ...input.forecast!, rows } };
        expect(planStay(less).unknown).toContain("unknown.wind");
        expect(rank(less)).toBeLessThanOrEqual(rank(input));
      }),
      { numRuns: 8 },
    );
  });
});

describe("a plan", () => {
  test("of a known bay in a light wind is suitable, so that the laws above can fail", () => {
    expect(planStay(bay()).verdict).toBe("suitable");
  });

  test("is the same from its saved input, goes through JSON and leaves the input alone", () => {
    const input = demoWith({ draws: { count: 200, seed: 3 } });
    const saved = JSON.stringify(input);
    const plan = planStay(input);
    expect(JSON.stringify(input)).toBe(saved);
    expect(planStay(JSON.parse(saved) as StayInput)).toEqual(plan);
    expect(JSON.parse(JSON.stringify(plan))).toEqual(plan);
  });

  test("says nothing of doubt that was not asked for", () => {
    expect(planStay(bay()).doubt).toBeNull();
  });
});

describe("doubt", () => {
  const doubt = (input: StayInput, count = 400) =>
    planStay({ ...input, draws: { count, seed: 7 } }).doubt!;

  test("probabilities are shares, no moment above the whole, and any at least each", () => {
    const d = doubt(demo(), 2000);
    for (const c of [d.drag, d.touch, d.neighbour, d.shore]) {
      for (const p of c.byMoment) {
        expect(p).toBeGreaterThanOrEqual(0);
        expect(p!).toBeLessThanOrEqual(c.overall!);
      }
      expect(c.overall!).toBeLessThanOrEqual(d.any.overall!);
      const sum = c.drivenBy.reduce((a, s) => a + s.share, 0);
      expect(sum).toBeLessThan(1.1);
    }
  });

  test("more wind, less rode or less water never make it less probable", () => {
    fc.assert(
      fc.property(stay, real(0.5, 6), real(0.5, 0.95), ({ input, windMps, depthM }, more, part) => {
        const out = input.tackle.lengthOutM ?? 50;
        const as = (wind: number, lengthOutM: number): StayInput => ({
          ...input,
          forecast: steadyWind(wind, 200),
          tackle: { ...input.tackle, lengthOutM },
        });
        const drag = doubt(as(windMps, out), 100).drag.atLeast;
        expect(doubt(as(windMps + more, out), 100).drag.atLeast).toBeGreaterThanOrEqual(drag);
        expect(doubt(as(windMps, part * out), 100).drag.atLeast).toBeGreaterThanOrEqual(drag);
        const shoal: StayInput = {
          ...input,
          chart: { ...input.chart!, layers: bayLayers(depthM - more / 3) },
        };
        expect(doubt(shoal, 100).touch.atLeast).toBeGreaterThanOrEqual(
          doubt(input, 100).touch.atLeast,
        );
      }),
      { numRuns: 8 },
    );
  });

  test("what is not known has no probability", () => {
    const noTide = without(bay(), "tide");
    expect(doubt(noTide).drag.overall).toBeNull();
    expect(doubt(noTide).any.overall).toBeNull();
    const noNeighbours = without(bay(), "neighbours");
    expect(doubt(noNeighbours).neighbour.overall).toBeNull();
    expect(doubt(noNeighbours).drag.overall).not.toBeNull();
    const noChart = without(bay(), "chart");
    expect(doubt({ ...noChart, chartedDepthM: 6 }).shore.overall).toBeNull();
  });

  test("holding drives dragging where nothing else is uncertain to speak of", () => {
    const input = bay(6, 16);
    input.forecast = { ...input.forecast!, directionSigmaDeg: 5, speedSigmaShare: 0.01 };
    expect(doubt(input, 1000).drag.drivenBy[0]?.of).toBe("holding");
  });
});

describe("what would change the answer", () => {
  test("past the tipping wind the limit is passed, short of it not", () => {
    const tipAt = (windMps: number) => {
      const input = bay(6, windMps);
      const tackle = { ...input.tackle, lengthOutM: 40 };
      return planStay({ ...input, tackle }).tipping.find((t) => t.code === "holding.less")!;
    };
    const tip = tipAt(12);
    expect(tip.passed).toBe(false);
    const at = (rise: number) => tipAt(12 + rise).passed;
    expect(at(tip.windRiseMps! - 0.4)).toBe(false);
    expect(at(tip.windRiseMps! + 0.4)).toBe(true);
  });

  test("with the least rode the anchor holds, with less it does not", () => {
    const out = (lengthOutM: number) => {
      const input = bay(6, 17);
      return planStay({ ...input, tackle: { ...input.tackle, lengthOutM } });
    };
    const tip = out(25).tipping.find((t) => t.code === "holding.thin")!;
    expect(tip.passed).toBe(true);
    const thin = (m: number) => out(m).tipping.find((t) => t.code === "holding.thin")!.passed;
    expect(thin(tip.leastRodeM! + 0.5)).toBe(false);
    expect(thin(tip.leastRodeM! - 1)).toBe(true);
  });

  test("the fall of water that puts her aground", () => {
    const tip = planStay(bay()).tipping.find((t) => t.code === "depth.aground")!;
    // 6 m charted, the tide halfway between 1 and 2 m at either end, 1.5 m of draught.
    expect(tip.waterFallM).toBeCloseTo(6, 6);
  });
});

describe("seeking a berth", () => {
  const area = { centre: HERE, radiusM: 200 };

  test("every place is within the area, and nothing is better than the best", () => {
    const found = seekBerth({ ...bay(), area, spacingM: 50, most: 3 });
    expect(found.count).toBe(found.field.score.length);
    expect(found.best.length).toBeGreaterThan(0);
    const top = Math.max(...found.field.score);
    expect(Math.max(...found.best.map((b) => b.score))).toBe(top);
    expect(JSON.parse(JSON.stringify(found))).toEqual(found);
  });

  test("the full plan of a best berth is the plan of that place", () => {
    const { best } = seekBerth({ ...bay(), area, spacingM: 100, most: 1 });
    const plan = planStay({ ...bay(), position: best[0]!.position });
    expect(best[0]!.verdict).toBe(plan.verdict);
    expect(best[0]!.reasons).toEqual(plan.reasons);
  });

  test("without the tide or neighbours no place is called suitable", () => {
    const noTide = without(bay(), "tide");
    const noNeighbours = without(bay(), "neighbours");
    for (const input of [noTide, noNeighbours])
      expect(seekBerth({ ...input, area, spacingM: 100 }).field.verdict).not.toContain("suitable");
  });

  test("a search without a chart, or with too many places, is refused", () => {
    const noChart = without(bay(), "chart");
    expect(() => seekBerth({ ...noChart, area })).toThrow(/chart/);
    expect(() =>
      seekBerth({ ...bay(), area: { centre: HERE, radiusM: 5000 }, spacingM: 5 }),
    ).toThrow(/places/);
  });
});
