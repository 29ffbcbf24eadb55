import { describe, expect, test } from "vitest";
import { planStay, type StayInput } from "../../src/plan/index.js";
import { summariseSweep } from "../../src/sweep/index.js";
import { checkTimes } from "../../src/watch/index.js";
import { demo } from "../scenario.js";
import { mixed } from "../sweepSpecs.js";

interface Area {
  properties: Record<string, unknown>;
  geometry: { coordinates: unknown[] };
}

/** The demo with one area of a layer of its chart changed. */
function demoWithArea(layer: string, change: (area: Area) => void): StayInput {
  const stay = demo();
  change(stay.chart!.layers[layer]!.features[0] as Area);
  return stay;
}

describe("attributes that no chart has", () => {
  const strange: [string, unknown][] = [
    ["a symbol", Symbol("x")],
    ["an object without prototype", Object.create(null)],
    ["a word", "x"],
  ];
  test.each(strange)("%s for the coverage counts as none", (_, value) => {
    const plan = planStay(demoWithArea("M_COVR", (a) => (a.properties["CATCOV"] = value)));
    const without = planStay(demoWithArea("M_COVR", (a) => delete a.properties["CATCOV"]));
    expect(plan.verdict).toBe(without.verdict);
    expect(["unsuitable", "cannotTell"]).toContain(plan.verdict);
    expect(plan.shelter).toEqual(without.shelter);
  });
});

describe("lists longer than anyone needs are refused at once", () => {
  const t = Date.UTC(2026, 5, 1);
  const wind = Array.from({ length: 10_081 }, (_, i) => ({
    timeMs: t + i * 1000,
    windMps: 5,
    windFromDeg: 90,
  }));

  test("rows of a forecast, in a plan and for the times to look", () => {
    const stay = demo();
    expect(() => planStay({ ...stay, forecast: { rows: wind } })).toThrow(/forecast\.rows/);
    const span = { fromMs: t, toMs: t + 12 * 3_600_000 };
    expect(() => checkTimes({ stay: span, wind })).toThrow(/wind/);
    expect(checkTimes({ stay: span, wind: wind.slice(1) }).length).toBe(1);
  });

  test("rings of an area", () => {
    const rings = (n: number) =>
      demoWithArea("DEPARE", ({ geometry: g }) => {
        g.coordinates = Array.from({ length: n }, () => g.coordinates[0]);
      });
    expect(() => planStay(rings(10_001))).toThrow(/DEPARE\.features\[0\]\.geometry.*10000 rings/);
  });

  test("limits and tables of a summary", async () => {
    const of = "pullAngleDeg";
    const exceedance = Array.from({ length: 1001 }, () => ({ of, limit: 0 }));
    await expect(summariseSweep({ sweep: mixed, exceedance })).rejects.toThrow(
      /^exceedance: .*1000/,
    );
    const tables = exceedance.map(() => ({ of, by: ["windMps"] }));
    await expect(summariseSweep({ sweep: mixed, tables })).rejects.toThrow(/^tables: .*1000/);
  });
});
