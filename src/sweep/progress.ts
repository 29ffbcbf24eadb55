import * as z from "zod/mini";
import { check } from "../core/check.js";
import { seconds } from "../core/schema.js";

const rows = () => z.int().check(z.gte(0));
const progressInput = z
  .strictObject({ doneRows: rows(), totalRows: rows(), elapsedS: seconds() })
  .check(z.refine((p) => p.doneRows <= p.totalRows, "more scenarios done than there are"));

/** How far a sweep has come. */
export interface SweepProgress {
  /** Scenarios done, and to be done in all. */
  doneRows: number;
  totalRows: number;
  /** Share done. */
  share: number;
  /** Scenarios a second so far; null at the start. */
  rowsPerS: number | null;
  /** Seconds left at that rate; null at the start. */
  leftS: number | null;
}

/**
 * How far a sweep has come, how fast, and how long it will still take.
 *
 * Time left is what is left over at the rate so far. Leaves out anything that changes the rate.
 *
 * *Valid*: scenarios of like cost. *Accuracy*: that of the rate; the clock is the caller's.
 *
 * @throws InputError for counts that are none, or more done than there are.
 * @source own arithmetic
 * @example
 * ```ts
 * import { sweepProgress } from "hawse/sweep";
 *
 * const { share, rowsPerS, leftS } = sweepProgress(250_000, 1_000_000, 0.5);
 * console.log(share, rowsPerS, leftS);
 * // 0.25 500000 1.5
 * ```
 */
export function sweepProgress(
  doneRows: number,
  totalRows: number,
  elapsedS: number,
): SweepProgress {
  const input = check(progressInput, { doneRows, totalRows, elapsedS });
  const rowsPerS = doneRows > 0 && input.elapsedS > 0 ? doneRows / input.elapsedS : null;
  return {
    doneRows,
    totalRows,
    share: totalRows > 0 ? doneRows / totalRows : 1,
    rowsPerS,
    leftS: rowsPerS === null ? null : (totalRows - doneRows) / rowsPerS,
  };
}
