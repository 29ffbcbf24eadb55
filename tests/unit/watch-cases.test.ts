import { describe, expect, test } from "vitest";
import { type WatchEvent, checkTimes, judgeSet, pickTransits } from "../../src/watch/index.js";
import { InputError } from "../../src/core/errors.js";

/**
 * Cases by hand and by other roads: metres to degrees by the series of the meridian and the parallel
 * (WGS 84), openings by the cosine rule, rules of common practice counted out.
 */
const LAT = 50;
const rad = (deg: number) => (deg * Math.PI) / 180;
const M_PER_LAT = 111_132.92 - 559.82 * Math.cos(rad(2 * LAT)) + 1.175 * Math.cos(rad(4 * LAT));
const M_PER_LON = 111_412.84 * Math.cos(rad(LAT)) - 93.5 * Math.cos(rad(3 * LAT));
const at = (eastM: number, northM: number) => ({
  latDeg: LAT + northM / M_PER_LAT,
  lonDeg: eastM / M_PER_LON,
});

const HOUR = 3_600_000;
const START = Date.UTC(2026, 9, 24, 20);

/** A pull astern, heading north: way made to the south at each second. */
function pulled(seconds: number, wayM: (s: number) => number, sigmaM = 0.5): WatchEvent[] {
  const events: WatchEvent[] = [
    { kind: "engine", timeMs: START, engine: "astern" },
    { kind: "heading", timeMs: START, headingDeg: 0 },
  ];
  for (let s = 0; s <= seconds; s++)
    events.push({
      kind: "fix",
      timeMs: START + s * 1000,
      // Some centimetres of restlessness, so that no receiver seems to have stopped.
      ...at(0.02 * Math.sin(2.3 * s), -wayM(s) + 0.02 * Math.cos(1.7 * s)),
      sigmaM,
    });
  return events;
}
const verdict = (events: WatchEvent[], limitMps = 0.1) => judgeSet({ events, limitMps });
const settling = (s: number) => 5 * (1 - Math.exp(-s / 6));

describe("the pull astern, by hand", () => {
  test("five metres of settling that die away hold; the same and a drag drag", () => {
    const held = verdict(pulled(90, settling));
    expect(held.verdict).toBe("holds");
    expect(held.settledM).toBeCloseTo(5, 1);
    const dragged = verdict(pulled(90, (s) => settling(s) + 0.3 * s));
    expect(dragged.verdict).toBe("drags");
    expect(dragged.speedMps).toBeCloseTo(0.3, 1);
  });

  test("an anchor that breaks out in the last seconds has not set", () => {
    for (const lastsS of [15, 20, 30]) {
      const late = pulled(120, (s) => settling(s) + 0.6 * Math.max(0, s - (120 - lastsS)));
      expect(verdict(late).verdict).toBe("drags");
    }
  });

  test("what is said to be excluded is more than what she did, whatever she did", () => {
    for (const mps of [0, 0.02, 0.05, 0.09, 0.15, 0.4]) {
      const { verdict: said, leastSpeedExcludedMps } = verdict(pulled(120, (s) => mps * s));
      expect(leastSpeedExcludedMps!).toBeGreaterThan(mps);
      if (mps >= 0.1) expect(["drags", "cannotTell"]).toContain(said);
      else expect(said).not.toBe("drags");
    }
  });

  test("a receiver that has stopped shows no holding", () => {
    const stopped = pulled(120, settling).map((e) =>
      e.kind === "fix" && e.timeMs >= START + 20_000 ? { ...e, ...at(0, -5) } : e,
    );
    const said = verdict(stopped);
    expect(said.verdict).toBe("cannotTell");
    expect(said.longerS).not.toBeNull();
  });

  test("fixes that scatter are worth no more than their scatter, whatever they state", () => {
    const scattered = (sizeM: number) =>
      verdict(pulled(60, (s) => settling(s) + sizeM * Math.sin(s * s)));
    expect(scattered(0).verdict).toBe("holds");
    const poor = scattered(8);
    expect(poor.verdict).toBe("cannotTell");
    expect(poor.leastSpeedExcludedMps!).toBeGreaterThan(2 * scattered(0).leastSpeedExcludedMps!);
  });

  test("a heading from before the pull, or after it, is not the heading of the pull", () => {
    const drag = pulled(90, (s) => 0.4 * s);
    const turned: WatchEvent[] = [
      { kind: "heading", timeMs: START - 60_000, headingDeg: 90 },
      ...drag,
      { kind: "engine", timeMs: START + 91_000, engine: "stopped" },
      { kind: "heading", timeMs: START + 200_000, headingDeg: 270 },
    ];
    expect(verdict(turned).verdict).toBe("drags");
    expect(judgeSet({ events: [...turned].reverse() })).toEqual(judgeSet({ events: turned }));
  });

  test("a compass the wrong way round makes no drag hold", () => {
    const wrong = pulled(90, (s) => 0.4 * s).map((e) =>
      e.kind === "heading" ? { ...e, headingDeg: 180 } : e,
    );
    expect(verdict(wrong).verdict).toBe("cannotTell");
  });

  test("an engine that never goes astern, or only for a moment, proves nothing", () => {
    const none = pulled(120, () => 0).filter((e) => e.kind !== "engine");
    expect(verdict(none).verdict).toBe("cannotTell");
    const short = [
      ...pulled(120, () => 0),
      { kind: "engine", timeMs: START + 12_000, engine: "stopped" } as const,
    ];
    expect(verdict(short)).toMatchObject({ verdict: "cannotTell", asternS: 12 });
  });

  test("the worse the reception, the longer is asked for", () => {
    const asked = [0.5, 1.5, 3, 6, 12].map(
      (sigmaM) => judgeSet({ events: pulled(20, settling, sigmaM) }).longerS ?? 0,
    );
    expect([...asked].sort((a, b) => a - b)).toEqual(asked);
    expect(asked[4]!).toBeGreaterThan(4 * asked[1]!);
  });

  test("not-numbers are refused", () => {
    const bad = { kind: "fix", timeMs: START, latDeg: NaN, lonDeg: 0 } as WatchEvent;
    expect(() => judgeSet({ events: [bad] })).toThrow(InputError);
    expect(() => judgeSet({ events: [], limitMps: NaN })).toThrow(InputError);
  });
});

