import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  depthOverStay,
  portCurveFrom,
  pressureSurge,
  secondaryTurns,
  tideHeight,
  tideSeries,
  tideTurns,
  type TideSource,
} from "../../src/tide/index.js";

const HOUR = 3_600_000;
const T0 = Date.UTC(2026, 5, 1);
const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** A regular table of eight turns with unequal heights and lengths. */
const turns = fc
  .array(fc.record({ gapH: finite(4.5, 8), rise: finite(0.2, 5) }), {
    minLength: 8,
    maxLength: 8,
  })
  .map((rows) => {
    let timeMs = T0;
    return rows.map(({ gapH, rise }, i) => {
      timeMs += Math.round(gapH * HOUR);
      return { timeMs, heightM: i % 2 === 0 ? -0.1 * rise : rise };
    });
  });

const tableSource = fc
  .record({ turns, rule: fc.constantFrom("cosine", "twelfths") })
  .map(({ turns, rule }): Extract<TideSource, { kind: "turns" }> => ({
    kind: "turns",
    turns,
    rule: rule,
    datum: "LAT",
  }));

const constants = fc
  .record({
    m2: finite(0.2, 4),
    s2: finite(0, 1.2),
    k1: finite(0, 0.8),
    m4: finite(0, 0.4),
    phases: fc.array(finite(0, 360), { minLength: 4, maxLength: 4 }),
    nodes: fc.constantFrom("midYear", "continuous"),
  })
  .map(({ m2, s2, k1, m4, phases, nodes }): TideSource => ({
    kind: "constituents",
    constituents: [
      { name: "M2", amplitudeM: m2, phaseDeg: phases[0]! },
      { name: "S2", amplitudeM: s2, phaseDeg: phases[1]! },
      { name: "K1", amplitudeM: k1, phaseDeg: phases[2]! },
      { name: "M4", amplitudeM: m4, phaseDeg: phases[3]! },
    ],
    meanLevelM: 3,
    nodes: nodes,
    datum: "LAT",
  }));

const NONE = [{ hourOfDay: 0, differenceMs: 0 }];
const SAME = {
  tableZoneHours: 0,
  highTime: NONE,
  lowTime: NONE,
  highHeight: { ratio: 1 },
  lowHeight: { ratio: 1 },
};

const secondary = fc.oneof(tableSource, constants).map((standard): TideSource => ({
  kind: "secondary",
  standard: standard as Extract<TideSource, { kind: "turns" }>,
  differences: SAME,
  datum: "LAT",
}));

const anySource = fc.oneof(tableSource, constants, secondary);
/** An instant within the shortest table there can be. */
const instant = fc.integer({ min: 9 * HOUR, max: 35 * HOUR }).map((dt) => T0 + dt);

const heightOf = (source: TideSource, timeMs: number): number => {
  const h = tideHeight(source, timeMs);
  if (!h.known) throw new Error(h.reason);
  return h.heightM;
};

