import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readChart } from "../../src/chart/index.js";
import { hours } from "../../src/core/units.js";
import { destination } from "../../src/geo/index.js";
import { wayOut, type WayOut, type WayOutInput } from "../../src/plan/index.js";
import { boxArea, feature, layer } from "../unit/chart-support.js";

const noon = Date.UTC(2026, 5, 1, 12);
const start = { latDeg: 40.01, lonDeg: -30.002 };
const bounds = [-30.05, 39.98, -29.95, 40.04] as const;

const chartOf = (
  shoalM: number,
  rock: { alongM: number; offM: number } | null,
  shore: Record<string, ReturnType<typeof layer>> = {},
) => {
  const at =
    rock === null
      ? null
      : destination({
          from: destination({ from: start, bearingDeg: 270, distanceM: rock.alongM }),
          bearingDeg: rock.offM < 0 ? 180 : 0,
          distanceM: Math.abs(rock.offM),
        });
  return readChart(
    {
      M_COVR: layer(boxArea(bounds, { CATCOV: 1 })),
      M_QUAL: layer(boxArea(bounds, { CATZOC: 2 })),
      DEPARE: layer(
        boxArea([-30.01, 39.98, -29.95, 40.04], { DRVAL1: shoalM, DRVAL2: shoalM + 2 }),
        boxArea([-30.05, 39.98, -30.01, 40.04], { DRVAL1: shoalM + 1, DRVAL2: shoalM + 9 }),
      ),
      ...(at !== null && {
        UWTROC: layer(feature("Point", [at.lonDeg, at.latDeg], { VALSOU: 0.5, WATLEV: 3 })),
      }),
      ...shore,
    },
    { soundingDatum: "LAT" },
  );
};

interface Case {
  shoalM: number;
  draughtM: number;
  lowM: number;
  rangeM: number;
  speedMps: number;
  bearingDeg: number;
  lengthM: number;
  needM: number;
}
const arbitrary: fc.Arbitrary<Case> = fc.record({
  shoalM: fc.double({ min: -1, max: 6, noNaN: true }),
  draughtM: fc.double({ min: 0.3, max: 3, noNaN: true }),
  lowM: fc.double({ min: 0, max: 2, noNaN: true }),
  rangeM: fc.double({ min: 0.5, max: 6, noNaN: true }),
  speedMps: fc.double({ min: 0.5, max: 10, noNaN: true }),
  bearingDeg: fc.double({ min: 0, max: 359, noNaN: true }),
  lengthM: fc.double({ min: 50, max: 2000, noNaN: true }),
  needM: fc.double({ min: 0, max: 1, noNaN: true }),
});

const inputOf = (c: Case, rock: { alongM: number; offM: number } | null = null): WayOutInput => ({
  route: [start, destination({ from: start, bearingDeg: c.bearingDeg, distanceM: c.lengthM })],
  chart: chartOf(c.shoalM, rock),
  tide: {
    kind: "turns",
    datum: "LAT",
    turns: [0, 1, 2, 3, 4].map((i) => ({
      timeMs: noon + hours(6.2) * (i - 1),
      heightM: c.lowM + (i % 2 === 0 ? 0 : c.rangeM),
    })),
  },
  vessel: { kind: "yacht", lengthM: 9, draughtM: c.draughtM },
  stay: { fromMs: noon, toMs: noon + hours(12) },
  speedMps: c.speedMps,
  underKeelM: c.needM,
});

const least = (w: WayOut): number => w.least?.underKeelM ?? -Infinity;
const shutMs = (w: WayOut): number => w.shut.reduce((sum, s) => sum + s.toMs - s.fromMs, 0);
const SETTINGS = { numRuns: 60 };