describe("transits, by the cosine rule", () => {
  /** Angle at (x, y) between two marks, degrees, never negative. */
  const angle = (x: number, y: number, a: number[], b: number[]) => {
    const [da, db] = [Math.hypot(a[0]! - x, a[1]! - y), Math.hypot(b[0]! - x, b[1]! - y)];
    const c = Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!);
    return Math.acos(Math.min(1, (da * da + db * db - c * c) / (2 * da * db))) / rad(1);
  };
  const pick = (front: number[], back: number[], more = {}) =>
    pickTransits({
      marks: [
        { id: "front", position: at(front[0]!, front[1]!) },
        { id: "back", position: at(back[0]!, back[1]!) },
      ],
      position: at(0, 0),
      headingDeg: 0,
      reachM: 40,
      swingDeg: 25,
      ...more,
    });

  test.each([
    [
      [500, 0],
      [1500, 0],
    ],
    [
      [-420, 0],
      [-2600, 0],
    ],
    [
      [350, 350],
      [1600, 1600],
    ],
    [
      [-300, 500],
      [-1200, 2000],
    ],
  ])("in line at %j and %j: swing and drag that open them", (front, back) => {
    const t = pick(front, back).transits[0]!;
    // A parallel bends from the straight line by 0.2 m in 1,500 m, a hundredth of a degree.
    expect(Math.abs(t.openDeg)).toBeLessThan(0.02);
    // She heads north with the anchor 40 m ahead: on the arc about it, 25 degrees to either side.
    let swing = 0;
    for (let deg = -25; deg <= 25; deg += 0.5)
      swing = Math.max(
        swing,
        angle(40 * Math.sin(rad(deg)), 40 - 40 * Math.cos(rad(deg)), front, back),
      );
    expect(Math.abs(t.swingOpenDeg - swing)).toBeLessThan(0.02);
    // Drag straight south until they have opened half a degree more.
    let drag = 0;
    while (angle(0, -drag, front, back) <= swing + 0.5) drag += 0.01;
    expect(Math.abs(t.revealsM! - drag)).toBeLessThan(0.3 + 0.02 * drag);
  });

  test("what a drag opens depends on its part square to the line only", () => {
    const t = pick([500, 0], [1500, 0]).transits[0]!;
    // A metre square to the line is 1/500 - 1/1500 of a radian.
    expect(t.metresPerDegree).toBeCloseTo(rad(1) / (1 / 500 - 1 / 1500), 2);
    // 45 degrees off, a drag astern shows in 0.707 of itself; the swing shows as well.
    const oblique = pick([354, 354], [1061, 1061]).transits[0]!;
    expect(oblique.revealsM!).toBeGreaterThan(t.revealsM! * 1.3);
  });

  test("marks in line ahead or astern, with the boat and her anchor, reveal no drag", () => {
    for (const side of [1, -1]) {
      const { transits, cautions } = pick([0, 500 * side], [0, 1500 * side]);
      expect(transits[0]!.revealsM).toBeNull();
      expect(cautions).toContain("noneReveals");
    }
  });

  test("one mark, none, and the same place twice make no pair", () => {
    const one = { id: "a", position: at(500, 0) };
    for (const marks of [[], [one], [one, { ...one, id: "b" }]])
      expect(
        pickTransits({ marks, position: at(0, 0), headingDeg: 0, reachM: 40 }).cautions,
      ).toContain("noPair");
    const nowhere = { id: "b", position: { latDeg: NaN, lonDeg: 0 } };
    expect(() => pickTransits({ marks: [one, nowhere], position: at(0, 0), reachM: 40 })).toThrow(
      InputError,
    );
  });

  test("more swing never reveals a smaller drag", () => {
    const reveals = [0, 10, 20, 40, 80, 180].map(
      (swingDeg) => pick([500, 30], [1500, 60], { swingDeg }).transits[0]!.revealsM ?? Infinity,
    );
    expect([...reveals].sort((a, b) => a - b)).toEqual(reveals);
  });
});

