/** How often an output goes above a limit, gathered by rounds: the scenarios of all cells that share their draws. */
export interface Tally {
  rows: number;
  above: number;
  unknown: number;
  /** Of the round at hand. */
  roundRows: number;
  roundAbove: number;
  /** Sums over the rounds that are done: squares of those above, of rows, and their products. */
  aboveAbove: number;
  rowsRows: number;
  aboveRows: number;
}

/** Nothing counted. */
export const emptyTally = (): Tally => ({
  rows: 0,
  above: 0,
  unknown: 0,
  roundRows: 0,
  roundAbove: 0,
  aboveAbove: 0,
  rowsRows: 0,
  aboveRows: 0,
});

/** Count the values of a chunk, whose first scenario is `from`; a round is as long as there are cells. */
export function tally(
  t: Tally,
  limit: number,
  values: Float64Array,
  from: number,
  cells: number,
): void {
  t.rows += values.length;
  let left = cells - (from % cells);
  for (const v of values) {
    t.roundRows++;
    if (v > limit) t.roundAbove++;
    else if (Number.isNaN(v)) t.unknown++;
    if (--left > 0) continue;
    endRound(t);
    left = cells;
  }
}

function endRound(t: Tally): void {
  const { roundAbove: above, roundRows: rows } = t;
  t.above += above;
  t.aboveAbove += above * above;
  t.rowsRows += rows * rows;
  t.aboveRows += above * rows;
  t.roundAbove = t.roundRows = 0;
}

/**
 * Shares of all scenarios. The standard error goes by the rounds, for the cells of one have the same
 * draws: by how far each is off the mean (W. G. Cochran, Sampling Techniques, 1977, on clusters; from
 * memory). Where nothing was run nothing is known.
 */
export function sharesOf(gathered: Tally): { above: number; unknown: number; error: number } {
  const t = { ...gathered };
  endRound(t);
  if (t.rows === 0) return { above: 0, unknown: 1, error: 0 };
  const above = t.above / t.rows;
  const squares = t.aboveAbove - 2 * above * t.aboveRows + above * above * t.rowsRows;
  return { above, unknown: t.unknown / t.rows, error: Math.sqrt(Math.max(0, squares)) / t.rows };
}
