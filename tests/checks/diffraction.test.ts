import { feet } from "../../src/core/units.js";
import { diffract, tipAt } from "../../src/shelter/diffraction.js";
import { diffractionAt } from "../../src/shelter/index.js";
import { swellShare } from "../../src/shelter/swell.js";
import { type Check, type Measured, runChecks } from "./harness.js";

const input = (check: Check, key: string): number => check.inputs[key] as number;

/** Factor at a point given in wavelengths and angle into the shadow. */
function factorAt(check: Check): number {
  const alpha = input(check, "waveAngleDeg");
  const wedge = (check.inputs["wedgeAngleDeg"] as number | undefined) ?? 0;
  const tip = tipAt(2 * Math.PI * input(check, "rOverL"), wedge);
  const out = { re: 0, im: 0 };
  diffract(tip, 180 + alpha + input(check, "angleIntoShadowDeg"), alpha, out);
  return Math.sqrt(out.re * out.re + out.im * out.im);
}

/** ACES examples: tip at the origin, barrier along +x, angles anticlockwise from it. */
function aces(check: Check): Measured[] {
  const x = input(check, "xFt");
  const y = input(check, "yFt");
  const angle = (Math.atan2(y, x) * 180) / Math.PI;
  const got = diffractionAt({
    distanceM: feet(Math.sqrt(x * x + y * y)),
    angleDeg: angle < 0 ? angle + 360 : angle,
    waveAngleDeg: input(check, "waveAngleDeg"),
    wedgeAngleDeg: input(check, "wedgeAngleDeg"),
    periodS: input(check, "periodS"),
    depthM: feet(input(check, "depthFt")),
  });
  const printed = check.tolerance.startsWith("abs 0.005") ? 0.005 : 0.006;
  const rows: Measured[] = [
    {
      quantity: "ACES breakwater examples, factor",
      got: got.factor,
      expected: check.expected["modificationFactor"],
      tolerance: printed,
    },
  ];
  const add = (key: string, value: number, tolerance: number): void => {
    if (key in check.expected)
      rows.push({
        quantity: `ACES breakwater examples, ${key}`,
        got: value,
        expected: check.expected[key],
        tolerance,
      });
  };
  add("phaseRad", got.phaseRad, printed);
  add("heightFt", got.factor * (check.inputs["incidentHeightFt"] as number), printed);
  // ACES takes its wavelength from an approximation of the dispersion relation, good to a few parts in ten thousand.
  add("wavelengthFt", got.wavelengthM / feet(1), 0.06);
  return rows;
}

/** A spread sea past a thin wall, through the same sum that `swellAt` uses. */
function spread(check: Check): Measured[] {
  const shadow = input(check, "angleIntoShadowDeg");
  const share = swellShare(
    [
      {
        fromDeg: shadow,
        widthDeg: 180,
        first: {
          bearingDeg: shadow,
          distanceM: input(check, "rOverL"),
          wedgeAngleDeg: 0,
        },
        last: null,
      },
    ],
    0,
    input(check, "spreadingS"),
    1,
  );
  return [
    {
      quantity: "spread sea behind a breakwater",
      got: share.diffraction,
      expected: check.expected["Keff"],
      tolerance: 0.01,
    },
  ];
}

runChecks("diffraction", (check) => {
  if (check.id.startsWith("aces")) return aces(check);
  if (check.id.startsWith("directional")) return spread(check);
  return [
    {
      quantity: check.id.startsWith("wedge") ? "wedge series" : "thin wall, closed form",
      got: factorAt(check),
      expected: check.expected["K"],
      tolerance: 0.001,
    },
  ];
});