describe("check times, as common practice counts them", () => {
  const stay = { fromMs: START, toMs: START + 14 * HOUR };
  const h = (n: number) => START + n * HOUR;

  test("a night with everything in it, over midnight and the end of summer time", () => {
    const checks = checkTimes({
      stay,
      tideTurns: [
        { timeMs: h(4), heightM: 0.4, kind: "low" },
        { timeMs: h(10.2), heightM: 3.1, kind: "high" },
      ],
      streamTurns: [{ timeMs: h(5), kind: "slack" }],
      wind: [
        { timeMs: h(0), windMps: 6, windFromDeg: 200 },
        { timeMs: h(6), windMps: 6, windFromDeg: 210 },
        { timeMs: h(7), windMps: 7, windFromDeg: 280 },
      ],
      dark: [{ fromMs: h(-1), toMs: h(11) }],
      turningInMs: h(2),
      columns: { timeMs: [h(0), h(4), h(8)], depthM: [5, 3.2, null] },
    });
    const expected: [number, string[]][] = [
      [0.5, ["afterSetting"]],
      [2, ["turningIn"]],
      [4, ["leastDepth", "lowWater"]],
      [5, ["slack"]],
      [7, ["windShift"]],
      [10.2, ["highWater"]],
      [11, ["daybreak"]],
    ];
    expect(checks.map((c) => [(c.timeMs - START) / HOUR, [...c.causes].sort()])).toEqual(expected);
  });

  test("no forecast, no tide, no dark: she is still looked at after setting", () => {
    expect(checkTimes({ stay }).map((c) => c.causes)).toEqual([["afterSetting"]]);
    const blank = { timeMs: [h(1)], depthM: [null] };
    expect(checkTimes({ stay, columns: blank }).map((c) => c.causes)).toEqual([["afterSetting"]]);
  });

  test("a shift by small steps counts once it is great enough; through a calm as well", () => {
    const causes = (wind: [number, number, number][]) =>
      checkTimes({
        stay,
        wind: wind.map(([hour, windMps, windFromDeg]) => ({
          timeMs: h(hour),
          windMps,
          windFromDeg,
        })),
      }).filter((c) => c.causes.includes("windShift"));
    expect(
      causes([
        [1, 6, 350],
        [2, 6, 5],
        [3, 6, 20],
        [4, 6, 25],
      ]).map((c) => (c.timeMs - START) / HOUR),
    ).toEqual([3]);
    expect(
      causes([
        [1, 6, 350],
        [2, 1, 100],
        [3, 6, 170],
      ]).map((c) => (c.timeMs - START) / HOUR),
    ).toEqual([3]);
  });

  test("wind out of order is refused, as not-numbers are", () => {
    const row = (hour: number, windMps: number) => ({ timeMs: h(hour), windMps, windFromDeg: 0 });
    expect(() => checkTimes({ stay, wind: [row(3, 5), row(1, 5)] })).toThrow(InputError);
    expect(() => checkTimes({ stay, wind: [row(1, NaN)] })).toThrow(InputError);
  });
});
