import { expect, test } from "vitest";
import { check } from "../../src/core/check.js";
import { utc } from "../../src/core/time.js";
import { hours, minutes } from "../../src/core/units.js";
import { prepareHarmonic } from "../../src/tide/harmonic.js";
import { secondaryTurns } from "../../src/tide/index.js";
import { pieceAt } from "../../src/tide/knots.js";
import { constituentsSource } from "../../src/tide/source.js";

// Node factors of a year, differences round midnight and the piece of an instant, by their own definition.

test("node factors of a year are those of its own middle, the noon of 2 July", () => {
  const constituents = ["M2", "K1", "O1", "K2"].map((name) => ({
    name,
    amplitudeM: 15,
    phaseDeg: 0,
  }));
  const amplitudes = (nodes: "midYear" | "continuous", timeMs: number) => {
    const source = { kind: "constituents", constituents, meanLevelM: 0, datum: "LAT", nodes };
    const h = prepareHarmonic(check(constituentsSource, source as never), timeMs, timeMs);
    return Array.from(h.amp, (a, i) => a + h.ampRate[i]! * (timeMs - h.startMs));
  };
  for (const year of [2029, 2031]) {
    const middle = amplitudes("continuous", utc(`${year}-07-02T12:00Z`));
    for (const day of ["01-01", "07-02", "12-31"]) {
      const own = amplitudes("midYear", utc(`${year}-${day}T00:00Z`));
      own.forEach((a, i) => {
        expect(a).toBeCloseTo(middle[i]!, 4);
      });
    }
    // A year sooner they are others: centimetres in 15 m.
    const sooner = amplitudes("continuous", utc(`${year - 1}-07-02T12:00Z`));
    sooner.forEach((a, i) => {
      expect(Math.abs(a - middle[i]!)).toBeGreaterThan(0.02);
    });
  }
});

test("a time difference before the first hour of the table runs on from the last, over midnight", () => {
  const rows = [
    { hourOfDay: 3, differenceMs: minutes(40) },
    { hourOfDay: 9, differenceMs: 0 },
    { hourOfDay: 15, differenceMs: minutes(10) },
  ];
  const none = [{ hourOfDay: 0, differenceMs: 0 }];
  const day = utc("2026-06-01T00:00Z");
  const shift = (h: number) => {
    const timeMs = day + hours(h);
    const [turn] = secondaryTurns([{ timeMs, heightM: 3, kind: "high" }], {
      tableZoneHours: 0,
      highTime: rows,
      lowTime: none,
      highHeight: { ratio: 1 },
      lowHeight: { ratio: 1 },
    });
    return (turn!.timeMs - timeMs) / minutes(1);
  };
  // Twelve hours from 10 up to 40 minutes: two and a half a hour.
  expect([15, 18, 21, 24, 0, 1, 3].map(shift)).toEqual(
    [10, 17.5, 25, 32.5, 32.5, 35, 40].map((m) => expect.closeTo(m, 9) as number),
  );
});

test("the piece of an instant where the knots crowd at either end", () => {
  const early = Float64Array.from({ length: 40 }, (_, i) => i * i * i);
  const late = Float64Array.from(early, (_, i) => 39 * 39 * 39 - early[39 - i]!);
  for (const times of [early, late])
    for (const t of [...times].flatMap((k) => [k - 0.5, k, k + 0.5, k + 300])) {
      const inside = t >= 0 && t <= times[39]!;
      expect(pieceAt(times, t)).toBe(inside ? times.findLastIndex((k) => k <= t) : -1);
    }
});

test("the piece of an instant where the first look goes just past it", () => {
  // Steps that shrink and grow by turns put the knot looked at first a few places off either way.
  for (let seed = 1; seed < 40; seed++) {
    const steps = Array.from({ length: 60 }, (_, i) => 1 + ((i * seed) % 7));
    const times = Float64Array.from(steps, (_, i) => steps.slice(0, i).reduce((a, b) => a + b, 0));
    for (let t = 0; t <= times[59]!; t += 0.5)
      expect(pieceAt(times, t), `${seed} ${t}`).toBe(times.findLastIndex((k) => k <= t));
  }
});
