import { describe, expect, test } from "vitest";
import {
  checkTimes,
  pickTransits,
  startWatch,
  watchLimits,
  watchRota,
} from "../../src/watch/index.js";
import { InputError } from "../../src/core/errors.js";
import { planeAt, positionOf } from "../../src/geo/plane.js";

const HOUR = 3_600_000;
const START = Date.UTC(2026, 5, 1, 18);
const hours = (n: number) => START + n * HOUR;
const stay = { fromMs: hours(0), toMs: hours(14) };

describe("limits", () => {
  const base = {
    stay: { timeMs: [hours(0), hours(6)], depthM: [4, 8] },
    rode: { lengthM: 30 },
    bowHeightM: 1,
    antenna: { abaftBowM: 10 },
  };

  test("the greatest distance is that of the straight rode and the antenna, by the tide", () => {
    const { rows, greatest } = watchLimits(base);
    // Pythagoras: 30 m of rode, 5 m and 9 m from bottom to roller.
    expect(rows[0]!.greatestDistanceM).toBeCloseTo(Math.sqrt(875) + 10, 9);
    expect(rows[1]!.greatestDistanceM).toBeCloseTo(Math.sqrt(819) + 10, 9);
    expect(greatest.atMs).toBe(hours(0));
  });

  test("a reach under load that is more than the straight rode counts, until the rode changes", () => {
    const stretched = { ...base.stay, reachM: [31, null] };
    const at = (veerM: number) =>
      watchLimits({
        ...base,
        stay: stretched,
        rode: { lengthM: 30, veerM },
      }).rows.map((r) => r.greatestDistanceM);
    expect(at(0)[0]).toBe(41);
    expect(at(0)[1]).toBeCloseTo(Math.sqrt(819) + 10, 9);
    expect(at(10)[0]).toBeCloseTo(Math.sqrt(1575) + 10, 9);
  });

  test("the spread grows as the rode comes up and down", () => {
    const short = watchLimits({ ...base, rode: { lengthM: 12, sigmaM: 1 } });
    const long = watchLimits({ ...base, rode: { lengthM: 60, sigmaM: 1 } });
    // dR/dL = L / R: 12 m at 9 m of height is 1.51 m a metre.
    expect(short.distanceSigmaM).toBeGreaterThan(1.5);
    expect(long.distanceSigmaM).toBeGreaterThan(1);
    expect(long.distanceSigmaM).toBeLessThan(1.1);
  });

  test("depths are held between tide, spread and slope, and never under the least allowed", () => {
    const { rows } = watchLimits({
      ...base,
      depthSigmaM: 0.2,
      bottomSlopeDeg: 0,
    });
    expect(rows[0]).toMatchObject({ leastDepthM: 3.6, greatestDepthM: 4.4 });
    const kept = watchLimits({ ...base, leastDepthM: 3 });
    expect(kept.rows[0]!.leastDepthM).toBe(3);
  });

  test("what is not known is said, and gives no depth limit", () => {
    const out = watchLimits({
      ...base,
      stay: { ...base.stay, depthM: [null, 8] },
    });
    expect(out.rows[0]).toMatchObject({
      leastDepthM: null,
      greatestDepthM: null,
      greatestDistanceM: 40,
    });
    expect(out.reasons.map((r) => r.code)).toEqual(["depth.unknown"]);
  });

  test("a rode shorter than the water is high is a stop", () => {
    const out = watchLimits({ ...base, rode: { lengthM: 8 } });
    expect(out.reasons.map((r) => r.code)).toContain("rode.short");
    expect(out.rows[1]!.greatestDistanceM).toBe(10);
  });

  test("a long stay is thinned to what a watch holds, and only widened", () => {
    const timeMs = Array.from({ length: 400 }, (_, i) => hours(i / 4));
    const depthM = timeMs.map((t) => 6 + 2 * Math.sin(t / 7e6));
    const full = (i: number) => Math.sqrt(900 - (depthM[i]! + 1) ** 2) + 10;
    const limits = watchLimits({ ...base, stay: { timeMs, depthM } });
    expect(limits.rows.length).toBe(40);
    const { rows } = limits;
    timeMs.forEach((t, i) => {
      const k = rows.findIndex((r) => r.timeMs >= t);
      const [a, b] = [rows[Math.max(0, k - 1)]!, rows[k]!];
      const part = k === 0 ? 1 : (t - a.timeMs) / (b.timeMs - a.timeMs);
      const at = a.greatestDistanceM + part * (b.greatestDistanceM - a.greatestDistanceM);
      expect(at).toBeGreaterThan(full(i) - 1e-9);
    });
    // What watchLimits gives, startWatch takes.
    startWatch({
      startMs: hours(0),
      anchor: { known: false, near: { latDeg: 0, lonDeg: 0 } },
      limits,
    });
  });

  test("columns of different length are refused", () => {
    expect(() => watchLimits({ ...base, stay: { timeMs: [hours(0)], depthM: [1, 2] } })).toThrow(
      InputError,
    );
  });
});

