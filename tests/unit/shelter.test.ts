import { describe, expect, test } from "vitest";
import { feet } from "../../src/core/units.js";
import { InputError } from "../../src/core/errors.js";
import {
  diffractionAt,
  type FanInput,
  fetchFan,
  prepareCoast,
  rankShelter,
  shelter,
  type ShelterInput,
  swellAt,
  waveGrowth,
  windForce,
  windTo,
  windWaves,
} from "../../src/shelter/index.js";
import { onStream } from "../../src/shelter/stream.js";
import { hasSharedData, sharedJson } from "../shared-data.js";

const HOUR = 3_600_000;
const start = Date.UTC(2026, 5, 1, 18);
const bearingsDeg = Array.from({ length: 72 }, (_, i) => 5 * i);
const fanOf = (
  fetchM: (deg: number) => number,
  end: "coast" | "edge" | "limit" = "coast",
): FanInput => ({
  bearingsDeg,
  fetchM: bearingsDeg.map(fetchM),
  ends: bearingsDeg.map(() => end),
});
const steady = (
  fan: FanInput,
  more: Partial<ShelterInput> = {},
  windFromDeg = 0,
): ShelterInput => ({
  fan,
  stay: { fromMs: start, toMs: start + 4 * HOUR },
  forecast: {
    rows: [0, 4].map((h) => ({
      timeMs: start + h * HOUR,
      windMps: 8,
      windFromDeg,
    })),
  },
  ...more,
});
const codes = (result: { reasons: { code: string }[] }): string[] =>
  result.reasons.map((r) => r.code);

/** A square islet of half a side `halfDeg` round a place. */
const square = (lon: number, lat: number, halfDeg: number) => [
  [lon - halfDeg, lat - halfDeg],
  [lon + halfDeg, lat - halfDeg],
  [lon + halfDeg, lat + halfDeg],
  [lon - halfDeg, lat + halfDeg],
  [lon - halfDeg, lat - halfDeg],
];
const islet = { type: "Polygon", coordinates: [square(0, 0, 0.01)] };

