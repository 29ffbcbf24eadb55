import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import type { Position } from "../core/schema.js";
import type { Metres } from "../core/units.js";
import { type BoxTree, nearestOnSegments, nothingFound } from "../geo/boxtree.js";
import { positionOf } from "../geo/plane.js";
import { areaSchema, layArea, type Area, type PlaneArea } from "./area.js";
import { hasCode, numberOf, textOf } from "./attributes.js";
import type { Chart, ChartFeature } from "./chart.js";
import { worstOf } from "./coverage-of.js";
import { statesOtherDatum } from "./depth-range.js";
import { leastDepthAt, otherDatumOf, unknownBy } from "./depths-in.js";
import {
  hazardDepth,
  ofOtherDatum,
  waterLevelOf,
  type HazardDepth,
  type WaterLevel,
} from "./hazard-depth.js";
import { isDoubtful, qualityIn } from "./quality.js";
import {
  apart,
  chartSchema,
  covers,
  near,
  positionFound,
  refOf,
  serves,
  type FeatureRef,
} from "./query.js";
import { errorAt, unwidened, wideningOf } from "./widening.js";

/** Schema of the options of {@link hazardsIn}. */
export const hazardOptionsSchema = z.strictObject({
  /** Whether to look over the charted error of position too; by default so. */
  widen: z._default(z.boolean(), true),
});
/** Options of {@link hazardsIn}. */
export type HazardOptions = Given<typeof hazardOptionsSchema>;

/** What a danger is. */
export type HazardKind =
  | "rock"
  | "wreck"
  | "obstruction"
  | "foulGround"
  | "foulArea"
  | "pile"
  | "structure"
  | "mooring"
  | "mark"
  | "fishing"
  | "marineFarm"
  | "logPond"
  | "turbulence"
  | "reported";

/** One charted danger. */
export interface Hazard extends HazardDepth {
  /** What it is. */
  kind: HazardKind;
  /** How it stands to the water. */
  waterLevel: WaterLevel;
  /** Whether a vessel may pass over it where it is deep enough: false for foul areas, `inDoubt` for foul ground without a depth. */
  passable: boolean | "inDoubt";
  /** Whether an anchor or its cable may foul it. */
  fouls: boolean;
  /** Whether its existence, position or depth is doubtful or only reported. */
  doubtful: boolean;
  /** Distance from the area, 0 inside. */
  distanceM: Metres;
  /** Whether it lies within the area itself, not only within the error of position. */
  within: boolean;
  /** Error of position that counts for it: that charted in the area, or where it lies, if that is greater; 0 where none is charted or looked over. */
  positionErrorM: Metres;
  /** Its nearest point to the middle of the area. */
  position: Position;
  /** What the chart says in words. */
  inform: string | null;
  /** The feature. */
  feature: FeatureRef;
}

/** Answer of {@link hazardsIn}. */
export interface Hazards {
  /** Dangers in the area, nearest first. */
  hazards: Hazard[];
  /** Least depth to count with over all of them; null where there is none, or where one may stand above any water. */
  leastTreatAsM: Metres | null;
  /** Whether some danger may stand above any water. */
  anyUnbounded: boolean;
  /** By how much the area was widened for the error of position charted in it; dangers of a poorer zone near it count from farther off. */
  widenedM: Metres;
  /** Charted error of position; null where none is charted, and where it cannot be stated: then 500 m counts. */
  positionErrorM: Metres | null;
}

const KINDS: Readonly<Record<string, HazardKind>> = {
  UWTROC: "rock",
  WRECKS: "wreck",
  PILPNT: "pile",
  MORFAC: "mooring",
  FSHFAC: "fishing",
  MARCUL: "marineFarm",
  LOGPON: "logPond",
  WATTUR: "turbulence",
  CTNARE: "reported",
};

function kindOf({ acronym, attributes }: ChartFeature): HazardKind {
  if (acronym === "OBSTRN") {
    if (hasCode(attributes["CATOBS"], 6)) return "foulArea";
    return hasCode(attributes["CATOBS"], 7) ? "foulGround" : "obstruction";
  }
  if (/^(BOY|BCN|LIT)/.test(acronym)) return "mark";
  return KINDS[acronym] ?? "structure";
}

