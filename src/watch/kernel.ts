import { RAD } from "../core/angles.js";
import { closeBlock } from "./block.js";
import {
  anyTestFailed,
  boundedSigma,
  boundedSpread,
  judge,
  restartTests,
  worseBy,
} from "./judge.js";
import { Bit, MODES, Part, Slot as m } from "./memory.js";
import { type Memory, startBlock } from "./reach.js";
import { FROZEN, JUMP, LEAP_MS, RUN, TESTS, BLOCK_FIXES, BLOCK_MS } from "./tables.js";

/** Time between fixes of which a block keeps all. */
const EVENLY_MS = BLOCK_MS / BLOCK_FIXES;
const BLIND_MODE = MODES.indexOf("blind");

/** Whether an event at this time closes the open block. */
export const closesBlock = (open: readonly number[], timeMs: number): boolean =>
  open[m.BLOCK_END]! !== 0 && timeMs >= open[m.BLOCK_END]!;

/** Move the clock on; a block whose time is over is closed and judged. Time never runs back. */
export function advance(mem: Memory, timeMs: number): void {
  if (closesBlock(mem.open, timeMs)) closeBlock(mem, timeMs);
  if (timeMs > mem.open[m.NOW]!) mem.open[m.NOW] = timeMs;
}

/**
 * One fix, in metres on the plane. `lat` and `lon` serve only to tell a frozen receiver.
 * Order of cleaning: repeats and stale times, frozen coordinates, jumps, thinning.
 */
export function addFix(
  mem: Memory,
  receiver: number,
  timeMs: number,
  x: number,
  y: number,
  lat: number,
  lon: number,
  sigma: number,
): void {
  const open = mem.open;
  const r = m.RECEIVER + receiver * Part.SIZE;
  const last = open[r + Part.T]!;
  if (timeMs <= last && !lateFix(open, r, timeMs, lat, lon)) return;
  advance(mem, timeMs);
  if (open[m.BLOCK_END] === 0) startBlock(mem, timeMs);
  if (receiver === open[m.USED]) open[m.HEARD] = timeMs;
  if (timeMs > last) {
    keepCadence(open, timeMs - last);
    open[r + Part.T] = timeMs;
    if (lat !== open[r + Part.LAT] || lon !== open[r + Part.LON])
      newPlace(open, r, timeMs, lat, lon);
    else if (isFrozen(open, r, timeMs)) return;
  }
  // A place she could be at without any time at all needs no more asking.
  if (within(open, x - open[r + Part.X]!, y - open[r + Part.Y]!, 0)) open[r + Part.JUMP_SINCE] = 0;
  else if (isJump(open, r, timeMs, x, y)) return;
  take(open, r, receiver, timeMs, x, y, sigma);
  if (timeMs > open[r + Part.GOOD]!) {
    open[r + Part.X] = x;
    open[r + Part.Y] = y;
    open[r + Part.GOOD] = timeMs;
  }
  if (
    open[m.MODE] === BLIND_MODE ||
    (open[m.RUN_SINCE] !== 0 && (open[m.LATCHED]! & Bit.DRAG) === 0 && anyTestFailed(open, true))
  )
    judge(mem);
}

/** A fix that does not advance its receiver's time: counted, and kept only if it falls in the open block. */
function lateFix(open: number[], r: number, timeMs: number, lat: number, lon: number): boolean {
  if (timeMs === open[r + Part.T]) {
    open[m.DUPLICATES]!++;
    return false;
  }
  if (
    timeMs < open[m.BLOCK_END]! - BLOCK_MS ||
    (lat === open[r + Part.LAT] && lon === open[r + Part.LON])
  ) {
    open[m.LATE]!++;
    return false;
  }
  return true;
}

/** Longer than a transponder at anchor is silent between two reports, ms. */
const SILENCE_MS = 240_000;

/** Usual time between fixes, smoothed; a silence is no cadence. */
function keepCadence(open: number[], dt: number): void {
  if (!(dt < SILENCE_MS)) return;
  const usual = open[m.CADENCE]!;
  open[m.CADENCE] = usual + 0.1 * (Math.min(0.001 * dt, 10 * usual) - usual);
}

function newPlace(open: number[], r: number, timeMs: number, lat: number, lon: number): void {
  open[r + Part.LAT] = lat;
  open[r + Part.LON] = lon;
  open[r + Part.SAME_SINCE] = timeMs;
  open[r + Part.SAME_COUNT] = 0;
}

