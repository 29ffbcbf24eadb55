import { describe, expect, test } from "vitest";
import { utc } from "../../src/core/time.js";
import { nextSunEvent, sunEvents } from "../../src/daylight/index.js";

const position = { latDeg: 50, lonDeg: -4 };
const noon = utc("2026-06-01T12:00Z");
const DAY = 86_400_000;

describe("events of a night", () => {
  test("stand in the order in which the light goes and comes", () => {
    // 50 N in April: the sun sinks more than 18 degrees below the horizon, so all eight come.
    const stay = { fromMs: utc("2026-04-01T12:00Z"), toMs: utc("2026-04-02T12:00Z") };
    const events = sunEvents({ position, stay });
    expect(events.map((e) => e.kind)).toEqual([
      "sunset",
      "civilDusk",
      "nauticalDusk",
      "astronomicalDusk",
      "astronomicalDawn",
      "nauticalDawn",
      "civilDawn",
      "sunrise",
    ]);
    events.forEach((e, i) => {
      if (i > 0) expect(e.timeMs).toBeGreaterThan(events[i - 1]!.timeMs);
    });
  });
});

describe("the next of a kind", () => {
  test("asked at noon the next sunrise is not the sunset before it", () => {
    const set = nextSunEvent({ position, afterMs: noon, kind: "sunset" });
    const rise = nextSunEvent({ position, afterMs: noon, kind: "sunrise" });
    expect(set.occurs && rise.occurs && rise.timeMs > set.timeMs).toBe(true);
    const again = sunEvents({ position, stay: { fromMs: noon, toMs: noon + DAY } });
    for (const [kind, found] of [
      ["sunset", set],
      ["sunrise", rise],
    ] as const) {
      const listed = again.find((e) => e.kind === kind)!.timeMs;
      expect(found.occurs && Math.abs(found.timeMs - listed)).toBeLessThan(100);
    }
  });
  test("asked at the event itself, the next is a day later", () => {
    for (const kind of ["sunset", "sunrise", "civilDusk", "nauticalDawn"] as const) {
      const first = nextSunEvent({ position, afterMs: noon, kind });
      if (!first.occurs) throw new Error(kind);
      // Ask at the instant found and a few beside it: the same event must not come again from the instant on.
      for (let ms = 0; ms <= 100; ms++) {
        const next = nextSunEvent({ position, afterMs: first.timeMs + ms, kind });
        expect(next.occurs && next.timeMs).toBeGreaterThan(first.timeMs + ms);
      }
    }
  });
  test("an event just beyond the time looked at does not occur yet", () => {
    const set = nextSunEvent({ position, afterMs: noon, kind: "sunset" });
    if (!set.occurs) throw new Error("no sunset");
    const within = set.timeMs - noon;
    expect(
      nextSunEvent({ position, afterMs: noon, kind: "sunset", withinMs: within + 60_000 }).occurs,
    ).toBe(true);
    expect(
      nextSunEvent({ position, afterMs: noon, kind: "sunset", withinMs: within - 60_000 }),
    ).toEqual({ occurs: false, sun: "staysAbove" });
    // Waiting for the sun to rise from midnight on, it still lies below.
    const midnight = utc("2026-06-02T00:00Z");
    expect(
      nextSunEvent({ position, afterMs: midnight, kind: "sunrise", withinMs: 60_000 }),
    ).toEqual({ occurs: false, sun: "staysBelow" });
  });
});
