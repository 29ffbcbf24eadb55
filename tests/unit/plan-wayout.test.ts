import { describe, expect, test } from "vitest";
import { readChart } from "../../src/chart/index.js";
import { hours, minutes, nauticalMiles } from "../../src/core/units.js";
import { destination, distance } from "../../src/geo/index.js";
import { planStay, wayOut, type WayOutInput } from "../../src/plan/index.js";
import { demo } from "../scenario.js";
import { boxArea, feature, layer } from "./chart-support.js";

const noon = Date.UTC(2026, 5, 1, 12);
const half = hours(6.2);
/** High water at noon, low water half a tide later: 4 m and 0.5 m. */
const tide: WayOutInput["tide"] = {
  kind: "turns",
  datum: "LAT",
  heightStepM: 0.01,
  turns: [0.5, 4, 0.5, 4, 0.5].map((heightM, i) => ({ timeMs: noon + (i - 1) * half, heightM })),
};
const start = { latDeg: 40.01, lonDeg: -30.002 };
/** A straight track due west: 2 m charted for its first part, then 5 m, then 10 m. */
const west = (m: number) => destination({ from: start, bearingDeg: 270, distanceM: m });
const layers = (more: Record<string, ReturnType<typeof layer>> = {}) => ({
  M_COVR: layer(boxArea([-30.03, 40, -30, 40.02], { CATCOV: 1 })),
  M_QUAL: layer(boxArea([-30.03, 40, -30, 40.02], { CATZOC: 1 })),
  DEPARE: layer(
    boxArea([-30.008, 40, -30, 40.02], { DRVAL1: 2, DRVAL2: 5 }),
    boxArea([-30.015, 40, -30.008, 40.02], { DRVAL1: 5, DRVAL2: 10 }),
    boxArea([-30.03, 40, -30.015, 40.02], { DRVAL1: 10, DRVAL2: 20 }),
  ),
  ...more,
});
const chartWith = (more: Record<string, ReturnType<typeof layer>> = {}) =>
  readChart(layers(more), { soundingDatum: "LAT" });
const base = (): WayOutInput => ({
  route: [start, west(1800)],
  chart: chartWith(),
  tide,
  vessel: { kind: "yacht", lengthM: 10, draughtM: 1.8 },
  stay: { fromMs: noon, toMs: noon + 2 * half },
});
const way = (more: Partial<WayOutInput> = {}) => wayOut({ ...base(), ...more });

/** Zone A1 at 2 m: 0.5 m and 1 % of the depth (IHO S-57, CATZOC). */
const ERROR_M = 0.52;

