import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { startWatch, stepWatch, watchLimits, watchRota } from "../../src/watch/index.js";
import { InputError } from "../../src/core/errors.js";
import { planeAt, positionOf } from "../../src/geo/plane.js";

const HOUR = 3_600_000;
/** Spring forward and autumn back in zones that have them, a leap day, a year's end. */
const STARTS = [
  Date.UTC(2026, 2, 28, 20),
  Date.UTC(2026, 9, 24, 20),
  Date.UTC(2028, 1, 28, 21),
  Date.UTC(2026, 11, 31, 19),
];

const nights = fc.record({
  heads: fc.integer({ min: 1, max: 12 }),
  fromMs: fc.constantFrom(...STARTS),
  minutes: fc.integer({ min: 1, max: 5 * 24 * 60 }),
  longestMin: fc.integer({ min: 10, max: 720 }),
  duskMin: fc.integer({ min: -600, max: 1440 }),
  darkMin: fc.integer({ min: 0, max: 1200 }),
});
type Night = typeof nights extends fc.Arbitrary<infer T> ? T : never;

/** Dark once a day, the same hours. */
function rotaOf(n: Night) {
  const stay = { fromMs: n.fromMs, toMs: n.fromMs + n.minutes * 60_000 };
  const dark = [];
  for (let d = -1; d <= 6; d++) {
    const dusk = n.fromMs + d * 24 * HOUR + n.duskMin * 60_000;
    dark.push({ fromMs: dusk, toMs: dusk + n.darkMin * 60_000 });
  }
  const crew = Array.from({ length: n.heads }, (_, i) => `hand ${i}`);
  const longestMs = n.longestMin * 60_000;
  return { stay, dark, crew, rota: watchRota({ crew, stay, dark, longestMs }) };
}

describe("a rota, counted over random crews and nights", () => {
  test("no gap, no overlap, none too long, nobody twice running unless alone", () => {
    fc.assert(
      fc.property(nights, (n) => {
        const { rota, stay } = rotaOf(n);
        let at = stay.fromMs;
        rota.watches.forEach((w, i) => {
          expect(w.fromMs).toBe(at);
          expect(w.toMs).toBeGreaterThan(w.fromMs);
          expect(w.toMs - w.fromMs).toBeLessThanOrEqual(n.longestMin * 60_000 + 1);
          if (n.heads > 1) expect(w.who).not.toBe(rota.watches[i - 1]?.who);
          at = w.toMs;
        });
        expect(at).toBe(stay.toMs);
        expect(rota.cautions).toEqual(n.heads === 1 ? ["oneAlone"] : []);
      }),
      { numRuns: 300 },
    );
  });

  test("fair: as many watches a head, and the dark shared to within one watch", () => {
    fc.assert(
      fc.property(nights, (n) => {
        const { rota, dark } = rotaOf(n);
        const count = new Map<string, number>();
        const inDark = new Map<string, number>();
        for (const w of rota.watches) {
          count.set(w.who, (count.get(w.who) ?? 0) + 1);
          // Minute by minute, whether it is dark.
          let minutes = 0;
          for (let t = w.fromMs + 30_000; t < w.toMs; t += 60_000)
            if (dark.some((d) => t >= d.fromMs && t < d.toMs)) minutes++;
          inDark.set(w.who, (inDark.get(w.who) ?? 0) + minutes);
        }
        expect(count.size).toBe(n.heads);
        expect(new Set(count.values()).size).toBe(1);
        const shares = [...inDark.values()];
        const watchMin = n.minutes / rota.watches.length;
        expect(Math.max(...shares) - Math.min(...shares)).toBeLessThanOrEqual(
          watchMin + 2 * rota.watches.length,
        );
      }),
      { numRuns: 60 },
    );
  });

  test("dark told twice over is dark once", () => {
    const stay = { fromMs: STARTS[0]!, toMs: STARTS[0]! + 8 * HOUR };
    const { watches, shares } = watchRota({ crew: ["a", "b"], stay, dark: [stay, stay] });
    for (const w of watches) expect(w.darkMs).toBe(w.toMs - w.fromMs);
    expect(shares.reduce((s, x) => s + x.darkMs, 0)).toBe(8 * HOUR);
  });

  test("nobody aboard, and not-numbers, are refused; an instant's stay is covered", () => {
    const stay = { fromMs: 0, toMs: HOUR };
    expect(() => watchRota({ crew: [], stay })).toThrow(InputError);
    expect(() => watchRota({ crew: ["a"], stay: { fromMs: NaN, toMs: 0 } })).toThrow(InputError);
    const none = watchRota({ crew: ["a", "b"], stay: { fromMs: 0, toMs: 0 } });
    expect(none.shares.every((s) => s.onWatchMs === 0)).toBe(true);
  });
});

/** Bow to anchor, horizontally, of a chain that weighs `w` N/m under a horizontal pull: the catenary, bottom flat. */
function catenaryReach(lengthM: number, heightM: number, w: number, pullN: number): number {
  const a = pullN / w;
  const lifted = Math.sqrt(heightM * heightM + 2 * heightM * a);
  if (lifted <= lengthM) return lengthM - lifted + a * Math.acosh(1 + heightM / a);
  // All of it lifted: the span of a chain between two points, by halving.
  let [low, high] = [0, Math.sqrt(lengthM * lengthM - heightM * heightM)];
  const chord = Math.sqrt(lengthM * lengthM - heightM * heightM);
  for (let i = 0; i < 200; i++) {
    const mid = (low + high) / 2;
    if (2 * a * Math.sinh(mid / (2 * a)) < chord) low = mid;
    else high = mid;
  }
  return low;
}

