import { mainLows, type Turn } from "./kinds.js";
import { knotsOf, noKnots, pushKnot, type KnotList, type Knots } from "./knots.js";
import type { PortCurve } from "./source.js";
import type { TurnTable } from "./table.js";

/** Longest time from one low water to the next that is taken for a real one, ms. */
const LONGEST_CYCLE_MS = 1.6 * 12.4206 * 3_600_000;

/** Knots of a port curve drawn through the turns. */
export function cubicKnots(table: TurnTable, curve: PortCurve): Knots {
  const list = noKnots();
  const last =
    curve.key === "highWater" ? byTurns(table, curve, list) : byLowWater(table, curve, list);
  if (last !== null) pushKnot(list, { ...last, known: false });
  return knotsOf(list, "cubic");
}

/** Where a range lies from neaps, 0, to springs, 1. */
const springShare = (curve: PortCurve, rangeM: number): number =>
  (rangeM - curve.neapsRangeM) / (curve.springsRangeM - curve.neapsRangeM);

/** Factors for a range: between neaps and springs in proportion, going on at most half the span beyond. */
export function factorsFor(curve: PortCurve, rangeM: number, from: number, to: number): number[] {
  const w = Math.min(1.5, Math.max(-0.5, springShare(curve, rangeM)));
  const out: number[] = [];
  for (let i = from; i <= to; i++)
    out.push(curve.neaps[i]! + w * (curve.springs[i]! - curve.neaps[i]!));
  return out;
}

/** Rise and fall each stretched to their own length. */
function byTurns(table: TurnTable, curve: PortCurve, list: KnotList): Turn {
  const { turns } = table;
  const mid = (curve.springs.length - 1) / 2;
  for (let i = 0; i + 1 < turns.length; i++) {
    const a = turns[i]!;
    const b = turns[i + 1]!;
    if (table.suspect[i]!) {
      pushKnot(list, { ...a, known: false });
      continue;
    }
    const rising = b.heightM >= a.heightM;
    const low = Math.min(a.heightM, b.heightM);
    const range = Math.abs(b.heightM - a.heightM);
    const start = rising ? 0 : mid;
    draw(list, a.timeMs, b.timeMs, {
      heights: factorsFor(curve, range, start, start + mid).map((f) => low + f * range),
      ...bandsFor(curve, range, start),
    });
  }
  return turns.at(-1)!;
}

/** From one low water to the next, whatever high water does between. */
function byLowWater(table: TurnTable, curve: PortCurve, list: KnotList): Turn | null {
  const lows = mainLows(table.turns);
  for (let i = 0; i + 1 < lows.length; i++) {
    const a = lows[i]!;
    const b = lows[i + 1]!;
    const from = table.turns.indexOf(a);
    const to = table.turns.indexOf(b);
    const top = Math.max(...table.heights.slice(from, to + 1));
    if (
      table.suspect.slice(from, to).includes(true) ||
      !(b.timeMs - a.timeMs <= LONGEST_CYCLE_MS) ||
      !(top > Math.max(a.heightM, b.heightM))
    ) {
      pushKnot(list, { ...a, known: false });
      continue;
    }
    const range = top - (a.heightM + b.heightM) / 2;
    const factors = factorsFor(curve, range, 0, curve.springs.length - 1);
    draw(list, a.timeMs, b.timeMs, {
      heights: onSlope(factors, a.heightM, b.heightM, top),
      ...bandsFor(curve, range, 0),
    });
  }
  return lows.at(-1) ?? null;
}

/** Heights from factors above the line that joins two unequal low waters, highest at `top`. */
function onSlope(factors: readonly number[], first: number, second: number, top: number): number[] {
  const n = factors.length - 1;
  const peak = factors.indexOf(Math.max(...factors));
  const base = (i: number): number => first + ((second - first) * i) / n;
  const scale = (top - base(peak)) / factors[peak]!;
  return factors.map((f, i) => base(i) + f * scale);
}

/** Heights of a piece of curve at even steps, and the error there. */
interface Piece {
  heights: readonly number[];
  /** Error at step i, m. */
  low: (i: number) => number;
  high: (i: number) => number;
  /** The range lies well outside those of the curve. */
  beyond: boolean;
}

/** Share of the span from neaps to springs by which a range may lie outside before it is flagged. */
const BEYOND = 0.25;

/** Error of the curve in metres from one of its steps on, none where the curve carries none; and the flag. */
function bandsFor(curve: PortCurve, rangeM: number, start: number): Omit<Piece, "heights"> {
  const w = springShare(curve, rangeM);
  return {
    beyond: !(w >= -BEYOND && w <= 1 + BEYOND),
    low: (i) => (curve.errorLow?.[start + i] ?? 0) * rangeM,
    high: (i) => (curve.errorHigh?.[start + i] ?? 0) * rangeM,
  };
}

/** Add heights at even steps between two instants with slopes that make no new turns between them. */
function draw(list: KnotList, fromMs: number, toMs: number, piece: Piece): void {
  const { heights } = piece;
  const n = heights.length - 1;
  const step = (toMs - fromMs) / n;
  for (let i = 0; i < n; i++) {
    const before = i === 0 ? 0 : heights[i]! - heights[i - 1]!;
    const after = heights[i + 1]! - heights[i]!;
    // Harmonic mean of the neighbouring slopes (Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5, 1984).
    const slope = before * after > 0 ? (2 * before * after) / (before + after) : 0;
    pushKnot(list, {
      timeMs: fromMs + i * step,
      heightM: heights[i]!,
      known: true,
      slope: slope / step,
      low: piece.low(i),
      high: piece.high(i),
      beyond: piece.beyond,
    });
  }
}