describe("height of tide", () => {
  test("between its two turns, and never past them", () => {
    fc.assert(
      fc.property(tableSource, instant, (source, t) => {
        const { turns } = source;
        const i = turns.findLastIndex((r) => r.timeMs <= t);
        const a = turns[i]!.heightM;
        const b = turns[i + 1]!.heightM;
        const h = heightOf(source, t);
        expect(h).toBeGreaterThanOrEqual(Math.min(a, b) - 1e-12);
        expect(h).toBeLessThanOrEqual(Math.max(a, b) + 1e-12);
      }),
    );
  });

  test("scales with the heights, moves with the datum and with time", () => {
    fc.assert(
      fc.property(
        tableSource,
        instant,
        finite(0.5, 2),
        fc.integer({ min: -9, max: 9 }),
        (source, t, factor, days) => {
          const h = heightOf(source, t);
          const moved = {
            ...source,
            turns: source.turns.map((r) => ({
              timeMs: r.timeMs + days * 24 * HOUR,
              heightM: r.heightM * factor,
            })),
            toDatum: { datum: "other", addM: 1.25 },
          };
          expect(heightOf(moved, t + days * 24 * HOUR)).toBeCloseTo(h * factor + 1.25, 9);
        },
      ),
    );
  });

  test("the error straddles the height, low side first", () => {
    fc.assert(
      fc.property(anySource, instant, (source, t) => {
        const h = tideHeight(source, t);
        if (!h.known) throw new Error(h.reason);
        expect(h.errorM.low).toBeLessThan(0);
        expect(h.errorM.high).toBeGreaterThan(0);
        expect(Number.isFinite(h.heightM + h.errorM.low + h.errorM.high)).toBe(true);
      }),
    );
  });

  test("a series says what single heights say", () => {
    fc.assert(
      fc.property(
        anySource,
        instant,
        fc.integer({ min: 1000, max: 2 * HOUR }),
        (source, fromMs, stepMs) => {
          const toMs = fromMs + 5 * HOUR;
          if (toMs > T0 + 36 * HOUR) return;
          const heights = tideSeries(source, { fromMs, toMs, stepMs });
          for (const k of [0, 1, heights.length >> 1, heights.length - 1])
            if (k < heights.length)
              expect(heights[k]).toBeCloseTo(heightOf(source, fromMs + k * stepMs), 6);
        },
      ),
    );
  });

  test("turns are where the height turns", () => {
    fc.assert(
      fc.property(constants, (source) => {
        const span = { fromMs: T0, toMs: T0 + 48 * HOUR };
        const found = tideTurns(source, span);
        found.forEach((turn, i) => {
          expect(turn.heightM).toBeCloseTo(heightOf(source, turn.timeMs), 6);
          if (i > 0) expect(turn.kind).not.toBe(found[i - 1]!.kind);
        });
        // No sample lies above every high water or below every low water and both ends.
        const sampled = tideSeries(source, { ...span, stepMs: HOUR / 6 });
        const bounds = [
          ...found.map((t) => t.heightM),
          heightOf(source, span.fromMs),
          heightOf(source, span.toMs),
        ];
        expect(Math.max(...sampled)).toBeLessThanOrEqual(Math.max(...bounds) + 1e-6);
        expect(Math.min(...sampled)).toBeGreaterThanOrEqual(Math.min(...bounds) - 1e-6);
      }),
    );
  });

  test("a secondary port without differences is its standard port", () => {
    fc.assert(
      fc.property(fc.oneof(tableSource, constants), instant, (source, t) => {
        const same: TideSource = {
          kind: "secondary",
          standard: source as Extract<TideSource, { kind: "turns" }>,
          differences: SAME,
          datum: "LAT",
        };
        expect(heightOf(same, t)).toBeCloseTo(heightOf(source, t), 6);
      }),
    );
  });

  test("secondary turns keep number, order and kind", () => {
    fc.assert(
      fc.property(turns, finite(0.5, 1.5), (rows, ratio) => {
        const out = secondaryTurns(rows, {
          ...SAME,
          highHeight: { ratio },
          lowHeight: { ratio },
        });
        expect(out.map((t) => t.timeMs)).toEqual(rows.map((t) => t.timeMs));
        out.forEach((t, i) => {
          expect(t.kind).toBe(i % 2 === 0 ? "low" : "high");
          expect(t.heightM).toBeCloseTo(rows[i]!.heightM * ratio, 12);
        });
      }),
    );
  });
});