describe("water on the way out", () => {
  test("least charted depth part by part, with its error", () => {
    const { depths, lengthM } = way();
    expect(depths.map((d) => d.chartedLeastM)).toEqual([2, 5, 10]);
    expect(depths[0]!.errorM).toBeCloseTo(ERROR_M, 9);
    expect(lengthM).toBeCloseTo(1800, 3);
    // The 2 m area ends on its meridian, the strip reaches 10 m beyond: found to 25 m.
    const edge = distance({ from: start, to: { latDeg: 40.01, lonDeg: -30.008 } }).distanceM;
    expect(depths[0]!.toM).toBeGreaterThanOrEqual(edge);
    expect(depths[0]!.toM).toBeLessThanOrEqual(edge + 35);
  });

  test("under the keel at low water: charted depth less error, height of tide on the low side, draught", () => {
    const { meant, departures } = way({
      at: noon + half,
      stay: undefined,
      speedMps: 20,
    });
    expect(departures.timeMs).toEqual([noon + half]);
    // No better than the tide as tabulated allows, and no worse than half a metre of tide error.
    const most = 2 - ERROR_M + 0.5 - 1.8;
    expect(meant.underKeelLeastM).toBeLessThanOrEqual(most + 1e-6);
    expect(meant.underKeelLeastM).toBeGreaterThan(most - 0.5);
    expect(meant.state).toBe("shut");
    expect(meant.leastAlongM).toBe(0);
  });

  test("it is shut from the instant the water falls to what is wanted until it has risen to it again", () => {
    const found = way({ stepMs: minutes(10) });
    expect(found.shut).toHaveLength(1);
    const { fromMs, toMs } = found.shut[0]!;
    for (const [at, want] of [
      [fromMs - 2000, "open"],
      [fromMs + 2000, "shut"],
      [toMs - 2000, "shut"],
      [toMs + 2000, "open"],
    ] as const)
      expect(wayOut({ ...base(), stay: undefined, at }).meant.state).toBe(want);
    expect(found.open.map((o) => [o.fromMs, o.toMs])).toEqual([
      [noon, fromMs],
      [toMs, noon + 2 * half],
    ]);
    expect(found.unknownHours).toEqual([]);
    // Low water lies between.
    expect(fromMs).toBeLessThan(noon + half);
    expect(toMs).toBeGreaterThan(noon + half - minutes(15));
  });

  test("the tide counts at the hour a place is passed, not that of leaving", () => {
    const shoal = layer(
      boxArea([-30.016, 40, -30, 40.02], { DRVAL1: 10, DRVAL2: 20 }),
      boxArea([-30.03, 40, -30.016, 40.02], { DRVAL1: 2, DRVAL2: 5 }),
    );
    const chart = chartWith({ DEPARE: shoal });
    const slow = way({ chart, speedMps: 0.5 });
    const fast = way({ chart, speedMps: 10 });
    const there = slow.depths.find((d) => d.chartedLeastM === 2)!.fromM;
    const lag = (there / 0.5 - there / 10) * 1000;
    // The slow vessel is at the shoal later, so on a falling tide she must leave earlier.
    expect(fast.shut[0]!.fromMs - slow.shut[0]!.fromMs).toBeGreaterThan(0.9 * lag);
  });

  test("a sunk rock on the track counts with its depth, one beside it is told with hand and distance", () => {
    const rock = (latDeg: number, lonDeg: number) =>
      feature("Point", [lonDeg, latDeg], { WATLEV: 3, VALSOU: 1, QUASOU: 6, OBJNAM: "Knob" });
    const on = west(600);
    const found = way({ chart: chartWith({ UWTROC: layer(rock(on.latDeg, on.lonDeg)) }) });
    expect(found.hazards[0]!.alongM).toBeCloseTo(600, -1);
    const low = found.departures.timeMs.find((t) => t >= noon + half - minutes(20))!;
    const { meant } = way({
      chart: chartWith({ UWTROC: layer(rock(on.latDeg, on.lonDeg)) }),
      at: low,
      stay: undefined,
    });
    expect(meant.leastOf).toBe("Knob");
    expect(distance({ from: meant.leastAt!, to: on }).distanceM).toBeLessThan(2);
    expect(found.least!.underKeelM).toBeCloseTo(way().least!.underKeelM - 1, 1);

    const off = destination({ from: west(600), bearingDeg: 0, distanceM: 60 });
    const beside = way({ chart: chartWith({ UWTROC: layer(rock(off.latDeg, off.lonDeg)) }) });
    expect(beside.hazards[0]).toMatchObject({ name: "Knob", side: "starboard" });
    expect(beside.hazards[0]!.offM).toBeCloseTo(60, 0);
    expect(beside.least!.underKeelM).toBe(way().least!.underKeelM);
    const far = destination({ from: west(600), bearingDeg: 0, distanceM: 200 });
    expect(
      way({ chart: chartWith({ UWTROC: layer(rock(far.latDeg, far.lonDeg)) }) }).hazards,
    ).toEqual([]);
  });

  test("a danger without a depth on the track shuts it at every hour", () => {
    const at = west(600);
    const rock = feature("Point", [at.lonDeg, at.latDeg], { WATLEV: 4 });
    const found = way({ chart: chartWith({ UWTROC: layer(rock) }) });
    expect(found.shut).toEqual([base().stay]);
    expect(found.open).toEqual([]);
    expect(found.meant).toMatchObject({ state: "shut", underKeelLeastM: null });
    expect(found.reasons[0]).toMatchObject({ code: "wayOut.blocked", severity: "stop" });
  });

  test("a danger that only the error of its charted place brings on to the track leaves it unknown", () => {
    const at = destination({ from: west(600), bearingDeg: 0, distanceM: 60 });
    const rock = layer(feature("Point", [at.lonDeg, at.latDeg], { WATLEV: 4 }));
    const quality = (code: number) => layer(boxArea([-30.03, 40, -30, 40.02], { CATZOC: code }));
    // Zone A1 places it to 5 m and a part of the depth, zone C to 500 m.
    const well = way({ chart: chartWith({ UWTROC: rock }) });
    expect(well.open.length).toBeGreaterThan(0);
    const poorly = way({ chart: chartWith({ UWTROC: rock, M_QUAL: quality(4) }) });
    expect(poorly.open).toEqual([]);
    expect(poorly.unknownHours.length).toBeGreaterThan(0);
    expect(poorly.unknown).toContain("unknown.dangerPlace");
  });

  test("a pile or a buoy is to be seen and steered clear of, it does not shut the way", () => {
    const at = west(600);
    const pile = layer(feature("Point", [at.lonDeg, at.latDeg], { CATPLE: 1 }));
    const found = way({ chart: chartWith({ PILPNT: pile }) });
    expect(found.open.length).toBeGreaterThan(0);
    expect(found.reasons.map((r) => r.code)).toContain("wayOut.steerClear");
  });

  test("over land it is never open", () => {
    const land = layer(boxArea([-30.012, 40.005, -30.01, 40.015]));
    const found = way({ chart: chartWith({ LNDARE: land }) });
    expect(found.open).toEqual([]);
    expect(found.unknown).toContain("unknown.depth");
  });
});