const FOULING: ReadonlySet<HazardKind> = new Set<HazardKind>([
  "rock",
  "wreck",
  "obstruction",
  "foulGround",
  "foulArea",
  "mooring",
  "fishing",
  "marineFarm",
  "logPond",
  "structure",
  "mark",
]);

/** Whether a feature is a danger: a caution counts where it stands at a point, a shore structure where it covers. */
export function isHazard(f: ChartFeature): boolean {
  if (!serves(f, "hazard")) return false;
  if (f.acronym === "CTNARE") return f.primitive === "point";
  return f.acronym !== "SLCONS" || hasCode(f.attributes["WATLEV"], 3, 4);
}

function passableOf(kind: HazardKind, f: ChartFeature): Hazard["passable"] {
  // Foul ground is safe to pass over, but encoders take the one for the other.
  if (kind === "foulGround") return numberOf(f.attributes["VALSOU"]) === null ? "inDoubt" : true;
  const level = waterLevelOf(f.attributes);
  return (
    ["rock", "wreck", "obstruction", "marineFarm", "reported"].includes(kind) &&
    level !== "dry" &&
    level !== "floating"
  );
}

const isDepthArea = (f: ChartFeature): boolean => f.primitive === "area" && serves(f, "depth");

/** Shoal bound of the depth areas at a feature; null where some part has none. */
function depthAround(chart: Chart, index: number): number | null {
  const tree = chart.trees[index]!;
  let least: number | null = null;
  const spot = spotOf(tree);
  for (const i of near(chart, spot, 0, isDepthArea)) {
    if (!meets(chart, i, index)) continue;
    const low = leastDepthAt(chart, chart.features[i]!, spot);
    if (low === null) return null;
    least = least === null ? low : Math.min(least, low);
  }
  return least;
}

/** First vertex of a feature, with the box of all of it. */
function spotOf({ xy, starts, boxes }: BoxTree): PlaneArea {
  const v = starts[0]!;
  const box = [boxes[4]!, boxes[5]!, boxes[6]!, boxes[7]!] as const;
  return { x: xy[2 * v]!, y: xy[2 * v + 1]!, radius: 0, ring: null, box };
}

/** Whether either of a depth area and a feature holds any vertex of the other. */
const meets = (chart: Chart, area: number, index: number): boolean =>
  touches(chart, area, chart.trees[index]!) || touches(chart, index, chart.trees[area]!);

/** Whether an area holds any vertex of a feature. */
function touches(chart: Chart, area: number, { xy, starts }: BoxTree): boolean {
  for (let v = starts[0]!; v < starts.at(-1)!; v++)
    if (covers(chart, area, xy[2 * v]!, xy[2 * v + 1]!)) return true;
  return false;
}

/** Depth over a danger: not known where its cell, or an area it lies in, has another datum. */
function depthOver(chart: Chart, index: number): HazardDepth {
  const { attributes, cell } = chart.features[index]!;
  const tree = chart.trees[index]!;
  const spot = spotOf(tree);
  const isOther = (f: ChartFeature): boolean =>
    f.acronym === "M_SDAT" && f.cell === cell && unknownBy(f, chart.soundingDatum) !== null;
  const other =
    statesOtherDatum(attributes, chart.soundingDatum) ||
    otherDatumOf(chart, cell, spot) ||
    near(chart, spot, 0, isOther).some((i) => touches(chart, i, tree));
  return other ? ofOtherDatum(attributes) : hazardDepth(attributes, depthAround(chart, index));
}

/** What a danger is and the depth to count with, in short. */
export function dangerOf(
  chart: Chart,
  index: number,
): { kind: HazardKind; leastDepthM: Metres | null } {
  const f = chart.features[index]!;
  return { kind: kindOf(f), leastDepthM: depthOver(chart, index).treatAsM };
}

