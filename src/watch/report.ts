import { RAD, wrap360 } from "../core/angles.js";
import type { Reason } from "../core/judgement.js";
import type { Position } from "../core/schema.js";
import type { Degrees, Metres, MetresPerSecond, Milliseconds, Seconds } from "../core/units.js";
import { positionOf, type Plane } from "../geo/plane.js";
import {
  DEPTH_LASTS_MS,
  blindAfterMs,
  drivenOut,
  fixSpread,
  receiverSigma,
  runGained,
  runLimit,
  testFailed,
} from "./judge.js";
import { Column, MODES, Ring, Slot as m } from "./memory.js";
import type { WatchMode } from "./memory.js";
import { type Memory, limitAt, slotOf } from "./reach.js";
import { ACROSS, OUTWARD_SPEED, RUN, TESTS, WINDOWS, BLOCKS, BLOCK_MS } from "./tables.js";

/** An alarm that stands. */
export interface WatchAlarm {
  /** What it is about. */
  code: "drag" | "blind" | "shoal";
  /** Whether it has been acknowledged. */
  acknowledged: boolean;
}

/** Middle excess over the greatest distance in one window. */
export interface WatchExcess {
  /** Length of the window. */
  windowS: Seconds;
  /** Middle of distance from the anchor less the greatest distance; null while too few blocks speak. */
  excessM: Metres | null;
  /** That excess in its own spreads. */
  spreads: number | null;
  /** Spreads at which the watch says she drags. */
  limit: number;
}

/** What the watch says. */
export interface WatchReport {
  /** When this was judged, the watch's latest time. */
  atMs: Milliseconds;
  /** How she lies. `cannotTell` is neither good news nor bad. */
  mode: WatchMode;
  /** Since when. */
  sinceMs: Milliseconds;
  /** Alarms that stand until acknowledged or explained. */
  alarms: WatchAlarm[];
  /** Distance from the anchor over the last block; null without an anchor or a block. */
  distanceM: Metres | null;
  /** Greatest distance while the anchor holds. */
  greatestDistanceM: Metres;
  /** Excess by window. */
  excess: WatchExcess[];
  /** How far the anchor has come, when uneasy or dragging: no less than `atLeastM` (one case in twenty), no more than `atMostM`. */
  moved: {
    /** No less than this, one case in twenty. */
    atLeastM: Metres;
    /** No more than this. */
    atMostM: Metres;
    /** Speed over the last minutes. */
    speedMps: MetresPerSecond;
    /** Which way from the anchor she lies. */
    towardsDeg: Degrees;
  } | null;
  /** Where the anchor is taken to lie. */
  anchor: {
    /** Its place. */
    position: Position;
    /** Spread of that place, one axis. */
    sigmaM: Metres;
    /** Told, or estimated from the swing. */
    by: "given" | "estimated";
  } | null;
  /** What the positions are worth. */
  quality: {
    /** Spread of one axis taken. */
    sigmaM: Metres;
    /** Usual time between fixes. */
    fixEveryS: Seconds;
    /** Since the last usable fix. */
    silentS: Seconds;
    /** Blocks of half a minute with a usable fix in the last half hour, of 60. */
    blocks: number;
    /** Fixes taken, and those refused by cause. */
    fixes: number;
    /** Refused: the same instant again. */
    duplicates: number;
    /** Refused: older than the memory reaches. */
    late: number;
    /** Refused: leapt farther than she can go. */
    jumps: number;
    /** Refused: the receiver repeats itself. */
    frozen: number;
    /** Receiver in use. */
    receiver: 0 | 1;
  };
  /** Why. */
  reasons: Reason[];
}

/** What the watch says, from what it remembers. */
export function reportOf(mem: Memory, plane: Plane): WatchReport {
  const open = mem.open;
  const known = open[m.ANCHOR_KIND] !== 0;
  const ranged = known && open[m.CENTRE_T] !== 0;
  const distance = ranged ? distanceOf(open) : null;
  return {
    atMs: open[m.NOW]!,
    mode: MODES[open[m.MODE]!]!,
    sinceMs: open[m.MODE_SINCE]!,
    alarms: alarmsOf(open),
    distanceM: distance,
    greatestDistanceM: open[m.REACH]!,
    excess: WINDOWS.map((row, w) => excessOf(open, row.blocks, w)),
    moved: distance === null ? null : movedOf(mem, distance),
    anchor: known
      ? {
          position: positionOf(plane, open[m.ANCHOR_X]!, open[m.ANCHOR_Y]!),
          sigmaM: open[m.ANCHOR_SIGMA]!,
          by: open[m.ANCHOR_KIND] === 1 ? "given" : "estimated",
        }
      : null,
    quality: qualityOf(mem),
    reasons: reasonsOf(mem),
  };
}