describe("transits", () => {
  const here = { latDeg: 50, lonDeg: 0 };
  const plane = planeAt(here);
  const mark = (id: string, bearingDeg: number, distanceM: number, lit = false) => ({
    id,
    lit,
    position: positionOf(
      plane,
      distanceM * Math.sin((bearingDeg * Math.PI) / 180),
      distanceM * Math.cos((bearingDeg * Math.PI) / 180),
    ),
  });
  const base = { position: here, headingDeg: 0, reachM: 40, swingDeg: 20 };

  test("a pair abeam is better than one ahead, and what it reveals follows from the angles", () => {
    const { transits } = pickTransits({
      ...base,
      marks: [
        mark("abeam near", 90, 400),
        mark("abeam far", 90, 2000),
        mark("ahead near", 0, 400),
        mark("ahead far", 0, 2000),
      ],
    });
    expect(transits[0]).toMatchObject({
      frontId: "abeam near",
      backId: "abeam far",
    });
    expect(transits[0]!.relativeDeg).toBeCloseTo(90, 3);
    // (1/400 - 1/2000) rad a metre is 0.1140 degrees: 8.73 m a degree.
    expect(transits[0]!.metresPerDegree).toBeCloseTo(8.727, 2);
    // Swinging 20° either way, 40 m from the anchor, she moves 2.41 m along her head.
    expect(transits[0]!.swingOpenDeg).toBeCloseTo(2.41 / 8.727, 1);
    expect(transits[0]!.revealsM).toBeCloseTo(2.41 + 0.5 * 8.727, 0);
    // The pair ahead opens only with the swing: no drag astern shows in it.
    expect(transits[1]).toMatchObject({
      frontId: "ahead near",
      revealsM: null,
    });
  });

  test("after dark only lit marks serve", () => {
    const marks = [
      mark("a", 90, 400, true),
      mark("b", 90, 2000, true),
      mark("c", 270, 300),
      mark("d", 270, 2000),
    ];
    const night = pickTransits({ ...base, marks, night: true });
    expect(night.transits.map((t) => t.frontId)).toEqual(["a"]);
    expect(night.cautions).toContain("unlit");
    expect(pickTransits({ ...base, marks }).transits.length).toBe(2);
  });

  test("marks too near, too close together or out of sight do not serve", () => {
    const none = (marks: Parameters<typeof pickTransits>[0]["marks"]) => {
      expect(pickTransits({ ...base, marks })).toMatchObject({
        transits: [],
        cautions: ["noPair"],
      });
    };
    none([mark("a", 90, 100), mark("b", 90, 2000)]);
    none([mark("a", 90, 1800), mark("b", 90, 2000)]);
    none([mark("a", 90, 400), { ...mark("b", 90, 2000), rangeM: 1500 }]);
    none([mark("a", 90, 400), mark("b", 120, 2000)]);
    none([]);
  });

  test("without a heading she may lie anywhere, so the same pair reveals less", () => {
    const marks = [mark("a", 90, 400), mark("b", 90, 2000)];
    const known = pickTransits({ ...base, marks }).transits[0]!;
    const { transits, cautions } = pickTransits({
      marks,
      position: here,
      reachM: 40,
    });
    expect(cautions).toContain("noHeading");
    expect(transits[0]!.swingOpenDeg).toBeGreaterThan(known.swingOpenDeg);
    expect(transits[0]!.revealsM ?? Infinity).toBeGreaterThan(known.revealsM!);
  });
});

