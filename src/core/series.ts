/** Index of the last element not greater than `x` in an ascending array; -1 before the first. */
export function lastAtOrBefore(ascending: ArrayLike<number>, x: number): number {
  let low = 0;
  let high = ascending.length;
  while (low < high) {
    const mid = (low + high) >>> 1;
    if (ascending[mid]! <= x) low = mid + 1;
    else high = mid;
  }
  return low - 1;
}

/**
 * Linear interpolation in a table of ascending abscissae.
 * Outside the table, and beside a missing value, the answer is NaN: nothing is extrapolated.
 */
export function linearAt(x: ArrayLike<number>, y: ArrayLike<number>, at: number): number {
  const i = lastAtOrBefore(x, at);
  // Before the first row, and for no number, i is -1: there is no row, and what comes of it is NaN.
  if (i >= x.length - 1) return x[i] === at ? y[i]! : NaN;
  const x0 = x[i]!;
  const part = (at - x0) / (x[i + 1]! - x0);
  return part === 0 ? y[i]! : y[i]! + part * (y[i + 1]! - y[i]!);
}

/** The figure, or null where it is none: missing, NaN or infinite. */
export const known = (x: number | undefined): number | null =>
  x !== undefined && Number.isFinite(x) ? x : null;

/** Whether each value is more than the one before. */
export const isAscending = (values: readonly number[]): boolean =>
  values.every((v, i) => i === 0 || v > values[i - 1]!);

/** Rows of a forecast at most: one a minute for a week. */
export const MOST_ROWS = 10_080;

/** Whether rows stand in order of time, none at the instant of the one before. */
export const inTimeOrder = (rows: readonly { timeMs: number }[]): boolean =>
  rows.every((row, i) => i === 0 || row.timeMs > rows[i - 1]!.timeMs);

/** Instants from `fromMs` to `toMs` in steps, the end always included, and those of `also` that lie between. */
export function timeSteps(
  fromMs: number,
  toMs: number,
  stepMs: number,
  also: readonly number[] = [],
): number[] {
  const out: number[] = [];
  for (let i = 0; fromMs + i * stepMs < toMs; i++) out.push(fromMs + i * stepMs);
  out.push(toMs);
  const inside = also.filter((t) => t > fromMs && t < toMs);
  return inside.length === 0 ? out : [...new Set([...out, ...inside])].sort((a, b) => a - b);
}
