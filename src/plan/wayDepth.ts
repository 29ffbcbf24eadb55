import { layArea, treeToArea, type Area } from "../chart/area.js";
import type { Chart } from "../chart/chart.js";
import { depthsInArea } from "../chart/depths-in.js";
import { hazardsInArea, type Hazard, type HazardKind } from "../chart/hazards-in.js";
import { apart } from "../chart/query.js";
import type { Metres } from "../core/units.js";
import { nearestOnSegments, nothingFound } from "../geo/boxtree.js";
import { pointOn, stripOf, type Beside, type Track } from "./wayTrack.js";

/** Charted depth along a part of the track. */
export interface WayDepth {
  /** Distance run where it begins. */
  fromM: Metres;
  /** Distance run where it ends. */
  toM: Metres;
  /** No water within the strip is charted shoaler; null where some of it is not charted, is land, or has the shore running through it. */
  chartedLeastM: Metres | null;
  /** The same over what is charted of it: not a bound where `chartedLeastM` is null. */
  knownLeastM: Metres | null;
  /** Charted error of depth; null where it cannot be stated. */
  errorM: Metres | null;
}

/** A charted danger on the track or beside it. */
export interface WayHazard extends Beside {
  /** What it is called, or what it is. */
  name: string;
  /** What it is. */
  kind: HazardKind;
  /** Depth over it to count with; null where it may stand above any water. */
  depthM: Metres | null;
  /** Whether it stands out of the water, or floats: to be seen and steered clear of. */
  stands: boolean;
  /** Whether a vessel may pass over it where it is deep enough. */
  passable: boolean;
  /** Whether its existence, position or depth is doubtful or only reported. */
  doubtful: boolean;
  /** Charted error of its position, metres; it counts as on the track within this and the strip. */
  positionErrorM: Metres;
}

/** Parts of a track are cut no shorter than this, nor into more parts than that. */
const FINEST_M = 25;
const MOST_PARTS = 400;

/** Water of a strip: what is charted of it, and nothing for certain where the shore runs through it, whatever depth is charted beyond. */
interface Strip extends Pick<WayDepth, "chartedLeastM" | "knownLeastM" | "errorM"> {
  /** Whether shorter strips of it would tell nothing else. */
  flat: boolean;
}

function stripAt(chart: Chart, strip: Area): Strip {
  const {
    leastM,
    chartedLeastM: knownLeastM,
    errorM,
    sources,
    unknown,
  } = depthsInArea(chart, strip);
  // Depths may be charted on both sides of a coastline or a breakwater drawn as a line.
  const ashore = treeToArea(layArea(chart.plane, strip), chart.shore, false, 0) === 0;
  const flat =
    !ashore &&
    (sources.length === 0 || (unknown.length === 0 && sources.every((s) => s.leastM === leastM)));
  return { chartedLeastM: ashore ? null : leastM, knownLeastM, errorM, flat };
}

const isSame = (a: WayDepth, b: WayDepth): boolean =>
  a.chartedLeastM === b.chartedLeastM && a.knownLeastM === b.knownLeastM && a.errorM === b.errorM;

/** Least charted depth along a track, part by part, within `asideM` of it. */
export function depthsAlong(chart: Chart, track: Track, asideM: number): WayDepth[] {
  const finestM = Math.max(FINEST_M, track.lengthM / MOST_PARTS);
  const parts: WayDepth[] = [];
  const look = (leg: number, fromM: number, toM: number): void => {
    const { flat, ...of } = stripAt(chart, stripOf(track, leg, fromM, toM, asideM));
    if (!flat && toM - fromM > finestM) {
      const middle = (fromM + toM) / 2;
      look(leg, fromM, middle);
      look(leg, middle, toM);
      return;
    }
    const part: WayDepth = { fromM, toM, ...of };
    const last = parts.at(-1);
    if (last !== undefined && isSame(last, part)) last.toM = toM;
    else parts.push(part);
  };
  track.legs.forEach(({ startM, lengthM }, i) => {
    look(i, startM, startM + lengthM);
  });
  return parts;
}

/** Distance along a leg is found to this, m. */
const NEAR_ENOUGH_M = 1;

/** Where a charted feature, which may be an area or a line, stands to a leg. */
function besideLeg(chart: Chart, index: number, track: Track, leg: number): Beside {
  const { startM, lengthM } = track.legs[leg]!;
  const gap = (fromM: number, toM: number): number => {
    const line = stripOf(track, leg, fromM, toM, 0).slice(1, 3);
    return apart(chart, index, layArea(chart.plane, [...line, line[0]!]), Infinity);
  };
  let [from, to] = [startM, startM + lengthM];
  let offM = gap(from, to);
  while (to - from > NEAR_ENOUGH_M) {
    const middle = (from + to) / 2;
    const [ahead, astern] = [gap(from, middle), gap(middle, to)];
    [from, to] = ahead <= astern ? [from, middle] : [middle, to];
    offM = Math.min(ahead, astern);
  }
  const alongM = (from + to) / 2;
  const { x, y, ux, uy } = pointOn(track, leg, alongM);
  const at = nothingFound();
  nearestOnSegments(chart.trees[index]!, x, y, Infinity, at);
  const across = ux * (at.y - y) - uy * (at.x - x);
  return { offM, alongM, side: offM === 0 ? "on" : across > 0 ? "port" : "starboard" };
}

/** Kinds that stand out of the water, or float, unless the chart says otherwise. */
const SEEN: ReadonlySet<HazardKind> = new Set<HazardKind>(["mark", "mooring", "pile"]);

const hazardOf = (h: Hazard, beside: Beside): WayHazard => ({
  ...beside,
  name: h.feature.objectName ?? h.feature.className,
  kind: h.kind,
  depthM: h.treatAsM,
  stands:
    h.waterLevel === "dry" ||
    h.waterLevel === "floating" ||
    (h.waterLevel === "unknown" && SEEN.has(h.kind)),
  passable: h.passable === true,
  doubtful: h.doubtful,
  positionErrorM: h.positionErrorM,
});

/** Dangers within `corridorM` of a track, and of the charted error of position, in the order they are passed. */
export function hazardsAlong(chart: Chart, track: Track, corridorM: number): WayHazard[] {
  const found = new Map<number, WayHazard>();
  track.legs.forEach(({ startM, lengthM }, leg) => {
    const strip = stripOf(track, leg, startM, startM + lengthM, corridorM);
    const { hazards } = hazardsInArea(chart, strip, { widen: true });
    for (const h of hazards) {
      const beside = besideLeg(chart, h.feature.index, track, leg);
      const before = found.get(h.feature.index);
      if (before === undefined || beside.offM < before.offM)
        found.set(h.feature.index, hazardOf(h, beside));
    }
  });
  return [...found.values()].sort((a, b) => a.alongM - b.alongM);
}
