import { RAD } from "../core/angles.js";
import { closeBlock } from "./block.js";
import { anyTestFailed, judge, restartTests } from "./judge.js";
import * as m from "./memory.js";
import { type Memory, startBlock } from "./reach.js";
import { BLOCK_FIXES, BLOCK_MS, FROZEN, JUMP, TESTS } from "./tables.js";

const BLIND_MODE = m.MODES.indexOf("blind");

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
  const r = m.RECEIVER + receiver * m.RECEIVER_SIZE;
  const last = open[r + m.R_T]!;
  if (timeMs <= last && !lateFix(open, r, timeMs, lat, lon)) return;
  advance(mem, timeMs);
  if (open[m.BLOCK_END] === 0) startBlock(mem, timeMs);
  if (receiver === open[m.USED]) open[m.HEARD] = timeMs;
  if (timeMs > last && isFrozen(open, r, timeMs, lat, lon)) return;
  const good = open[r + m.R_GOOD]!;
  const dx = x - open[r + m.R_X]!;
  const dy = y - open[r + m.R_Y]!;
  const far = JUMP.speedMps * 0.001 * Math.abs(timeMs - good) + 2 * open[m.SIGMA]! + JUMP.slackM;
  if (good === 0 || dx * dx + dy * dy <= far * far) open[r + m.R_JUMP_SINCE] = 0;
  else if (!lastingJump(open, r, timeMs)) return;
  open[r + m.R_X] = x;
  open[r + m.R_Y] = y;
  open[r + m.R_GOOD] = timeMs;
  take(open, r, receiver, timeMs, x, y, sigma);
  if (
    open[m.MODE] === BLIND_MODE ||
    ((open[m.LATCHED]! & m.DRAG) === 0 && anyTestFailed(open, true))
  )
    judge(mem);
}

/** A fix that does not advance its receiver's time: counted, and kept only if it falls in the open block. */
function lateFix(open: number[], r: number, timeMs: number, lat: number, lon: number): boolean {
  if (timeMs === open[r + m.R_T]) {
    open[m.DUPLICATES]!++;
    return false;
  }
  if (
    timeMs < open[m.BLOCK_END]! - BLOCK_MS ||
    (lat === open[r + m.R_LAT] && lon === open[r + m.R_LON])
  ) {
    open[m.LATE]!++;
    return false;
  }
  return true;
}

function isFrozen(open: number[], r: number, timeMs: number, lat: number, lon: number): boolean {
  const dt = timeMs - open[r + m.R_T]!;
  open[r + m.R_T] = timeMs;
  if (dt < 600_000) open[m.CADENCE]! += 0.1 * (0.001 * dt - open[m.CADENCE]!);
  if (lat !== open[r + m.R_LAT] || lon !== open[r + m.R_LON]) {
    open[r + m.R_LAT] = lat;
    open[r + m.R_LON] = lon;
    open[r + m.R_SAME_SINCE] = timeMs;
    open[r + m.R_SAME_COUNT] = 0;
    return false;
  }
  open[r + m.R_SAME_COUNT]!++;
  if (
    open[r + m.R_SAME_COUNT]! < FROZEN.fixes ||
    timeMs - open[r + m.R_SAME_SINCE]! < 1000 * FROZEN.afterS
  )
    return false;
  open[m.FROZEN_FIXES]!++;
  return true;
}

/** A step no vessel makes is put by, until it has lasted: then the antenna, or its datum, did move. */
function lastingJump(open: number[], r: number, timeMs: number): boolean {
  open[m.JUMPS]!++;
  const since = open[r + m.R_JUMP_SINCE]!;
  if (since === 0) open[r + m.R_JUMP_SINCE] = timeMs;
  return since !== 0 && timeMs - since >= JUMP.lastsMs;
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
  if (timeMs > open[m.LAST_GOOD]!) {
    if (timeMs - open[m.LAST_GOOD]! > 60_000 && open[m.LAST_GOOD] !== 0)
      open[m.GAP_MS] = timeMs - open[m.LAST_GOOD]!;
    open[m.LAST_GOOD] = timeMs;
  }
  open[m.SIGMA]! += 0.02 * (sigma - open[m.SIGMA]!);
  const dx = x - open[m.ANCHOR_X]!;
  const dy = y - open[m.ANCHOR_Y]!;
  const excess = Math.sqrt(dx * dx + dy * dy) - open[m.REACH]!;
  if (receiver === open[m.USED]) testFixes(open, timeMs, excess - open[m.BASE]!);
  const n = open[r + m.R_COUNT]!;
  const elapsed = timeMs - open[m.BLOCK_END]! + BLOCK_MS;
  // At a cadence faster than a second the surplus is passed over evenly.
  if (n >= BLOCK_FIXES || elapsed < (n * BLOCK_MS) / BLOCK_FIXES - 1500) {
    open[m.THINNED]!++;
    return;
  }
  open[r + m.R_EXCESS + n] = excess;
  open[r + m.R_SUM_X]! += x;
  open[r + m.R_SUM_Y]! += y;
  open[r + m.R_COUNT] = n + 1;
}

/** Keep since when every fix has lain outside, for each test and limit. */
function testFixes(open: number[], timeMs: number, excess: number): void {
  if (open[m.ANCHOR_KIND] === 0 || !(excess > 0)) {
    restartTests(open);
    return;
  }
  const spreads = excess / open[m.FAST]!;
  for (let i = 0; i < TESTS.length; i++) {
    const test = TESTS[i]!;
    const at = m.OUTSIDE + 2 * i;
    if (!(spreads > test.notice)) open[at] = 0;
    else if (open[at] === 0) open[at] = timeMs;
    if (!(spreads > test.alarm)) open[at + 1] = 0;
    else if (open[at + 1] === 0) open[at + 1] = timeMs;
  }
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
  const share = dt >= 60_000 ? 1 : -Math.expm1(-dt / 15_000);
  open[m.OUTWARD]! += share * (out - open[m.OUTWARD]!);
  open[m.OUTWARD_T] = timeMs;
}
