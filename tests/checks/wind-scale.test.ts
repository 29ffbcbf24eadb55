import { meanWindOfForce, seaState, swellTerms, windForce } from "../../src/shelter/index.js";
import { BEAUFORT } from "../../src/shelter/tables.js";
import { type Check, type Measured, runChecks } from "./harness.js";

/** A figure well inside a span. */
const inside = (min: number, max: number | null): number =>
  max === null ? min + 1 : 0.5 * (min + max);

function force(check: Check): Measured[] {
  const n = check.inputs["force"] as number;
  const row = BEAUFORT[n]!;
  const { force: named, ...rest } = windForce({
    windMps: inside(row.minMps, row.maxMps),
  });
  return [
    {
      quantity: "Beaufort scale",
      got: {
        name: rest.name,
        minKn: rest.minKn,
        maxKn: rest.maxKn,
        minMS: rest.minMps,
        maxMS: rest.maxMps,
        probableHeightM: rest.probableHeightM,
        probableMaxHeightM: rest.probableMaxHeightM,
      },
      expected: check.expected,
    },
    { quantity: "Beaufort scale", got: named, expected: n },
  ];
}

function sea(check: Check): Measured[] {
  const { minHeightM, maxHeightM, name } = check.expected as {
    minHeightM: number;
    maxHeightM: number | null;
    name: string;
  };
  // The bounding height belongs to the lower code.
  const at = maxHeightM ?? minHeightM + 1;
  const got = seaState({ heightM: at });
  return [
    {
      quantity: "state of sea, code table 3700",
      got: { code: got.code, name: got.name, min: got.min, max: got.max },
      expected: {
        code: check.inputs["code"],
        name,
        min: minHeightM,
        max: maxHeightM,
      },
    },
  ];
}

function swell(check: Check): Measured[] {
  const { minM, maxM } = check.expected as {
    minM: number;
    maxM: number | null;
  };
  const term = check.inputs["term"] as string;
  const at = maxM ?? minM + 1;
  const byLength = check.quantity.includes("length");
  const got = swellTerms(byLength ? { heightM: 1, lengthM: at } : { heightM: at, lengthM: 50 })[
    byLength ? "length" : "height"
  ];
  return [
    {
      quantity: "terms for swell",
      got,
      expected: { name: term, min: minM, max: maxM },
    },
  ];
}

runChecks("wind-scale", (check) => {
  if (check.id.startsWith("beaufort-formula"))
    return [
      {
        quantity: "mean wind of a force",
        got: meanWindOfForce(check.inputs["force"] as number),
        expected: check.expected["meanMS"],
        tolerance: 0.01,
        unit: "m/s",
      },
    ];
  if (check.id.startsWith("beaufort")) return force(check);
  if (check.id.startsWith("sea-state")) return sea(check);
  return swell(check);
});