describe("fetch fan", () => {
  test("the edge of the extract is not a shore, and a cut edge of land on it is not either", () => {
    const coast = {
      type: "FeatureCollection",
      bbox: [-0.1, -0.1, 0.1, 0.1],
      features: [
        {
          type: "Feature",
          properties: {},
          geometry: {
            type: "Polygon",
            coordinates: [
              [
                [0.05, -0.1],
                [0.1, -0.1],
                [0.1, 0.1],
                [0.05, 0.1],
                [0.05, -0.1],
              ],
            ],
          },
        },
      ],
    };
    const fan = fetchFan({
      coast,
      position: { latDeg: 0, lonDeg: 0 },
      bearings: [0, 90, 180, 270],
    });
    expect(fan.ends).toEqual(["edge", "coast", "edge", "edge"]);
    expect(codes(fan)).toContain("fetch.edge");
    const within = fetchFan({
      coast,
      position: { latDeg: 0, lonDeg: 0.07 },
      bearings: [0, 90, 180],
    });
    expect(within.ends).toEqual(["edge", "edge", "edge"]);
    expect(codes(within)).toContain("fetch.ashore");
  });

  test("a berth on land is told so, with and without an index; one afloat is not", () => {
    for (const coast of [islet, prepareCoast({ coast: islet })]) {
      const at = (lonDeg: number) => codes(fetchFan({ coast, position: { latDeg: 0, lonDeg } }));
      expect(at(0.001)).toContain("fetch.ashore");
      expect(at(0.02)).not.toContain("fetch.ashore");
    }
  });

  test.each([
    ["land on the other side of the earth beside it", [[square(150, -30, 1)]], false],
    ["land that reaches beyond its picture", [[square(40, 0, 39.98)], [square(-2, 0, 1)]], false],
    ["areas that overlap", [[square(0.005, 0, 0.01)]], true],
    ["a line of shore among the areas", [], true],
  ])("a berth on land is told so: %s", (_, more, indexed) => {
    const line = { type: "LineString", coordinates: more.length > 0 ? [] : square(1, 1, 0.1) };
    const areas = { type: "MultiPolygon", coordinates: [[square(0, 0, 0.01)], ...more] };
    const coast = { type: "GeometryCollection", geometries: [line, areas] };
    for (const each of indexed ? [coast, prepareCoast({ coast })] : [coast]) {
      const at = (lonDeg: number) =>
        codes(fetchFan({ coast: each, position: { latDeg: 0, lonDeg } })).includes("fetch.ashore");
      expect([at(0.0051), at(-0.0151), at(-0.5)]).toEqual([true, false, false]);
    }
  });

  test("a berth on land that reaches beyond its picture is told so, on either side of the antimeridian", () => {
    const wide = (lonDeg: number) => ({
      type: "Polygon",
      coordinates: [
        [
          [lonDeg, -20],
          [lonDeg + 60, -20],
          [lonDeg + 120, -20],
          [lonDeg + 120, 20],
          [lonDeg + 60, 20],
          [lonDeg, 20],
          [lonDeg, -20],
        ],
        square(lonDeg + 20, 0, 1),
      ],
    });
    for (const west of [-60, 100, 150, -220]) {
      const at = (lonDeg: number, latDeg: number) =>
        codes(
          fetchFan({ coast: wide(west), position: { latDeg, lonDeg: west + lonDeg } }),
        ).includes("fetch.ashore");
      const places = [at(10, 0), at(20, 0.3), at(110, 19), at(130, 0), at(10, 25), at(-1, 0)];
      expect(places, String(west)).toEqual([true, false, true, false, false, false]);
    }
  });

  test("a coast that does not say where it ends leaves doubt", () => {
    expect(codes(fetchFan({ coast: islet, position: { latDeg: 0, lonDeg: 0.03 } }))).toContain(
      "fetch.extentUnknown",
    );
  });

  test("a bank that dries counts as shore only below its height", () => {
    const banks = [
      {
        outline: { type: "Polygon", coordinates: [square(0.05, 0, 0.005)] },
        dryingHeightM: 2,
      },
    ];
    const end = (heightAboveDatumM?: number) =>
      fetchFan({
        coast: prepareCoast({
          coast: islet,
          banks,
          ...(heightAboveDatumM === undefined ? {} : { heightAboveDatumM }),
        }),
        position: { latDeg: 0, lonDeg: 0.03 },
        bearings: [90],
      }).ends[0];
    expect(end(1)).toBe("coast");
    expect(end(3)).toBe("limit");
    expect(end()).toBe("limit");
    // A berth on the bank, on the land, or on both where they overlap, is told so.
    const over = { outline: islet, dryingHeightM: 2 };
    const ashore = (lonDeg: number, heightAboveDatumM: number) =>
      codes(
        fetchFan({
          coast: prepareCoast({ coast: islet, banks: [...banks, over], heightAboveDatumM }),
          position: { latDeg: 0, lonDeg },
        }),
      ).includes("fetch.ashore");
    expect([0.001, 0.03, 0.05].map((lon) => ashore(lon, 1))).toEqual([true, false, true]);
    expect([0.001, 0.03, 0.05].map((lon) => ashore(lon, 3))).toEqual([true, false, false]);
  });

  test("coarse vertices near the berth are warned of", () => {
    const fan = fetchFan({
      coast: islet,
      position: { latDeg: 0, lonDeg: 0.012 },
    });
    expect(codes(fan)).toContain("fetch.coarseCoast");
  });

  test("lines and polygons of one shore give one fan, on both sides of the antimeridian", () => {
    const shore = (lon: number) => [
      [lon, -1],
      [lon, 1],
    ];
    const at = (lonDeg: number, lon: number) =>
      fetchFan({
        coast: { type: "LineString", coordinates: shore(lon) },
        position: { latDeg: 0, lonDeg },
        bearings: [90],
      }).fetchM[0]!;
    // 0.02° along the equator of WGS 84.
    expect(at(10, 10.02)).toBeCloseTo((0.02 * Math.PI * 6_378_137) / 180, 0);
    expect(at(179.99, -179.99)).toBeCloseTo(at(10, 10.02), 6);
    expect(at(179.99, 180.01)).toBeCloseTo(at(10, 10.02), 6);
  });

  test("a ray meets the same shore alone, among few and among many, with and without an index", () => {
    const coast = {
      type: "LineString",
      coordinates: [
        [10.02, -1],
        [10.02, 1],
      ],
    };
    const position = { latDeg: 0.1, lonDeg: 10 };
    for (const drawn of [coast, prepareCoast({ coast })])
      for (const bearings of [[80], [80, 100], [80, 100, 110, 260, 280], undefined]) {
        const fan = fetchFan({ coast: drawn, position, ...(bearings && { bearings }) });
        const i = fan.bearingsDeg.indexOf(80);
        // 0.02° of a parallel, a tenth of a degree off the equator, over the sine of the bearing.
        const east = (0.02 * Math.PI * 6_378_137 * Math.cos(Math.PI / 1800)) / 180;
        expect(fan.fetchM[i]! / (east / Math.sin((80 * Math.PI) / 180))).toBeCloseTo(1, 4);
        expect(fan.ends[i]).toBe("coast");
      }
  });

  test("what is not a coast is refused", () => {
    for (const coast of [
      { type: "Point", coordinates: [0, 0] },
      { type: "LineString", coordinates: [[0, 95]] },
      { type: "LineString", coordinates: [[0, NaN]] },
      { type: "LineString" },
      { type: "Polygon", coordinates: [[]] },
      { type: "Nothing" },
      { type: "FeatureCollection", features: [] },
    ])
      expect(() => fetchFan({ coast, position: { latDeg: 0, lonDeg: 0 } })).toThrow(InputError);
  });

  test.skipIf(!hasSharedData)("a real coast names its source", () => {
    const coast = sharedJson<{ type: string; source: string }>("coast/penobscot-bay.geojson");
    expect(prepareCoast({ coast }).source).toBe(coast.source);
  });
});

