import { feet } from "../../src/core/units.js";
import { motion, naturalRoll } from "../../src/shelter/index.js";
import { type Encounter, GOOD_CLIMATE, MOTION_LIMITS } from "../../src/shelter/tables.js";
import { type Check, type Measured, runChecks } from "./harness.js";

/** Period inside a printed span such as `<2`, `2-6` or `>6`. */
const periodIn = (span: string): number => (span === "<2" ? 1 : span === "2-6" ? 4 : 8);

function climate(check: Check): Measured[] {
  const encounter = check.inputs["direction"] as Encounter;
  const periodS = periodIn(check.inputs["peakPeriodS"] as string);
  const row = GOOD_CLIMATE.find(
    (r) =>
      r.encounter === encounter && periodS >= r.fromS && (r.belowS === null || periodS < r.belowS),
  )!;
  return [
    {
      quantity: "good wave climate of small-craft harbours",
      got: {
        hsOnceIn50YearsM: row.onceIn50YearsM,
        hsOnceAYearM: row.onceAYearM,
        hsOnceAWeekM: row.onceAWeekM,
      },
      expected: check.expected,
    },
    {
      quantity: "good wave climate of small-craft harbours",
      got: motion({ hm0M: 0.1, periodS, encounter }).goodHarbourM,
      expected: check.expected["hsOnceAWeekM"],
    },
  ];
}

function limits(check: Check): Measured[] {
  const row = MOTION_LIMITS.find((m) => m.activity === check.inputs["activity"])!;
  return [
    {
      quantity: "motion limits, root mean square",
      got: {
        verticalAccelG: row.verticalAccelG,
        lateralAccelG: row.lateralAccelG,
        rollDeg: row.rollDeg,
      },
      expected: check.expected,
    },
  ];
}

runChecks("comfort", (check) => {
  const input = (key: string): number => check.inputs[key] as number;
  if (check.id === "hdbk-berth") {
    const { low, high } = motion({
      hm0M: 0.1,
      periodS: 3,
      encounter: "head",
    }).acceptableBerthM;
    return [
      {
        quantity: "acceptable wave at a berth",
        got: { minFt: low / feet(1), maxFt: high / feet(1) },
        expected: check.expected,
      },
    ];
  }
  if (check.id.startsWith("marina")) return climate(check);
  if (check.id.startsWith("nordforsk")) return limits(check);
  if (check.id.startsWith("roll"))
    return [
      {
        quantity: "natural roll period",
        got: naturalRoll({
          beamM: input("beamM"),
          draughtM: input("draughtM"),
          waterlineM: input("lwlM"),
          metacentricHeightM: input("gmM"),
        }),
        expected: check.expected["rollPeriodS"],
        tolerance: 0.001,
        relative: true,
      },
    ];
  return [
    {
      quantity: "vertical acceleration of a hull that follows the waves",
      got: motion({
        hm0M: input("hm0M"),
        periodS: input("periodS"),
        encounter: "head",
      }).verticalAccelMps2,
      expected: check.expected["rmsAccelMS2"],
      tolerance: 0.001,
      relative: true,
    },
  ];
});
