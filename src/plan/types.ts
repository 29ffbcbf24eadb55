import type { Interval } from "../core/judgement.js";
import type { Degrees, Metres, MetresPerSecond, Milliseconds, Newtons } from "../core/units.js";

/**
 * The stay step by step, one array a quantity, all of the same length. `null` where the quantity
 * is not known at that moment.
 */
export interface Moments {
  /** Instants, UTC epoch milliseconds; the last is the end of the stay. */
  timeMs: Milliseconds[];
  /** Height of tide above the datum, surge at its likely value. */
  tideHeightM: (Metres | null)[];
  /** Depth of water at the anchor, likely. */
  depthM: (Metres | null)[];
  /** Least water under the keel: tide error and surge on the low side, shoalest ground the hull can reach. */
  underKeelLeastM: (Metres | null)[];
  /** Mean wind. */
  windMps: (MetresPerSecond | null)[];
  /** Direction the mean wind comes from. */
  windFromDeg: (Degrees | null)[];
  /** Gusts. */
  gustMps: (MetresPerSecond | null)[];
  /** Rate of the stream. */
  streamMps: (MetresPerSecond | null)[];
  /** Set of the stream. */
  streamTowardsDeg: (Degrees | null)[];
  /** Mean pull on the rode. */
  pullN: (Newtons | null)[];
  /** Greatest pull in a gust over the fan of wind directions, yawing as is usual (30° either side). */
  gustPullN: (Newtons | null)[];
  /** Direction from the anchor in which the rode streams. */
  pullTowardsDeg: (Degrees | null)[];
  /** Heading of the vessel. */
  headingDeg: (Degrees | null)[];
  /** Horizontal distance from the anchor to the bow, mean pull. */
  reachM: (Metres | null)[];
  /** Greatest distance from the anchor to the bow, in the gust. */
  gustReachM: (Metres | null)[];
  /** Angle of the pull at the anchor above the horizontal, in the gust. */
  pullAngleDeg: (Degrees | null)[];
  /** Length of rode lying on the bottom, mean pull. */
  onBottomM: (Metres | null)[];
  /** Lowest credible holding at that pull angle. */
  holdingLowN: (Newtons | null)[];
  /** Likely holding at that pull angle. */
  holdingLikelyN: (Newtons | null)[];
  /** Lowest credible holding over the greatest pull in a gust, yawing as far as is reported (40° either side): more than `gustPullN`. */
  holdingMargin: (number | null)[];
  /** Least room to a neighbour, the shore or a hazard over the fan of wind directions. */
  roomM: (Metres | null)[];
  /** Expected significant wave height at the berth, wind sea and swell together. */
  waveHeightM: (Metres | null)[];
  /** Worst credible wave height over the fan of wind directions. */
  waveHeightHighM: (Metres | null)[];
  /** Whether it is between sunset and sunrise. */
  dark: (boolean | null)[];
}

/** The moment at which a quantity is at its worst in the stay. */
export interface Limiting {
  /** When; null where nothing is known of the quantity. */
  atMs: Milliseconds | null;
  /** The figure then. */
  value: number | null;
  /** The limit it is held against. */
  limit: number | null;
  /** What it is the figure of, e.g. the neighbour or hazard. */
  of: string | null;
}

/**
 * How good the berth is for the stay. `suitable`: nothing known speaks against it at any hour. `withCare`: she can lie
 * there at letting go, and until the hour at which it stops being safe where there is one, if what the reasons
 * name is looked after. `unsuitable`: a stop at some hour, or not safe from letting go on. `cannotTell`: no stop is
 * known, but something a judgement needs is not known either.
 */
export type Verdict = "suitable" | "withCare" | "unsuitable" | "cannotTell";

export type { Interval };