describe("check times", () => {
  test("each cause gives its moment, in order, within the stay", () => {
    const checks = checkTimes({
      stay,
      columns: {
        timeMs: [hours(0), hours(5), hours(9), hours(40)],
        depthM: [5, 3, 4, 1],
      },
      tideTurns: [
        { timeMs: hours(-1), heightM: 3, kind: "high" },
        { timeMs: hours(5.1), heightM: 1, kind: "low" },
        { timeMs: hours(11), heightM: 3, kind: "high" },
      ],
      streamTurns: [
        { timeMs: hours(2), kind: "slack" },
        { timeMs: hours(8), kind: "greatest", rateMps: 1, towardsDeg: 90 },
      ],
      wind: [
        { timeMs: hours(6), windMps: 6, windFromDeg: 350 },
        { timeMs: hours(7), windMps: 7, windFromDeg: 40 },
        { timeMs: hours(10), windMps: 12, windFromDeg: 45 },
      ],
      dark: [{ fromMs: hours(3), toMs: hours(13) }],
      turningInMs: hours(4),
    });
    const got = checks.map((c) => [(c.timeMs - START) / HOUR, ...c.causes]);
    expect(got).toEqual([
      [0.5, "afterSetting"],
      [2, "slack"],
      [3, "nightfall"],
      [4, "turningIn"],
      [5, "leastDepth", "lowWater"],
      [7, "windShift"],
      [8, "greatestStream"],
      [10, "windRise"],
      [11, "highWater"],
      [13, "daybreak"],
    ]);
    for (const c of checks) expect(c.look.length).toBeGreaterThan(0);
  });

  test("a shift in light airs, or one slower than three hours, is none", () => {
    const wind = (windMps: number, apart: number) => [
      { timeMs: hours(2), windMps, windFromDeg: 0 },
      { timeMs: hours(2 + apart), windMps, windFromDeg: 90 },
    ];
    const causes = (windMps: number, apart: number) =>
      checkTimes({ stay, wind: wind(windMps, apart) }).flatMap((c) => c.causes);
    expect(causes(6, 1)).toContain("windShift");
    expect(causes(2, 1)).not.toContain("windShift");
    expect(causes(6, 10)).not.toContain("windShift");
  });

  test("a shift between rows six hours apart is looked at as it comes on", () => {
    const wind = [
      { timeMs: hours(0), windMps: 5, windFromDeg: 320 },
      { timeMs: hours(6), windMps: 14, windFromDeg: 20 },
    ];
    const at = (cause: string) =>
      checkTimes({ stay, wind })
        .filter((c) => c.causes.includes(cause as never))
        .map((c) => (c.timeMs - START) / HOUR);
    expect(at("windShift")).toEqual([3, 6]);
    expect(at("windRise")).toEqual([3, 6]);
  });
});

describe("rota", () => {
  const dark = [{ fromMs: hours(4), toMs: hours(10) }];

  test("the stay is covered without a gap, in equal watches, nobody twice running", () => {
    for (const count of [2, 3, 4, 5]) {
      const crew = Array.from({ length: count }, (_, i) => `hand ${i + 1}`);
      const { watches, shares } = watchRota({ crew, stay, dark });
      expect(watches[0]!.fromMs).toBe(stay.fromMs);
      expect(watches.at(-1)!.toMs).toBe(stay.toMs);
      watches.forEach((w, i) => {
        const before = watches[i - 1];
        if (before === undefined) return;
        expect(w.fromMs).toBe(before.toMs);
        expect(w.who).not.toBe(before.who);
        expect(w.toMs - w.fromMs).toBeLessThanOrEqual(3 * HOUR + 1);
      });
      const on = shares.map((s) => s.onWatchMs);
      expect(Math.max(...on) - Math.min(...on)).toBeLessThan(watches.length);
      // The dark shared to within one watch.
      const night = shares.map((s) => s.darkMs);
      const length = watches[0]!.toMs - watches[0]!.fromMs;
      expect(Math.max(...night) - Math.min(...night)).toBeLessThanOrEqual(length + 1);
      expect(night.reduce((s, v) => s + v, 0)).toBe(6 * HOUR);
    }
  });

  test("every check falls in one watch, and the skipper's orders stand", () => {
    const checks = checkTimes({ stay, dark });
    const rota = watchRota({
      crew: ["skipper", "mate", "cook"],
      stay,
      checks,
      callAt: { distanceM: 44, windMps: 12 },
    });
    const all = rota.watches.flatMap((w) => w.checks.map((c) => c.timeMs));
    expect(all).toEqual(checks.map((c) => c.timeMs));
    expect(rota.callWhen[0]).toEqual({ when: "distanceOver", valueM: 44 });
    expect(rota.callWhen.map((c) => c.when)).toContain("inDoubt");
  });

  test("one alone is told so; a name twice is refused", () => {
    expect(watchRota({ crew: ["skipper"], stay }).cautions).toEqual(["oneAlone"]);
    expect(() => watchRota({ crew: ["mate", "mate"], stay })).toThrow(InputError);
  });
});
