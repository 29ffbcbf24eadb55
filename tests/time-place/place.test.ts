import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import { utc } from "../../src/core/time.js";
import { anchoringAt, depthsIn, readChart } from "../../src/chart/index.js";
import { darkness, nextSunEvent, sunEvents } from "../../src/daylight/index.js";
import { destination, distance } from "../../src/geo/index.js";
import { signalsOver } from "../../src/signals/index.js";
import { swingCircle, swingGap } from "../../src/swing/index.js";
import { tideHeight, tideTurns, type TideSource } from "../../src/tide/index.js";

const HOUR = 3_600_000;
const DAY = 24 * HOUR;

/** One square of charted water, five to ten metres deep, with its south-west corner at a position. */
function squareChart(latDeg: number, lonDeg: number) {
  const wrapped = (lon: number) => (lon > 180 ? lon - 360 : lon);
  const corner = (dx: number, dy: number) => [wrapped(lonDeg + dx), latDeg + dy];
  const ring = [corner(0, 0), corner(0.01, 0), corner(0.01, 0.01), corner(0, 0.01), corner(0, 0)];
  const area = (properties: object) => ({
    type: "FeatureCollection",
    features: [{ type: "Feature", properties, geometry: { type: "Polygon", coordinates: [ring] } }],
  });
  return readChart(
    {
      M_COVR: area({ CATCOV: 1 }),
      M_QUAL: area({ CATZOC: 1 }),
      DEPARE: area({ DRVAL1: 5, DRVAL2: 10 }),
    },
    { soundingDatum: 23 },
  );
}

describe("across the antimeridian", () => {
  const [near, over] = [
    { latDeg: 10, lonDeg: 179.9995 },
    { latDeg: 10, lonDeg: -179.9995 },
  ];

  test("two names of the same meridian are the same place", () => {
    for (const latDeg of [0, 10, -45, 80])
      expect(
        distance({ from: { latDeg, lonDeg: 180 }, to: { latDeg, lonDeg: -180 } }).distanceM,
      ).toBe(0);
  });

  test("a short way over it is short, and leads east", () => {
    const { distanceM, bearingDeg } = distance({ from: near, to: over });
    const same = distance({ from: { latDeg: 10, lonDeg: 0 }, to: { latDeg: 10, lonDeg: 0.001 } });
    expect(distanceM).toBeCloseTo(same.distanceM, 6);
    expect(bearingDeg).toBeCloseTo(same.bearingDeg, 6);
    const there = destination({ from: near, bearingDeg: 90, distanceM });
    expect(distance({ from: there, to: over }).distanceM).toBeLessThan(0.01);
    expect(Math.abs(there.lonDeg)).toBeLessThanOrEqual(180);
  });

  test("a chart that lies across it answers as the same chart elsewhere", () => {
    const at = (lonDeg: number) => {
      const chart = squareChart(10, lonDeg);
      const middle = lonDeg + 0.005;
      const position = { latDeg: 10.005, lonDeg: middle > 180 ? middle - 360 : middle };
      const area = { centre: position, radiusM: 100 };
      return {
        verdict: anchoringAt(chart, area).verdict,
        least: depthsIn(chart, area).leastM,
      };
    };
    const elsewhere = at(-30);
    expect(elsewhere.verdict).toBe("clear");
    expect(at(179.995)).toEqual(elsewhere);
    expect(at(-180)).toEqual(elsewhere);
  });

  test("the gap between two rooms does not mind it", () => {
    const gap = (lonDeg: number) => {
      const room = (shift: number) => {
        const lon = lonDeg + shift;
        return {
          anchor: { latDeg: 10, lonDeg: lon > 180 ? lon - 360 : lon },
          vessel: { lengthM: 10, beamM: 3.4 },
          moments: [0, 90, 200].map((deg, i) => ({
            timeMs: i * HOUR,
            reachM: 30,
            pullTowardsDeg: deg,
            headingDeg: (deg + 180) % 360,
          })),
        };
      };
      return swingGap(room(0), room(0.001)).anyTime.leastGapM;
    };
    expect(gap(179.9995)).toBeCloseTo(gap(20), 3);
  });
});

describe("latitude", () => {
  test.each([0, 47, 80, -47, -80])("a swinging circle at %s is as wide as elsewhere", (latDeg) => {
    const circle = swingCircle({ anchor: { latDeg, lonDeg: 0 }, reachM: 40, lengthM: 12 });
    expect(circle.radiusM).toBeCloseTo(
      swingCircle({ anchor: { latDeg: 30, lonDeg: 0 }, reachM: 40, lengthM: 12 }).radiusM,
      9,
    );
  });

  test.each([0, 80, -38])("a chart at latitude %s", (latDeg) => {
    const chart = squareChart(latDeg - 0.005, 20);
    const area = { centre: { latDeg, lonDeg: 20.005 }, radiusM: 60 };
    expect(anchoringAt(chart, area).verdict).toBe("clear");
    expect(depthsIn(chart, area).leastM).toBe(5);
  });

  test("at the pole there is a direction for every bearing and no failure", () => {
    for (const latDeg of [90, -90]) {
      const there = destination({ from: { latDeg, lonDeg: 0 }, bearingDeg: 30, distanceM: 1000 });
      expect(distance({ from: { latDeg, lonDeg: 50 }, to: there }).distanceM).toBeCloseTo(1000, 6);
    }
  });
});

