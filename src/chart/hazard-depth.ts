import type { Metres } from "../core/units.js";
import { hasCode, numberOf, type Attributes } from "./attributes.js";

/** How a danger stands to the water. */
export type WaterLevel =
  "dry" | "coversAndUncovers" | "awash" | "submerged" | "floating" | "unknown";

const LEVELS: readonly (readonly [readonly number[], WaterLevel])[] = [
  [[1, 2, 6], "dry"],
  [[3], "submerged"],
  [[4], "coversAndUncovers"],
  [[5], "awash"],
  [[7], "floating"],
];

/** How a danger stands to the water, from WATLEV; a drying depth tells it too. */
export function waterLevelOf(attributes: Attributes): WaterLevel {
  const level = LEVELS.find(([codes]) => hasCode(attributes["WATLEV"], ...codes));
  if (level !== undefined) return level[1];
  const depth = numberOf(attributes["VALSOU"]);
  return depth === null ? "unknown" : depth < 0 ? "coversAndUncovers" : "submerged";
}

/** Depth over a danger. */
export interface HazardDepth {
  /** Charted least depth over it, positive down; null where it is not charted. */
  leastDepthM: Metres | null;
  /** Depth to count with: the charted one, or a bound on the safe side; null for one that may stand above any water. */
  treatAsM: Metres | null;
  /** How `treatAsM` was found. */
  basis: string;
}

const of = (leastDepthM: number | null, treatAsM: number | null, basis: string): HazardDepth => ({
  leastDepthM,
  treatAsM,
  basis,
});

/** Depth over a danger charted to another datum than the one in use. */
export const ofOtherDatum = (attributes: Attributes): HazardDepth =>
  of(numberOf(attributes["VALSOU"]), null, "charted to another datum: its depth is not known");

/** Depth over a danger; `around` is the shoal bound of the depth areas at it, null where not known. */
export function hazardDepth(attributes: Attributes, around: Metres | null): HazardDepth {
  const depth = numberOf(attributes["VALSOU"]);
  const level = waterLevelOf(attributes);
  if (level === "dry" || level === "floating")
    return of(depth, null, "stands out of the water or floats");
  // A rock that dries, or is awash, has no water over it at datum, whatever depth is put down.
  if (depth !== null && depth > 0 && (level === "coversAndUncovers" || level === "awash"))
    return of(depth, level === "awash" ? 0 : null, "its depth and its water level contradict");
  if (depth !== null && !hasCode(attributes["QUASOU"], 2))
    return of(
      depth,
      depth,
      hasCode(attributes["QUASOU"], 7)
        ? "least depth not known, safe clearance at the value charted (QUASOU 7)"
        : "charted (VALSOU)",
    );
  switch (level) {
    case "awash":
      return of(null, 0, "awash at datum (WATLEV 5)");
    case "coversAndUncovers":
      return of(null, null, "covers and uncovers, by how much is not charted");
    case "unknown":
      return of(null, null, "neither its depth nor its water level is charted");
    case "submerged":
      return hasCode(attributes["EXPSOU"], 1, 3) && around !== null
        ? of(
            null,
            around,
            "depth not charted; not shoaler than the depth area round it (EXPSOU 1 or 3)",
          )
        : of(null, 0, "depth not charted: taken to reach to datum");
  }
}