/** Whether the same coordinates have come too often for a vessel. */
function isFrozen(open: number[], r: number, timeMs: number): boolean {
  open[r + Part.SAME_COUNT]!++;
  if (
    open[r + Part.SAME_COUNT]! < FROZEN.fixes ||
    timeMs - open[r + Part.SAME_SINCE]! < 1000 * FROZEN.afterS
  )
    return false;
  open[m.FROZEN_FIXES]!++;
  return true;
}

/** Whether a place can be reached from another in so long. */
function within(open: readonly number[], dx: number, dy: number, seconds: number): boolean {
  const far = JUMP.speedMps * seconds + 2 * open[m.SIGMA]! + JUMP.slackM;
  return dx * dx + dy * dy <= far * far;
}

/**
 * A step no vessel makes, or one made out of sight, is put by until the fixes that follow agree on
 * it: soon if she could have come there, late if the antenna or its datum must have moved.
 */
function isJump(open: number[], r: number, timeMs: number, x: number, y: number): boolean {
  const good = open[r + Part.GOOD]!;
  const dx = x - open[r + Part.X]!;
  const dy = y - open[r + Part.Y]!;
  const awayS = 0.001 * Math.abs(timeMs - good);
  const freshS = Math.max(JUMP.freshS, JUMP.freshFixes * open[m.CADENCE]!);
  if (good === 0 || within(open, dx, dy, Math.min(awayS, freshS))) {
    open[r + Part.JUMP_SINCE] = 0;
    return false;
  }
  open[m.JUMPS]!++;
  const since = open[r + Part.JUMP_SINCE]!;
  const jx = x - open[r + Part.JUMP_X]!;
  const jy = y - open[r + Part.JUMP_Y]!;
  const agreesS = 0.001 * (timeMs - since);
  if (since === 0 || !within(open, jx, jy, agreesS)) {
    open[r + Part.JUMP_SINCE] = timeMs;
    open[r + Part.JUMP_X] = x;
    open[r + Part.JUMP_Y] = y;
    return true;
  }
  const lasts = within(open, dx, dy, awayS) ? JUMP.agreeMs : JUMP.lastsMs;
  return 1000 * agreesS < lasts;
}

/** Fold an accepted fix into the open block and the tests. */
function take(
  open: number[],
  r: number,
  receiver: number,
  timeMs: number,
  x: number,
  y: number,
  sigma: number,
): void {
  open[m.FIXES]!++;
  const before = open[m.LAST_GOOD]!;
  if (timeMs > before) {
    if (timeMs - before > 60_000 && before !== 0) open[m.GAP_MS] = timeMs - before;
    open[m.LAST_GOOD] = timeMs;
  }
  const stated = open[m.SIGMA]!;
  open[m.SIGMA] = stated + 0.02 * (sigma - stated);
  const dx = x - open[m.ANCHOR_X]!;
  const dy = y - open[m.ANCHOR_Y]!;
  const excess = Math.sqrt(dx * dx + dy * dy) - open[m.REACH]!;
  const outside = excess - open[m.BASE]!;
  // Inside, with no test running, there is nothing to keep; one that comes late does not say how she lies now.
  const tells = receiver === open[m.USED] && timeMs > open[r + Part.GOOD]!;
  if (tells && (outside > 0 || open[m.RUN_SINCE] !== 0)) testFixes(open, r, timeMs, outside);
  const n = open[r + Part.COUNT]!;
  // By the watch's own time: one that comes late, or by a clock behind the host's, is no surplus.
  const elapsed = open[m.NOW]! - open[m.BLOCK_END]! + BLOCK_MS;
  // At a cadence faster than a second the surplus is passed over evenly.
  if (n >= BLOCK_FIXES || elapsed < n * EVENLY_MS - 1500) {
    open[m.THINNED]!++;
    return;
  }
  open[r + Part.EXCESS + n] = excess;
  open[r + Part.SUM_X]! += x;
  open[r + Part.SUM_Y]! += y;
  open[r + Part.COUNT] = n + 1;
}

