import type { Metres } from "../core/units.js";
import type { PlaneArea } from "./area.js";
import { hasCode, numberOf, textOf } from "./attributes.js";
import type { AttributeValue, Chart, ChartFeature } from "./chart.js";
import { apart, near, refOf, type FeatureRef } from "./query.js";

/** Accuracy of one zone of confidence. */
export interface ZoneOfConfidence {
  /** CATZOC code. */
  readonly code: number;
  /** Letter and figure. */
  readonly name: "A1" | "A2" | "B" | "C" | "D" | "U";
  /** Error of position; null where it is worse than can be stated. */
  readonly positionErrorM: Metres | null;
  /** Part of the depth that is added to the error of position. */
  readonly positionErrorOfDepth: number;
  /** Error of depth; null where it is worse than can be stated. */
  readonly depthErrorM: Metres | null;
  /** Part of the depth that is added to the error of depth. */
  readonly depthErrorOfDepth: number;
  /** What was searched for. */
  readonly seafloor: string;
}

const zone = (
  code: number,
  name: ZoneOfConfidence["name"],
  positionErrorM: number | null,
  positionErrorOfDepth: number,
  depthErrorM: number | null,
  depthErrorOfDepth: number,
  seafloor: string,
): ZoneOfConfidence => ({
  code,
  name,
  positionErrorM,
  positionErrorOfDepth,
  depthErrorM,
  depthErrorOfDepth,
  seafloor,
});

/**
 * Zones of confidence of charted data.
 *
 * @source IHO S-57 edition 3.1, attribute CATZOC, from memory: check before relying on it
 */
export const zonesOfConfidence: readonly ZoneOfConfidence[] = [
  zone(1, "A1", 5, 0.05, 0.5, 0.01, "full search, significant features found"),
  zone(2, "A2", 20, 0, 1, 0.02, "full search, significant features found"),
  zone(3, "B", 50, 0, 1, 0.02, "no full search: hazards not expected, but may exist"),
  zone(4, "C", 500, 0, 2, 0.05, "no full search: depth anomalies may be expected"),
  zone(5, "D", null, 0, null, 0, "no full search: large depth anomalies may be expected"),
  zone(6, "U", null, 0, null, 0, "not assessed"),
];

const UNKNOWN = zonesOfConfidence.at(-1)!;

/** One area of charted quality within the area asked about. */
export interface QualityZone {
  /** The zone of confidence; `U` also where the code is missing or not listed. */
  zone: ZoneOfConfidence["name"];
  /** Error of position at the given depth; null where it cannot be stated. */
  positionErrorM: Metres | null;
  /** Error of depth at the given depth; null where it cannot be stated. */
  depthErrorM: Metres | null;
  /** Start of the survey as charted; null where not given. */
  surveyStart: string | null;
  /** End of the survey as charted; null where not given. */
  surveyEnd: string | null;
  /** Text the zone refers to. */
  text: string | null;
  /** The zone's feature. */
  feature: FeatureRef;
}

/** Whether a feature is a zone of quality. */
export const isZone = (f: ChartFeature): boolean => f.acronym === "M_QUAL";

const zoneOf = (attributes: ChartFeature["attributes"]): ZoneOfConfidence => {
  const code = numberOf(attributes["CATZOC"]);
  return zonesOfConfidence.find((row) => row.code === code) ?? UNKNOWN;
};

/** An error stated in figures; none is nought or less: conversions put 0 where nothing is stated. */
function stated(value: AttributeValue | undefined): Metres | null {
  const error = numberOf(value);
  return error !== null && error > 0 ? error : null;
}

/** Error of position of a zone of quality at a depth; null where it cannot be stated. */
export function positionErrorOf(
  attributes: ChartFeature["attributes"],
  depthM: Metres,
): Metres | null {
  const z = zoneOf(attributes);
  return stated(attributes["POSACC"]) ?? scaled(z.positionErrorM, z.positionErrorOfDepth, depthM);
}

/** Zones of quality that meet an area; errors at a depth, where one is given. */
export function qualityIn(chart: Chart, area: PlaneArea, depthM: Metres | null): QualityZone[] {
  const depth = Math.max(0, depthM ?? 0);
  return near(chart, area, 0, isZone).flatMap((i) => {
    const { attributes } = chart.features[i]!;
    if (apart(chart, i, area, 0) > 0) return [];
    const z = zoneOf(attributes);
    return [
      {
        zone: z.name,
        positionErrorM: positionErrorOf(attributes, depth),
        depthErrorM:
          stated(attributes["SOUACC"]) ?? scaled(z.depthErrorM, z.depthErrorOfDepth, depth),
        surveyStart: textOf(attributes["SURSTA"]),
        surveyEnd: textOf(attributes["SUREND"]),
        text: textOf(attributes["INFORM"]) ?? textOf(attributes["TXTDSC"]),
        feature: refOf(chart, i),
      },
    ];
  });
}

const scaled = (fixed: number | null, part: number, depth: number): number | null =>
  fixed === null ? null : fixed + part * depth;

/** Error of position to count with where a zone cannot state one: no less than that of the worst zone that can. */
export const UNSTATED_M = 500;

/** By how much to widen an area for the worst charted error of position; 0 where no quality is charted. */
export const widenBy = (quality: readonly QualityZone[]): Metres =>
  Math.max(0, ...quality.map((q) => q.positionErrorM ?? UNSTATED_M));

/** Whether a chart object is doubtful or its position approximate. */
export const isDoubtful = (attributes: Chart["features"][number]["attributes"]): boolean =>
  hasCode(attributes["STATUS"], 18) ||
  hasCode(attributes["QUASOU"], 3, 4, 8, 9) ||
  hasCode(attributes["QUAPOS"], 4, 5, 6, 7, 8);
