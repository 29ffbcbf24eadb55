import { describe, expect, test } from "vitest";
import { utc } from "../../src/core/time.js";
import { knots } from "../../src/core/units.js";
import { destination, distance } from "../../src/geo/index.js";
import { briefText, planStay, type StayInput } from "../../src/plan/index.js";
import { secondaryTurns } from "../../src/tide/index.js";
import { startWatch, stepWatch } from "../../src/watch/index.js";

// The whole stay and the watch where maps and calendars have their seams.

const HOUR = 3_600_000;
const DAY = 24 * HOUR;

/** A stay of fifteen hours from 17:00 UTC of a day, at a place. */
function stayAt(latDeg: number, lonDeg: number, day = "2026-06-16"): StayInput {
  const from = utc(`${day}T17:00Z`);
  const at = (h: number) => from + h * HOUR;
  return {
    position: { latDeg, lonDeg },
    stay: { fromMs: at(1), toMs: at(15) },
    vessel: { kind: "yacht", lengthM: 10, draughtM: 1.7 },
    tackle: {
      anchor: { type: "rollBarScoop", massKg: 20 },
      rode: [{ kind: "chain", diameterMm: 8, lengthM: 50 }],
    },
    chartedDepthM: 2.2,
    seabed: "S",
    tide: {
      kind: "turns",
      datum: "LAT",
      turns: [3.9, 0.6, 4.1, 0.5].map((heightM, i) => ({ timeMs: at(6.2 * i), heightM })),
    },
    stream: { kind: "steady", rateMps: 0.3, towardsDeg: 80 },
    forecast: {
      rows: [8, 10, 22, 24].map((kn, i) => ({
        timeMs: at(i === 3 ? 16 : 6 * i),
        windMps: knots(kn),
        windFromDeg: [200, 210, 290, 300][i]!,
      })),
    },
    neighbours: [
      {
        name: "her neighbour",
        vessel: { kind: "yacht", lengthM: 11 },
        position: destination({ from: { latDeg, lonDeg }, bearingDeg: 90, distanceM: 160 }),
      },
    ],
  };
}

/** What of a plan hangs on neither place nor date. */
const essence = (plan: ReturnType<typeof planStay>, from: number) => ({
  verdict: plan.verdict,
  unknown: plan.unknown,
  lengthOutM: plan.rode.lengthOutM,
  depthM: plan.limiting.depth.value?.toFixed(6),
  holding: plan.limiting.holding.value?.toFixed(6),
  roomM: plan.limiting.room.value?.toFixed(2),
  danger: plan.danger.atMs === null ? null : Math.round((plan.danger.atMs - from) / 60_000),
  reasons: plan.reasons
    .filter((r) => !/dark|light|night/i.test(r.code))
    .map((r) => `${r.severity} ${r.code}`),
});
const essenceAt = (latDeg: number, lonDeg: number, day?: string) => {
  const stay = stayAt(latDeg, lonDeg, day);
  return essence(planStay(stay), stay.stay.fromMs);
};

describe("a whole stay", () => {
  test.each([180, -180, 179.9995, -179.9995])("at longitude %s", (lonDeg) => {
    expect(essenceAt(20, lonDeg)).toEqual(essenceAt(20, 10));
  });

  test.each([0, 80, -80, -47])(
    "at latitude %s the room and the rode are what they are elsewhere",
    (latDeg) => {
      expect(essenceAt(latDeg, 10)).toEqual(essenceAt(20, 10));
    },
  );

  test.each(["2028-02-28", "2028-02-29", "2026-03-28", "2026-10-24", "2026-12-31"])(
    "over the night of %s: leap day, change of the clocks, turn of the year",
    (day) => {
      expect(essenceAt(20, 10, day)).toEqual(essenceAt(20, 10));
    },
  );

  test("in polar night the brief names no sunset and no hour that is none", () => {
    const plan = planStay(stayAt(80, 15, "2026-12-20"));
    expect(plan.danger.atMs === null || Number.isFinite(plan.danger.atMs)).toBe(true);
    const text = briefText(plan);
    expect(text).not.toMatch(/NaN|undefined|Invalid/);
    expect(text).not.toMatch(/sunset \d/i);
  });

  test("hours of the brief are the clock aboard, on either side of UTC's midnight", () => {
    const stay = stayAt(-38, 175);
    const hoursOf = (zoneOffsetMinutes: number) =>
      /(\d\d):(\d\d)/.exec(briefText(planStay({ ...stay, zoneOffsetMinutes })))![0];
    const minutesOf = (clock: string) => {
      const [h, m] = clock.split(":").map(Number);
      return h! * 60 + m!;
    };
    const plain = minutesOf(hoursOf(0));
    for (const zone of [720, 780, -660, 345])
      expect((minutesOf(hoursOf(zone)) - plain - zone + 2 * 1440) % 1440).toBe(0);
  });
});