describe("the sun at the ends of the earth", () => {
  const stay = (from: string, days: number) => ({
    fromMs: utc(from),
    toMs: utc(from) + days * DAY,
  });

  test("polar night: dark throughout, no sunrise, and lights are owed all day", () => {
    const position = { latDeg: 80, lonDeg: 15 };
    const winter = stay("2026-12-20T00:00Z", 2);
    expect(darkness({ position, stay: winter }).sunsetToSunrise.state).toBe("throughout");
    expect(sunEvents({ position, stay: winter }).filter((e) => e.kind === "sunrise")).toEqual([]);
    expect(
      nextSunEvent({ position, afterMs: winter.fromMs, kind: "sunrise", withinMs: 20 * DAY }),
    ).toEqual({ occurs: false, sun: "staysBelow" });
    const { timeline } = signalsOver({
      vessel: { lengthM: 11 },
      position,
      stay: winter,
      nearTraffic: true,
    });
    expect(timeline.length).toBeGreaterThan(0);
    for (const span of timeline) expect(span.due.lights.length).toBeGreaterThan(0);
  });

  test("midnight sun in the other hemisphere on the same day", () => {
    const position = { latDeg: -80, lonDeg: 15 };
    const summer = stay("2026-12-20T00:00Z", 2);
    expect(darkness({ position, stay: summer }).sunsetToSunrise.state).toBe("never");
    expect(nextSunEvent({ position, afterMs: summer.fromMs, kind: "sunset" })).toEqual({
      occurs: false,
      sun: "staysAbove",
    });
  });

  test("at the equator day and night are nearly equal all year", () => {
    for (const month of [0, 2, 5, 8, 11]) {
      const from = Date.UTC(2026, month, 21);
      const dark = darkness({
        position: { latDeg: 0, lonDeg: 0 },
        stay: { fromMs: from, toMs: from + DAY },
      });
      // Refraction and the breadth of the sun take some seven minutes from the night.
      expect(Math.abs(dark.sunsetToSunrise.totalMs / HOUR - 11.88)).toBeLessThan(0.05);
    }
  });

  test("the seasons are turned round south of the equator", () => {
    const nightH = (latDeg: number, month: number) => {
      const from = Date.UTC(2026, month, 21);
      const { totalMs } = darkness({
        position: { latDeg, lonDeg: 0 },
        stay: { fromMs: from, toMs: from + DAY },
      }).sunsetToSunrise;
      return totalMs / HOUR;
    };
    expect(nightH(45, 5)).toBeLessThan(9);
    expect(nightH(-45, 5)).toBeGreaterThan(15);
    expect(nightH(-45, 5)).toBeCloseTo(nightH(45, 11), 1);
  });

  test("either side of the date line the sun sets within a minute, on whatever date that is", () => {
    const afterMs = utc("2026-06-01T00:00Z");
    const at = (lonDeg: number) =>
      nextSunEvent({ position: { latDeg: -20, lonDeg }, afterMs, kind: "sunset" });
    const [east, west] = [at(179.99), at(-179.99)];
    if (!east.occurs || !west.occurs) throw new Error("the sun sets in the tropics");
    expect(Math.abs(east.timeMs - west.timeMs)).toBeLessThan(60_000);
  });
});

describe("days that not every year or clock has", () => {
  const tide: TideSource = {
    kind: "constituents",
    constituents: [{ name: "M2", amplitudeM: 2, phaseDeg: 100 }],
    meanLevelM: 3,
    nodes: "continuous",
    datum: "LAT",
  };

  test("the leap day is a day like others", () => {
    expect(utc("2028-02-29T12:00Z") - utc("2028-02-28T12:00Z")).toBe(DAY);
    expect(() => utc("2027-02-29T12:00Z")).toThrow(InputError);
    expect(() => utc("2100-02-29T12:00Z")).toThrow(InputError);
    const stay = { fromMs: utc("2028-02-28T00:00Z"), toMs: utc("2028-03-02T00:00Z") };
    const gaps = tideTurns(tide, stay).map((t, i, all) =>
      i === 0 ? 6.21 * HOUR : t.timeMs - all[i - 1]!.timeMs,
    );
    expect(gaps.length).toBeGreaterThan(10);
    // Half the period of M2, 12.4206 h.
    for (const gap of gaps) expect(Math.abs(gap / HOUR - 6.2103)).toBeLessThan(0.02);
  });

  test("the tide does not jump where a year ends or clocks change", () => {
    for (const at of ["2026-12-31T23:59:59Z", "2026-03-29T00:59:59Z", "2026-10-25T00:59:59Z"]) {
      const [before, after] = [0, 2000].map((ms) => tideHeight(tide, utc(at) + ms));
      if (before?.known !== true || after?.known !== true) throw new Error("not known");
      // A metre and a half an hour at most, two seconds apart.
      expect(Math.abs(after.heightM - before.heightM)).toBeLessThan(0.001);
    }
  });

  test("an hour that a clock goes through twice is told by its offset", () => {
    expect(utc("2026-10-25T02:30+01:00") - utc("2026-10-25T02:30+02:00")).toBe(HOUR);
    expect(() => utc("2026-10-25T02:30")).toThrow(InputError);
  });
});