describe("what is not known of the way out is said", () => {
  const unset = (key: keyof WayOutInput) => {
    const input = base();
    // eslint-disable-next-line @typescript-eslint/no-dynamic-delete
    delete input[key];
    return wayOut(input);
  };
  test("no chart, no tide", () => {
    for (const [key, code] of [
      ["chart", "unknown.chart"],
      ["tide", "unknown.tide"],
    ] as const) {
      const found = unset(key);
      expect(found.unknown).toContain(code);
      expect(found.open).toEqual([]);
      expect(found.unknownHours).toEqual([base().stay]);
      expect(found.meant.state).toBe("unknown");
      expect(found.meant.underKeelLeastM).toBeNull();
    }
  });
  test("quality of depths not assessed", () => {
    const found = way({
      chart: chartWith({ M_QUAL: layer(boxArea([-30.03, 40, -30, 40.02], { CATZOC: 6 })) }),
    });
    expect(found.unknown).toEqual(expect.arrayContaining(["unknown.depth", "unknown.depthError"]));
    expect(found.open).toEqual([]);
  });
  test("a tide table that ends before the stay does", () => {
    const found = way({ stay: { fromMs: noon, toMs: noon + 4 * half } });
    expect(found.unknown).toContain("unknown.tide");
    expect(found.unknownHours.at(-1)!.toMs).toBe(noon + 4 * half);
    expect(found.meant.state).toBe("unknown");
  });
  test("it is refused where the datums differ, and without an hour or with two", () => {
    expect(() => way({ tide: { ...tide, datum: "mean sea level" } as never })).toThrow(/datum/);
    expect(() => way({ at: noon })).toThrow(/either/);
    expect(() => way({ route: [start, start] })).toThrow(/one place/);
  });
});

