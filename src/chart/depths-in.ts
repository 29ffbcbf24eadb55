import { check } from "../core/check.js";
import type { Reason } from "../core/judgement.js";
import type { Metres } from "../core/units.js";
import { areaSchema, layArea, type Area, type PlaneArea } from "./area.js";
import { hasCode, numberOf, textOf } from "./attributes.js";
import type { Chart, ChartFeature, SoundingDatum } from "./chart.js";
import { worstOf } from "./coverage-of.js";
import { isOtherDatum } from "./datum.js";
import { depthRange, statesOtherDatum } from "./depth-range.js";
import { cellsAt, coverageIn, skinIsWhole } from "./ground.js";
import { qualityIn } from "./quality.js";
import {
  apart,
  chartSchema,
  holdsAll,
  near,
  refOf,
  somewhereIn,
  type FeatureRef,
} from "./query.js";

/** One charted depth that bears on an area. */
export interface DepthSource {
  /** What it is. */
  kind: "depthArea" | "dredgedArea" | "sounding" | "contour";
  /** Shoal bound of the depth there, positive down, negative where it dries; null where not charted. */
  leastM: Metres | null;
  /** Deep bound; null where there is none. */
  greatestM: Metres | null;
  /** Whether `leastM` stands for every drying area of the cell: a bound, no measured drying height. */
  filler: boolean;
  /** Whether a dredged depth is said not to be kept up, or a sounding is doubtful. */
  doubtful: boolean;
  /** The feature. */
  feature: FeatureRef;
}

/** Answer of {@link depthsIn}. */
export interface Depths {
  /** No water of the area is charted shoaler than this; null where some part of it is not charted, or is land. */
  leastM: Metres | null;
  /** The same over the charted part alone; null where nothing is charted. Not a bound where `leastM` is null. */
  chartedLeastM: Metres | null;
  /** Nothing is charted deeper than this; null where it is not charted. */
  greatestM: Metres | null;
  /** Charted error of depth, to be taken off `leastM`; null where it cannot be stated. */
  errorM: Metres | null;
  /** Whether land lies in the area. */
  land: boolean;
  /** Datum of the depths. */
  datum: SoundingDatum;
  /** What decided `chartedLeastM`; null where nothing is charted. */
  decidedBy: DepthSource | null;
  /** Every charted depth that bears on the area, shoalest first. */
  sources: DepthSource[];
  /** Why some part of the depth is not known; empty where all of it is. */
  unknown: Reason[];
  /** Cells whose depths were used, largest scale first. */
  cells: string[];
}

const KIND: Readonly<Record<string, DepthSource["kind"]>> = {
  DEPARE: "depthArea",
  DRGARE: "dredgedArea",
  SOUNDG: "sounding",
  DEPCNT: "contour",
};

/** Depth bounds that a feature charts; null where it charts none. */
function boundsOf({ acronym, attributes, depthM }: ChartFeature): [number | null, number | null] {
  if (acronym === "SOUNDG") return [depthM, depthM];
  if (acronym === "DEPCNT") {
    const value = numberOf(attributes["VALDCO"]);
    return [value, value];
  }
  return depthRange(attributes);
}

function sourceOf(chart: Chart, index: number): DepthSource {
  const feature = chart.features[index]!;
  const [leastM, greatestM] = boundsOf(feature);
  return {
    kind: KIND[feature.acronym]!,
    leastM,
    greatestM,
    filler: feature.acronym === "DEPARE" && chart.fillers[feature.cell] === leastM,
    doubtful: hasCode(feature.attributes["QUASOU"], 3, 4, 8, 9, 11),
    feature: refOf(chart, index),
  };
}

const why = (code: string, value: string, basis: string): Reason => ({
  code: `depth.${code}`,
  severity: "warning",
  value,
  limit: null,
  basis,
});

/** Cells whose depths count: the largest scales, down to the first that leaves none of the area uncovered. */
export function cellsFor(chart: Chart, area: PlaneArea): Set<number> {
  const used = new Set<number>();
  if (chart.cells.length === 1) return used.add(0);
  const [x, y] = somewhereIn(area);
  for (let cell = 0; cell < chart.cells.length; cell++) {
    used.add(cell);
    const known = cellsAt(chart, x, y);
    if (known.has(cell) && wholeBy(chart, area, used)) break;
  }
  return used;
}

/** Whether some cells cover an area by themselves. */
const wholeBy = (chart: Chart, area: PlaneArea, cells: ReadonlySet<number>): boolean =>
  coverageIn(chart, area, cells) === "whole";

