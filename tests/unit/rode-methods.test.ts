import { describe, expect, test } from "vitest";
import { layRode, type LayRodeInput, type Segment } from "../../src/rode/index.js";
import { errorOf, reportRows, type Measured } from "../checks/harness.js";
import { byIntegration, byLeastEnergy, type Reference } from "./rodeReference.js";

const chain = (lengthM: number, axialStiffnessN = 8.5e6): Segment => ({
  kind: "chain",
  lengthM,
  weightInWaterNPerM: 19.18,
  axialStiffnessN,
});
const rope = (lengthM: number, axialStiffnessN = 1.1e5): Segment => ({
  kind: "rope",
  lengthM,
  weightInWaterNPerM: 0.1177,
  axialStiffnessN,
});
const mixed = [chain(10), rope(30)];

/** One case for each branch, and for each pair of things that meet in one. */
const CASES: Record<string, LayRodeInput> = {
  "chain on the bottom": {
    segments: [chain(50)],
    bowHeightAboveAnchorM: 10,
    horizontalLoadN: 900,
  },
  "chain lifted": {
    segments: [chain(25)],
    bowHeightAboveAnchorM: 10,
    horizontalLoadN: 3000,
  },
  "chain down, rope lifted": {
    segments: mixed,
    bowHeightAboveAnchorM: 6,
    horizontalLoadN: 200,
  },
  "rope itself on the bottom": {
    segments: mixed,
    bowHeightAboveAnchorM: 4,
    horizontalLoadN: 2,
  },
  "rope on the bottom below chain": {
    segments: [rope(30), chain(20)],
    bowHeightAboveAnchorM: 8,
    horizontalLoadN: 60,
  },
  "chain lifted, rope below it down": {
    segments: [rope(30), chain(20)],
    bowHeightAboveAnchorM: 14,
    horizontalLoadN: 400,
  },
  "four segments": {
    segments: [chain(8), rope(12), chain(6), rope(20)],
    bowHeightAboveAnchorM: 9,
    horizontalLoadN: 350,
  },
  "nearly straight": {
    segments: mixed,
    bowHeightAboveAnchorM: 12,
    horizontalLoadN: 9000,
  },
  "nearly up and down": {
    segments: [chain(14)],
    bowHeightAboveAnchorM: 13.5,
    horizontalLoadN: 40,
  },
  "no longer than high": {
    segments: [rope(10)],
    bowHeightAboveAnchorM: 10,
    horizontalLoadN: 50,
  },
  "rising bed": {
    segments: [chain(50)],
    bowHeightAboveAnchorM: 10,
    horizontalLoadN: 1500,
    seabedSlopeDeg: 9,
  },
  "rising bed, rope down": {
    segments: mixed,
    bowHeightAboveAnchorM: 9,
    horizontalLoadN: 20,
    seabedSlopeDeg: 6,
  },
  "falling bed": {
    segments: [chain(50)],
    bowHeightAboveAnchorM: 10,
    horizontalLoadN: 1200,
    seabedSlopeDeg: -6,
  },
  "falling bed, lifted, anchor pulled down the slope": {
    segments: [chain(30)],
    bowHeightAboveAnchorM: 8,
    horizontalLoadN: 900,
    seabedSlopeDeg: -12,
  },
  "weight lifted in part": {
    segments: mixed,
    bowHeightAboveAnchorM: 6,
    horizontalLoadN: 300,
    weights: [{ fromAnchorM: 20, weightInWaterN: 150 }],
  },
  "weight on the bottom": {
    segments: [chain(60)],
    bowHeightAboveAnchorM: 8,
    horizontalLoadN: 300,
    weights: [{ fromAnchorM: 20, weightInWaterN: 150 }],
  },
  "two weights lifted": {
    segments: mixed,
    bowHeightAboveAnchorM: 6,
    horizontalLoadN: 2500,
    weights: [
      { fromAnchorM: 20, weightInWaterN: 150 },
      { fromAnchorM: 12, weightInWaterN: 80 },
    ],
  },
  "weight lifted in part on a rising bed": {
    segments: mixed,
    bowHeightAboveAnchorM: 8,
    horizontalLoadN: 500,
    seabedSlopeDeg: 5,
    weights: [{ fromAnchorM: 20, weightInWaterN: 250 }],
  },
  "float, chain on the bottom": {
    segments: [chain(50)],
    bowHeightAboveAnchorM: 10,
    horizontalLoadN: 900,
    weights: [{ fromAnchorM: 40, weightInWaterN: -90 }],
  },
  "float, all lifted": {
    segments: mixed,
    bowHeightAboveAnchorM: 8,
    horizontalLoadN: 2500,
    weights: [{ fromAnchorM: 20, weightInWaterN: -100 }],
  },
};

