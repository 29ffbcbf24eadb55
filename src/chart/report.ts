import { listOf } from "./attributes.js";
import type { ChartFeature, ChartReport } from "./chart.js";
import { objectClasses } from "./classes.js";
import { codedAttributes, meaningOf } from "./codes.js";

/** Codes that no list here has. */
export function unknownCodesOf(features: readonly ChartFeature[]): ChartReport["unknownCodes"] {
  const counts = new Map<string, number>();
  for (const { attributes } of features)
    for (const { acronym } of codedAttributes)
      if (attributes[acronym] !== undefined)
        for (const code of listOf(attributes[acronym]).flatMap((c) => c.split("/")))
          if (meaningOf(acronym, Number(code)) === null)
            counts.set(`${acronym} ${code}`, (counts.get(`${acronym} ${code}`) ?? 0) + 1);
  return [...counts].map(([key, count]) => {
    const space = key.indexOf(" ");
    return { attribute: key.slice(0, space), code: key.slice(space + 1), count };
  });
}

/** Classes with a use of which there is no feature. */
export function absentOf(features: readonly ChartFeature[]): string[] {
  const present = new Set(features.map((f) => f.acronym));
  return objectClasses
    .filter((c) => c.uses.length > 0 && !present.has(c.acronym))
    .map((c) => c.acronym);
}

/** Half the width of a chart beyond which distances on one plane are no longer good to 1e-4, m. */
const WIDE_M = 150_000;

/** A word where the chart is too wide for its plane. */
export const sizeWarnings = (xy: readonly number[]): string[] =>
  xy.some((m) => !(Math.abs(m) <= WIDE_M))
    ? [
        "the chart is more than 300 km across: distances far from its middle are not exact; read it in parts",
      ]
    : [];