describe("unsafe side", () => {
  test("water beyond the edge of the chart is taken as open unless the caller knows better", () => {
    const fan = fanOf(() => 2000, "edge");
    const open = windWaves({ fan, windMps: 10, windFromDeg: 0 });
    const shut = windWaves({ fan, windMps: 10, windFromDeg: 0, pastEdgeM: 0 });
    expect(open.fetchM).toBeCloseTo(100_000, 3);
    expect(shut.fetchM).toBeCloseTo(2000, 9);
  });

  test("an arc without rays is open, not land", () => {
    const fan: FanInput = {
      bearingsDeg: [0, 90],
      fetchM: [300, 300],
      ends: ["coast", "coast"],
    };
    expect(windWaves({ fan, windMps: 10, windFromDeg: 200 }).fetchM).toBeCloseTo(100_000, 3);
    const swell = { hm0M: 2, periodS: 8, fromDeg: 225 };
    const lets = (more: Partial<FanInput>) =>
      swellAt({ swell, fan: { ...fan, ...more }, depthM: 10 }).shareFactor;
    expect(lets({})).toBeGreaterThan(0.9);
    expect(lets({ gaps: "land" })).toBeLessThan(0.1);
    expect(lets({ bearingsDeg: [30], fetchM: [300], ends: ["coast"] })).toBeGreaterThan(0.9);
    const close = Array.from({ length: 12 }, (_, i) => 30 * i);
    expect(
      lets({ bearingsDeg: close, fetchM: close.map(() => 300), ends: close.map(() => "coast") }),
    ).toBeLessThan(0.1);
  });

  test("a ray that ended at the greatest length looked at goes on to the limit of the fan", () => {
    const fan = fanOf(() => 10_000, "limit");
    expect(windWaves({ fan, windMps: 10, windFromDeg: 0 }).fetchM).toBeCloseTo(100_000, 3);
    expect(
      windWaves({ fan: { ...fan, limitM: 10_000 }, windMps: 10, windFromDeg: 0 }).fetchM,
    ).toBeCloseTo(10_000, 3);
  });

  test("hours without forecast or swell are unknown, and rank behind a bad berth", () => {
    const pool = fanOf(() => 200);
    const short = shelter(steady(pool, { stay: { fromMs: start, toMs: start + 6 * HOUR } }));
    expect(short.hours.comfort.at(-1)).toBe("unknown");
    expect(short.hours.heightM.likely.at(-1)).toBeNull();
    expect(short.riskiestHour.comfort).toBe("unknown");
    expect(short.summary.untenable).toBe(1);
    expect(codes(short)).toContain("shelter.noForecast");
    const noSwell = shelter(
      steady(pool, {
        swell: [{ timeMs: start, hm0M: 1, periodS: 9, fromDeg: 0 }],
      }),
    );
    expect(codes(noSwell)).toContain("shelter.noSwell");
    const bad = shelter(steady(fanOf(() => 20_000)));
    for (const purpose of ["lunch", "night"] as const)
      expect(
        rankShelter({
          purpose,
          berths: [
            { name: "unknown", shelter: noSwell },
            { name: "rough", shelter: bad },
          ],
        })[0]!.name,
      ).toBe("rough");
  });

  test("a gap in the forecast wider than it may be is not bridged", () => {
    const got = shelter(
      steady(
        fanOf(() => 200),
        {
          forecast: {
            longestGapMs: HOUR,
            rows: [0, 4].map((h) => ({
              timeMs: start + h * HOUR,
              windMps: 5,
              windFromDeg: 0,
            })),
          },
        },
      ),
    );
    expect(got.hours.comfort.slice(1, 4)).toEqual(["unknown", "unknown", "unknown"]);
  });

  test("swell that was not given is said not to be counted where the berth sees the sea", () => {
    expect(codes(shelter(steady(fanOf(() => 100_000, "limit"))))).toContain(
      "shelter.swellNotGiven",
    );
    expect(codes(shelter(steady(fanOf(() => 500))))).not.toContain("shelter.swellNotGiven");
  });

  test("a stream that is not known doubles the sea; a fair one is not credited", () => {
    const series = (towardsDeg: number, toHour: number) => ({
      stream: [0, toHour].map((h) => ({
        timeMs: start + h * HOUR,
        rateMps: 1,
        towardsDeg,
      })),
      lying: [0, 4].map((h) => ({ timeMs: start + h * HOUR, headingDeg: 0 })),
    });
    const fan = fanOf(() => 4000);
    const height = (more: Partial<ShelterInput>) =>
      shelter(steady(fan, more)).hours.heightM.likely[3]!;
    const none = height({});
    expect(height(series(180, 4))).toBeCloseTo(none, 9);
    expect(height(series(0, 4))).toBeGreaterThan(1.05 * none);
    expect(height(series(180, 1))).toBeCloseTo(2 * none, 9);
  });

  test("a swell that dies away over the stay makes as many ill as one that gets up", () => {
    const share = (heights: readonly [number, number]) =>
      shelter(
        steady(
          fanOf(() => 100_000, "limit"),
          {
            swell: heights.map((hm0M, i) => ({
              ...{ timeMs: start + 4 * i * HOUR, hm0M, periodS: 6, fromDeg: 0 },
            })),
            forecast: {
              rows: [0, 4].map((h) => ({ timeMs: start + h * HOUR, windMps: 0, windFromDeg: 0 })),
            },
          },
        ),
      ).summary.sicknessShareMost;
    expect(share([0.4, 0])).toBeGreaterThan(0.01);
    expect(share([0.4, 0])).toBeCloseTo(share([0, 0.4]), 9);
  });

  test("gusts raise no sea, but a limit for them holds, and a limit without gusts is a warning", () => {
    const fan = fanOf(() => 200);
    const input = steady(fan);
    const gusty = {
      ...input,
      gustLimitMps: 15,
      forecast: {
        rows: input.forecast.rows.map((r) => ({ ...r, gustMps: 18 })),
      },
    };
    const calm = shelter(input);
    const got = shelter(gusty);
    expect(got.hours.heightM).toEqual(calm.hours.heightM);
    expect(new Set(got.hours.comfort)).toEqual(new Set(["untenable"]));
    expect(codes(got)).toContain("shelter.gust");
    expect(codes(shelter({ ...input, gustLimitMps: 15 }))).toContain("shelter.gustsUnknown");
    const [first, last] = input.forecast.rows as [object, object];
    const partly = { rows: [{ ...first, gustMps: 10 }, last] } as ShelterInput["forecast"];
    expect(codes(shelter({ ...gusty, forecast: partly }))).toContain("shelter.gustsUnknown");
    // No gust is weaker than the mean wind.
    for (const gustMps of [undefined, 3]) {
      const rows = input.forecast.rows.map((r) => ({ ...r, ...(gustMps && { gustMps }) }));
      const meant = shelter({ ...input, gustLimitMps: 2, forecast: { rows } });
      expect(codes(meant)).toContain("shelter.gust");
      expect(new Set(meant.hours.comfort)).toEqual(new Set(["untenable"]));
    }
    // Beside a row without gusts the gust of the other still counts.
    const inside = { fromMs: start + HOUR / 2, toMs: start + HOUR };
    const hard = { rows: [{ ...first, gustMps: 40 }, last] } as ShelterInput["forecast"];
    const judged = shelter({ ...gusty, stay: inside, forecast: hard });
    expect(codes(judged)).toEqual(expect.arrayContaining(["shelter.gust", "shelter.gustsUnknown"]));
    expect(new Set(judged.hours.comfort)).toEqual(new Set(["untenable"]));
    expect(judged.hours.gustMps).toEqual([null, null]);
  });
});

