import { bracketedRoot } from "../core/roots.js";

/** A value and when it is reached. */
export interface At {
  value: number;
  timeMs: number;
}

/** What a function does over a span. */
export interface SpanReport {
  least: At;
  greatest: At;
  /** Parts of the span in which the function is below the limit. */
  below: { fromMs: number; toMs: number }[];
}

/** Half a second: nothing at sea is timed closer. */
const TIME_TOLERANCE_MS = 500;

/**
 * Least, greatest and all parts below a limit of a continuous function over knots between which it has at most
 * one turn. A value that is not a number counts as below the limit.
 */
export function overSpan(
  f: (timeMs: number) => number,
  knots: readonly number[],
  limit: number | null,
): SpanReport {
  const values = knots.map(f);
  let least: At = { value: Infinity, timeMs: knots[0]! };
  let greatest: At = { value: -Infinity, timeMs: knots[0]! };
  const look = (timeMs: number, value: number): void => {
    if (value < least.value) least = { value, timeMs };
    if (value > greatest.value) greatest = { value, timeMs };
  };
  const fine: number[] = [];
  knots.forEach((t, i) => {
    look(t, values[i]!);
    fine.push(t);
    const turn = turnBetween(f, knots, values, i);
    if (turn !== null) {
      look(turn, f(turn));
      fine.push(turn);
    }
  });
  fine.sort((a, b) => a - b);
  return {
    least,
    greatest,
    below: limit === null ? [] : belowLimit(f, fine, limit),
  };
}

/** Instant of a turn hidden between knot i and the next, where three neighbouring values point to one. */
function turnBetween(
  f: (t: number) => number,
  knots: readonly number[],
  values: readonly number[],
  i: number,
): number | null {
  // Past either end there is no value, and no comparison holds.
  const down = values[i]! <= values[i - 1]! && values[i]! <= values[i + 1]!;
  const up = values[i]! >= values[i - 1]! && values[i]! >= values[i + 1]!;
  if (!down && !up) return null;
  return golden(down ? f : (t) => -f(t), knots[i - 1]!, knots[i + 1]!);
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** Instant of the least value in a bracket with one trough. */
function golden(f: (t: number) => number, from: number, to: number): number {
  let [a, b] = [from, to];
  let c = b - GOLDEN * (b - a);
  let d = a + GOLDEN * (b - a);
  let [fc, fd] = [f(c), f(d)];
  while (b - a > TIME_TOLERANCE_MS) {
    if (fc < fd) {
      [b, d, fd] = [d, c, fc];
      c = b - GOLDEN * (b - a);
      fc = f(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + GOLDEN * (b - a);
      fd = f(d);
    }
  }
  return (a + b) / 2;
}

function belowLimit(
  f: (t: number) => number,
  knots: readonly number[],
  limit: number,
): SpanReport["below"] {
  const over = (t: number): number => f(t) - limit;
  const below: SpanReport["below"] = [];
  let since: number | null = over(knots[0]!) >= 0 ? null : knots[0]!;
  for (let i = 1; i < knots.length; i++) {
    const t = knots[i]!;
    const isBelow = !(over(t) >= 0);
    if (isBelow === (since !== null)) continue;
    const root = bracketedRoot(over, knots[i - 1]!, t, TIME_TOLERANCE_MS);
    const at = Number.isNaN(root) ? (isBelow ? knots[i - 1]! : t) : root;
    if (since === null) since = at;
    else {
      below.push({ fromMs: since, toMs: at });
      since = null;
    }
  }
  if (since !== null) below.push({ fromMs: since, toMs: knots.at(-1)! });
  return below;
}
