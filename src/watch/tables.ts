/** Figures the watch stands on; one row, one figure, and where it comes from. */

/**
 * Horizontal position error of GPS, 95 %, global average; taken when a receiver states nothing.
 *
 * @source GPS SPS Performance Standard, 5th edition, 2020, section 3.8 (from memory; signal in space only)
 */
export const SPS_ACCURACY = {
  globalAverageHorizontalM: 8,
  worstSiteHorizontalM: 15,
  globalAverageVerticalM: 13,
  worstSiteVerticalM: 33,
} as const;

/**
 * AIS of a vessel at anchor: navigational status 1, class A reports every 180 s; 2 to 10 s under way.
 *
 * @source gpsd documentation, "AIVDM/AIVDO protocol decoding", navigation status table and class A reporting
 */
export const AIS_AT_ANCHOR = {
  status: 1,
  intervalS: 180,
  underWayLeastS: 2,
  underWayGreatestS: 10,
} as const;

/**
 * Correlation time of the error of a receiver that lies still, s. Static series at open sites gave
 * 95 to 310 s; 170 s is their middle (measured for the design of the watch).
 */
export const ERROR_CORRELATION_S = 170;

/** A limit in spreads of the excess. */
export interface Limits {
  /** At which the watch grows uneasy. */
  notice: number;
  /** At which it says the anchor drags. */
  alarm: number;
}

/** A limit with a bound in metres. */
export interface BoundedLimits extends Limits {
  /** Metres that ring whatever the spread, so long as the receiver is no worse than {@link RECEIVER_MOST_M}. */
  mostM: number;
}
/** Spread of one axis of the worst receiver that bounds in metres are made for; beyond it they grow with it. */
export const RECEIVER_MOST_M = 8;

/**
 * Tests of fixes on end, all of them outside for so long. Tuned, like {@link WINDOWS}, on simulated
 * nights of the tuning half only; what they do on unseen nights stands in `docs/watch-accuracy.md`.
 * The first is for what a silence has hidden.
 */
export const TESTS: readonly (BoundedLimits & { forS: number })[] = [
  { forS: 10, notice: 6, alarm: 8, mostM: 1000 },
  { forS: 30, notice: 3.7, alarm: 5, mostM: 1000 },
  { forS: 90, notice: 2.6, alarm: 3.5, mostM: 1000 },
  { forS: 180, notice: 1.8, alarm: 2.4, mostM: 17.5 },
  { forS: 300, notice: 1.3, alarm: 1.8, mostM: 14.5 },
];

/**
 * A run outward that only a drag makes: metres gained fix by fix, at a speed that does not flag,
 * without a leap and without falling back. An excursion of the receiver leaps, or flags as it fills;
 * so the run speaks however little the receiver is trusted.
 */
export const RUN = {
  /** Metres to be gained: at least, and in spreads of the receiver, and in excursions already seen; at most. */
  gainM: 20,
  gainSpreads: 6.5,
  tailPart: 1.3,
  mostM: 45,
  /** Least time: longer for a receiver of wide spread, whose slow excursions take so long to flag. */
  leastS: 60,
  leastSPerM: 15,
  leastMostS: 75,
  /** Part of the metres, after that time, that makes her uneasy. */
  notice: 0.6,
  /** How far she may fall back, and in spreads more, without breaking it. */
  slackM: 2.5,
  slackSpreads: 0.5,
  /** What is gained faster than this is a leap of the receiver and not counted. */
  leapMps: 0.8,
  /** Looked at in parts of so long; each must be as fast as this, and as this part of the mean. */
  partS: 15,
  leastMps: 0.1,
  steady: 0.5,
} as const;

/** What a leap has added counts in no test shorter than this until it has lasted so long. */
export const LEAP_MS = 150_000;