function distanceOf(open: readonly number[]): number {
  const dx = open[m.CENTRE_X]! - open[m.ANCHOR_X]!;
  const dy = open[m.CENTRE_Y]! - open[m.ANCHOR_Y]!;
  return Math.sqrt(dx * dx + dy * dy);
}

const CODES = ["drag", "blind", "shoal"] as const;

function alarmsOf(open: readonly number[]): WatchAlarm[] {
  const out: WatchAlarm[] = [];
  CODES.forEach((code, i) => {
    if ((open[m.LATCHED]! & (1 << i)) !== 0)
      out.push({
        code,
        acknowledged: (open[m.ACKNOWLEDGED]! & (1 << i)) !== 0,
      });
  });
  return out;
}

function excessOf(open: readonly number[], blocks: number, w: number): WatchExcess {
  const at = m.WINDOW + 3 * w;
  const speaks = open[at + 2]! >= 1;
  return {
    windowS: (blocks * BLOCK_MS) / 1000,
    excessM: speaks ? open[at]! : null,
    spreads: speaks ? open[at + 1]! : null,
    limit: WINDOWS[w]!.alarm,
  };
}

const DRIFT_BLOCKS = 8;

/** How far, how fast and which way the anchor has come. */
function movedOf(mem: Memory, distance: number): WatchReport["moved"] {
  const { open, ring } = mem;
  const mode = MODES[open[m.MODE]!]!;
  if (mode !== "dragging" && mode !== "uneasy") return null;
  const excess = distance - open[m.REACH]!;
  const atLeastM = Math.max(0, excess - 1.645 * fixSpread(open));
  const newest = newestSlot(mem);
  const before = (newest + BLOCKS - DRIFT_BLOCKS) % BLOCKS;
  const dtS = (ring[Ring.T + newest]! - ring[Ring.T + before]!) / 1000;
  const held = dtS === (DRIFT_BLOCKS * BLOCK_MS) / 1000;
  const dx = held ? ring[Ring.X + newest]! - ring[Ring.X + before]! : 0;
  const dy = held ? ring[Ring.Y + newest]! - ring[Ring.Y + before]! : 0;
  return {
    atLeastM,
    atMostM: distance + open[m.REACH]!,
    speedMps: held ? Math.sqrt(dx * dx + dy * dy) / dtS : 0,
    towardsDeg: wrap360(
      Math.atan2(open[m.CENTRE_X]! - open[m.ANCHOR_X]!, open[m.CENTRE_Y]! - open[m.ANCHOR_Y]!) /
        RAD,
    ),
  };
}

/** Ring place of the newest block. */
function newestSlot(mem: Memory): number {
  let slot = slotOf(mem.open, BLOCKS);
  for (let i = 0; i < BLOCKS; i++) if (mem.ring[Ring.T + i]! > mem.ring[Ring.T + slot]!) slot = i;
  return slot;
}

function qualityOf(mem: Memory): WatchReport["quality"] {
  const { open, ring } = mem;
  let blocks = 0;
  for (let i = 0; i < BLOCKS; i++)
    if (ring[Ring.T + i] !== 0 && open[m.NOW]! - ring[Ring.T + i]! < BLOCKS * BLOCK_MS) blocks++;
  const good = Math.max(open[m.LAST_GOOD]!, open[m.STARTED]!);
  return {
    sigmaM: receiverSigma(open),
    fixEveryS: open[m.CADENCE]!,
    silentS: Math.max(0, open[m.NOW]! - good) / 1000,
    blocks,
    fixes: open[m.FIXES]!,
    duplicates: open[m.DUPLICATES]!,
    late: open[m.LATE]!,
    jumps: open[m.JUMPS]!,
    frozen: open[m.FROZEN_FIXES]!,
    receiver: open[m.USED] === 0 ? 0 : 1,
  };
}

const TUNED = "limit tuned on simulated nights; see docs/watch-accuracy.md";

