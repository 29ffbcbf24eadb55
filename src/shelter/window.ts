import { wrap360 } from "../core/angles.js";
import type { FetchFan } from "./fan.js";

/** A headland at the edge of a gap through which swell comes in. */
export interface Headland {
  /** True bearing of its tip from the berth. */
  bearingDeg: number;
  /** Distance of its tip from the berth. */
  distanceM: number;
  /** Interior angle of the land at the tip; 0 is a thin wall or spit. */
  wedgeAngleDeg: number;
}

/** A gap in the land through which swell comes in: open clockwise from one edge to the other. */
export interface Gap {
  /** Edge from which the water is open clockwise. */
  fromDeg: number;
  /** Width of the open sector. */
  widthDeg: number;
  /** Headland at the first edge; null where none is known. */
  first: Headland | null;
  /** Headland at the last edge; null where none is known. */
  last: Headland | null;
}

/** Interior angle taken for a headland of unknown shape. A wedge shelters less than a thin wall. */
export const UNKNOWN_WEDGE_DEG = 90;

/**
 * Gaps of a fan: runs of rays that met no shore, or none within `openM`. Each edge is put at the first ray that met
 * one, so the gap is never narrower than it is, and that ray's end is taken for the headland's tip.
 */
export function gapsOf(fan: FetchFan, openM: number): Gap[] {
  const count = fan.bearingsDeg.length;
  const open = fan.ends.map((end, i) => end !== "coast" || fan.fetchM[i]! >= openM);
  const gaps: Gap[] = [];
  const start = open.indexOf(false);
  if (start < 0) return [{ fromDeg: 0, widthDeg: 360, first: null, last: null }];
  for (let k = 1; k <= count; k++) {
    const before = (start + k - 1) % count;
    if (open[before]! || !open[(start + k) % count]!) continue;
    let after = k + 1;
    while (open[(start + after) % count]!) after++;
    const end = (start + after) % count;
    gaps.push(gapBetween(fan, before, end));
  }
  return gaps;
}

function gapBetween(fan: FetchFan, before: number, after: number): Gap {
  const fromDeg = fan.bearingsDeg[before]!;
  return {
    fromDeg,
    widthDeg: wrap360(fan.bearingsDeg[after]! - fromDeg) || 360,
    first: headlandAt(fan, before),
    last: headlandAt(fan, after),
  };
}

const headlandAt = (fan: FetchFan, i: number): Headland => ({
  bearingDeg: fan.bearingsDeg[i]!,
  distanceM: fan.fetchM[i]!,
  wedgeAngleDeg: UNKNOWN_WEDGE_DEG,
});
