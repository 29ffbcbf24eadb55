import { RAD } from "../core/angles.js";
import { fixSpread, restartTests } from "./judge.js";
import { Ring, Slot as m } from "./memory.js";
import type { Memory } from "./reach.js";
import { PLACING, BLOCKS } from "./tables.js";

/**
 * Learn where an unknown anchor lies from a new block: ahead by the greatest distance, where the rode
 * is taut. Until that is settled only the width of all positions can show a drag.
 */
export function placeAnchor(mem: Memory, slot: number): void {
  const { open, ring } = mem;
  const x = ring[Ring.X + slot]!;
  const y = ring[Ring.Y + slot]!;
  widen(open, x, y);
  const wind = open[m.WIND_MPS]!;
  if (wind >= 0 && wind < PLACING.leastWindMps) return;
  let east = ring[Ring.HE + slot]!;
  let north = ring[Ring.HN + slot]!;
  if (east === 0 && north === 0 && wind >= PLACING.headToWindMps) {
    east = Math.sin(open[m.WIND_FROM]! * RAD);
    north = Math.cos(open[m.WIND_FROM]! * RAD);
  }
  const steady = Math.sqrt(east * east + north * north);
  if (!(steady >= PLACING.steadiness)) return;
  const reach = open[m.REACH]! / steady;
  addPlace(open, x + reach * east, y + reach * north);
  const n = open[m.EST_COUNT]!;
  const scatter = Math.sqrt(open[m.EST_SQ]! / n);
  // Six blocks run are hardly more than one: the error wanders for minutes.
  const spread = Math.sqrt(PLACING.floorM * PLACING.floorM + (scatter * scatter * 6) / n);
  if (n < PLACING.blocks || !(scatter <= PLACING.scatterM && spread <= PLACING.spreadM)) return;
  setAnchor(mem, open[m.EST_X]!, open[m.EST_Y]!, spread, 2);
}

/** Running mean and sum of squares, by Welford's recurrence. */
function addPlace(open: number[], x: number, y: number): void {
  const n = ++open[m.EST_COUNT]!;
  const dx = x - open[m.EST_X]!;
  const dy = y - open[m.EST_Y]!;
  open[m.EST_X]! += dx / n;
  open[m.EST_Y]! += dy / n;
  open[m.EST_SQ]! += 0.5 * (dx * (x - open[m.EST_X]!) + dy * (y - open[m.EST_Y]!));
}

/** Take the anchor to lie at a place, and compare all blocks with it anew. */
export function setAnchor(mem: Memory, x: number, y: number, sigma: number, kind: number): void {
  const { open, ring } = mem;
  open[m.ANCHOR_X] = x;
  open[m.ANCHOR_Y] = y;
  open[m.ANCHOR_SIGMA] = sigma;
  open[m.ANCHOR_KIND] = kind;
  restartTests(open);
  for (let i = 0; i < BLOCKS; i++) {
    const dx = ring[Ring.X + i]! - x;
    const dy = ring[Ring.Y + i]! - y;
    ring[Ring.E + i] = Math.sqrt(dx * dx + dy * dy) - open[m.REACH]!;
  }
}

const AXES = 12;

/** How far apart the blocks have lain along any of six axes, against twice the greatest distance. */
function widen(open: number[], x: number, y: number): void {
  const first = open[m.EXTENT_COUNT] === 0;
  open[m.EXTENT_COUNT]!++;
  let width = 0;
  for (let i = 0; i < AXES; i++) {
    const a = (2 * Math.PI * i) / AXES;
    const p = x * Math.sin(a) + y * Math.cos(a);
    if (first || p > open[m.EXTENT + i]!) open[m.EXTENT + i] = p;
  }
  for (let i = 0; i < AXES / 2; i++)
    width = Math.max(width, open[m.EXTENT + i]! + open[m.EXTENT + i + AXES / 2]!);
  const spread = Math.SQRT2 * fixSpread(open);
  open[m.WIDTH] = (width - 2 * open[m.REACH]!) / spread;
}
