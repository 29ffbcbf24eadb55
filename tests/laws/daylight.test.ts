import * as Astronomy from "astronomy-engine";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { darkness, nextSunEvent, sunEvents } from "../../src/daylight/index.js";
import { reportRows, type Measured } from "../checks/harness.js";

const HOUR = 3_600_000;
const place = (most: number) =>
  fc.record({
    latDeg: fc.double({ min: -most, max: most, noNaN: true }),
    lonDeg: fc.double({ min: -180, max: 180, noNaN: true }),
  });
const stay = fc
  .record({
    fromMs: fc.integer({
      min: Date.UTC(1950, 0, 1),
      max: Date.UTC(2080, 0, 1),
    }),
    hours: fc.double({ min: 0, max: 120, noNaN: true }),
  })
  .map(({ fromMs, hours }) => ({
    fromMs,
    toMs: fromMs + Math.round(hours * HOUR),
  }));

describe("dark hours", () => {
  test("each darkness lies within the one before; JSON-safe; within the stay", () => {
    fc.assert(
      fc.property(place(90), stay, (position, s) => {
        const dark = darkness({ position, stay: s });
        expect(JSON.parse(JSON.stringify(dark))).toEqual(dark);
        const all = [
          dark.sunsetToSunrise,
          dark.beyondCivil,
          dark.beyondNautical,
          dark.beyondAstronomical,
        ];
        all.forEach((d, i) => {
          if (i > 0) expect(d.totalMs).toBeLessThanOrEqual(all[i - 1]!.totalMs);
          for (const x of d.intervals) {
            expect(x.fromMs).toBeGreaterThanOrEqual(s.fromMs);
            expect(x.toMs).toBeLessThanOrEqual(s.toMs);
            if (i > 0)
              expect(
                all[i - 1]!.intervals.some((y) => y.fromMs <= x.fromMs && y.toMs >= x.toMs),
              ).toBe(true);
          }
        });
      }),
    );
  });
  test("events are the ends of the dark hours", () => {
    fc.assert(
      fc.property(place(85), stay, (position, s) => {
        const ends = darkness({ position, stay: s })
          .sunsetToSunrise.intervals.flatMap((i) => [i.fromMs, i.toMs])
          .filter((t) => t > s.fromMs && t < s.toMs);
        const events = sunEvents({ position, stay: s })
          .filter((e) => e.kind.startsWith("sun") && e.timeMs > s.fromMs && e.timeMs < s.toMs)
          .map((e) => e.timeMs);
        expect(events).toEqual(ends);
      }),
    );
  });
  test("a longitude and the same longitude less 360 see the same sun", () => {
    fc.assert(
      fc.property(place(80), stay, ({ latDeg, lonDeg }, s) => {
        const east = sunEvents({
          position: { latDeg, lonDeg: Math.abs(lonDeg) },
          stay: s,
        });
        const west = sunEvents({
          position: { latDeg, lonDeg: Math.abs(lonDeg) - 360 },
          stay: s,
        });
        expect(west.map((e) => e.kind)).toEqual(east.map((e) => e.kind));
        west.forEach((e, i) => {
          expect(Math.abs(e.timeMs - east[i]!.timeMs)).toBeLessThanOrEqual(50);
        });
      }),
    );
  });
});

describe("next event", () => {
  // The trap of day-based tables: no event may be skipped or doubled by the hour of asking.
  test("does not depend on the hour of asking: from just before each event, that event is next", () => {
    fc.assert(
      fc.property(place(64), stay, (position, s) => {
        for (const e of sunEvents({ position, stay: s }).slice(0, 6)) {
          const next = nextSunEvent({
            position,
            afterMs: e.timeMs - 1000,
            kind: e.kind,
          });
          expect(next.occurs && Math.abs(next.timeMs - e.timeMs)).toBeLessThanOrEqual(50);
        }
      }),
      { numRuns: 40 },
    );
  });
});

const REFERENCE = {
  sunset: { altitude: null, rising: false },
  civilDusk: { altitude: -6, rising: false },
  nauticalDawn: { altitude: -12, rising: true },
} as const;

/** Next passage by an independent ephemeris; its own rule of refraction and half breadth for sunset. */
function reference(
  [lat, lon]: readonly [number, number],
  afterMs: number,
  kind: keyof typeof REFERENCE,
): number | null {
  const { altitude, rising } = REFERENCE[kind];
  const observer = new Astronomy.Observer(lat, lon, 0);
  const [way, from] = [rising ? 1 : -1, new Date(afterMs)];
  const found =
    altitude === null
      ? Astronomy.SearchRiseSet(Astronomy.Body.Sun, observer, way, from, 1)
      : Astronomy.SearchAltitude(Astronomy.Body.Sun, observer, way, from, 1, altitude);
  return found ? found.date.getTime() : null;
}

test("against an independent ephemeris over a grid of years, the year and the globe", () => {
  const measured: Measured[] = [];
  for (const kind of ["sunset", "civilDusk", "nauticalDawn"] as const)
    for (const year of [1990, 2026, 2050])
      for (const latDeg of [-75, -60, -40, -10, 0, 25, 50, 58, 65, 70, 78])
        for (const lonDeg of [-170, -60, 5, 166])
          for (let month = 0; month < 12; month++) {
            const afterMs = Date.UTC(year, month, 4 + month, 3 * (month % 8));
            const ours = nextSunEvent({
              position: { latDeg, lonDeg },
              afterMs,
              kind,
              withinMs: 24 * HOUR,
            });
            const theirs = reference([latDeg, lonDeg], afterMs, kind);
            expect(ours.occurs, `${kind} ${year} ${latDeg} ${lonDeg} ${month}`).toBe(
              theirs !== null,
            );
            if (ours.occurs && theirs !== null)
              measured.push({
                quantity: `sun: ${kind} against an ephemeris`,
                got: ours.timeMs / 1000,
                expected: theirs / 1000,
                tolerance: 6,
                unit: "s",
              });
          }
  reportRows(
    "sun-ephemeris",
    "astronomy-engine 2.1.19, SearchRiseSet and SearchAltitude",
    measured,
  );
  for (const m of measured)
    expect(Math.abs((m.got as number) - (m.expected as number))).toBeLessThanOrEqual(m.tolerance!);
  expect(measured.length).toBeGreaterThan(3000);
});