describe("limits, against the catenary and plain geometry", () => {
  const gear = fc.record({
    lengthM: fc.double({ min: 15, max: 90, noNaN: true }),
    depthM: fc.double({ min: 1, max: 12, noNaN: true }),
    bowM: fc.double({ min: 0, max: 2.5, noNaN: true }),
    abaftM: fc.double({ min: 0, max: 15, noNaN: true }),
    athwartM: fc.double({ min: 0, max: 3, noNaN: true }),
    veerM: fc.double({ min: 0, max: 40, noNaN: true }),
    pullN: fc.double({ min: 20, max: 60_000, noNaN: true }),
    yawDeg: fc.double({ min: -60, max: 60, noNaN: true }),
  });
  const limitsFor = (g: typeof gear extends fc.Arbitrary<infer T> ? T : never) =>
    watchLimits({
      stay: { timeMs: [0], depthM: [g.depthM] },
      rode: { lengthM: g.lengthM, veerM: g.veerM },
      bowHeightM: g.bowM,
      antenna: { abaftBowM: g.abaftM, athwartM: g.athwartM },
    });

  test("no pull and no yawing carries the antenna past the limit; a great one nearly reaches it", () => {
    fc.assert(
      fc.property(gear, (g) => {
        const limit = limitsFor(g).rows[0]!.greatestDistanceM;
        const [l, h] = [g.lengthM + g.veerM, g.depthM + g.bowM];
        const reach = catenaryReach(l, h, 12, g.pullN);
        const yaw = (g.yawDeg * Math.PI) / 180;
        const east = g.abaftM * Math.sin(yaw) + g.athwartM * Math.cos(yaw);
        const aft = g.abaftM * Math.cos(yaw) - g.athwartM * Math.sin(yaw);
        expect(Math.sqrt((reach + aft) ** 2 + east ** 2)).toBeLessThanOrEqual(limit + 1e-6);
        const taut = catenaryReach(l, h, 12, 1e7) + Math.sqrt(g.abaftM ** 2 + g.athwartM ** 2);
        expect(taut).toBeGreaterThan(limit - 0.05);
      }),
      { numRuns: 400 },
    );
  });

  test("by the tide: deeper water, shorter reach, and depth bounds that follow it", () => {
    const depthM = [3, 4.5, 6.2, 5];
    const { rows } = watchLimits({
      stay: { timeMs: [0, HOUR, 2 * HOUR, 3 * HOUR], depthM },
      rode: { lengthM: 30 },
      bowHeightM: 1,
      antenna: { abaftBowM: 8 },
      depthSigmaM: 0.25,
      bottomSlopeDeg: 3,
      leastDepthM: 2.2,
    });
    rows.forEach((r, i) => {
      const d = depthM[i]!;
      const far = Math.sqrt(30 ** 2 - (d + 1) ** 2) + 8;
      expect(r.greatestDistanceM).toBeCloseTo(far, 9);
      // Three degrees over the swing, and two spreads of a quarter of a metre.
      const margin = 0.5 + far * Math.tan((3 * Math.PI) / 180);
      expect(r.greatestDepthM).toBeCloseTo(d + margin, 9);
      expect(r.leastDepthM).toBeCloseTo(Math.max(2.2, d - margin), 9);
    });
  });

  test("after veering the watch lets her lie so much farther, and no more", () => {
    const anchor = { latDeg: 50, lonDeg: -4 };
    const plane = planeAt(anchor);
    const rode = (veerM: number) =>
      watchLimits({
        stay: { timeMs: [STARTS[0]!], depthM: [6] },
        rode: { lengthM: 30, veerM },
        bowHeightM: 1,
        antenna: { abaftBowM: 8 },
      });
    const lies = (southM: number, veered: boolean) => {
      let state = startWatch({
        startMs: STARTS[0]!,
        anchor: { known: true, position: anchor, sigmaM: 2 },
        limits: rode(0),
      });
      if (veered)
        state = stepWatch(state, {
          kind: "limits",
          timeMs: STARTS[0]! + 1000,
          limits: rode(20),
        }).state;
      for (let s = 5; s <= 3 * 3600; s += 5)
        state = stepWatch(state, {
          kind: "fix",
          timeMs: STARTS[0]! + s * 1000,
          ...positionOf(plane, Math.sin(s), -southM - 0.5 * Math.cos(s / 7)),
          sigmaM: 1.5,
        }).state;
      return state.report.mode;
    };
    // Straight out: 29.2 + 8 m with 30 m of rode, 49.5 + 8 m with 50 m.
    expect(lies(36, false)).toBe("lying");
    expect(lies(57, false)).toBe("dragging");
    expect(lies(57, true)).toBe("lying");
    expect(lies(80, true)).toBe("dragging");
  });

  test("not-numbers are refused", () => {
    const base = {
      stay: { timeMs: [0], depthM: [5] },
      rode: { lengthM: 30 },
      bowHeightM: 1,
      antenna: { abaftBowM: 9 },
    };
    expect(() => watchLimits({ ...base, rode: { lengthM: NaN } })).toThrow(InputError);
    expect(() => watchLimits({ ...base, stay: { timeMs: [], depthM: [] } })).toThrow(InputError);
    expect(() => watchLimits({ ...base, stay: { timeMs: [0], depthM: [NaN] } })).toThrow(
      InputError,
    );
  });
});
