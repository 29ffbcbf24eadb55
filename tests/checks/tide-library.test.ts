import { constituents, createTidePredictor } from "@neaps/tide-predictor";
import { afterAll, describe, expect, test } from "vitest";
import { argumentOf, speedOf } from "../../src/tide/arguments.js";
import { tideSeries } from "../../src/tide/index.js";
import { reportRows, type Measured } from "./harness.js";
import published from "./tide-constants.json" with { type: "json" };
import { constantsOf } from "./tide-stations.js";

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const rows: Measured[] = [];

/**
 * Names whose parts the library reads in another way; the first six differ by a cycle in days or weeks.
 * A caller who means the other reading gives an argument under a name of his own.
 */
const READ_DIFFERENTLY = new Set(["2NKMS5", "NSK5", "4MSN8", "5MSN10", "4M2SN10", "3N2MS12"]);

describe("against an open-source tide library", () => {
  test("speeds of every constituent both know", () => {
    const errors: number[] = [];
    for (const [name, theirs] of Object.entries(constituents)) {
      const ours = argumentOf(name);
      if (ours === null || READ_DIFFERENTLY.has(name)) continue;
      errors.push(Math.abs(speedOf(ours) - theirs.speed));
    }
    expect(errors.length).toBeGreaterThan(300);
    const worst = Math.max(...errors);
    rows.push({
      quantity: "speeds of constituents",
      got: worst,
      expected: 0,
      tolerance: 2e-6,
      unit: "°/h",
    });
    expect(worst).toBeLessThan(2e-6);
  });

  // The library's M1 and M3 do not follow the convention of the constants, its single heights are cut to ten
  // minutes, and it takes the node factors of the first instant: those two are left out, a timeline is asked
  // for, and only one day at a time.
  test.each(Object.keys(published.stations))("heights at %s", (id) => {
    const source = constantsOf(id)!;
    const kept = source.constituents.filter((c) => !["M1", "M3", "S3"].includes(c.name));
    const library = createTidePredictor(
      kept.map((c) => ({
        name: c.name,
        amplitude: c.amplitudeM,
        phase: c.phaseDeg,
      })),
      { nodeCorrections: "schureman" },
    );
    let worst = 0;
    for (const day of [0, 47, 101, 160, 222, 300, 351]) {
      const fromMs = Date.UTC(2026, 0, 1) + day * DAY;
      const toMs = fromMs + DAY;
      const theirs = library.getTimelinePrediction({
        start: new Date(fromMs),
        end: new Date(toMs),
        timeFidelity: 3600,
      });
      const ours = tideSeries(
        {
          ...source,
          constituents: kept,
          meanLevelM: 0,
          nodes: "continuous",
        },
        { fromMs, toMs, stepMs: HOUR },
      );
      expect(theirs).toHaveLength(ours.length);
      ours.forEach((h, i) => {
        worst = Math.max(worst, Math.abs(h - theirs[i]!.level));
      });
    }
    const size = kept.reduce((sum, c) => sum + c.amplitudeM, 0);
    console.log(id, worst, size);
    rows.push({
      quantity: "heights, share of the sum of amplitudes",
      got: worst / size,
      expected: 0,
      tolerance: 0.002,
      unit: "share",
    });
    expect(worst).toBeLessThan(0.002 * size);
  });

  afterAll(() => {
    reportRows("tide-library", "@neaps/tide-predictor 0.11.0", rows);
  });
});
