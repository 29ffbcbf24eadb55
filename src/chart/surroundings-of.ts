import { check } from "../core/check.js";
import type { Metres } from "../core/units.js";
import type { Geometry } from "../geo/geojson.js";
import { anchoringOptionsSchema, type AnchoringOptions } from "./anchoring-at.js";
import { anchoringPolicy } from "./policy.js";
import { areaSchema, layArea, type Area, type PlaneArea } from "./area.js";
import type * as z from "zod/mini";
import type { Chart } from "./chart.js";
import { worstOf } from "./coverage-of.js";
import { cellsFor, leastDepthAt, unknownBy } from "./depths-in.js";
import { drawingOf } from "./drawing.js";
import { findingsOf } from "./effects.js";
import { coverageIn } from "./ground.js";
import { dangerOf, isHazard } from "./hazards-in.js";
import { inForce } from "./in-force.js";
import { qualityIn } from "./quality.js";
import { apart, chartSchema, near, serves } from "./query.js";
import { poorerAt, unwidened, wideningOf } from "./widening.js";

/** A charted thing: its name in the chart and its shape. */
interface Thing {
  /** Name of the feature. */
  id: string;
  /** Its shape. */
  geometry: Geometry;
}

/** What a chart has round a berth, in the form that `swingClearance` takes. */
export interface ChartedSurroundings {
  /** Shore: coastline, land, structures of the shore. */
  shore: Thing[];
  /** Dangers, with the depth to count with; null for one that may stand above any water. */
  hazards: (Thing & {
    /** What it is. */
    kind: string;
    /** Least depth over it; null where not known. */
    leastDepthM: Metres | null;
  })[];
  /** Areas of charted depth, with their shoal bound; null where the depth is not known. */
  depthAreas: (Thing & {
    /** Shoal end of the range of depths; null where not known. */
    leastDepthM: Metres | null;
  })[];
  /** Areas where anchoring or entry is prohibited or restricted during the stay. */
  restricted: (Thing & {
    /** What is restricted. */
    kind: string;
  })[];
}

/** Answer of {@link surroundingsOf}. */
export interface SurroundingsFound {
  /** What was found. */
  around: ChartedSurroundings;
  /** Charted error of position, in the area and where the dangers lie; null where it cannot be stated. */
  positionErrorM: Metres | null;
  /** How much of the area the chart covers: lists tell nothing of the rest. */
  covered: "whole" | "part" | "none";
}

/** The rule on a feature, where it prohibits or restricts during the stay. */
function ruleOf(
  chart: Chart,
  index: number,
  { stay, policy }: z.output<typeof anchoringOptionsSchema>,
): string | null {
  const feature = chart.features[index]!;
  const worst = findingsOf(feature, policy ?? anchoringPolicy)[0];
  if (worst === undefined || (worst.effect !== "prohibited" && worst.effect !== "restricted"))
    return null;
  if (inForce(feature.attributes, stay ?? null).during === "no") return null;
  return `${worst.effect}: ${worst.meaning}`;
}

/**
 * What the chart has round a berth, as shapes: shore, dangers, areas of depth and areas with a
 * rule, in the form that `swingClearance` takes.
 *
 * Shapes of many vertices are cut to twice the area's box. Areas whose depth is not known come with
 * a null depth; dangers carry the depth to count with (`treatAsM` of `hazardsIn`). It leaves out
 * what lies beyond the area asked about: ask wide enough.
 *
 * *Valid*: areas up to 50 km. *Accuracy*: that of the chart; see `positionErrorM`.
 *
 * @throws InputError where the chart, area or options are none.
 * @source IHO S-57 edition 3.1, object catalogue
 * @example
 * ```ts
 * import { readChart, surroundingsOf } from "hawse/chart";
 * const coast = { type: "Feature", properties: {}, geometry: { type: "LineString", coordinates: [[-30, 39.9], [-30, 40.1]] } };
 * const chart = readChart({ COALNE: { type: "FeatureCollection", features: [coast] } }, { soundingDatum: 23 });
 * const { around, covered } = surroundingsOf(chart, { centre: { latDeg: 40, lonDeg: -30.001 }, radiusM: 200 });
 * console.log(around.shore.length, around.hazards.length, covered);
 * // 1 0 none
 * ```
 */
export function surroundingsOf(
  chart: Chart,
  area: Area,
  options: AnchoringOptions = {},
): SurroundingsFound {
  return surroundingsIn(
    check(chartSchema, chart),
    check(areaSchema, area),
    check(anchoringOptionsSchema, options),
  );
}

/** Twice the box of an area. */
const twice = ({ box: [x0, y0, x1, y1] }: PlaneArea) =>
  [x0 - (x1 - x0) / 2, y0 - (y1 - y0) / 2, x1 + (x1 - x0) / 2, y1 + (y1 - y0) / 2] as const;

/** {@link surroundingsOf} of an input that is already checked. */
export function surroundingsIn(
  chart: Chart,
  area: Area,
  options: z.output<typeof anchoringOptionsSchema>,
): SurroundingsFound {
  const laid = layArea(chart.plane, area);
  const cells = cellsFor(chart, laid);
  const around: ChartedSurroundings = { shore: [], hazards: [], depthAreas: [], restricted: [] };
  const box = twice(laid);
  const quality = qualityIn(chart, laid, null);
  const errors = quality.map((q) => q.positionErrorM);
  const widening = options.widen ? wideningOf(chart, laid, quality) : unwidened;
  for (const i of near(chart, laid, widening.mostM, () => true)) {
    const f = chart.features[i]!;
    const distanceM = apart(chart, i, laid, widening.mostM);
    const poorer = (isHazard(f) ? poorerAt(chart, i, laid, widening) : []).filter(
      (z) => distanceM <= z.errorM,
    );
    if (distanceM > widening.ownM && poorer.length === 0) continue;
    errors.push(...poorer.map((z) => z.statedM));
    const thing = (): Thing => ({ id: f.id, geometry: drawingOf(chart, i, box) });
    if (isHazard(f)) around.hazards.push({ ...thing(), ...dangerOf(chart, i) });
    else if (serves(f, "shore")) around.shore.push(thing());
    if (serves(f, "depth") && f.primitive === "area" && cells.has(f.cell))
      around.depthAreas.push({
        ...thing(),
        leastDepthM: leastDepthAt(chart, f, laid),
      });
    else if (f.primitive === "area" && unknownBy(f, chart.soundingDatum) !== null)
      around.depthAreas.push({ ...thing(), leastDepthM: null });
    const rule = ruleOf(chart, i, options);
    if (rule !== null) around.restricted.push({ ...thing(), kind: rule });
  }
  return { around, positionErrorM: worstOf(errors), covered: coverageIn(chart, laid) };
}
