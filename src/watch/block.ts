import { RAD } from "../core/angles.js";
import { placeAnchor } from "./place.js";
import {
  boundedSpread,
  fastSpread,
  fixSpread,
  fixedVariance,
  judge,
  restartTests,
  worseBy,
} from "./judge.js";
import { Part, Ring, Slot as m } from "./memory.js";
import { middleNear } from "./middle.js";
import { type Memory, slotOf, startBlock } from "./reach.js";
import { changeSpread, meanSpread } from "./statistics.js";
import { ACROSS, BASE, EXCURSION_KEEP, PRESUMED, WINDOWS, BLOCKS, BLOCK_MS } from "./tables.js";

/** Room to look for the middle in; nothing in it outlives a call. */
const room = new Float64Array(BLOCKS);

/** Close the open block, judge, and open the block `timeMs` falls in. */
export function closeBlock(mem: Memory, timeMs: number): void {
  const open = mem.open;
  const end = open[m.BLOCK_END]!;
  if (end > open[m.NOW]!) open[m.NOW] = end;
  compareReceivers(open);
  const r = chosen(open);
  if (open[r + Part.COUNT]! > 0) pushBlock(mem, r, end);
  for (let i = 0; i < 2; i++) {
    const other = m.RECEIVER + i * Part.SIZE;
    open[other + Part.COUNT] = 0;
    open[other + Part.SUM_X] = 0;
    open[other + Part.SUM_Y] = 0;
  }
  open[m.HEAD_E] = 0;
  open[m.HEAD_N] = 0;
  open[m.HEAD_COUNT] = 0;
  windows(mem, 1 + Math.floor((timeMs - end) / BLOCK_MS));
  judge(mem);
  startBlock(mem, timeMs);
}

/** The receiver in use, or the other when that has fallen silent. */
function chosen(open: number[]): number {
  const r = m.RECEIVER + open[m.USED]! * Part.SIZE;
  const other = m.RECEIVER + (1 - open[m.USED]!) * Part.SIZE;
  if (open[r + Part.COUNT]! > 0 || open[other + Part.COUNT] === 0) return r;
  open[m.USED] = 1 - open[m.USED]!;
  restartTests(open);
  return other;
}

/** Middle of `n` numbers from `at`; their mean lies near it. */
function middle(from: readonly number[], at: number, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const v = from[at + i]!;
    room[i] = v;
    sum += v;
  }
  return middleNear(room, n, sum / n);
}

/** What two receivers differ by, smoothed; four spreads for two minutes cast doubt on both. */
function compareReceivers(open: number[]): void {
  const a = m.RECEIVER;
  const b = m.RECEIVER + Part.SIZE;
  const na = open[a + Part.COUNT]!;
  const nb = open[b + Part.COUNT]!;
  if (na === 0 || nb === 0) return;
  const dx = open[a + Part.SUM_X]! / na - open[b + Part.SUM_X]! / nb;
  const dy = open[a + Part.SUM_Y]! / na - open[b + Part.SUM_Y]! / nb;
  const far = 4 * Math.SQRT2 * open[m.SIGMA]! + 3;
  if (dx * dx + dy * dy <= far * far) open[m.DISAGREE_BLOCKS] = 0;
  else open[m.DISAGREE_BLOCKS]!++;
  if (open[m.DISAGREE_BLOCKS]! >= 4) {
    if (open[m.DISAGREE_SINCE] === 0) open[m.DISAGREE_SINCE] = open[m.NOW]!;
  } else open[m.DISAGREE_SINCE] = 0;
  const between = middle(open, b + Part.EXCESS, nb) - middle(open, a + Part.EXCESS, na);
  open[m.OFFSET_BLOCKS]!++;
  open[m.OFFSET]! += (between - open[m.OFFSET]!) / Math.min(20, open[m.OFFSET_BLOCKS]!);
}

/** Write the block into the ring. */
function pushBlock(mem: Memory, r: number, end: number): void {
  const { open, ring } = mem;
  const n = open[r + Part.COUNT]!;
  const slot = slotOf(open, BLOCKS);
  // A change of receiver is a step of metres that the vessel has not made.
  const step = open[m.USED] === 0 ? 0 : open[m.OFFSET]!;
  const excess = middle(open, r + Part.EXCESS, n) - step;
  const x = open[r + Part.SUM_X]! / n;
  const y = open[r + Part.SUM_Y]! / n;
  ring[Ring.T + slot] = end;
  ring[Ring.E + slot] = excess;
  ring[Ring.X + slot] = x;
  ring[Ring.Y + slot] = y;
  const heads = open[m.HEAD_COUNT]!;
  ring[Ring.HE + slot] = heads === 0 ? 0 : open[m.HEAD_E]! / heads;
  ring[Ring.HN + slot] = heads === 0 ? 0 : open[m.HEAD_N]! / heads;
  open[m.CENTRE_X] = x;
  open[m.CENTRE_Y] = y;
  open[m.CENTRE_T] = end - BLOCK_MS / 2;
  if (open[m.ANCHOR_KIND] === 0) placeAnchor(mem, slot);
  else {
    learn(mem, slot, excess);
    lieAcross(mem, slot);
  }
}