describe("track, light, wind and stream", () => {
  test("courses, turns and lengths", () => {
    const mid = destination({ from: start, bearingDeg: 270, distanceM: 500 });
    const end = destination({ from: mid, bearingDeg: 330, distanceM: 700 });
    const { legs, lengthM, passageMs } = way({ route: [start, mid, mid, end] });
    expect(legs.map((l) => l.courseDeg.toFixed(1))).toEqual(["270.0", "330.0"]);
    expect(legs[0]!.turnDeg).toBeNull();
    expect(legs[1]!.turnDeg).toBeCloseTo(60, 1);
    expect(lengthM).toBeCloseTo(1200, 3);
    expect(passageMs).toBeCloseTo(600_000, 0);
  });
  test("wind and stream against a course due west", () => {
    const forecast = {
      rows: [noon, noon + hours(6), noon + hours(12), noon + hours(18)].map((timeMs) => ({
        timeMs,
        windMps: 10,
        windFromDeg: 290,
      })),
    };
    const stream = { kind: "steady" as const, rateMps: 1, towardsDeg: 300 };
    const { meant, departures, reasons } = way({ forecast, stream });
    const leg = meant.legs[0]!;
    expect(leg.windOffBowDeg).toBeCloseTo(20, 1);
    expect(leg.windOn).toBe("nose");
    expect(leg.streamWithMps).toBeCloseTo(Math.cos(Math.PI / 6), 3);
    expect(leg.streamAcrossMps).toBeCloseTo(0.5, 3);
    // Setting towards where the wind comes from.
    expect(leg.windAgainstStream).toBe(true);
    expect(departures.windOnNoseMps[0]).toBe(10);
    expect(departures.streamAgainstMps[0]).toBe(0);
    expect(reasons.map((r) => r.code)).toEqual(
      expect.arrayContaining(["wayOut.windOnNose", "wayOut.windAgainstStream"]),
    );
  });
  test("by night dark and unlit marks are told, by day not", () => {
    const buoyAt = destination({ from: west(600), bearingDeg: 180, distanceM: 40 });
    const chart = chartWith({
      BOYLAT: layer(
        feature("Point", [buoyAt.lonDeg, buoyAt.latDeg], { OBJNAM: "Outer", CATLAM: 1 }),
      ),
      LIGHTS: layer(feature("Point", [-30.001, 40.01], { OBJNAM: "Rear", COLOUR: "1" })),
    });
    // 30° W: midnight by the sun about two in the morning, UTC.
    const night = way({ chart, at: noon + hours(14), stay: undefined });
    expect(night.meant.light).toBe("night");
    expect(night.reasons.map((r) => r.code)).toEqual(
      expect.arrayContaining(["wayOut.dark", "wayOut.unlit"]),
    );
    const day = way({ chart, at: noon + hours(1), stay: undefined });
    expect(day.meant.light).toBe("day");
    expect(day.reasons.map((r) => r.code)).not.toContain("wayOut.unlit");
    expect(day.marks!.find((m) => m.name === "Outer")).toMatchObject({ side: "port", lit: false });
    expect(day.steerBy).toContainEqual(
      expect.objectContaining({ name: "Rear", where: "astern", lit: true }),
    );
  });
});

describe("the way out in a plan", () => {
  test("is there where a route is given, and serialises", () => {
    const plan = planStay(demo());
    expect(plan.wayOut!.meant.departMs).toBe(plan.stay.toMs);
    expect(plan.wayOut!.lengthM).toBeLessThan(nauticalMiles(2));
    expect(JSON.parse(JSON.stringify(plan.wayOut))).toEqual(plan.wayOut);
    const without = demo();
    delete without.route;
    expect(planStay(without).wayOut).toBeNull();
  });
  test("an anchor ready brings her up sooner than one that is lashed", () => {
    const { ready, lashed } = planStay(demo()).engineFails!;
    // At 2 m/s, five seconds against half a minute.
    expect(ready.partsM.ready).toBeCloseTo(10, 6);
    expect(lashed.partsM.ready).toBeCloseTo(60, 6);
  });
  test("no distance is promised where the bed or the depth is not known", () => {
    const noChart = demo();
    delete noChart.chart;
    expect(planStay(noChart).engineFails?.ready.distanceM ?? null).toBeNull();
  });
});