const OTHER_DATUM = "depth.otherDatum";

interface Tally {
  sources: DepthSource[];
  land: boolean;
  unknown: Reason[];
}

/** Text by which a chart says that its depths are left out. */
const OMITTED = /bathymetr\w*[^.]*omit|omit[^.]*bathymetr/i;

/** Why a feature leaves the depth unknown; null where it does not. */
export function unknownBy(
  { acronym, attributes }: ChartFeature,
  datum: SoundingDatum,
): Reason | null {
  const inform = textOf(attributes["INFORM"]) ?? "";
  if (acronym === "M_SDAT" && numberOf(attributes["VERDAT"]) !== datum.code)
    return why(
      "otherDatum",
      textOf(attributes["VERDAT"]) ?? "not given",
      `depths here are charted to another datum than ${datum.name}`,
    );
  if (acronym === "UNSARE") return why("unsurveyed", acronym, "not surveyed");
  if (acronym === "M_QUAL" && !hasCode(attributes["CATZOC"], 1, 2, 3, 4, 5))
    return why(
      "notAssessed",
      "CATZOC 6",
      "the quality of the depths is not assessed; depth areas there may stand for depths that are left out",
    );
  if (acronym === "CTNARE" && OMITTED.test(`${inform} ${textOf(attributes["TXTDSC"]) ?? ""}`))
    return why("omitted", inform, "the chart says that depths are left out here");
  return null;
}

/** Whether a cell states another datum for the depths of an area, and no area of it (M_SDAT) the one in use. */
export function otherDatumOf(chart: Chart, cell: number, area: PlaneArea): boolean {
  const { cells, soundingDatum } = chart;
  if (!isOtherDatum(cells[cell]!, soundingDatum)) return false;
  const says = (f: ChartFeature): boolean =>
    f.cell === cell && f.acronym === "M_SDAT" && unknownBy(f, soundingDatum) === null;
  return !near(chart, area, 0, says).some((i) => holdsAll(chart, i, area));
}

/** Least depth of an area of depth at a spot; null where it is not charted, or charted to another datum. */
export const leastDepthAt = (chart: Chart, f: ChartFeature, spot: PlaneArea): Metres | null =>
  statesOtherDatum(f.attributes, chart.soundingDatum) || otherDatumOf(chart, f.cell, spot)
    ? null
    : depthRange(f.attributes)[0];

/** Cells used that chart their depths to another datum. */
function otherDatums(chart: Chart, area: PlaneArea, sources: readonly DepthSource[]): Reason[] {
  const cells = new Set(sources.map((s) => chart.features[s.feature.index]!.cell));
  return [...cells]
    .filter((cell) => otherDatumOf(chart, cell, area))
    .map((cell) => {
      const { name, soundingDatum } = chart.cells[cell]!;
      const basis = `cell ${name} charts its depths to another datum than ${chart.soundingDatum.name}`;
      return why("otherDatum", String(soundingDatum), basis);
    });
}

/** Take in one feature that meets the area. */
function look(chart: Chart, index: number, tally: Tally): void {
  const feature = chart.features[index]!;
  const { acronym, primitive } = feature;
  if (acronym === "LNDARE") tally.land = true;
  const unknown = unknownBy(feature, chart.soundingDatum);
  if (unknown !== null) tally.unknown.push(unknown);
  if (KIND[acronym] === undefined) return;
  if (acronym === "DEPARE" && primitive !== "area") return;
  const source = sourceOf(chart, index);
  tally.sources.push(source);
  if (source.leastM === null && primitive === "area")
    tally.unknown.push(why("noValue", acronym, "a depth area that charts no depth"));
  const { name } = chart.soundingDatum;
  if (statesOtherDatum(feature.attributes, chart.soundingDatum)) {
    const value = textOf(feature.attributes["VERDAT"])!;
    tally.unknown.push(why("otherDatum", value, `a depth charted to another datum than ${name}`));
  }
}

const BEARING: ReadonlySet<string> = new Set([
  ...Object.keys(KIND),
  "LNDARE",
  "UNSARE",
  "M_QUAL",
  "M_SDAT",
  "CTNARE",
]);
const bears = (f: ChartFeature): boolean => BEARING.has(f.acronym);