describe("wind over time", () => {
  const shifted = (toDeg: number) =>
    shelter({
      fan: fanOf(() => 30_000),
      stay: { fromMs: start, toMs: start + 4 * HOUR },
      forecast: {
        directionSigmaDeg: 0,
        rows: [0, 1, 4].map((h, i) => ({
          timeMs: start + h * HOUR,
          windMps: 10,
          windFromDeg: i === 0 ? 0 : toDeg,
        })),
      },
    }).hours;

  test("a shift starts a new sea that grows with time, and leaves an old one that dies away", () => {
    const turned = shifted(120);
    const [before, first, , , last] = turned.windSeaM as number[];
    expect(first!).toBeLessThan(0.8 * before!);
    expect(last!).toBeGreaterThan(first!);
    expect(turned.swellM[1]!).toBeGreaterThan(turned.swellM[4]!);
    expect(turned.swellM[4]!).toBeGreaterThan(0);
  });

  test("a small veer does not", () => {
    const veered = shifted(20);
    expect(veered.windSeaM[1]).toBeCloseTo(veered.windSeaM[0]!, 9);
  });

  test("a shift leaves an old sea however finely it is looked at", () => {
    const left = [60, 30, 15].map((minutes) => {
      const { swellM } = shelter({
        fan: fanOf(() => 30_000),
        stay: { fromMs: start, toMs: start + 3 * HOUR },
        stepMs: minutes * 60_000,
        forecast: {
          directionSigmaDeg: 0,
          // As far as the rows go back she has had this wind, and within three hours it goes round by a right angle.
          rows: [-6, 0, 3].map((h) => ({
            timeMs: start + h * HOUR,
            windMps: 12,
            windFromDeg: h < 3 ? 0 : 90,
          })),
        },
      }).hours;
      return swellM.at(-1)!;
    });
    for (const m of left) expect(m).toBeGreaterThan(0.3);
    expect(Math.max(...left) / Math.min(...left)).toBeLessThan(1.6);
  });

  test("a wind that falls leaves its sea to run off, for as long as the fetch is long, however finely it is looked at", () => {
    const fell = (fetchM: number, minutes: number, windMps = 3) => {
      const { windSeaM, swellM } = shelter({
        fan: fanOf(() => fetchM),
        stay: { fromMs: start, toMs: start + 6 * HOUR },
        stepMs: minutes * 60_000,
        forecast: {
          directionSigmaDeg: 0,
          rows: [-4, 0, 1, 2, 6].map((h) => ({
            timeMs: start + h * HOUR,
            windMps: h < 2 ? 14 : windMps,
            windFromDeg: 0,
          })),
        },
      }).hours;
      const at = (hour: number) => (hour * 60) / minutes;
      return [0, 2, 3, 6].map((h) => Math.hypot(windSeaM[at(h)]!, swellM[at(h)]!));
    };
    for (const minutes of [60, 20]) {
      const [full, fallen, anHourOn, late] = fell(20_000, minutes);
      expect(fallen!).toBeGreaterThan(0.7 * full!);
      expect(fallen!).toBeLessThan(full! + 1e-9);
      expect(anHourOn!).toBeGreaterThan(0.4 * full!);
      expect(anHourOn!).toBeLessThan(fallen!);
      expect(late!).toBeLessThan(0.25 * full!);
      // Half a mile off, the last of it is in within the hour.
      const [near, , nearAnHourOn] = fell(1000, minutes);
      expect(nearAnHourOn!).toBeLessThan(0.25 * near!);
    }
    // A wind that rises has nothing left over.
    const [before, , risen] = fell(20_000, 60, 16);
    expect(risen!).toBeGreaterThan(before!);
  });

  test("a swell or a gust told between two steps counts at the nearest", () => {
    const at = (h: number) => start + h * HOUR;
    const input: ShelterInput = {
      fan: fanOf(() => 30_000),
      stay: { fromMs: start, toMs: at(4) },
      gustLimitMps: 20,
      forecast: {
        rows: [0, 2, 2.25, 2.5, 4].map((h) => ({
          timeMs: at(h),
          windMps: 5,
          windFromDeg: 0,
          gustMps: h === 2.25 ? 30 : 8,
        })),
      },
      swell: [0, 2, 2.25, 2.5, 4].map((h) => ({
        timeMs: at(h),
        hm0M: h === 2.25 ? 3 : 0.2,
        periodS: 9,
        fromDeg: 180,
      })),
    };
    const { hours, reasons } = shelter(input);
    expect(hours.swellM[2]!).toBeGreaterThan(5 * hours.swellM[1]!);
    expect(hours.swellM[3]).toBe(hours.swellM[1]);
    expect(hours.comfort[2]).toBe("untenable");
    expect(reasons.find((r) => r.code === "shelter.gust")).toMatchObject({
      atMs: at(2),
      value: 30,
    });
  });

  test("gusty hours heap nothing up: no sea is greater than the strongest wind's", () => {
    const rows = [...Array(13).keys()].map((k) => ({
      timeMs: start + (k * HOUR) / 3,
      windMps: k % 2 === 0 ? 12 : 8,
      windFromDeg: 0,
    }));
    const { windSeaM, swellM } = shelter({
      fan: fanOf(() => 10_000),
      stay: { fromMs: start, toMs: start + 4 * HOUR },
      stepMs: HOUR / 3,
      forecast: { directionSigmaDeg: 0, rows },
    }).hours;
    const all = windSeaM.map((m, i) => Math.hypot(m!, swellM[i]!));
    for (const m of all) expect(m).toBeLessThan(all[0]! + 1e-9);
  });

  test("an ensemble stands in place of the spread", () => {
    const fan = fanOf((deg) => (deg === 180 ? 20_000 : 200));
    const rows = (members: { windMps: number; windFromDeg: number }[]) => ({
      rows: [0, 4].map((h) => ({
        timeMs: start + h * HOUR,
        windMps: 8,
        windFromDeg: 0,
        members,
      })),
    });
    const north = { windMps: 8, windFromDeg: 0 };
    const south = { windMps: 8, windFromDeg: 180 };
    const agreed = shelter(steady(fan, { forecast: rows([north, north]) }));
    const split = shelter(steady(fan, { forecast: rows([north, south]) }));
    expect(agreed.hours.worstFromDeg[0]).toBe(0);
    expect(split.hours.worstFromDeg[0]).toBe(180);
    expect(split.hours.heightM.likely[0]!).toBeGreaterThan(agreed.hours.heightM.likely[0]!);
  });

  test("among fans of several heights of tide the one that holds is used, and the most open where the tide is not known", () => {
    const low = { ...fanOf(() => 300), heightAboveDatumM: 1 };
    const high = { ...fanOf(() => 8000), heightAboveDatumM: 5 };
    const at = (heightAboveDatumM?: number) =>
      shelter(
        steady(low, {
          fan: [high, low],
          ...(heightAboveDatumM === undefined
            ? {}
            : {
                tide: [0, 4].map((h) => ({
                  timeMs: start + h * HOUR,
                  heightAboveDatumM,
                })),
              }),
        }),
      ).hours.heightM.likely[0]!;
    expect(at(0.5)).toBeLessThan(at(3));
    expect(at(3)).toBe(at());
    expect(at(9)).toBe(at());
  });

  test("a high water between two rows of tide covers the banks that the rows leave dry", () => {
    const low = { ...fanOf(() => 300), heightAboveDatumM: 1 };
    const high = { ...fanOf(() => 8000), heightAboveDatumM: 5 };
    const between = (...heights: number[]) => {
      const tide = heights.map((heightAboveDatumM, i) => ({
        timeMs: start + (2 * i - 2) * HOUR,
        heightAboveDatumM,
      }));
      const { timeMs, heightM } = shelter(steady(low, { fan: [high, low], tide })).hours;
      return heightM.likely[timeMs.indexOf(start + HOUR)]!;
    };
    const sheltered = between(0.9, 0.9, 0.9, 0.9);
    // Up to the rows beside and down from them: the water stands at 1.25 m between, or does not pass 0.9 m.
    expect(between(0.1, 0.9, 0.9, 0.1)).toBeGreaterThan(sheltered);
    expect(between(0.1, 0.5, 0.9, 0.95)).toBe(sheltered);
    expect(between(0.95, 0.9, 0.9, 0.95)).toBe(sheltered);
  });

  test("says what the forecast would have to do", () => {
    const fan = fanOf((deg) => (deg > 120 && deg < 240 ? 15_000 : 300));
    const { turn, rise } = shelter(
      steady(fan, {
        forecast: {
          rows: [0, 4].map((h) => ({
            timeMs: start + h * HOUR,
            windMps: 9,
            windFromDeg: 0,
          })),
        },
      }),
    ).toUntenable;
    expect(Math.abs(turn!.turnDeg!)).toBeGreaterThan(60);
    expect(rise!.windMps).toBeGreaterThan(12);
    expect(shelter(steady(fanOf(() => 60))).toUntenable).toEqual({
      turn: null,
      rise: null,
    });
  });
});

