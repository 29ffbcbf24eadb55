import type { FanInput } from "../../src/shelter/index.js";

const MILE = 1609.344;

/** Fan of a published survey of radials: what lies outside the surveyed arc is land. */
export function radialFan(inputs: Record<string, unknown>): FanInput {
  const fetchMi = inputs["radialFetchMi"] as number[];
  const first = inputs["firstRadialDeg"] as number;
  const step = inputs["radialStepDeg"] as number;
  return {
    bearingsDeg: fetchMi.map((_, i) => first + i * step),
    fetchM: fetchMi.map((f) => f * MILE),
    ends: fetchMi.map(() => "coast" as const),
    gaps: "land",
  };
}
