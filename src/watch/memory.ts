import { BLOCKS, BLOCK_FIXES, LIMIT_ROWS } from "./tables.js";

/**
 * What a watch remembers between events: fixed numbers of fixed meaning, never NaN.
 * An instant of 0 means "not yet" or "not now".
 */
export const NOW = 0;
/** End of the open block; 0 before the first fix. */
export const BLOCK_END = 1;
/** Greatest distance from the anchor in this block. */
export const REACH = 2;
/** Variance of the greatest distance from the limits. */
export const REACH_VAR = 3;
export const ANCHOR_X = 4;
export const ANCHOR_Y = 5;
/** 0 unknown, 1 given, 2 estimated. */
export const ANCHOR_KIND = 6;
export const ANCHOR_SIGMA = 7;
/** Rode veered since the limits were given. */
export const VEERED = 8;
export const LAST_GOOD = 9;
/** Middle of the last block, and its time. */
export const CENTRE_X = 10;
export const CENTRE_Y = 11;
export const CENTRE_T = 12;
/** Spread of one axis the receiver states, smoothed. */
export const SIGMA = 13;
/** Spread learned from the inward moves of the excess, and what is taken until there has been time to learn. */
export const SIGMA_SEEN = 14;
export const LEARNED = 15;
/** Per test, since when every fix has lain outside by its notice and its alarm limit. */
export const OUTSIDE = 16;
/** Sums of heading vectors of the open block. */
export const HEAD_E = 26;
export const HEAD_N = 27;
export const HEAD_COUNT = 28;
/** Last wind; speed -1 before the first. */
export const WIND_MPS = 29;
export const WIND_FROM = 30;
export const WIND_T = 31;
export const DEPTH = 32;
export const DEPTH_T = 33;
export const SHOAL_SINCE = 34;
export const DEEP_SINCE = 35;
export const MODE = 36;
export const MODE_SINCE = 37;
/** Alarms that stand, and those acknowledged, as bits. */
export const LATCHED = 38;
export const ACKNOWLEDGED = 39;
/** Since when nothing has come near a limit. */
export const QUIET_SINCE = 40;
/** 0 let go, 1 brought up, 2 weighing. */
export const STAGE = 41;
export const STARTED = 42;
export const FIXES = 43;
export const DUPLICATES = 44;
export const LATE = 45;
export const JUMPS = 46;
export const FROZEN_FIXES = 47;
export const THINNED = 48;
/** Usual time between fixes, s. */
export const CADENCE = 49;
export const TRANSIT_EXCESS = 50;
export const TRANSIT_SIGMA = 51;
export const TRANSIT_T = 52;
export const USED = 53;
export const DISAGREE_SINCE = 54;
/** Excess of the second receiver over the first, smoothed; and blocks it rests on. */
export const OFFSET = 55;
export const OFFSET_BLOCKS = 56;
/** Latest gap that was ended by a fix. */
export const GAP_MS = 57;
/** Per window: middle excess, over its spread, blocks. */
export const WINDOW = 58;
/** Outward Doppler speed, smoothed, and when it was last told. */
export const OUTWARD = 64;
export const OUTWARD_T = 65;
/** Blocks and sums behind an estimated anchor. */
export const EST_COUNT = 66;
export const EST_X = 67;
export const EST_Y = 68;
export const EST_SQ = 69;
/** Excess with which she lay when the watch began: the anchor's place or the rode is off by it; learned until. */
export const BASE = 70;
export const BASE_UNTIL = 71;
/** Width of all blocks beyond twice the greatest distance, in spreads. */
export const WIDTH = 72;
/** Depth limits past, or not reached by, the table of limits. */
export const OUTSIDE_TABLE = 73;
/** Rows of limits in use. */
export const LIMIT_COUNT = 74;
/** Greatest reach of all blocks along twelve directions, and blocks behind them. */
export const EXTENT = 75;
export const EXTENT_COUNT = 87;
/** Blocks on end in which two receivers differed by too much. */
export const DISAGREE_BLOCKS = 88;
/** Size of the excursions this receiver has shown lately, and what is taken until it has had time to show them. */
export const TAIL_SEEN = 89;
export const TAIL = 90;
/** Blocks on end in which she has lain across the line to her anchor in a breeze. */
export const ASTRAY = 91;
/** Spread the newest fix is held against, as of the last block. */
export const FAST = 92;
/** When anything was last heard of the receiver in use. */
export const HEARD = 93;
/** An unbroken run outward: since when, the excess it began with, leaps taken out, and the highest yet. */
export const RUN_SINCE = 94;
export const RUN_FROM = 95;
export const RUN_TOP = 96;
/** When its last part began, and its highest then. */
export const PART_SINCE = 97;
export const PART_TOP = 98;
/** How long the watch may be without a usable fix, and how long in a breeze. */
export const SILENT_S = 99;
export const SILENT_WINDY_S = 100;
/** Excess of the last fix outside, what leaps have added to it, and when the last did. */
export const LAST_EXCESS = 101;
export const LEAPT = 102;
export const LEAPT_T = 103;
/** Two receivers, one record each; what comes before them is all a report needs. */
export const RECEIVER = 104;
export const R_T = 0;
export const R_LAT = 1;
export const R_LON = 2;
export const R_SAME_SINCE = 3;
export const R_SAME_COUNT = 4;
export const R_JUMP_SINCE = 5;
export const R_COUNT = 6;
export const R_SUM_X = 7;
export const R_SUM_Y = 8;
/** Place and time of the last fix taken. */
export const R_X = 9;
export const R_Y = 10;
export const R_GOOD = 11;
/** Place of the first of the fixes now put by as a jump. */
export const R_JUMP_X = 12;
export const R_JUMP_Y = 13;
export const R_EXCESS = 14;
export const RECEIVER_SIZE = R_EXCESS + BLOCK_FIXES;
export const OPEN_SIZE = RECEIVER + 2 * RECEIVER_SIZE;

/** Columns of the ring of closed blocks. */
export const T = 0;
export const E = BLOCKS;
export const X = 2 * BLOCKS;
export const Y = 3 * BLOCKS;
export const HE = 4 * BLOCKS;
export const HN = 5 * BLOCKS;
export const RING_SIZE = 6 * BLOCKS;

/** Columns of the limits; an unknown depth is {@link UNKNOWN}. */
export const L_T = 0;
export const L_REACH = LIMIT_ROWS;
export const L_LEAST = 2 * LIMIT_ROWS;
export const L_GREATEST = 3 * LIMIT_ROWS;
export const LIMITS_SIZE = 4 * LIMIT_ROWS;
export const UNKNOWN = -1e6;

/** Alarm bits. */
export const DRAG = 1;
export const BLIND_BIT = 2;
export const SHOAL = 4;

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
