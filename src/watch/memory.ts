/**
 * What a watch remembers between events: fixed numbers of fixed meaning, never NaN.
 * An instant of 0 means "not yet" or "not now". Enumerations, for a bundler writes their numbers
 * where they are used, and at every fix a dozen of them are.
 */
export enum Slot {
  NOW = 0,
  /** End of the open block; 0 before the first fix. */
  BLOCK_END = 1,
  /** Greatest distance from the anchor in this block. */
  REACH = 2,
  /** Variance of the greatest distance from the limits. */
  REACH_VAR = 3,
  ANCHOR_X = 4,
  ANCHOR_Y = 5,
  /** 0 unknown, 1 given, 2 estimated. */
  ANCHOR_KIND = 6,
  ANCHOR_SIGMA = 7,
  /** Rode veered since the limits were given. */
  VEERED = 8,
  LAST_GOOD = 9,
  /** Middle of the last block, and its time. */
  CENTRE_X = 10,
  CENTRE_Y = 11,
  CENTRE_T = 12,
  /** Spread of one axis the receiver states, smoothed. */
  SIGMA = 13,
  /** Spread learned from the inward moves of the excess, and what is taken until there has been time to learn. */
  SIGMA_SEEN = 14,
  LEARNED = 15,
  /** Per test, since when every fix has lain outside by its notice and its alarm limit. */
  OUTSIDE = 16,
  /** Sums of heading vectors of the open block. */
  HEAD_E = 26,
  HEAD_N = 27,
  HEAD_COUNT = 28,
  /** Last wind; speed -1 before the first. */
  WIND_MPS = 29,
  WIND_FROM = 30,
  WIND_T = 31,
  DEPTH = 32,
  DEPTH_T = 33,
  SHOAL_SINCE = 34,
  DEEP_SINCE = 35,
  MODE = 36,
  MODE_SINCE = 37,
  /** Alarms that stand, and those acknowledged, as bits. */
  LATCHED = 38,
  ACKNOWLEDGED = 39,
  /** Since when nothing has come near a limit. */
  QUIET_SINCE = 40,
  /** 0 let go, 1 brought up, 2 weighing. */
  STAGE = 41,
  STARTED = 42,
  FIXES = 43,
  DUPLICATES = 44,
  LATE = 45,
  JUMPS = 46,
  FROZEN_FIXES = 47,
  THINNED = 48,
  /** Usual time between fixes, s. */
  CADENCE = 49,
  TRANSIT_EXCESS = 50,
  TRANSIT_SIGMA = 51,
  TRANSIT_T = 52,
  USED = 53,
  DISAGREE_SINCE = 54,
  /** Excess of the second receiver over the first, smoothed; and blocks it rests on. */
  OFFSET = 55,
  OFFSET_BLOCKS = 56,
  /** Latest gap that was ended by a fix. */
  GAP_MS = 57,
  /** Per window: middle excess, over its spread, blocks. */
  WINDOW = 58,
  /** Outward Doppler speed, smoothed, and when it was last told. */
  OUTWARD = 64,
  OUTWARD_T = 65,
  /** Blocks and sums behind an estimated anchor. */
  EST_COUNT = 66,
  EST_X = 67,
  EST_Y = 68,
  EST_SQ = 69,
  /** Excess with which she lay when the watch began: the anchor's place or the rode is off by it; learned until. */
  BASE = 70,
  BASE_UNTIL = 71,
  /** Width of all blocks beyond twice the greatest distance, in spreads. */
  WIDTH = 72,
  /** Depth limits past, or not reached by, the table of limits. */
  OUTSIDE_TABLE = 73,
  /** Rows of limits in use. */
  LIMIT_COUNT = 74,
  /** Greatest reach of all blocks along twelve directions, and blocks behind them. */
  EXTENT = 75,
  EXTENT_COUNT = 87,
  /** Blocks on end in which two receivers differed by too much. */
  DISAGREE_BLOCKS = 88,
  /** Size of the excursions this receiver has shown lately, and what is taken until it has had time to show them. */
  TAIL_SEEN = 89,
  TAIL = 90,
  /** Blocks on end in which she has lain across the line to her anchor in a breeze. */
  ASTRAY = 91,
  /** Spread the newest fix is held against, as of the last block. */
  FAST = 92,
  /** When anything was last heard of the receiver in use. */
  HEARD = 93,
  /** An unbroken run outward: since when, the excess it began with, leaps taken out, and the highest yet. */
  RUN_SINCE = 94,
  RUN_FROM = 95,
  RUN_TOP = 96,
  /** When its last part began, and its highest then. */
  PART_SINCE = 97,
  PART_TOP = 98,
  /** How long the watch may be without a usable fix, and how long in a breeze. */
  SILENT_S = 99,
  SILENT_WINDY_S = 100,
  /** Excess of the last fix outside, what leaps have added to it, and when the last did. */
  LAST_EXCESS = 101,
  LEAPT = 102,
  LEAPT_T = 103,
  /** How long the watch may be blind before it rings for that alone; 0 rings at once. */
  RING_SILENT_S = 104,
  /** Two receivers, one record each; what comes before them is all a report needs. */
  RECEIVER = 105,
  /** What the host's clock said last, while nothing else has moved the time on. */
  CLOCK = 193,
}

/** One receiver's record, from {@link Slot.RECEIVER} on. */
export enum Part {
  T = 0,
  LAT = 1,
  LON = 2,
  SAME_SINCE = 3,
  SAME_COUNT = 4,
  JUMP_SINCE = 5,
  COUNT = 6,
  SUM_X = 7,
  SUM_Y = 8,
  /** Place and time of the last fix taken. */
  X = 9,
  Y = 10,
  GOOD = 11,
  /** Place of the first of the fixes now put by as a jump. */
  JUMP_X = 12,
  JUMP_Y = 13,
  /** As many as a block keeps. */
  EXCESS = 14,
  SIZE = 44,
}

/** Columns of the ring of closed blocks. */
export enum Ring {
  T = 0,
  E = 60,
  X = 120,
  Y = 180,
  HE = 240,
  HN = 300,
}

/** Columns of the limits; an unknown depth is {@link UNKNOWN}. */
export enum Column {
  T = 0,
  REACH = 40,
  LEAST = 80,
  GREATEST = 120,
}

/** Lengths of the whole, of the ring and of the limits. */
export const OPEN_SIZE = 194;
export const RING_SIZE = 360;
export const LIMITS_SIZE = 160;

/** An unknown depth among the limits. */
export const UNKNOWN = -1e6;

/** Alarms, as bits. */
export enum Bit {
  DRAG = 1,
  BLIND = 2,
  SHOAL = 4,
}

/** Words for the numbers under {@link MODE}. */
export const MODES = [
  "bringingUp",
  "lying",
  "uneasy",
  "dragging",
  "blind",
  "cannotTell",
  "aweigh",
] as const;
/** How the watch takes the vessel to lie. */
export type WatchMode = (typeof MODES)[number];
