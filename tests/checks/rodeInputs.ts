import type { Rode, Segment } from "../../src/rode/index.js";
import type { Check } from "./harness.js";

interface SegmentInput {
  kind?: string;
  unstretchedLengthM: number;
  weightInWaterNPerM: number;
  axialStiffnessN: number;
}
interface PointInput {
  atUnstretchedM: number;
  weightInWaterN: number;
}

/** The rode of a check: several segments, or the one line of the mooring-line checks. */
export function rodeOf(check: Check): Rode {
  const i = check.inputs;
  const segments = (i["segmentsFromAnchorToBow"] ?? [i]) as SegmentInput[];
  const points = i["pointLoads"] as PointInput[] | undefined;
  return {
    segments: segments.map(segmentOf),
    bowHeightAboveAnchorM: i["bowHeightAboveAnchorM"] as number,
    seabedSlopeDeg: i["seabedSlopeDeg"] as number | undefined,
    bedFriction: i["bedFrictionCoefficient"] as number | undefined,
    weights: points?.map((p) => ({
      fromAnchorM: p.atUnstretchedM,
      weightInWaterN: p.weightInWaterN,
    })),
  };
}

const segmentOf = (s: SegmentInput): Segment => ({
  kind: s.kind?.startsWith("chain") ? "chain" : s.kind === undefined ? "custom" : "rope",
  lengthM: s.unstretchedLengthM,
  weightInWaterNPerM: s.weightInWaterNPerM,
  axialStiffnessN: s.axialStiffnessN,
});