function hazardOf(
  chart: Chart,
  index: number,
  area: PlaneArea,
  { distanceM, positionErrorM }: Pick<Hazard, "distanceM" | "positionErrorM">,
): Hazard {
  const f = chart.features[index]!;
  const kind = kindOf(f);
  const out = nothingFound();
  const tree = chart.trees[index]!;
  const inside = covers(chart, index, area.x, area.y);
  nearestOnSegments(tree, area.x, area.y, Infinity, out);
  return {
    kind,
    waterLevel: waterLevelOf(f.attributes),
    ...depthOver(chart, index),
    passable: passableOf(kind, f),
    fouls: FOULING.has(kind),
    doubtful: isDoubtful(f.attributes) || kind === "reported",
    distanceM,
    within: distanceM === 0,
    positionErrorM,
    position: inside ? positionOf(chart.plane, area.x, area.y) : positionFound(chart, index, out),
    inform: textOf(f.attributes["INFORM"]),
    feature: refOf(chart, index),
  };
}

/**
 * The charted dangers in some water: rocks, wrecks, obstructions, foul ground and foul areas, piles,
 * structures, moorings, marks, fishing gear and farms.
 *
 * A depth that is not charted is not a depth: such a danger counts as reaching to datum, or, where
 * it may stand above any water, as having no depth at all (`treatAsM`); only where the chart says
 * that it is not shoaler than the depths round it does their bound count. Foul ground without a
 * depth is in doubt, since charts take it and foul areas for each other. The area is widened by the
 * charted error of position, and a danger that lies in a poorer zone beside it counts over the error
 * of that zone. It leaves out what is not charted.
 *
 * *Valid*: areas up to 50 km. *Accuracy*: that of the chart. An empty list tells nothing where the
 * chart does not cover the area, or has dangers whose place cannot be read: ask for the coverage and
 * for `anchoringAt` too.
 *
 * @throws InputError where the chart, area or options are none.
 * @source IHO S-57 edition 3.1: VALSOU, EXPSOU, QUASOU, WATLEV, CATOBS; S-101 Annex A 2.0.0, clause 13.6
 * @example
 * ```ts
 * import { hazardsIn, readChart } from "hawse/chart";
 * const rock = { type: "Feature", properties: { WATLEV: 3 }, geometry: { type: "Point", coordinates: [-30, 40] } };
 * const chart = readChart({ UWTROC: { type: "FeatureCollection", features: [rock] } }, { soundingDatum: 23 });
 * const { hazards } = hazardsIn(chart, { centre: { latDeg: 40.0005, lonDeg: -30 }, radiusM: 100 });
 * console.log(hazards.length, hazards[0]?.leastDepthM, hazards[0]?.treatAsM);
 * // 1 null 0
 * ```
 */
export function hazardsIn(chart: Chart, area: Area, options: HazardOptions = {}): Hazards {
  return hazardsInArea(
    check(chartSchema, chart),
    check(areaSchema, area),
    check(hazardOptionsSchema, options),
  );
}

/** {@link hazardsIn} of an input that is already checked. */
export function hazardsInArea(
  chart: Chart,
  area: Area,
  { widen }: z.output<typeof hazardOptionsSchema>,
): Hazards {
  const laid = layArea(chart.plane, area);
  const quality = qualityIn(chart, laid, null);
  const positionErrorM = worstOf(quality.map((q) => q.positionErrorM));
  const widening = widen ? wideningOf(chart, laid, quality) : unwidened;
  const hazards: Hazard[] = [];
  for (const i of near(chart, laid, widening.mostM, isHazard)) {
    const distanceM = apart(chart, i, laid, widening.mostM);
    if (distanceM === Infinity) continue;
    const errorM = errorAt(chart, i, laid, widening);
    if (distanceM <= errorM)
      hazards.push(hazardOf(chart, i, laid, { distanceM, positionErrorM: errorM }));
  }
  hazards.sort((a, b) => a.distanceM - b.distanceM);
  const anyUnbounded = hazards.some((h) => h.treatAsM === null);
  return {
    hazards,
    leastTreatAsM:
      anyUnbounded || hazards.length === 0 ? null : Math.min(...hazards.map((h) => h.treatAsM!)),
    anyUnbounded,
    widenedM: widening.ownM,
    positionErrorM,
  };
}