/**
 * The least depth charted in some water: from depth areas, dredged areas, soundings and contours.
 *
 * The shoal bound of every depth area that meets the area counts, and so does every sounding and
 * contour inside it; hazards are asked for apart. Where a part is unsurveyed, outside the coverage,
 * without any charted depth, on land, charted to another datum, or of a quality that is not assessed, `leastM` is null: a
 * depth that is not known is not a depth. Where cells overlap the largest scale counts alone, if it
 * covers the area. Depths are below the sounding datum, to be met by a tide on that datum.
 *
 * *Valid*: areas up to 50 km. *Accuracy*: `errorM` by the zone of confidence, not taken off;
 * depths of drying areas are mostly a bound for the whole cell (`filler`). It leaves out what has
 * moved since the survey.
 *
 * @throws InputError where the chart or the area is none.
 * @source IHO S-57 edition 3.1: DEPARE, DRGARE, SOUNDG, DEPCNT, UNSARE, M_QUAL
 * @example
 * ```ts
 * import { depthsIn, readChart } from "hawse/chart";
 * const ring = [[-30, 40], [-29.9, 40], [-29.9, 40.1], [-30, 40.1], [-30, 40]];
 * const area = (properties: object) => ({ type: "Feature", properties, geometry: { type: "Polygon", coordinates: [ring] } });
 * const layer = (...features: object[]) => ({ type: "FeatureCollection", features });
 * const chart = readChart({ M_COVR: layer(area({ CATCOV: 1 })), DEPARE: layer(area({ DRVAL1: 5, DRVAL2: 10 })) }, { soundingDatum: 23 });
 * const { leastM, greatestM } = depthsIn(chart, { centre: { latDeg: 40.05, lonDeg: -29.95 }, radiusM: 60 });
 * console.log(leastM, greatestM);
 * // 5 10
 * ```
 */
export function depthsIn(chart: Chart, area: Area): Depths {
  return depthsInArea(check(chartSchema, chart), check(areaSchema, area));
}

/** {@link depthsIn} of an input that is already checked. */
export function depthsInArea(chart: Chart, area: Area): Depths {
  const laid = layArea(chart.plane, area);
  const cells = cellsFor(chart, laid);
  const tally: Tally = { sources: [], land: false, unknown: [] };
  for (const i of near(chart, laid, 0, (f) => cells.has(f.cell) && bears(f)))
    if (apart(chart, i, laid, 0) === 0) look(chart, i, tally);
  const { sources, land } = tally;
  const unknown = [
    ...tally.unknown,
    ...otherDatums(chart, laid, sources),
    ...gapsIn(chart, laid, cells),
  ];
  if (land) unknown.push(why("land", "LNDARE", "land lies in the area"));
  sources.sort((a, b) => (a.leastM ?? -Infinity) - (b.leastM ?? -Infinity));
  const decidedBy = sources.find((s) => s.leastM !== null) ?? null;
  const chartedLeastM = decidedBy?.leastM ?? null;
  return {
    leastM: unknown.length === 0 ? chartedLeastM : null,
    chartedLeastM,
    greatestM: unknown.some((u) => u.code === OTHER_DATUM) ? null : greatestOf(sources),
    errorM: worstOf(qualityIn(chart, laid, chartedLeastM).map((q) => q.depthErrorM)),
    land,
    datum: { ...chart.soundingDatum },
    decidedBy,
    sources,
    unknown,
    cells: [...cells].map((i) => chart.cells[i]!.name),
  };
}

/** Classes that say of depths in their ground that they cannot be relied on, or how far. */
const LIMITING: ReadonlySet<string> = new Set(["M_SDAT", "M_QUAL", "UNSARE", "CTNARE"]);

/** Parts of the area of which the cells chart no depth, and what might lie in it for all that can be read of its place. */
function gapsIn(chart: Chart, area: PlaneArea, cells: ReadonlySet<number>): Reason[] {
  const unknown = chart.report.notUsed
    .filter(({ reason }) => reason === "badGeometry" || reason === "noGeometry")
    .filter(({ layer }) => LIMITING.has(layer))
    .map(({ layer }) => why("unreadable", layer, `a ${layer} whose place cannot be read`));
  if (coverageIn(chart, area) !== "whole")
    unknown.push(
      why("notCovered", "coverage", "the area reaches beyond the coverage of the chart"),
    );
  if (!skinIsWhole(chart, area, cells))
    unknown.push(why("gap", "no depth area", "some part of the area has no charted depth"));
  return unknown;
}

/** The deepest bound, where every area has one. */
function greatestOf(sources: readonly DepthSource[]): number | null {
  let greatest: number | null = null;
  for (const { kind, greatestM } of sources) {
    if (greatestM === null) {
      if (kind === "depthArea" || kind === "dredgedArea") return null;
      continue;
    }
    greatest = greatest === null ? greatestM : Math.max(greatest, greatestM);
  }
  return greatest;
}
