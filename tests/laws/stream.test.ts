import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  ellipsesFrom,
  streamAt,
  streamBelow,
  streamTurns,
  type StreamSource,
} from "../../src/stream/index.js";

const T0 = Date.UTC(2026, 5, 1);
const HOUR = 3_600_000;
const rate = fc.double({ min: 0, max: 4, noNaN: true });
const set = fc.double({ min: 0, max: 360, noNaN: true });
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const steady = fc.record({
  kind: fc.constant("steady" as const),
  rateMps: rate,
  towardsDeg: set,
});
const series = fc
  .array(fc.record({ step: number(0.1, 5), rateMps: rate, towardsDeg: set }), {
    minLength: 2,
    maxLength: 20,
  })
  .map((rows) => {
    let t = T0;
    return {
      kind: "series" as const,
      rows: rows.map(({ step, ...r }) => ({
        timeMs: (t += step * HOUR),
        ...r,
      })),
    };
  });
const ellipse = fc.record({
  kind: fc.constant("ellipse" as const),
  constituents: fc.array(
    fc
      .record({
        speedDegPerHour: number(10, 60),
        semiMajorMps: rate,
        share: number(-1, 1),
        majorTowardsDeg: set,
        greatestAtMs: fc.integer({ min: T0, max: T0 + 13 * HOUR }),
      })
      .map(({ share, ...c }) => ({
        ...c,
        semiMinorMps: share * c.semiMajorMps,
      })),
    { minLength: 1, maxLength: 4 },
  ),
  meanEastMps: number(-1, 1),
  meanNorthMps: number(-1, 1),
});
const turns = fc
  .record({
    gaps: fc.array(number(0.5, 6), { minLength: 3, maxLength: 16 }),
    greatest: fc.array(rate, { minLength: 16, maxLength: 16 }),
    towardsDeg: set,
    rule: fc.constantFrom("sine" as const, "fiftyNinety" as const),
  })
  .map(({ gaps, greatest, towardsDeg, rule }) => {
    let t = T0;
    return {
      kind: "turns" as const,
      rule,
      turns: gaps.map((gap, i) => {
        t += gap * HOUR;
        return i % 2 === 0
          ? { kind: "slack" as const, timeMs: t }
          : {
              kind: "greatest" as const,
              timeMs: t,
              rateMps: greatest[i]!,
              towardsDeg: (towardsDeg + (i % 4 === 1 ? 0 : 180)) % 360,
            };
      }),
    };
  });
const hourly = fc
  .record({
    rows: fc.array(fc.record({ towardsDeg: set, springMps: rate, neapMps: rate }), {
      minLength: 13,
      maxLength: 13,
    }),
    highs: fc.array(fc.record({ gap: number(11.5, 13.5), rangeM: number(0, 8) }), {
      minLength: 1,
      maxLength: 6,
    }),
    between: fc.constantFrom("vector" as const, "step" as const),
  })
  .map(({ rows, highs, between }) => {
    let t = T0;
    return {
      kind: "hourly" as const,
      rows: rows.map((r, i) => ({ hour: i - 6, ...r })),
      highWaters: highs.map((h) => ({
        timeMs: (t += h.gap * HOUR),
        rangeM: h.rangeM,
      })),
      springRangeM: 5,
      neapRangeM: 2.5,
      between,
    };
  });
const source: fc.Arbitrary<StreamSource> = fc.oneof(steady, series, ellipse, turns, hourly);
const instant = fc.integer({ min: T0 - 10 * HOUR, max: T0 + 90 * HOUR });

describe("stream at an instant", () => {
  test("finite, JSON-safe, the same twice, the input untouched; parts agree with rate and set", () => {
    fc.assert(
      fc.property(source, instant, (s, t) => {
        const before = structuredClone(s);
        const at = streamAt(s, t);
        expect(JSON.parse(JSON.stringify(at))).toEqual(at);
        expect(streamAt(s, t)).toEqual(at);
        expect(s).toEqual(before);
        if (!at.known) return;
        const rad = (at.towardsDeg * Math.PI) / 180;
        expect(at.rateMps * Math.sin(rad)).toBeCloseTo(at.eastMps, 9);
        expect(at.rateMps * Math.cos(rad)).toBeCloseTo(at.northMps, 9);
        expect(at.towardsDeg).toBeGreaterThanOrEqual(0);
        expect(at.towardsDeg).toBeLessThan(360);
      }),
      { numRuns: 300 },
    );
  });
  test("turning the scene turns the stream", () => {
    const turned = (s: StreamSource, by: number): StreamSource =>
      JSON.parse(JSON.stringify(s), (key, value: unknown) =>
        key.endsWith("owardsDeg") && typeof value === "number" ? (value + by) % 360 : value,
      ) as StreamSource;
    fc.assert(
      fc.property(fc.oneof(steady, series, turns, hourly), instant, set, (s, t, by) => {
        const a = streamAt(s, t);
        const b = streamAt(turned(s, by), t);
        expect(b.known).toBe(a.known);
        if (!a.known || !b.known) return;
        const rad = (by * Math.PI) / 180;
        const [sin, cos] = [Math.sin(rad), Math.cos(rad)];
        expect(b.eastMps).toBeCloseTo(a.eastMps * cos + a.northMps * sin, 9);
        expect(b.northMps).toBeCloseTo(a.northMps * cos - a.eastMps * sin, 9);
      }),
    );
  });
  test("never runs harder than the hardest row", () => {
    fc.assert(
      fc.property(fc.oneof(series, turns), instant, (s, t) => {
        const at = streamAt(s, t);
        if (!at.known) return;
        const rates = (s.kind === "series" ? s.rows : s.turns).map((r) =>
          "rateMps" in r ? r.rateMps : 0,
        );
        expect(at.rateMps).toBeLessThanOrEqual(Math.max(...rates) + 1e-9);
      }),
    );
  });
});

