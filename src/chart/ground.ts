import { forSegmentsNear } from "../geo/boxtree.js";
import type { PlaneArea } from "./area.js";
import { hasCode } from "./attributes.js";
import type { Chart, ChartFeature } from "./chart.js";
import { covers, endsWithin, near, serves, somewhereIn } from "./query.js";

/** Area features that cover a point and are wanted. */
function coverersOf(
  chart: Chart,
  x: number,
  y: number,
  wanted: (f: ChartFeature) => boolean,
): number[] {
  const found: number[] = [];
  forSegmentsNear(chart.boxes, x, y, x, y, (vertex) => {
    const i = vertex >>> 1;
    if (wanted(chart.features[i]!) && covers(chart, i, x, y)) found.push(i);
  });
  return found;
}

const saysCovered = ({ acronym, attributes }: ChartFeature): boolean =>
  acronym === "M_COVR" && hasCode(attributes["CATCOV"], 1);
const saysNotCovered = ({ acronym, attributes }: ChartFeature): boolean =>
  acronym === "M_COVR" && !hasCode(attributes["CATCOV"], 1);

/** Cells that cover a point: inside CATCOV 1 and outside every other coverage area of the same cell. */
export function cellsAt(chart: Chart, x: number, y: number): Set<number> {
  const cells = new Set<number>();
  for (const i of coverersOf(chart, x, y, saysCovered)) cells.add(chart.features[i]!.cell);
  if (cells.size > 0)
    for (const i of coverersOf(chart, x, y, saysNotCovered)) cells.delete(chart.features[i]!.cell);
  return cells;
}

/** How much of an area the chart, or some cells of it, cover: all of it, some, or none. */
export function coverageIn(
  chart: Chart,
  area: PlaneArea,
  only?: ReadonlySet<number>,
): "whole" | "part" | "none" {
  const [x, y] = somewhereIn(area);
  const known = (px: number, py: number) =>
    [...cellsAt(chart, px, py)].some((cell) => only?.has(cell) ?? true);
  if (known(x, y)) return endsWithin(chart.coverageEdges, area, known) ? "part" : "whole";
  return near(chart, area, 0, saysCovered).length > 0 ? "part" : "none";
}

/** Whether the chart, or some cells of it, chart depths or land at a point. */
const skinAt = (chart: Chart, x: number, y: number, only?: ReadonlySet<number>): boolean =>
  coverersOf(chart, x, y, (f) => serves(f, "skin") && (only?.has(f.cell) ?? true)).length > 0;

/** Whether the chart, or some cells of it, chart depths or land everywhere in an area. */
export function skinIsWhole(chart: Chart, area: PlaneArea, only?: ReadonlySet<number>): boolean {
  const known = (x: number, y: number) => skinAt(chart, x, y, only);
  const [x, y] = somewhereIn(area);
  return known(x, y) && !endsWithin(chart.skinEdges, area, known);
}