const FRICTION: Record<string, LayRodeInput> = {
  "friction, tension left at the anchor": {
    ...CASES["chain on the bottom"]!,
    bedFriction: 0.7,
  },
  "friction, tension gone before the anchor": {
    ...CASES["chain on the bottom"]!,
    bedFriction: 5,
  },
  "friction on a falling bed": { ...CASES["falling bed"]!, bedFriction: 0.6 },
  "friction on a rising bed, rope down": {
    ...CASES["rising bed, rope down"]!,
    bedFriction: 0.3,
  },
  "friction, weight on the bottom": {
    ...CASES["weight on the bottom"]!,
    bedFriction: 0.7,
  },
  "friction, weight lifted in part": {
    ...CASES["weight lifted in part"]!,
    bedFriction: 0.7,
  },
};

const measured = (
  name: string,
  input: LayRodeInput,
  by: Reference,
  lengths: number,
  forces: number,
): Measured[] => {
  const lie = layRode(input);
  const force = (quantity: string, got: number, expected: number): Measured => ({
    quantity: `${name}: ${quantity}`,
    got,
    expected,
    // Of the load, so that a force of zero has a scale.
    tolerance: forces * (input.horizontalLoadN + lie.bowTensionN),
    unit: "N",
  });
  return [
    {
      quantity: `${name}: reach`,
      got: lie.horizontalReachM,
      expected: by.reachM,
      tolerance: lengths,
      unit: "m",
    },
    force("vertical load at the bow", lie.bowVerticalN, by.bowVerticalN),
    force("tension at the anchor", lie.anchorTensionN, by.anchorTensionN),
  ];
};

const expectClose = (rows: readonly Measured[]) => {
  for (const m of rows) expect(errorOf(m), m.quantity).toBeLessThanOrEqual(m.tolerance!);
};

describe("integration of the cable equations", () => {
  const all: Measured[] = [];
  test.each(Object.entries({ ...CASES, ...FRICTION }))("%s", (name, input) => {
    const rows = measured(name, input, byIntegration(input), 1e-8, 1e-8);
    expectClose(rows);
    all.push(...rows);
  });
  test("report", () => {
    reportRows(
      "rode-integration",
      "Runge–Kutta integration of the cable equations with shooting",
      all,
    );
  });
});

describe("least energy of a chain of bars", () => {
  const all: Measured[] = [];
  // Softer chain: the bars then come to rest in few steps.
  const soft = (input: LayRodeInput): LayRodeInput => ({
    ...input,
    segments: input.segments.map((s) => ({
      ...s,
      axialStiffnessN: Math.min(s.axialStiffnessN, 1e5),
    })),
  });
  test.each(Object.entries(CASES))("%s", (name, hard) => {
    const input = soft(hard);
    // The error of bars falls as the square of their length: two lengths give the limit.
    const coarse = byLeastEnergy(input, 24);
    const fine = byLeastEnergy(input, 48);
    const limit = (key: keyof Reference) => fine[key] + (fine[key] - coarse[key]) / 3;
    const by = {
      reachM: limit("reachM"),
      bowVerticalN: limit("bowVerticalN"),
      anchorTensionN: limit("anchorTensionN"),
      onBottomM: fine.onBottomM,
    };
    const rows = measured(name, input, by, 0.01, 0.01);
    expectClose(rows);
    all.push(...rows);
  });
  test("report", () => {
    reportRows("rode-energy", "Least potential energy of a chain of bars", all);
  });
});