/** Keep since when every fix has lain outside, for each test and limit. */
function testFixes(open: number[], r: number, timeMs: number, excess: number): void {
  if (open[m.ANCHOR_KIND] === 0 || !(excess > 0)) {
    if (open[m.RUN_SINCE] !== 0) restartTests(open);
    return;
  }
  // Fixes that were put by until they agreed have lain there since the first of them.
  const fromMs = open[r + Part.JUMP_SINCE]! || timeMs;
  const awayS = 0.001 * (timeMs - open[r + Part.GOOD]!);
  const most = RUN.leapMps * Math.min(awayS, JUMP.freshS);
  // What she may have gone in a silence is no leap.
  countLeaps(open, timeMs, RUN.leapMps * awayS + RUN.slackM, excess);
  runOutward(open, timeMs, most, excess);
  const walked = excess - open[m.LEAPT]!;
  const worse = worseBy(open);
  for (let i = 0; i < TESTS.length; i++) {
    const test = TESTS[i]!;
    const gone = test.forS < LEAP_MS / 1000 ? walked : excess;
    const spread = boundedSpread(open[m.FAST]!, test, worse);
    const at = m.OUTSIDE + 2 * i;
    if (!(gone > test.notice * spread)) open[at] = 0;
    else if (open[at] === 0) open[at] = fromMs;
    if (!(gone > test.alarm * spread)) open[at + 1] = 0;
    else if (open[at + 1] === 0) open[at + 1] = fromMs;
  }
}

/** What leaps have added to the excess: no drag until they have lasted longer than an excursion does. */
function countLeaps(open: number[], timeMs: number, most: number, excess: number): void {
  const before = open[m.RUN_SINCE] === 0 ? 0 : open[m.LAST_EXCESS]!;
  if (open[m.RUN_SINCE] === 0 || timeMs - open[m.LEAPT_T]! > LEAP_MS) open[m.LEAPT] = 0;
  const gain = excess - before;
  if (gain > most) {
    open[m.LEAPT]! += gain - most;
    open[m.LEAPT_T] = timeMs;
  } else if (gain < -most) open[m.LEAPT] = Math.max(0, open[m.LEAPT]! + gain + most);
  open[m.LAST_EXCESS] = excess;
}

/** Follow a run outward; what is gained by a leap is not counted, and a run that flags is none. */
function runOutward(open: number[], timeMs: number, most: number, excess: number): void {
  const gain = excess - open[m.RUN_TOP]!;
  const back = RUN.slackM + RUN.slackSpreads * boundedSigma(open);
  if (open[m.RUN_SINCE] === 0 || gain < -back) {
    startRun(open, timeMs, excess);
    return;
  }
  if (gain > 0) {
    const leapt = Math.max(0, gain - most);
    open[m.RUN_FROM]! += leapt;
    open[m.PART_TOP]! += leapt;
    open[m.RUN_TOP] = excess;
  }
  const partS = 0.001 * (timeMs - open[m.PART_SINCE]!);
  if (partS < RUN.partS) return;
  const meanMps = (open[m.RUN_TOP]! - open[m.RUN_FROM]!) / (0.001 * (timeMs - open[m.RUN_SINCE]!));
  const partMps = (open[m.RUN_TOP]! - open[m.PART_TOP]!) / partS;
  if (partMps < Math.max(RUN.leastMps, RUN.steady * meanMps)) startRun(open, timeMs, excess);
  open[m.PART_SINCE] = timeMs;
  open[m.PART_TOP] = open[m.RUN_TOP]!;
}

function startRun(open: number[], timeMs: number, excess: number): void {
  open[m.RUN_SINCE] = timeMs;
  open[m.RUN_FROM] = excess;
  open[m.RUN_TOP] = excess;
  open[m.PART_SINCE] = timeMs;
  open[m.PART_TOP] = excess;
}

/** A heading, into the open block. */
export function addHeading(open: number[], headingDeg: number): void {
  open[m.HEAD_E]! += Math.sin(headingDeg * RAD);
  open[m.HEAD_N]! += Math.cos(headingDeg * RAD);
  open[m.HEAD_COUNT]!++;
}

/** Outward part of a Doppler speed, smoothed over a quarter of a minute. */
export function addSpeed(
  open: number[],
  timeMs: number,
  x: number,
  y: number,
  sogMps: number,
  cogDeg: number,
): void {
  const dx = x - open[m.ANCHOR_X]!;
  const dy = y - open[m.ANCHOR_Y]!;
  const d = Math.sqrt(dx * dx + dy * dy);
  if (!(d > 1)) return;
  const out = (sogMps * (dx * Math.sin(cogDeg * RAD) + dy * Math.cos(cogDeg * RAD))) / d;
  const dt = timeMs - open[m.OUTWARD_T]!;
  // One that comes late does not say how she goes now.
  if (!(dt > 0)) return;
  const share = dt >= 60_000 ? 1 : -Math.expm1(-dt / 15_000);
  open[m.OUTWARD]! += share * (out - open[m.OUTWARD]!);
  open[m.OUTWARD_T] = timeMs;
}
