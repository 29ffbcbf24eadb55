import { pointInRings } from "../geo/boxtree.js";
import { columnsOf } from "./columns.js";
import { distanceTo, type Laid } from "./nearest.js";
import { cornersOf, hullWithBorder, sweepBody } from "./sweep.js";
import { type Anchored, hullOf } from "./vessel.js";

/** An area of charted depth. */
export interface DepthArea {
  /** Name of the feature. */
  id: string;
  /** Least charted depth in it; null where it is not known. */
  leastDepthM: number | null;
}

/** Water under a vessel from one moment to the next. */
export interface DepthMoment {
  /** When; null where the stay has no moments. */
  timeMs: number | null;
  /** Least charted depth under any part of her room until the next moment; null where it is not known. */
  leastChartedDepthM: number | null;
  /** That depth with the lower height of tide of the two moments; null where either is not known. */
  leastDepthM: number | null;
  /** The area that decides; null where a part of the room lies in no area of charted depth. */
  areaId: string | null;
}

/** A stretch of the stay: the room taken and the lower tide of its ends. */
export interface Stretch {
  timeMs: number | null;
  ring: Float64Array;
  tideM: number | null;
}

/** The stay as rooms from each moment to the next, about the anchor. */
export function stretchesOf(v: Anchored, tideM: number | null): Stretch[] {
  const body = cornersOf(hullOf(v.vessel));
  return v.moments.map((m, i) => {
    const next = v.moments[i + 1];
    const pair = next === undefined ? [m] : [m, next];
    const swept = sweepBody(body, columnsOf(pair), true);
    const tides = pair.map((p) => p.tideHeightM ?? tideM);
    return {
      timeMs: m.timeMs,
      ring: hullWithBorder(swept.points, v.anchorErrorM + swept.sagM),
      tideM: tides.includes(null) ? null : Math.min(...(tides as number[])),
    };
  });
}

/** Water under each stretch. Areas must be those near the whole room; `errorM` widens each. */
export function depthsUnder(
  stretches: readonly Stretch[],
  areas: readonly Laid<DepthArea>[],
  errorM: number,
): DepthMoment[] {
  const shoalFirst = [...areas].sort((a, b) => depthOf(a.thing) - depthOf(b.thing));
  return stretches.map(({ timeMs, ring, tideM }) => {
    const charted = everywhereCharted(ring, areas);
    const least = shoalFirst.find((a) => distanceTo(ring, a, errorM) <= errorM);
    const leastChartedDepthM = charted ? (least?.thing.leastDepthM ?? null) : null;
    return {
      timeMs,
      leastChartedDepthM,
      leastDepthM:
        leastChartedDepthM === null || tideM === null ? null : leastChartedDepthM + tideM,
      areaId: charted ? (least?.thing.id ?? null) : null,
    };
  });
}

/** A depth that is not known goes before every other. */
const depthOf = (area: DepthArea): number => area.leastDepthM ?? -Infinity;

/** Parts of the way from the middle of a room to its edge at which charted depth is looked up. */
const INWARDS = [1, 2 / 3, 1 / 3, 0];

/** Whether the corners of a room, the middles of its sides, and places inwards of them all lie in areas. */
function everywhereCharted(ring: Float64Array, areas: readonly Laid<DepthArea>[]): boolean {
  const n = ring.length;
  const charted = (x: number, y: number) =>
    areas.some((a) => a.area !== null && pointInRings(a.area, x, y));
  let [mx, my] = [0, 0];
  for (let i = 0; i < n; i += 2) {
    mx += (2 * ring[i]!) / n;
    my += (2 * ring[i + 1]!) / n;
  }
  for (let i = 0; i < n; i += 2) {
    const x = ring[i]! - mx;
    const y = ring[i + 1]! - my;
    const sx = (x + ring[(i + 2) % n]! - mx) / 2;
    const sy = (y + ring[(i + 3) % n]! - my) / 2;
    for (const part of INWARDS)
      if (!charted(mx + part * x, my + part * y) || !charted(mx + part * sx, my + part * sy))
        return false;
  }
  return true;
}
