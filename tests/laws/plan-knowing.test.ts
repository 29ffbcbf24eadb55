import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { planStay, type StayInput } from "../../src/plan/index.js";
import { fetchFan, shelter } from "../../src/shelter/index.js";
import { bay, HERE, steadyWind, T0, without } from "../openBay.js";

const HOUR = 3_600_000;
const CLASSES = ["comfortable", "tolerable", "poor", "untenable", "unknown"];
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** A shore close to the north, open water elsewhere: seas turn off the wind. */
const coast = {
  type: "FeatureCollection" as const,
  bbox: [-30.3, 39.7, -29.7, 40.3] as [number, number, number, number],
  features: [
    {
      type: "Feature" as const,
      properties: {},
      geometry: {
        type: "LineString" as const,
        coordinates: [
          [-30.3, 40.001],
          [-29.7, 40.001],
        ],
      },
    },
  ],
};

const stay = fc
  .record({
    windMps: real(5, 18),
    windFromDeg: real(0, 360),
    rateMps: real(0, 1.2),
    to: real(0, 360),
  })
  .map(({ windMps, windFromDeg, rateMps, to }) => {
    const input = bay(6, windMps);
    input.forecast = steadyWind(windMps, windFromDeg);
    input.coast = coast;
    input.stream = { kind: "steady", rateMps, towardsDeg: to };
    return input;
  });

const fan = fetchFan({ coast, position: HERE });

describe("a heading that is not known is no good news", () => {
  test("of a sea that is felt: never better than on any heading that is known", () => {
    fc.assert(
      fc.property(real(4, 18), real(0, 360), real(0, 360), (windMps, windFromDeg, headingDeg) => {
        const given = {
          fan,
          forecast: steadyWind(windMps, windFromDeg),
          stay: { fromMs: T0, toMs: T0 + 4 * HOUR },
        };
        const rows = (toH: number) => [0, toH].map((h) => ({ timeMs: T0 + h * HOUR, headingDeg }));
        const all = shelter({ ...given, lying: rows(4) }).hours.comfort;
        const lost = shelter({ ...given, lying: rows(1) }).hours.comfort;
        all.forEach((c, i) => {
          expect(CLASSES.indexOf(lost[i]!)).toBeGreaterThanOrEqual(CLASSES.indexOf(c));
        });
      }),
      { numRuns: 60 },
    );
  });

  test("of a plan whose tide ends, or is not told", () => {
    fc.assert(
      fc.property(stay, (input) => {
        const full = planStay(input).shelter!.hours;
        const { tide } = input;
        if (tide?.kind !== "turns") throw new Error("the bay has a tide by its turns");
        const short: StayInput = { ...input, tide: { ...tide, turns: tide.turns.slice(0, 2) } };
        for (const less of [short, without(input, "tide")]) {
          const found = planStay(less);
          expect(found.unknown).toContain("unknown.tide");
          found.shelter!.hours.comfort.forEach((c, i) => {
            expect(CLASSES.indexOf(c)).toBeGreaterThanOrEqual(CLASSES.indexOf(full.comfort[i]!));
          });
        }
      }),
      { numRuns: 25 },
    );
  });
});
