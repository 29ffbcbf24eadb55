import { layRode, loadAtReach } from "../../src/rode/index.js";
import { runChecks, type Check, type Measured } from "./harness.js";
import { rodeOf } from "./rodeInputs.js";

/** Field of the result, unit, for each field of the check files. */
const FIELDS = {
  horizontalLoadAtBowN: ["horizontalLoadN", "N"],
  bowTensionN: ["bowTensionN", "N"],
  bowVerticalN: ["bowVerticalN", "N"],
  anchorTensionN: ["anchorTensionN", "N"],
  anchorHorizontalN: ["anchorHorizontalN", "N"],
  bowAngleFromHorizontalDeg: ["bowAngleDeg", "deg"],
  pullAngleAtAnchorFromHorizontalDeg: ["pullAngleDeg", "deg"],
  pullAngleAtAnchorFromBedDeg: ["pullAngleFromBedDeg", "deg"],
  unstretchedLengthOnBottomM: ["lengthOnBottomM", "m"],
  hangingUnstretchedLengthM: ["hangingLengthM", "m"],
  horizontalReachM: ["horizontalReachM", "m"],
  greatestSlackReachM: ["greatestSlackReachM", "m"],
  fractionOfPointLoadLifted: ["weightLiftedShare", "share"],
} as const;

/** Tolerances the file states: lengths 1 mm, forces 1e-5, angles 0.001 degree; a share as a force. */
const TOLERANCES = {
  N: { tolerance: 1e-5, relative: true },
  deg: { tolerance: 0.001, unit: "deg" },
  m: { tolerance: 0.001, unit: "m" },
  share: { tolerance: 1e-5, relative: true },
} as const;

runChecks("rode-grid", (check: Check): Measured[] => {
  const rode = rodeOf(check);
  const { horizontalReachM, horizontalLoadAtBowN } = check.inputs;
  const lie =
    horizontalReachM === undefined
      ? layRode({ ...rode, horizontalLoadN: horizontalLoadAtBowN as number })
      : loadAtReach({ ...rode, horizontalReachM: horizontalReachM as number });
  return Object.entries(check.expected).map(([key, expected]): Measured => {
    if (key === "state")
      return {
        quantity: "rode, state",
        got: lie.weightLiftedShare === null ? lie.state : `${lie.state}-at-point-load`,
        expected,
      };
    if (key === "stretchedLengthM")
      return {
        quantity: "rode, stretched length",
        got: lie.lengthM + lie.stretchM,
        expected,
        ...TOLERANCES.m,
      };
    const [field, unit] = FIELDS[key as keyof typeof FIELDS];
    // A force of zero has no relative error.
    const tolerance =
      expected === 0 && unit === "N" ? { tolerance: 1e-9, unit: "N" } : TOLERANCES[unit];
    return {
      quantity: `rode, ${field}`,
      got: lie[field],
      expected,
      ...tolerance,
    };
  });
});
