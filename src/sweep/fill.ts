import type { Layout } from "./layout.js";
import { normalAt, normalShare } from "../core/normal.js";
import { keyOf, mix, scramble, shareOf, TWO_32 } from "./random.js";
import { sobolBits, sobolStep } from "./sobol.js";

/** Fill the columns of the inputs that vary, axes first, for a block of `rows` scenarios from `from` on. */
export function fillInputs(
  l: Layout,
  from: number,
  rows: number,
  columns: readonly Float64Array[],
): void {
  for (let k = 0; k < l.axes.length; k++) fillAxis(l, k, from, rows, columns[k]!);
  if (l.draws.length === 0) return;
  const drawn = columns.slice(l.axes.length);
  if (l.spec.method !== "even") scrambled(l, from, rows);
  for (let k = 0; k < drawn.length; k++) fillShares(l, k, from, rows, drawn[k]!);
  if (l.together !== null) mixShares(l.together.draws, l.together.factor, rows, drawn);
  for (let k = 0; k < drawn.length; k++) l.draws[k]!.spread(drawn[k]!, rows);
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

/** Write the scrambled indices of the draws that a block has part in. */
function scrambled({ spec, cells, block: { bits } }: Layout, from: number, rows: number): void {
  const first = Math.floor(from / cells);
  const count = Math.floor((from + rows - 1) / cells) - first + 1;
  const seedKey = keyOf(spec.seed, -1);
  const low = first >>> 0;
  const high = (first - low) / TWO_32;
  // Where the low bits begin anew, which a run of indices may pass once.
  const turn = TWO_32 - low;
  for (let i = 0; i < count; i++)
    bits[i] = scramble(seedKey, (low + i) | 0, i < turn ? high : high + 1);
}

/** Shares in (0, 1), one a scenario; the scenarios of one round of cells have the same. */
function fillShares(l: Layout, k: number, from: number, rows: number, column: Float64Array): void {
  const { key, directions } = l.draws[k]!;
  const { bits } = l.block;
  if (directions === null && l.cells === 1) {
    for (let r = 0; r < rows; r++) column[r] = shareOf(mix(bits[r]! + key));
    return;
  }
  let index = Math.floor(from / l.cells);
  let point = directions === null ? 0 : sobolBits(directions, index);
  let left = l.cells - (from % l.cells);
  for (let r = 0, i = 0; r < rows; i++) {
    const share = shareOf(directions === null ? mix(bits[i]! + key) : (point ^ key) >>> 0);
    if (directions !== null) point ^= sobolStep(directions, index++);
    const end = Math.min(rows, r + left);
    while (r < end) column[r++] = share;
    left = l.cells;
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
