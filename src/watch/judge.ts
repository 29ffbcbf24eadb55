import { Bit, MODES, Slot as m } from "./memory.js";
import type { Memory } from "./reach.js";
import {
  type BoundedLimits,
  ACROSS,
  BLIND,
  DOUBT,
  OUTWARD_SPEED,
  RECEIVER_MOST_M,
  RUN,
  TAIL_PART,
  TESTS,
  WIDTH,
  WINDOWS,
} from "./tables.js";

const [BRINGING_UP, LYING, UNEASY, DRAGGING, BLIND_MODE, CANNOT_TELL, AWEIGH] = MODES.map(
  (_, i) => i,
) as [number, number, number, number, number, number, number];

/** Part of a limit under which it is quiet again, and for how long. */
const QUIET = { part: 0.7, forMs: 300_000 } as const;
/** A depth outside its band for so long counts. */
export const DEPTH_LASTS_MS = 180_000;
/** An observed transit speaks for so long. */
const TRANSIT_LASTS_MS = 900_000;
/** A transit opened by so many spreads beyond swing is an alarm. */
const TRANSIT_ALARM = 5;

/** How many times worse than stated a receiver may be taken to be where doubt must not hide a drag. */
const WORSE_MOST = 1.5;

/** Receiver's spread as stated, or as learned so far as that is believed. */
export const boundedSigma = (open: readonly number[]): number =>
  Math.max(open[m.SIGMA]!, Math.min(open[m.LEARNED]!, WORSE_MOST * open[m.SIGMA]!));

/**
 * Variance of the anchor's place and of the greatest distance, with a metre for what nobody states. A
 * receiver that proves worse than it says was so too when it marked the anchor.
 */
export function fixedVariance(open: readonly number[]): number {
  const anchor = (open[m.ANCHOR_SIGMA]! * boundedSigma(open)) / open[m.SIGMA]!;
  return anchor * anchor + open[m.REACH_VAR]! + 1;
}

/** Receiver's spread of one axis: as stated, or as learned where that is more. */
export const receiverSigma = (open: readonly number[]): number =>
  Math.max(open[m.SIGMA]!, open[m.LEARNED]!) * (open[m.DISAGREE_SINCE] === 0 ? 1 : 2);

/** Spread the excess of a single fix, or of a mean that leaves `part` of the error, is held against. */
export function fixSpread(open: readonly number[], part = 1): number {
  const sigma = receiverSigma(open) * part;
  return Math.sqrt(sigma * sigma + fixedVariance(open));
}

/** Spread for tests so short that an excursion of the receiver can fill them. */
export function fastSpread(open: readonly number[]): number {
  const spread = fixSpread(open);
  const tail = open[m.TAIL]!;
  const doubt = (tail - DOUBT.fromM) / (DOUBT.fullM - DOUBT.fromM);
  const doubted =
    Math.sqrt(spread * spread + TAIL_PART * TAIL_PART * tail * tail) *
    (1 + DOUBT.part * Math.min(1, Math.max(0, doubt)));
  // However large the excursions, a fast drag must not go on unheard.
  return Math.min(doubted, Math.max(DOUBT.mostM, DOUBT.most * spread));
}

/** How much worse the receiver is than any that bounds in metres are made for. */
export const worseBy = (open: readonly number[]): number =>
  Math.max(1, receiverSigma(open) / RECEIVER_MOST_M);

/** A spread bounded so that the alarm limit is no more than the metres of the row. */
export const boundedSpread = (spread: number, row: BoundedLimits, worse: number): number =>
  Math.min(spread, (row.mostM * worse) / row.alarm);

/** Whether every fix has lain outside by a limit for so long. */
const outsideFor = (open: readonly number[], slot: number, seconds: number): boolean =>
  open[slot]! !== 0 && open[m.LAST_GOOD]! - open[slot]! >= 1000 * seconds;