/** Windows of which the middle excess is taken: slower, but one stray fix does not break them. */
export const WINDOWS: readonly (BoundedLimits & {
  /** Blocks of 30 s in the window. */
  blocks: number;
  /** Fewest blocks that may speak for it. */
  least: number;
  /** Looked at every so many blocks. */
  every: number;
})[] = [
  { blocks: 20, least: 10, every: 1, notice: 2.4, alarm: 3.2, mostM: 17 },
  { blocks: 60, least: 30, every: 4, notice: 2.4, alarm: 3.2, mostM: 15 },
];

/** Doppler speed outward that makes the notice limit of one test, held for so long, an alarm; and how long it stays fresh. */
export const OUTWARD_SPEED = {
  test: 1,
  leastMps: 0.3,
  forS: 15,
  freshMs: 30_000,
} as const;

/** Lying across the line to her anchor in a breeze for so many blocks is cause for unease (common practice, no source). */
export const ACROSS = { offDeg: 50, windMps: 8, blocks: 4 } as const;

/** Width of all positions beyond two greatest distances, in spreads: all that shows a drag about an unknown anchor. */
export const WIDTH = { notice: 3, alarm: 4.5 } as const;

/** How an unknown anchor is placed from heading, or wind: blocks asked for, and what a block must show. */
export const PLACING = {
  blocks: 40,
  /** Least length of the mean heading vector of a block. */
  steadiness: 0.6,
  /** Wind under which the rode may hang slack (common practice, no source). */
  leastWindMps: 4,
  /** Wind over which her head is taken to lie to it when no heading is told (common practice, no source). */
  headToWindMps: 6,
  /** Greatest scatter of the placings, which yawing makes wide, and greatest spread of their mean. */
  scatterM: 20,
  spreadM: 5,
  /** Slack of the rode and error of the heading that no averaging takes out. */
  floorM: 3,
} as const;

/** An excess that was there from the first is taken for an error of place, up to so many of its spreads. */
export const BASE = { forMs: 1_800_000, blocks: 20, spreads: 1.5 } as const;

/** Spread and excursions a receiver is taken to have until it has had time to show its own. */
export const PRESUMED = {
  sigmaM: 5,
  excursionM: 20,
  halvesInMs: 3_600_000,
} as const;
/** Part of an excursion already seen that counts as spread of what lasts no longer than an excursion. */
export const TAIL_PART = 0.35;
/** Excursions of the first size begin to cast doubt on what is short; from the second on it counts so much less. */
export const DOUBT = { fromM: 10, fullM: 20, part: 1.4, mostM: 13, most: 1.7 } as const;
/** Part of an excursion seen that is still remembered a block later. */
export const EXCURSION_KEEP = 0.9985;

/** Length of a block of fixes, ms. */
export const BLOCK_MS = 30_000;
/** Blocks kept: half an hour. */
export const BLOCKS = 60;
/** Fixes kept of one block; at a faster cadence the surplus is thinned. */
export const BLOCK_FIXES = 30;
/** Rows of limits a watch can hold. */
export const LIMIT_ROWS = 40;

/**
 * No usable fix for so long and the watch is blind (common practice, no source); sooner in a breeze,
 * and soonest when the last fix lay outside by so many spreads.
 */
export const BLIND = {
  afterS: 120,
  inWindS: 60,
  windMps: 8,
  outsideS: 30,
  outsideSpreads: 2,
} as const;
/** The same coordinates for so long are a receiver that has stopped, not a vessel that lies still. */
export const FROZEN = { afterS: 30, fixes: 4 } as const;
/** Speed no vessel at anchor reaches; a faster step is a jump of the receiver until it has lasted. */
export const JUMP = {
  speedMps: 2.5,
  slackM: 2,
  /** After a silence she is looked for no farther than she goes in so long, or in so many fixes. */
  freshS: 15,
  freshFixes: 2,
  /** A place farther off that she could have come to is believed once fixes agree on it for so long. */
  agreeMs: 20_000,
  /** A place she could not have come to, once they have for so long. */
  lastsMs: 180_000,
} as const;