function reasonsOf(mem: Memory): Reason[] {
  const { open } = mem;
  const out: Reason[] = [];
  const add = (
    code: string,
    severity: Reason["severity"],
    value: number | null,
    limit: number | null,
    basis: string,
  ) => out.push({ code, severity, value, limit, basis });
  TESTS.forEach((test, i) => {
    if (testFailed(open, i, false))
      add(
        `distance.${test.forS}s`,
        testFailed(open, i, true) ? "stop" : "warning",
        (open[m.LAST_GOOD]! - open[m.OUTSIDE + 2 * i]!) / 1000,
        test.forS,
        TUNED,
      );
  });
  const gained = runGained(open);
  const limit = runLimit(open);
  if (gained >= RUN.notice * limit)
    add("distance.run", gained >= limit ? "stop" : "warning", gained, limit, TUNED);
  WINDOWS.forEach((row, w) => {
    const at = m.WINDOW + 3 * w;
    if (open[at + 2]! >= 1 && open[at + 1]! >= row.notice)
      add(
        `distance.${(row.blocks * BLOCK_MS) / 60_000}min`,
        open[at + 1]! >= row.alarm ? "stop" : "warning",
        open[at + 1]!,
        row.alarm,
        TUNED,
      );
  });
  reasonsOfKnowledge(open, add);
  reasonsOfDepth(mem, add);
  return out;
}

type Add = (
  code: string,
  severity: Reason["severity"],
  value: number | null,
  limit: number | null,
  basis: string,
) => void;

function reasonsOfKnowledge(open: readonly number[], add: Add): void {
  const silent = (open[m.NOW]! - open[m.LAST_GOOD]!) / 1000;
  const blind = blindAfterMs(open) / 1000;
  const never = open[m.FIXES] === 0;
  if (never || !(silent <= blind))
    add("fixes.none", "warning", never ? null : silent, blind, WHY.none);
  if (open[m.GAP_MS] !== 0 && silent < 60)
    add("fixes.gap", "note", open[m.GAP_MS]! / 1000, null, WHY.gap);
  if (open[m.DISAGREE_SINCE] !== 0)
    add("receivers.differ", "caution", open[m.OFFSET]!, 4, WHY.differ);
  if (open[m.LEARNED]! > 1.5 * open[m.SIGMA]!)
    add("positions.poor", "caution", open[m.LEARNED]!, open[m.SIGMA]!, WHY.poor);
  if (open[m.ANCHOR_KIND] === 0)
    add("anchor.unknown", "warning", open[m.WIDTH]!, null, WHY.unknown);
  if (open[m.OUTSIDE_TABLE] !== 0) add("limits.past", "caution", null, null, WHY.past);
  if (drivenOut(open))
    add("speed.outward", "caution", open[m.OUTWARD]!, OUTWARD_SPEED.leastMps, WHY.speed);
  if (open[m.ASTRAY]! >= ACROSS.blocks)
    add("heading.across", "caution", null, ACROSS.offDeg, WHY.across);
  if (open[m.TRANSIT_T] !== 0 && open[m.TRANSIT_EXCESS]! > 0)
    add("transit.open", "warning", open[m.TRANSIT_EXCESS]!, 0, WHY.transit);
}

/** Rules behind the reasons. */
const WHY = {
  none: "no usable fix; common practice, no source",
  gap: "no data for so long",
  differ: "four spreads for two minutes; both are trusted half as much",
  poor: "scatter learned on the spot against the receiver's own statement",
  unknown:
    "without the anchor's place or a heading only leaving a circle of twice the distance shows a drag",
  past: "the limits given do not cover this time; the nearest are held",
  speed: "Doppler speed away from the anchor",
  across: "lies across the line to her anchor in a breeze; common practice, no source",
  transit: "opened beyond what swinging does",
} as const;

function reasonsOfDepth(mem: Memory, add: Add): void {
  const { open } = mem;
  const at = open[m.DEPTH_T]!;
  for (const [code, since, column] of [
    ["depth.shoal", m.SHOAL_SINCE, Column.LEAST],
    ["depth.deep", m.DEEP_SINCE, Column.GREATEST],
  ] as const)
    if (open[since] !== 0)
      add(
        code,
        open[m.NOW]! - open[since]! >= DEPTH_LASTS_MS ? "warning" : "note",
        open[m.DEPTH]!,
        limitAt(mem, column, at),
        "outside what tide and swing explain",
      );
}