describe("turns of the stream", () => {
  test("least and greatest come by turns, and the rate beside each is no less, or no more", () => {
    fc.assert(
      fc.property(fc.oneof(series, ellipse), (s) => {
        const found = streamTurns(s, { fromMs: T0, toMs: T0 + 60 * HOUR });
        for (const turn of found)
          for (const by of [-2000, 2000]) {
            const beside = streamAt(s, turn.timeMs + by);
            if (!beside.known) continue;
            if (turn.kind === "greatest")
              expect(beside.rateMps).toBeLessThanOrEqual(turn.rateMps + 1e-9);
            else expect(beside.rateMps).toBeGreaterThanOrEqual(turn.rateMps - 1e-9);
          }
        if (s.kind === "ellipse")
          found.forEach((turn, i) => {
            if (i > 0) expect(turn.kind === "greatest").not.toBe(found[i - 1]!.kind === "greatest");
          });
      }),
    );
  });
});

describe("weak stream", () => {
  test("below, unknown and above fill the stay: every instant agrees with the stream there", () => {
    fc.assert(
      fc.property(
        fc.oneof(series, ellipse, turns, steady),
        number(0, 3),
        fc.array(number(0, 1), { minLength: 20, maxLength: 20 }),
        (stream, limitMps, parts) => {
          const stay = { fromMs: T0, toMs: T0 + 40 * HOUR };
          const found = streamBelow({ stream, stay, limitMps });
          const inside = (spans: { fromMs: number; toMs: number }[], t: number) =>
            spans.some((x) => t >= x.fromMs - 2 && t <= x.toMs + 2);
          for (const part of parts) {
            const t = T0 + part * 40 * HOUR;
            const at = streamAt(stream, t);
            if (!at.known) expect(inside(found.unknown, t)).toBe(true);
            else if (at.rateMps < limitMps - 1e-6) expect(inside(found.below, t)).toBe(true);
            else if (at.rateMps > limitMps + 1e-3)
              expect(found.below.some((x) => t > x.fromMs + 2 && t < x.toMs - 2)).toBe(false);
          }
        },
      ),
    );
  });
});

test("ellipses fitted to what ellipses make are those ellipses", () => {
  fc.assert(
    fc.property(
      rate,
      number(-1, 1),
      set,
      fc.integer({ min: 0, max: 12 * HOUR }),
      (semiMajorMps, share, majorTowardsDeg, later) => {
        const made: StreamSource = {
          kind: "ellipse",
          meanEastMps: 0.1,
          constituents: [
            {
              speedDegPerHour: 28.9841042,
              semiMajorMps,
              semiMinorMps: share * semiMajorMps,
              majorTowardsDeg,
              greatestAtMs: T0 + later,
            },
          ],
        };
        const rows = Array.from({ length: 80 }, (_, i) => {
          const timeMs = T0 + i * HOUR;
          const at = streamAt(made, timeMs);
          if (!at.known) throw new Error("unknown");
          return { timeMs, eastMps: at.eastMps, northMps: at.northMps };
        });
        const { stream, residualRmsMps } = ellipsesFrom({
          rows,
          speedsDegPerHour: [28.9841042],
        });
        expect(residualRmsMps).toBeLessThan(1e-6);
        expect(stream.meanEastMps).toBeCloseTo(0.1, 9);
        expect(stream.constituents[0]!.semiMajorMps).toBeCloseTo(semiMajorMps, 9);
        expect(stream.constituents[0]!.semiMinorMps).toBeCloseTo(share * semiMajorMps, 9);
      },
    ),
  );
});