/** Whether a fresh Doppler speed carries her away from the anchor. */
export const drivenOut = (open: readonly number[]): boolean =>
  open[m.OUTWARD]! >= OUTWARD_SPEED.leastMps &&
  open[m.NOW]! - open[m.OUTWARD_T]! <= OUTWARD_SPEED.freshMs;

/** Whether a test of fixes on end has been failed, by its notice or its alarm limit. */
export const testFailed = (open: readonly number[], test: number, alarm: boolean): boolean =>
  outsideFor(open, m.OUTSIDE + 2 * test + (alarm ? 1 : 0), TESTS[test]!.forS);

/** Metres a run outward must gain to be a drag: more where the receiver strays, but never past a bound. */
export const runLimit = (open: readonly number[]): number =>
  Math.min(
    RUN.mostM,
    Math.max(RUN.gainM, RUN.gainSpreads * boundedSigma(open), RUN.tailPart * open[m.TAIL]!),
  );

/** How long a run outward must last. */
const runLastsS = (open: readonly number[]): number =>
  Math.min(RUN.leastMostS, Math.max(RUN.leastS, RUN.leastSPerM * boundedSigma(open)));

/** Metres gained by the run outward, once it has lasted. */
export const runGained = (open: readonly number[]): number =>
  outsideFor(open, m.RUN_SINCE, runLastsS(open)) ? open[m.RUN_TOP]! - open[m.RUN_FROM]! : 0;

/** Whether any of them has been; with the speed to match, a notice limit is an alarm. */
export function anyTestFailed(open: readonly number[], alarm: boolean): boolean {
  if (open[m.RUN_SINCE] === 0) return false;
  if (runGained(open) >= (alarm ? 1 : RUN.notice) * runLimit(open)) return true;
  for (let i = 0; i < TESTS.length; i++) if (testFailed(open, i, alarm)) return true;
  return (
    outsideFor(open, m.OUTSIDE + 2 * OUTWARD_SPEED.test, OUTWARD_SPEED.forS) && drivenOut(open)
  );
}

/** Begin all tests of fixes on end anew. */
export function restartTests(open: number[]): void {
  open[m.RUN_SINCE] = 0;
  for (let i = 0; i < 2 * TESTS.length; i++) open[m.OUTSIDE + i] = 0;
}

const inBreeze = (open: readonly number[]): boolean =>
  open[m.WIND_MPS]! > BLIND.windMps && open[m.NOW]! - open[m.WIND_T]! < 3_600_000;

/** Whether the last fix lay outside by more than its error explains. */
const lastOutside = (open: readonly number[]): boolean =>
  open[m.RUN_SINCE] !== 0 && open[m.LAST_EXCESS]! > BLIND.outsideSpreads * open[m.FAST]!;

/** How long the watch may go without a usable fix. */
export function blindAfterMs(open: readonly number[]): number {
  const frozen = open[m.HEARD]! > open[m.LAST_GOOD]! + 5000;
  const limit = inBreeze(open) || frozen ? open[m.SILENT_WINDY_S]! : open[m.SILENT_S]!;
  return (
    1000 *
    Math.max(lastOutside(open) ? Math.min(BLIND.outsideS, limit) : limit, 2.5 * open[m.CADENCE]!)
  );
}

const silentMs = (open: readonly number[]): number =>
  open[m.NOW]! - Math.max(open[m.LAST_GOOD]!, open[m.STARTED]!);

export const isBlind = (open: readonly number[]): boolean =>
  !(silentMs(open) <= blindAfterMs(open));

/** Whether a watch that is blind rings for it: at once, unless it was told to bear more and nothing speaks against it. */
const ringsBlind = (open: readonly number[]): boolean =>
  inBreeze(open) || lastOutside(open) || !(silentMs(open) < 1000 * open[m.RING_SILENT_S]!);

