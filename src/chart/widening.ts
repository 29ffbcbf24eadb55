import type { Metres } from "../core/units.js";
import { nearestOnSegments, nothingFound } from "../geo/boxtree.js";
import { pointToArea, type PlaneArea } from "./area.js";
import type { Chart } from "./chart.js";
import { isZone, positionErrorOf, UNSTATED_M, widenBy, type QualityZone } from "./quality.js";
import { apart, covers, near } from "./query.js";

/** A zone of quality near an area whose error of position is greater than that in the area. */
interface PoorerZone {
  /** Its feature. */
  index: number;
  /** Its error as charted; null where it cannot be stated. */
  statedM: Metres | null;
  /** Its error to count with. */
  errorM: Metres;
}

/** How far round an area dangers count: over the error of position charted in it, and over that charted where each lies. */
export interface Widening {
  /** Error charted in the area. */
  ownM: Metres;
  /** Poorer zones that come within their own error of the area. */
  poorer: PoorerZone[];
  /** Greatest error of them all. */
  mostM: Metres;
}

/** No widening. */
export const unwidened: Widening = { ownM: 0, poorer: [], mostM: 0 };

/** The widening of an area by the zones of quality in it and near it. */
export function wideningOf(
  chart: Chart,
  area: PlaneArea,
  quality: readonly QualityZone[],
): Widening {
  const ownM = widenBy(quality);
  const poorer = near(chart, area, Math.max(ownM, UNSTATED_M), isZone).flatMap((index) => {
    const statedM = positionErrorOf(chart.features[index]!.attributes, 0);
    const errorM = statedM ?? UNSTATED_M;
    const reaches = errorM > ownM && apart(chart, index, area, errorM) <= errorM;
    return reaches ? [{ index, statedM, errorM }] : [];
  });
  return { ownM, poorer, mostM: Math.max(ownM, ...poorer.map((z) => z.errorM)) };
}

/** Whether a zone holds some of a feature within a distance of an area: a vertex, or its place nearest to the middle. */
function holdsSome(
  chart: Chart,
  zone: number,
  index: number,
  area: PlaneArea,
  withinM: Metres,
): boolean {
  const tree = chart.trees[index]!;
  const held = (x: number, y: number) =>
    pointToArea(area, x, y) <= withinM && covers(chart, zone, x, y);
  const at = nothingFound();
  nearestOnSegments(tree, area.x, area.y, Infinity, at);
  if (held(at.x, at.y)) return true;
  for (let v = tree.starts[0]!; v < tree.starts.at(-1)!; v++)
    if (held(tree.xy[2 * v]!, tree.xy[2 * v + 1]!)) return true;
  return false;
}

/** Poorer zones that hold some of a feature within their error, and a margin besides, of an area. */
export const poorerAt = (
  chart: Chart,
  index: number,
  area: PlaneArea,
  { poorer }: Widening,
  marginM: Metres = 0,
): PoorerZone[] => poorer.filter((z) => holdsSome(chart, z.index, index, area, z.errorM + marginM));

/** Error of position of a feature to count with: that in the area, or that of its own zone where it is greater. */
export const errorAt = (
  chart: Chart,
  index: number,
  area: PlaneArea,
  widening: Widening,
  marginM: Metres = 0,
): Metres =>
  Math.max(widening.ownM, ...poorerAt(chart, index, area, widening, marginM).map((z) => z.errorM));
