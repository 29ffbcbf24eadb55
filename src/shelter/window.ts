import { wrap360 } from "../core/angles.js";
import { WIDEST_GAP_DEG } from "./effective.js";
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

/** A ray of a fan as swell sees it. */
interface Ray {
  bearingDeg: number;
  distanceM: number;
  open: boolean;
}

/** Rays of a fan, with an open one between two that say nothing of the wide water between them. */
function raysOf(fan: FetchFan, openM: number): Ray[] {
  const { bearingsDeg, fetchM, ends, limitM, gaps } = fan;
  return bearingsDeg.flatMap((bearingDeg, i) => {
    const distanceM = fetchM[i]!;
    const ray = { bearingDeg, distanceM, open: ends[i] !== "coast" || distanceM >= openM };
    const width = wrap360(bearingsDeg[(i + 1) % bearingsDeg.length]! - bearingDeg) || 360;
    if (gaps === "land" || width <= WIDEST_GAP_DEG) return [ray];
    return [ray, { bearingDeg: wrap360(bearingDeg + width / 2), distanceM: limitM, open: true }];
  });
}

/**
 * Gaps of a fan: runs of rays that met no shore, or none within `openM`, and the water between rays too far apart,
 * unless the fan calls it land. Each edge is put at the first ray that met a shore, so the gap is never narrower
 * than it is, and that ray's end is taken for the headland's tip.
 */
export function gapsOf(fan: FetchFan, openM: number): Gap[] {
  const rays = raysOf(fan, openM);
  const count = rays.length;
  const gaps: Gap[] = [];
  const start = rays.findIndex((ray) => !ray.open);
  if (start < 0) return [{ fromDeg: 0, widthDeg: 360, first: null, last: null }];
  for (let k = 1; k <= count; k++) {
    const before = rays[(start + k - 1) % count]!;
    if (before.open || !rays[(start + k) % count]!.open) continue;
    let after = k + 1;
    while (rays[(start + after) % count]!.open) after++;
    gaps.push(gapBetween(before, rays[(start + after) % count]!));
  }
  return gaps;
}

const gapBetween = (before: Ray, after: Ray): Gap => ({
  fromDeg: before.bearingDeg,
  widthDeg: wrap360(after.bearingDeg - before.bearingDeg) || 360,
  first: headlandAt(before),
  last: headlandAt(after),
});

const headlandAt = ({ bearingDeg, distanceM }: Ray): Headland => ({
  bearingDeg,
  distanceM,
  wedgeAngleDeg: UNKNOWN_WEDGE_DEG,
});
