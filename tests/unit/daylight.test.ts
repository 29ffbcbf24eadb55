import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import { utc } from "../../src/core/time.js";
import { darkness, nextSunEvent, sunEvents } from "../../src/daylight/index.js";

const HOUR = 3_600_000;

describe("the solar day near the date line", () => {
  // A day-based table gives two instants of one UTC day at 166 E different days.
  test("asked at noon and at six in the evening UTC, the same next sunrise comes", () => {
    const position = { latDeg: -20, lonDeg: 166 };
    const noon = utc("2026-03-20T12:00Z");
    const ask = (afterMs: number) => nextSunEvent({ position, afterMs, kind: "sunrise" });
    const a = ask(noon);
    expect(a.occurs && a.timeMs - noon > 6 * HOUR && a.timeMs - noon < 8 * HOUR).toBe(true);
    const b = ask(noon + 6 * HOUR);
    expect(b.occurs && a.occurs && Math.abs(b.timeMs - a.timeMs)).toBeLessThanOrEqual(50);
  });
});

describe("high latitude", () => {
  const at = (latDeg: number) => ({ latDeg, lonDeg: 0 });
  const midsummer = utc("2026-06-21T12:00Z");
  test("three-valued: the sun stays above, stays below, or the event occurs", () => {
    const sunset = (latDeg: number, afterMs: number) =>
      nextSunEvent({ position: at(latDeg), afterMs, kind: "sunset" });
    expect(sunset(70, midsummer)).toEqual({ occurs: false, sun: "staysAbove" });
    expect(sunset(70, utc("2026-12-21T12:00Z"))).toEqual({
      occurs: false,
      sun: "staysBelow",
    });
    expect(sunset(60, midsummer).occurs).toBe(true);
  });
  test("a stay of one long night has a single dark interval", () => {
    const stay = {
      fromMs: utc("2026-12-01T00:00Z"),
      toMs: utc("2026-12-20T00:00Z"),
    };
    const dark = darkness({ position: at(80), stay });
    expect(dark.sunsetToSunrise).toEqual({
      state: "throughout",
      intervals: [stay],
      totalMs: stay.toMs - stay.fromMs,
    });
  });
  test("at the pole the sun sets once a year", () => {
    const stay = {
      fromMs: utc("2026-01-01T00:00Z"),
      toMs: utc("2026-12-31T00:00Z"),
    };
    const events = sunEvents({ position: at(90), stay });
    expect(events.filter((e) => e.kind.startsWith("sun")).map((e) => e.kind)).toEqual([
      "sunrise",
      "sunset",
    ]);
  });
  test("a night of minutes between two hours is not stepped over", () => {
    // Where the sun dips least at midnight in June: search the latitude of a night under half an hour.
    const stay = {
      fromMs: utc("2026-06-21T18:00Z"),
      toMs: utc("2026-06-22T06:00Z"),
    };
    const nightAt = (latDeg: number) =>
      darkness({ position: { latDeg, lonDeg: 7 }, stay }).sunsetToSunrise;
    let [dark, light] = [65, 66];
    for (let i = 0; i < 40; i++) {
      const mid = (dark + light) / 2;
      if (nightAt(mid).state === "never") light = mid;
      else dark = mid;
    }
    const night = nightAt(dark - 1e-5);
    expect(night.intervals).toHaveLength(1);
    expect(night.totalMs).toBeLessThan(0.5 * HOUR);
    // Nor where the stay begins or ends just beside it.
    const { fromMs, toMs } = night.intervals[0]!;
    for (const before of [1000, 0.5 * HOUR, 5 * HOUR])
      for (const after of [1000, 0.5 * HOUR, 5 * HOUR]) {
        const beside = { fromMs: fromMs - before, toMs: toMs + after };
        const found = darkness({ position: { latDeg: dark - 1e-5, lonDeg: 7 }, stay: beside });
        expect(found.sunsetToSunrise.intervals).toHaveLength(1);
      }
  });
});

test("an instant has its darkness too", () => {
  const at = utc("2026-01-01T00:00Z");
  const dark = darkness({
    position: { latDeg: 50, lonDeg: 0 },
    stay: { fromMs: at, toMs: at },
  });
  expect(dark.sunsetToSunrise.state).toBe("throughout");
});

test.each([
  [{ latDeg: 91, lonDeg: 0 }],
  [{ latDeg: NaN, lonDeg: 0 }],
  [{ latDeg: 0, lonDeg: 400 }],
])("refuses %j", (position) => {
  expect(() => sunEvents({ position, stay: { fromMs: 0, toMs: 1 } })).toThrow(InputError);
});