describe("the watch", () => {
  /** Distance and mode after an hour of swinging 40 m to the east of the anchor, or dragging on eastward. */
  function watched(lonDeg: number, dragMPerMin: number) {
    const startMs = utc("2026-12-31T23:30Z");
    const anchor = { latDeg: -17, lonDeg };
    let state = startWatch({
      startMs,
      anchor: { known: true, position: anchor, sigmaM: 3 },
      limits: {
        rows: [{ timeMs: startMs, greatestDistanceM: 45, leastDepthM: null, greatestDepthM: null }],
        distanceSigmaM: 1,
      },
    });
    for (let s = 0; s < 3600; s += 10) {
      const distanceM = 40 + (dragMPerMin * s) / 60;
      const place = destination({
        from: anchor,
        bearingDeg: 90 + 5 * Math.sin(s / 200),
        distanceM,
      });
      state = stepWatch(state, {
        kind: "fix",
        timeMs: startMs + s * 1000,
        ...place,
        sigmaM: 2,
      }).state;
    }
    return { mode: state.report.mode, alarms: state.report.alarms.map((a) => a.code) };
  }
  test.each([0, 4])(
    "swings or drags over the antimeridian and the turn of the year as elsewhere, %d m a minute",
    (drag) => {
      const elsewhere = watched(20, drag);
      expect(elsewhere.alarms).toEqual(drag > 0 ? ["drag"] : []);
      for (const lonDeg of [179.9999, 180, -180, -179.9999])
        expect(watched(lonDeg, drag)).toEqual(elsewhere);
    },
  );
});

test("a neighbour over the antimeridian is as far as she is", () => {
  const here = { latDeg: 20, lonDeg: 179.9995 };
  const there = destination({ from: here, bearingDeg: 90, distanceM: 160 });
  expect(there.lonDeg).toBeLessThan(0);
  expect(distance({ from: here, to: there }).distanceM).toBeCloseTo(160, 6);
});

test("differences are read in the zone of the table, whatever summer time the clocks keep", () => {
  const rows = [
    { hourOfDay: 0, differenceMs: 0 },
    { hourOfDay: 12, differenceMs: 60 * 60_000 },
  ];
  const shift = (text: string) => {
    const timeMs = utc(text);
    const [turn] = secondaryTurns([{ timeMs, heightM: 3, kind: "high" }], {
      tableZoneHours: 1,
      highTime: rows,
      lowTime: rows,
      highHeight: { ratio: 1 },
      lowHeight: { ratio: 1 },
    });
    return (turn!.timeMs - timeMs) / 60_000;
  };
  // 08:00 and 09:00 of summer time are 07:00 and 08:00 of the table, on the night the clocks change as on any other.
  expect(shift("2026-03-29T08:00+02:00")).toBeCloseTo(35, 9);
  expect(shift("2026-10-25T07:00+01:00")).toBeCloseTo(35, 9);
  expect(shift("2026-10-25T02:30+02:00")).toBeCloseTo(7.5, 9);
  expect(shift("2026-10-25T02:30+01:00")).toBeCloseTo(12.5, 9);
  expect(shift("2028-02-29T23:30Z") - shift("2028-03-01T23:30Z")).toBeCloseTo(0, 9);
  expect(DAY).toBe(utc("2028-03-01T00:00Z") - utc("2028-02-29T00:00Z"));
});