describe("depth over a stay", () => {
  const stay = { fromMs: T0 + 9 * HOUR, toMs: T0 + 33 * HOUR };

  test("no sample is outside least and greatest, or on the wrong side of the limit", () => {
    fc.assert(
      fc.property(anySource, finite(-1, 8), finite(0.5, 8), (tide, chartedDepthM, limitM) => {
        const depth = depthOverStay({ tide, stay, chartedDepthM, limitM });
        if (!depth.known) throw new Error("not known");
        for (let t = stay.fromMs; t <= stay.toMs; t += HOUR / 4) {
          const d = chartedDepthM + heightOf(tide, t);
          expect(d).toBeGreaterThanOrEqual(depth.least.depthM - 1e-6);
          expect(d).toBeLessThanOrEqual(depth.greatest.depthM + 1e-6);
          const inside = depth.below.some((b) => t >= b.fromMs && t <= b.toMs);
          // A second either side of the limit is neither.
          if (Math.abs(d - limitM) > 0.002) expect(inside).toBe(d < limitM);
        }
      }),
      { numRuns: 60 },
    );
  });

  test("low is not deeper, high is not shallower, and both hold the error", () => {
    fc.assert(
      fc.property(anySource, finite(0, 0.5), (tide, spread) => {
        const depth = depthOverStay({
          tide,
          stay,
          chartedDepthM: 4,
          limitM: 5,
          surgeM: { low: -spread, likely: 0, high: 2 * spread },
        });
        if (!depth.known) throw new Error("not known");
        expect(depth.low.least.depthM).toBeLessThanOrEqual(depth.least.depthM - spread);
        expect(depth.high.greatest.depthM).toBeGreaterThanOrEqual(
          depth.greatest.depthM + 2 * spread,
        );
        const length = (list: { fromMs: number; toMs: number }[]): number =>
          list.reduce((sum, b) => sum + b.toMs - b.fromMs, 0);
        expect(length(depth.low.below)).toBeGreaterThanOrEqual(length(depth.below) - 2000);
        expect(length(depth.high.below)).toBeLessThanOrEqual(length(depth.below) + 2000);
      }),
      { numRuns: 60 },
    );
  });

  test("deeper by what the chart is deeper", () => {
    fc.assert(
      fc.property(tableSource, finite(0, 5), finite(0, 5), (tide, a, b) => {
        const at = (chartedDepthM: number) => depthOverStay({ tide, stay, chartedDepthM });
        const [x, y] = [at(a), at(b)];
        if (!x.known || !y.known) throw new Error("not known");
        expect(x.least.depthM - y.least.depthM).toBeCloseTo(a - b, 9);
      }),
    );
  });
});

describe("every public function", () => {
  test("leaves its input alone, says the same twice and survives JSON", () => {
    const frozen = <T>(value: T): T => {
      if (typeof value === "object" && value !== null) {
        Object.values(value).forEach(frozen);
        Object.freeze(value);
      }
      return value;
    };
    const span = frozen({ fromMs: T0 + 9 * HOUR, toMs: T0 + 33 * HOUR });
    fc.assert(
      fc.property(anySource, (source) => {
        frozen(source);
        const calls = [
          () => tideHeight(source, span.fromMs),
          () => tideHeight(source, 0),
          () => tideTurns(source, span),
          () => [...tideSeries(source, { ...span, stepMs: HOUR })],
          () =>
            depthOverStay({
              tide: source,
              stay: span,
              chartedDepthM: 3,
              limitM: 4,
            }),
        ];
        for (const call of calls) {
          const once = call();
          expect(call()).toEqual(once);
          expect(JSON.parse(JSON.stringify(once))).toEqual(once);
        }
      }),
      { numRuns: 30 },
    );
    const surge = pressureSurge({ pressureHpa: 990 });
    expect(JSON.parse(JSON.stringify(surge))).toEqual(surge);
  });

  test("a port curve survives JSON and draws between the turns it was made for", () => {
    fc.assert(
      fc.property(constants, (source) => {
        const tide = source as Extract<TideSource, { kind: "constituents" }>;
        const span = { fromMs: T0 - 60 * 24 * HOUR, toMs: T0 };
        const found = portCurveFrom({ tide, span });
        expect(JSON.parse(JSON.stringify(found))).toEqual(found);
        const turns = tideTurns(source, {
          fromMs: T0 - 48 * HOUR,
          toMs: T0 + 96 * HOUR,
        });
        const drawn: TideSource = {
          kind: "curve",
          curve: found.curve,
          turns,
          complete: true,
          datum: "LAT",
        };
        for (const turn of turns)
          if (turn.timeMs > T0 && turn.timeMs < T0 + 48 * HOUR) {
            const h = tideHeight(drawn, turn.timeMs);
            if (h.known && found.curve.key === "highWater")
              expect(h.heightM).toBeCloseTo(turn.heightM, 9);
          }
      }),
      { numRuns: 20 },
    );
  });
});

test("high pressure is low water, in proportion", () => {
  fc.assert(
    fc.property(finite(900, 1060), finite(980, 1040), (p, mean) => {
      const one = pressureSurge({ pressureHpa: p, meanHpa: mean }).surgeM;
      const other = pressureSurge({ pressureHpa: mean, meanHpa: p }).surgeM;
      expect(one + other).toBeCloseTo(0, 12);
      expect(Math.sign(one)).toBe(Math.sign(mean - p));
    }),
  );
});