/** Count blocks in which she heads well off her anchor in a breeze. */
function lieAcross(mem: Memory, slot: number): void {
  const { open, ring } = mem;
  const east = open[m.ANCHOR_X]! - ring[Ring.X + slot]!;
  const north = open[m.ANCHOR_Y]! - ring[Ring.Y + slot]!;
  const he = ring[Ring.HE + slot]!;
  const hn = ring[Ring.HN + slot]!;
  const ahead = east * he + north * hn;
  const size = Math.sqrt((east * east + north * north) * (he * he + hn * hn));
  const breeze = open[m.WIND_MPS]! > ACROSS.windMps && open[m.NOW]! - open[m.WIND_T]! < 600_000;
  if (breeze && ahead < size * Math.cos(ACROSS.offDeg * RAD)) open[m.ASTRAY]!++;
  else open[m.ASTRAY] = 0;
}

const LEARN_LAG = 6;
/** Spread of the change of a wandering error over the lag, per unit error. */
const LEARN_UNIT = changeSpread((LEARN_LAG * BLOCK_MS) / 1000);
/** Change, in spreads, about which the running quantile settles for Gaussian errors. */
const LEARN_AT = 1.75;

/**
 * Learn the receiver's spread and the size of its excursions from inward moves of the excess: a drag
 * makes none, so no drag, however long, makes the watch duller.
 */
function learn(mem: Memory, slot: number, excess: number): void {
  const { open } = mem;
  const was = excessBefore(mem, slot, LEARN_LAG);
  // Only from where the rode was taut: a vessel that ranges about in light airs moves of herself.
  if (was > TAUT_M) {
    const inward = Math.max(0, was - excess) / (LEARN_AT * LEARN_UNIT);
    const now = open[m.SIGMA_SEEN]!;
    // A running high quantile: up by a large step seldom, down by a small one often.
    open[m.SIGMA_SEEN] = inward > now ? now + 0.2 * (Math.min(inward, 20) - now) : now * 0.998;
  }
  const peak = Math.max(
    excessBefore(mem, slot, 1),
    excessBefore(mem, slot, 2),
    excessBefore(mem, slot, 3),
  );
  const back = peak > TAUT_M ? Math.min(peak - excess, 60) : 0;
  open[m.TAIL_SEEN] = Math.max(back, open[m.TAIL_SEEN]! * EXCURSION_KEEP);
  presume(open);
}

/** What has not had time to show itself is presumed, and the presumption fades. */
export function presume(open: number[]): void {
  const age = (open[m.NOW]! - open[m.STARTED]!) / PRESUMED.halvesInMs;
  const left = Math.exp(-Math.LN2 * age);
  open[m.LEARNED] = Math.max(open[m.SIGMA_SEEN]!, PRESUMED.sigmaM * left);
  open[m.TAIL] = Math.max(open[m.TAIL_SEEN]!, PRESUMED.excursionM * left);
}

/** Excess over which the rode is taken to be taut. */
const TAUT_M = -3;

/** Excess some blocks before that of `slot`; far inside where there was none. */
function excessBefore(mem: Memory, slot: number, blocks: number): number {
  const before = (slot + BLOCKS - blocks) % BLOCKS;
  const at = mem.ring[Ring.T + slot]! - blocks * BLOCK_MS;
  return mem.ring[Ring.T + before] === at ? mem.ring[Ring.E + before]! : -Infinity;
}

/**
 * Middle excess over each window and what it is in spreads. The longest is looked at less often: when one of its
 * turns is among so many blocks from the newest on, for a slow receiver lets several pass at once.
 */
export function windows(mem: Memory, blocks: number): void {
  const { open, ring } = mem;
  open[m.FAST] = fastSpread(open);
  const newest = slotOf(open, BLOCKS);
  const end = open[m.BLOCK_END]!;
  // Before the first block has been kept there is nothing to compare.
  const known = open[m.ANCHOR_KIND] !== 0 && open[m.CENTRE_T] !== 0;
  let held = 0;
  let back = 0;
  for (let w = 0; w < WINDOWS.length; w++) {
    const row = WINDOWS[w]!;
    if ((newest + blocks - 1) % row.every >= blocks) break;
    for (; back < row.blocks; back++) {
      const slot = newest - back + (back > newest ? BLOCKS : 0);
      if (ring[Ring.T + slot] === end - back * BLOCK_MS) room[held++] = ring[Ring.E + slot]!;
    }
    const at = m.WINDOW + 3 * w;
    const least = Math.ceil(row.least * Math.min(1, 30 / open[m.CADENCE]!));
    const enough = known && held >= least;
    open[at + 2] = enough ? held : 0;
    if (!enough) continue;
    const part = meanSpread((held * BLOCK_MS) / 1000);
    const spread = boundedSpread(fixSpread(open, part), row, worseBy(open));
    const excess = middleNear(room, held, open[at]! + open[m.BASE]!);
    if (row.blocks === BASE.blocks) learnBase(open, excess);
    open[at] = excess - open[m.BASE]!;
    open[at + 1] = open[at] / spread;
  }
}

/**
 * An excess with which she lay from the first is an error of the anchor's place or of the rode, as
 * far as their spreads can explain it.
 */
function learnBase(open: number[], excess: number): void {
  if (open[m.NOW]! > open[m.BASE_UNTIL]!) return;
  const most = BASE.spreads * Math.sqrt(fixedVariance(open));
  open[m.BASE] = Math.max(open[m.BASE]!, Math.min(most, excess));
}
