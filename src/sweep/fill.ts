import type { LaidDraw, Layout } from "./layout.js";
import { normalAt, normalShare } from "./normal.js";
import { bitsAt, shareOf } from "./random.js";
import { sobolBits, sobolStep } from "./sobol.js";

/** Fill the columns of the inputs that vary, axes first, for `rows` scenarios from `from` on. */
export function fillInputs(
  l: Layout,
  from: number,
  rows: number,
  columns: readonly Float64Array[],
): void {
  l.axes.forEach((axis, k) => {
    fillAxis(l, k, from, rows, columns[k]!);
  });
  const drawn = columns.slice(l.axes.length);
  l.draws.forEach((draw, k) => {
    fillShares(draw, l.cells, from, rows, drawn[k]!);
  });
  if (l.together !== null) mixShares(l.together.draws, l.together.factor, rows, drawn);
  l.draws.forEach(({ quantile }, k) => {
    const column = drawn[k]!;
    for (let r = 0; r < rows; r++) column[r] = quantile(column[r]!);
  });
}

function fillAxis(l: Layout, k: number, from: number, rows: number, column: Float64Array): void {
  const { values, stride } = l.axes[k]!;
  const turn = values.length * stride;
  let at = from % turn;
  for (let r = 0; r < rows; r++) {
    column[r] = values[Math.floor(at / stride)]!;
    if (++at === turn) at = 0;
  }
}

/** Shares in (0, 1), one a scenario; the scenarios of one round of cells have the same. */
function fillShares(
  { key, directions }: LaidDraw,
  cells: number,
  from: number,
  rows: number,
  column: Float64Array,
): void {
  let index = Math.floor(from / cells);
  let left = cells - (from % cells);
  let point = directions === null ? 0 : sobolBits(directions, index);
  let share = NaN;
  for (let r = 0; r < rows; r++) {
    if (r === 0 || left === cells)
      share = shareOf(directions === null ? bitsAt(key, index) : (point ^ key) >>> 0);
    column[r] = share;
    if (--left > 0) continue;
    left = cells;
    if (directions !== null) point = (point ^ sobolStep(directions, index)) >>> 0;
    index++;
  }
}

/** Turn independent shares into shares whose normal scores are correlated. */
function mixShares(
  draws: readonly number[],
  factor: Float64Array,
  rows: number,
  columns: readonly Float64Array[],
): void {
  const n = draws.length;
  const scores = new Float64Array(n);
  for (let r = 0; r < rows; r++) {
    for (let i = 0; i < n; i++) scores[i] = normalAt(columns[draws[i]!]![r]!);
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let k = 0; k <= i; k++) sum += factor[i * n + k]! * scores[k]!;
      columns[draws[i]!]![r] = normalShare(sum);
    }
  }
}
