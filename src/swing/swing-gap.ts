import { check } from "../core/check.js";
import { northAt, planeAt, toPlane } from "../geo/plane.js";
import { ringToRing } from "../geo/polygon.js";
import { columnsAt } from "./columns.js";
import { emptyRoom, fillRoom, gapAt, leastGapSameTime, noGap, type Room } from "./kernel.js";
import { envelopeRing } from "./swing-envelope.js";
import { type AnchoredVessel, type Anchored, anchoredVessel, hullOf } from "./vessel.js";

/** Least room between two vessels at anchor. */
export interface SwingGap {
  /** Least gap between the hulls at one and the same moment; 0 where they may touch. The same as `sameTime.leastGapM`, or the gap at any moments where there is no common moment to compare. */
  leastGapM: number;
  /** When that is; null where there was no moment to compare. */
  atMs: number | null;
  /** Gap when each lies at her worst, whenever that is. The same as `anyTime.leastGapM`. */
  gapAtWorstM: number;
  /** Both at the same moment, each lying her own way. */
  sameTime: {
    /** Least gap; null where there was no moment to compare. */
    leastGapM: number | null;
    /** When. */
    atMs: number | null;
    /** Gap at each moment, in order of time. */
    moments: {
      /** When. */
      timeMs: number;
      /** Gap between the hulls. */
      gapM: number;
    }[];
    /** Number of those moments at which how one of the two lies is not known, so that she is taken to lie anywhere in her reach. */
    atWorstMoments: number;
  };
  /** Each at any time of her stay. */
  anyTime: {
    /** Least gap between the rooms the two take. */
    leastGapM: number;
    /** Whether those rooms overlap. */
    overlaps: boolean;
  };
}

/**
 * Least gap between two vessels at anchor: both at the same moment, each lying her own way on her
 * own rode, and each at her worst at any time.
 *
 * Hulls are rectangles about the bow roller; sheer, yaw and the error of each anchor's place are taken
 * off the gap as the farthest they can move any part. A vessel whose lie is not known at a moment may lie
 * anywhere in her reach. Between the moments nothing is compared at the same time; the gap at any
 * time holds the ways between as well. Leaves out dragging. *Valid*: anchors within 100 km. *Accuracy*: exact
 * for rectangles without sheer, else on the safe side.
 *
 * @throws InputError when a figure is missing, out of range, or moments are out of order.
 * @source geometry
 * @example
 * ```ts
 * import { swingGap } from "hawse/swing";
 * const timeMs = Date.UTC(2026, 5, 1, 20);
 * const lie = { timeMs, pullTowardsDeg: 90, headingDeg: 270 };
 * const gap = swingGap(
 *   { anchor: { latDeg: 0, lonDeg: 0 }, vessel: { lengthM: 12, beamM: 4 }, moments: [{ ...lie, reachM: 30 }] },
 *   { anchor: { latDeg: 0, lonDeg: 0.0005 }, vessel: { lengthM: 9, beamM: 3 }, moments: [{ ...lie, reachM: 20 }] },
 * );
 * console.log(gap.leastGapM.toFixed(1), gap.atMs === timeMs);
 * // 33.7 true
 * ```
 */
export const swingGap = (a: AnchoredVessel, b: AnchoredVessel): SwingGap =>
  gapOf(check(anchoredVessel, a), check(anchoredVessel, b));

/** {@link swingGap} without the check. */
export function gapOf(a: Anchored, b: Anchored): SwingGap {
  const plane = planeAt(a.anchor);
  const at = new Float64Array(2);
  toPlane(plane, b.anchor.latDeg, b.anchor.lonDeg, at, 0);
  const times = timesOf(a, b);
  const ra = roomAt(a, 0, 0, times);
  // Her north is not quite north on the plane of the other's anchor.
  const turn = northAt(plane, b.anchor.latDeg, b.anchor.lonDeg);
  const rb = roomAt(turned(b, turn), at[0]!, at[1]!, times);
  const least = noGap();
  leastGapSameTime(ra, rb, least);
  const compared = least.i >= 0;
  const rings = ringToRing(
    envelopeRing(a, true).ring,
    envelopeRing(turned(b, turn), true).ring.map((v, i) => v + at[i % 2]!),
  );
  const worst = compared ? Math.min(rings, least.gapM) : rings;
  return {
    leastGapM: compared ? least.gapM : worst,
    atMs: compared ? times[least.i]! : null,
    gapAtWorstM: worst,
    sameTime: {
      leastGapM: compared ? least.gapM : null,
      atMs: compared ? times[least.i]! : null,
      moments: times.map((timeMs, i) => ({
        timeMs,
        gapM: gapAt(ra, i, rb, i),
      })),
      atWorstMoments: unknownMoments(a, b, times),
    },
    anyTime: { leastGapM: worst, overlaps: !(worst > 0) },
  };
}

/** The same vessel with every direction turned. */
const turned = (v: Anchored, deg: number): Anchored => ({
  ...v,
  moments: v.moments.map((m) => ({
    ...m,
    pullTowardsDeg: m.pullTowardsDeg === null ? null : m.pullTowardsDeg + deg,
    headingDeg: m.headingDeg === null ? null : m.headingDeg + deg,
  })),
});

/** All times either vessel has a moment for, ascending. */
const timesOf = (a: Anchored, b: Anchored): number[] =>
  [...new Set([...a.moments, ...b.moments].map((m) => m.timeMs as number))].sort((p, q) => p - q);

function roomAt(v: Anchored, x: number, y: number, times: readonly number[]): Room {
  const room = emptyRoom(times.length);
  fillRoom(room, x, y, v.anchorErrorM, hullOf(v.vessel), columnsAt(v, times));
  return room;
}

function unknownMoments(a: Anchored, b: Anchored, times: readonly number[]): number {
  const known = [a, b].map(
    (v) =>
      new Set(
        v.moments
          .filter((m) => m.pullTowardsDeg !== null && m.headingDeg !== null)
          .map((m) => m.timeMs as number),
      ),
  );
  return times.filter((t) => known.some((k) => !k.has(t))).length;
}
