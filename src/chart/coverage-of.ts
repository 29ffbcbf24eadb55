import { check } from "../core/check.js";
import type { Metres } from "../core/units.js";
import { areaSchema, layArea, type Area, type PlaneArea } from "./area.js";
import type { Chart } from "./chart.js";
import { coverageIn, skinIsWhole } from "./ground.js";
import { qualityIn, type QualityZone } from "./quality.js";
import { apart, chartSchema, near } from "./query.js";

/** Answer of {@link coverageOf}. */
export interface Coverage {
  /** How much of the area the chart covers. */
  covered: "whole" | "part" | "none";
  /** Whether depths or land are charted in every part of it; false also where gaps remain. */
  depthsWhole: boolean;
  /** Cells that meet the area, largest scale first. */
  cells: {
    /** Name of the cell. */
    name: string;
    /** Scale denominator of the compilation. */
    scale: number | null;
    /** Edition. */
    edition: string | null;
    /** Last update taken in. */
    update: string | null;
    /** Date of issue. */
    issued: string | null;
  }[];
  /** Zones of charted quality that meet the area. */
  quality: QualityZone[];
  /** The worst error of position in the area; null where none is charted or it cannot be stated. */
  positionErrorM: Metres | null;
  /** The worst error of depth in the area, at its least charted depth or at the surface; null as above. */
  depthErrorM: Metres | null;
  /** The circle widened by the error of position; null for a polygon, and where the error is null. */
  widened: {
    /** Middle of the area looked at. */
    centre: { latDeg: number; lonDeg: number };
    /** Its radius, the error of position added. */
    radiusM: Metres;
  } | null;
}

/** The worst of some errors; null where there is none, or where any cannot be stated. */
export function worstOf(errors: readonly (number | null)[]): number | null {
  let worst: number | null = errors.length > 0 ? 0 : null;
  for (const e of errors) worst = worst === null || e === null ? null : Math.max(worst, e);
  return worst;
}

/**
 * How far a chart can be relied on in some water: what it covers, from which cells, and how well it
 * was surveyed.
 *
 * Water counts as covered inside coverage areas (M_COVR, CATCOV 1) alone; where two cells meet,
 * both count. The zone of confidence gives the errors of position and depth; a circle can be
 * widened by the first. An error that cannot be stated (zones D and U, or no zone at all) is null,
 * not zero. It leaves out what the survey missed and how the bed has moved since.
 *
 * *Valid*: areas up to 50 km. *Accuracy*: gaps between cells narrower than half a metre may be
 * missed; the errors of the zones are from memory.
 *
 * @throws InputError where the chart or the area is none.
 * @source IHO S-57 edition 3.1: M_COVR, M_QUAL, CATZOC
 * @example
 * ```ts
 * import { coverageOf, readChart } from "hawse/chart";
 * const chart = readChart([], { soundingDatum: 23 });
 * console.log(coverageOf(chart, { centre: { latDeg: 40, lonDeg: -30 }, radiusM: 50 }).covered);
 * // none
 * ```
 */
export function coverageOf(chart: Chart, area: Area): Coverage {
  return coverageOfArea(check(chartSchema, chart), check(areaSchema, area));
}

/** {@link coverageOf} of an area that is already checked. */
export function coverageOfArea(chart: Chart, area: Area): Coverage {
  const laid = layArea(chart.plane, area);
  const quality = qualityIn(chart, laid, null);
  const positionErrorM = worstOf(quality.map((q) => q.positionErrorM));
  const circle = Array.isArray(area) ? null : area;
  return {
    covered: coverageIn(chart, laid),
    depthsWhole: skinIsWhole(chart, laid),
    cells: cellsMeeting(chart, laid).map((i) => {
      const { name, scale, edition, update, issued } = chart.cells[i]!;
      return { name, scale, edition, update, issued };
    }),
    quality,
    positionErrorM,
    depthErrorM: worstOf(quality.map((q) => q.depthErrorM)),
    widened:
      circle === null || positionErrorM === null
        ? null
        : {
            centre: { ...circle.centre },
            radiusM: circle.radiusM + positionErrorM,
          },
  };
}

/** Cells whose coverage meets an area, largest scale first. */
export function cellsMeeting(chart: Chart, area: PlaneArea): number[] {
  const cells = new Set<number>();
  for (const i of near(chart, area, 0, (f) => f.acronym === "M_COVR"))
    if (apart(chart, i, area, 0) === 0) cells.add(chart.features[i]!.cell);
  return [...cells].sort((a, b) => a - b);
}
