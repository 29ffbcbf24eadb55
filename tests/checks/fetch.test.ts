import { readFileSync } from "node:fs";
import { COSINE_MEAN, radialMean } from "../../src/shelter/effective.js";
import { effectiveFetch, type FanInput, waveGrowth } from "../../src/shelter/index.js";
import { gaussWeights } from "../../src/shelter/spread.js";
import { type Check, type Measured, runChecks } from "./harness.js";
import { radialFan } from "./shelter-radials.js";

interface Point {
  id: string;
  bearingStepDeg: number;
  fetchM: number[];
}
const reference = JSON.parse(
  readFileSync(new URL("../../shared/checks/fetch-reference.json", import.meta.url), "utf8"),
) as { points: Point[] };

const MILE = 1609.344;
const input = (check: Check, key: string): number => check.inputs[key] as number;

/** Comparison of each named figure, relative. */
const relative = (
  check: Check,
  topic: string,
  tolerance: number,
  got: Record<string, number>,
): Measured[] =>
  Object.entries(got).map(([key, value]) => ({
    quantity: `${topic}, ${key}`,
    got: value,
    expected: check.expected[key],
    tolerance,
    relative: true,
  }));

/** Fan of open or half-open water with a ray at every degree. */
const evenFan = (fetchM: (deg: number) => number): FanInput => {
  const bearingsDeg = Array.from({ length: 360 }, (_, i) => i);
  return {
    bearingsDeg,
    fetchM: bearingsDeg.map(fetchM),
    ends: bearingsDeg.map(() => "coast"),
  };
};

const over = (
  fan: FanInput,
  windFromDeg: number,
  method: "saville" | "cosineMean" | "straight",
): number => effectiveFetch({ fan, windFromDeg: (windFromDeg + 360) % 360, method }).fetchM;

/** The radials of the check's half width and step, which are those the method fixes. */
function evenFetch(check: Check): Measured[] {
  const fetchM = input(check, "fetchKm") * 1000;
  const whole = check.id.startsWith("uniform");
  const fan = evenFan((deg) => (whole || deg < 180 ? fetchM : 0));
  const got: Record<string, number> = {};
  for (const key of Object.keys(check.expected))
    got[key] = over(fan, 0, key.startsWith("cosine") ? "cosineMean" : "saville") / 1000;
  return relative(check, "effective fetch of an even fan", 1e-5, got);
}

function surveyed(check: Check): Measured[] {
  const fan = radialFan(check.inputs);
  const wind = input(check, "windFromDeg");
  const restricted = effectiveFetch({ fan, windFromDeg: wind });
  return [
    ...relative(check, "effective fetch of surveyed radials", 0.001, {
      representativeFetchMi: restricted.fetchM / MILE,
      straightFetchMi: over(fan, wind, "straight") / MILE,
      savilleMi: over(fan, wind, "saville") / MILE,
      cosineMeanMi: over(fan, wind, "cosineMean") / MILE,
    }),
    {
      quantity: "direction of waves over surveyed radials",
      got: restricted.waveFromDeg,
      expected: check.expected["waveFromDeg"],
    },
  ];
}

/** A real point: the reference fan, its edge rays taken as they stand, as the check says. */
function realPoint(check: Check): Measured[] {
  const point = reference.points.find((p) => p.id === check.inputs["point"]);
  if (point === undefined) throw new Error("point is not in the reference");
  const fan: FanInput = {
    bearingsDeg: point.fetchM.map((_, i) => i * point.bearingStepDeg),
    fetchM: point.fetchM,
    ends: point.fetchM.map(() => "coast"),
  };
  const wind = input(check, "windFromDeg");
  const windMps = input(check, "windMS");
  const heightAlong = (deg: number): number =>
    waveGrowth({ method: "spm84", windMps, fetchM: over(fan, deg, "straight") }).hm0M;
  const half = input(check, "fanHalfDeg");
  const step = input(check, "fanStepDeg");
  const count = (2 * half) / step + 1;
  const density = {
    offsetDeg: new Float64Array(count),
    weight: new Float64Array(count),
  };
  gaussWeights(input(check, "directionSigmaDeg"), half, step, density);
  let mean = 0;
  let square = 0;
  density.offsetDeg.forEach((offset, i) => {
    const h = heightAlong(wind + offset);
    mean += density.weight[i]! * h;
    square += density.weight[i]! * h * h;
  });
  return relative(check, "sea over a forecast's spread", 0.002, {
    straightFetchM: over(fan, wind, "straight"),
    savilleM: over(fan, wind, "saville"),
    cosineMeanM: over(fan, wind, "cosineMean"),
    fanMeanHm0M: mean,
    fanRmsHm0M: Math.sqrt(square),
    hm0AtForecastDirectionM: heightAlong(wind),
  });
}

runChecks("fetch", (check) => {
  if (check.id === "saville-sum-cos")
    return [
      {
        quantity: "sum of cosines of Saville's radials",
        // The mean of a fan that is 1/cos along each radial is the number of radials over that sum.
        got: 15 / radialMean((a) => 1 / Math.cos((a * Math.PI) / 180), 0, COSINE_MEAN),
        expected: check.expected["sumCos"],
        tolerance: 0.003,
      },
    ];
  if (check.id.startsWith("uniform") || check.id.startsWith("half-fan")) return evenFetch(check);
  if (check.id.startsWith("aces")) return surveyed(check);
  return realPoint(check);
});