describe("swell", () => {
  const swell = { hm0M: 1, periodS: 10, fromDeg: 270 };
  test("comes in by the larger of window and bend, and deep in the shadow by the bend", () => {
    const lee = (toDeg: number) =>
      swellAt({
        swell: { ...swell, spreadS: 75 },
        window: { fromDeg: 90, toDeg },
        headlands: [
          {
            bearingDeg: toDeg,
            distanceM: 800,
            opens: "anticlockwise",
            wedgeAngleDeg: 0,
          },
        ],
        depthM: 10,
      });
    expect(lee(268).shareFactor).toBeGreaterThan(0.5);
    const deep = lee(240);
    expect(deep.diffractionFactor).toBeGreaterThan(deep.windowFactor);
    expect(deep.shareFactor).toBe(deep.diffractionFactor);
  });

  test("a window narrower than a step of directions lets in its part of the energy", () => {
    const part = (widthDeg: number, spreadS: number) => {
      let [seen, total] = [0, 0];
      for (let a = -67.495; a < 67.5; a += 0.01) {
        const energy = Math.cos((a * Math.PI) / 360) ** (2 * spreadS);
        total += energy;
        if (Math.abs(a) <= widthDeg / 2) seen += energy;
      }
      return Math.sqrt(seen / total);
    };
    for (const spreadS of [25, 75])
      for (const widthDeg of [1, 4, 9, 40]) {
        const window = { fromDeg: 270 - widthDeg / 2, toDeg: 270 + widthDeg / 2 };
        const got = swellAt({ swell: { ...swell, spreadS }, window, depthM: 10 });
        expect(got.windowFactor / part(widthDeg, spreadS)).toBeCloseTo(1, 1);
        expect(got.diffractionFactor).toBeCloseTo(got.windowFactor, 12);
        expect(got.fromDeg).toBeCloseTo(270, 6);
      }
    const north = { fromDeg: 359, toDeg: 2 };
    const off = swellAt({ swell: { ...swell, fromDeg: 1 }, window: north, depthM: 10 });
    expect(off.windowFactor).toBeGreaterThan(0.2);
  });

  test("one that runs along the slope is not bent away to nothing", () => {
    const along = (off: number) =>
      swellAt({ swell, depthM: 8, bay: { seawardDeg: 270 - off } }).refractionFactor!;
    expect(along(89.9)).toBe(0.5);
    expect(along(60)).toBeGreaterThan(0.5);
    expect(along(60)).toBeLessThan(1);
  });

  test("a blunt headland shelters less than a thin wall", () => {
    const behind = (wedgeAngleDeg: number) =>
      diffractionAt({
        distanceM: 300,
        angleDeg: 200 + (90 - wedgeAngleDeg / 2),
        waveAngleDeg: 90 - wedgeAngleDeg / 2,
        wedgeAngleDeg,
        periodS: 8,
        depthM: 12,
      }).factor;
    expect(behind(60)).toBeGreaterThan(behind(0));
    expect(behind(120)).toBeGreaterThan(behind(60));
  });

  test("a rocky shore adds to it, shallow water caps it, a long bay may surge, a funnel is a caution", () => {
    const plain = swellAt({ swell, depthM: 10 });
    const rock = swellAt({
      swell,
      depthM: 10,
      bay: {
        reflector: { shore: "rock", distanceM: 400 },
        lengthM: 600,
        mouthOverBerthWidth: 2,
      },
    });
    expect(rock.hm0M / plain.hm0M).toBeCloseTo(Math.sqrt(1.49), 9);
    expect(codes(rock)).toEqual(["swell.surge", "swell.funnelling"]);
    const shoal = swellAt({ swell, depthM: 1 });
    expect(shoal.hm0M).toBeCloseTo(0.6, 12);
    expect(shoal.capped).toBe(true);
    const slope = swellAt({
      swell: { ...swell, fromDeg: 315 },
      depthM: 8,
      bay: { seawardDeg: 270 },
    });
    // Published: 10 s, 8 m, 45° gives 0.8743 (table of waves.json).
    expect(slope.refractionFactor).toBeCloseTo(0.8743, 3);
  });

  test("waves on a stream: the textbook cases", () => {
    expect(onStream(4, 1).factor).toBe(1);
    const c0 = (9.81 * 4) / (2 * Math.PI);
    expect(onStream(4, -0.25 * c0)).toEqual({ factor: 2, blocked: true });
    // U = -c0/8: c/c0 = (1 + sqrt(1/2))/2, from the formula by hand.
    const c = (1 + Math.SQRT1_2) / 2;
    expect(onStream(4, -c0 / 8).factor).toBeCloseTo(Math.sqrt(1 / (c * (c - 0.25))), 12);
  });
});