/** Nearness of the strongest evidence to its limit; 1 and over is an alarm, or a notice. */
export function evidence(open: readonly number[], alarm: boolean): number {
  let most = anyTestFailed(open, alarm) ? 1 : 0;
  for (let w = 0; w < WINDOWS.length; w++) {
    const row = WINDOWS[w]!;
    const at = m.WINDOW + 3 * w;
    if (open[at + 2]! >= 1) most = Math.max(most, open[at + 1]! / (alarm ? row.alarm : row.notice));
  }
  if (open[m.ANCHOR_KIND] === 0)
    most = Math.max(most, open[m.WIDTH]! / (alarm ? WIDTH.alarm : WIDTH.notice));
  return Math.max(most, transitEvidence(open) / (alarm ? 1 : 0.6));
}

function transitEvidence(open: readonly number[]): number {
  const at = open[m.TRANSIT_T]!;
  if (at === 0 || open[m.NOW]! - at > TRANSIT_LASTS_MS) return 0;
  return Math.max(0, open[m.TRANSIT_EXCESS]! / (TRANSIT_ALARM * open[m.TRANSIT_SIGMA]!));
}

/** Whether a span that began at `since` has lasted. */
const lasted = (open: readonly number[], since: number, ms: number): boolean =>
  open[since]! !== 0 && open[m.NOW]! - open[since]! >= ms;

/** Decide how she lies now, from everything remembered. */
export function judge(mem: Memory): void {
  const open = mem.open;
  if (open[m.STAGE] === 2) {
    explain(open, Bit.DRAG | Bit.BLIND | Bit.SHOAL);
    setMode(open, AWEIGH);
    return;
  }
  const blind = isBlind(open);
  if (blind && ringsBlind(open)) latch(open, Bit.BLIND);
  else if (!blind) release(open, Bit.BLIND);
  if (lasted(open, m.SHOAL_SINCE, DEPTH_LASTS_MS)) latch(open, Bit.SHOAL);
  else if (open[m.SHOAL_SINCE] === 0) release(open, Bit.SHOAL);
  const settling = open[m.STAGE] === 0;
  const near = settling ? 0 : evidence(open, true);
  if (near >= 1) latch(open, Bit.DRAG);
  quieten(open, near);
  setMode(open, modeOf(open, blind, settling));
}

function modeOf(open: readonly number[], blind: boolean, settling: boolean): number {
  if (blind) return BLIND_MODE;
  if ((open[m.LATCHED]! & Bit.DRAG) !== 0) return DRAGGING;
  if (settling) return BRINGING_UP;
  if (
    evidence(open, false) >= 1 ||
    lasted(open, m.DEEP_SINCE, DEPTH_LASTS_MS) ||
    open[m.ASTRAY]! >= ACROSS.blocks ||
    (open[m.LATCHED]! & Bit.SHOAL) !== 0
  )
    return UNEASY;
  // Nothing is known until the first block has been compared, nor ever without an anchor to compare it with.
  return open[m.ANCHOR_KIND] === 0 || open[m.CENTRE_T] === 0 ? CANNOT_TELL : LYING;
}

/** A drag is over when it has been acknowledged and all has been quiet for a while. */
function quieten(open: number[], near: number): void {
  if (!(near < QUIET.part)) open[m.QUIET_SINCE] = 0;
  else if (open[m.QUIET_SINCE] === 0) open[m.QUIET_SINCE] = open[m.NOW]!;
  if (lasted(open, m.QUIET_SINCE, QUIET.forMs)) release(open, Bit.DRAG);
}

function latch(open: number[], bit: number): void {
  open[m.LATCHED]! |= bit;
}

/** An alarm falls only once it has been acknowledged. */
function release(open: number[], bit: number): void {
  if ((open[m.ACKNOWLEDGED]! & bit) === 0) return;
  open[m.LATCHED]! &= ~bit;
  open[m.ACKNOWLEDGED]! &= ~bit;
}

/** What the skipper has explained no longer stands. */
export function explain(open: number[], bit: number): void {
  open[m.LATCHED]! &= ~bit;
  open[m.ACKNOWLEDGED]! &= ~bit;
}

function setMode(open: number[], mode: number): void {
  if (open[m.MODE] === mode) return;
  open[m.MODE] = mode;
  open[m.MODE_SINCE] = open[m.NOW]!;
}