describe("laws of the way out", () => {
  test("more tide never gives less depth, nor longer hours shut", () => {
    fc.assert(
      fc.property(arbitrary, fc.double({ min: 0, max: 2, noNaN: true }), (c, moreM) => {
        const [a, b] = [wayOut(inputOf(c)), wayOut(inputOf({ ...c, lowM: c.lowM + moreM }))];
        expect(least(b)).toBeGreaterThanOrEqual(least(a) - 1e-9);
        expect(shutMs(b)).toBeLessThanOrEqual(shutMs(a) + 2000);
      }),
      SETTINGS,
    );
  });
  test("more draught, less charted depth, more water wanted: never less shut", () => {
    fc.assert(
      fc.property(arbitrary, fc.double({ min: 0, max: 0.9, noNaN: true }), (c, d) => {
        const a = wayOut(inputOf(c));
        for (const worse of [
          { ...c, draughtM: c.draughtM + d },
          { ...c, shoalM: c.shoalM - d },
          { ...c, needM: c.needM + d },
        ])
          expect(shutMs(wayOut(inputOf(worse)))).toBeGreaterThanOrEqual(shutMs(a) - 2000);
      }),
      SETTINGS,
    );
  });
  test("a charted rock, a wider strip, a lower surge never give more water", () => {
    fc.assert(
      fc.property(
        arbitrary,
        fc.double({ min: 0, max: 1500, noNaN: true }),
        fc.double({ min: -80, max: 80, noNaN: true }),
        (c, alongM, offM) => {
          const a = wayOut(inputOf(c));
          const rocky = inputOf(c, { alongM, offM });
          expect(least(wayOut(rocky))).toBeLessThanOrEqual(least(a) + 1e-9);
          expect(least(wayOut({ ...rocky, asideM: 60 }))).toBeLessThanOrEqual(
            least(wayOut(rocky)) + 1e-9,
          );
          const surgeM = { low: -0.3, likely: 0, high: 0.2 };
          expect(least(wayOut({ ...inputOf(c), surgeM }))).toBeLessThanOrEqual(least(a) + 1e-9);
        },
      ),
      SETTINGS,
    );
  });
  test("every departure is open, shut or unknown, and the columns agree with the hours", () => {
    fc.assert(
      fc.property(arbitrary, (c) => {
        const w = wayOut(inputOf(c));
        const total = [...w.shut, ...w.open, ...w.unknownHours].reduce(
          (sum, s) => sum + s.toMs - s.fromMs,
          0,
        );
        expect(Math.abs(total - hours(12))).toBeLessThan(100);
        w.departures.timeMs.forEach((t, i) => {
          const inside = (spans: WayOut["shut"]) =>
            spans.some((s) => t >= s.fromMs - 1000 && t <= s.toMs + 1000);
          const state = w.departures.state[i]!;
          expect(
            inside(state === "shut" ? w.shut : state === "open" ? w.open : w.unknownHours),
          ).toBe(true);
        });
      }),
      SETTINGS,
    );
  });
  test("a shore or a breakwater across it, water charted on both sides, never leaves it open", () => {
    fc.assert(
      fc.property(
        arbitrary,
        fc.double({ min: 0.02, max: 1, noNaN: true }),
        fc.constantFrom("COALNE", "LNDARE", "SLCONS"),
        (c, part, name) => {
          const input = inputOf({ ...c, shoalM: 20 });
          expect(wayOut(input).shut).toEqual([]);
          const from = destination({
            from: start,
            bearingDeg: c.bearingDeg,
            distanceM: part * c.lengthM,
          });
          const ends = [90, 270].map((turn) =>
            destination({ from, bearingDeg: (c.bearingDeg + turn) % 360, distanceM: 30 }),
          );
          const wall = feature(
            "LineString",
            ends.map((p) => [p.lonDeg, p.latDeg]),
            name === "SLCONS" ? { CATSLC: 1 } : {},
          );
          const across = wayOut({ ...input, chart: chartOf(20, null, { [name]: layer(wall) }) });
          expect(across.open).toEqual([]);
          expect(across.unknown).toContain("unknown.depth");
        },
      ),
      SETTINGS,
    );
  });
  test("knowing less never opens it", () => {
    fc.assert(
      fc.property(arbitrary, (c) => {
        const input = inputOf(c);
        for (const key of ["chart", "tide"] as const) {
          const less = { ...input };
          // eslint-disable-next-line @typescript-eslint/no-dynamic-delete
          delete less[key];
          expect(wayOut(less).open).toEqual([]);
        }
      }),
      SETTINGS,
    );
  });
});