describe("terms and wind", () => {
  test("winds between two printed bounds go to the nearer", () => {
    expect(windForce({ windMps: 0.24 }).force).toBe(0);
    expect(windForce({ windMps: 0.26 }).force).toBe(1);
    expect(windForce({ windMps: 60 }).force).toBe(12);
  });
  test("a masthead wind comes down by the logarithmic law", () => {
    const { windMps, basis } = windTo({ windMps: 10, heightM: 16 });
    expect(windMps).toBeGreaterThan(9);
    expect(windMps).toBeLessThan(10);
    expect(basis[0]).toContain("logarithmic");
    expect(windTo({ windMps: 7, heightM: feet(33) }).windMps).toBeCloseTo(7, 1);
  });
});

describe("growth laws, other cases worked out from the printed equations", () => {
  // Shore Protection Manual 1984, eq. 3-36 to 3-38: full development 0.2433 UA²/g and 8.134 UA/g, UA = 0.71 U^1.23.
  test.each([
    [20, 2_000_000, 19.83917, 23.45095],
    [8, 400_000, 2.08253, 7.59791],
  ])("spm84 at %s m/s is fully developed in its adjusted wind", (windMps, fetchM, hM, tS) => {
    const sea = waveGrowth({ method: "spm84", windMps, fetchM });
    expect(sea.hm0M).toBeCloseTo(hM, 4);
    expect(sea.periodS).toBeCloseTo(tS, 4);
  });
});
