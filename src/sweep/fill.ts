import type { LaidDraw, Layout } from "./layout.js";
import { normalAt, normalShare } from "./normal.js";
import { keyOf, mix, scramble, shareOf, TWO_32 } from "./random.js";
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
  const indices = scrambled(l, from, rows);
  l.draws.forEach((draw, k) => {
    fillShares(l, draw, indices, from, rows, drawn[k]!);
  });
  if (l.together !== null) mixShares(l.together.draws, l.together.factor, rows, drawn);
  l.draws.forEach(({ spread }, k) => {
    spread(drawn[k]!, rows);
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

/** Scrambled index of every draw that scenarios from `from` on have part in. */
function scrambled(l: Layout, from: number, rows: number): Uint32Array {
  const first = Math.floor(from / l.cells);
  const count = Math.floor((from + rows - 1) / l.cells) - first + 1;
  const seedKey = keyOf(l.spec.seed, -1);
  const bits = new Uint32Array(count);
  for (let i = 0, index = first; i < count; i++, index++) {
    const low = index >>> 0;
    bits[i] = scramble(seedKey, low, (index - low) / TWO_32);
  }
  return bits;
}

/** The same for draws that fill their space evenly: points of their sequence. */
function points(l: Layout, directions: Uint32Array, from: number, count: number): Uint32Array {
  const first = Math.floor(from / l.cells);
  const bits = new Uint32Array(count);
  let point = sobolBits(directions, first);
  for (let i = 0; i < count; i++) {
    bits[i] = point;
    point ^= sobolStep(directions, first + i);
  }
  return bits;
}

/** Shares in (0, 1), one a scenario; the scenarios of one round of cells have the same. */
function fillShares(
  l: Layout,
  { key, directions }: LaidDraw,
  indices: Uint32Array,
  from: number,
  rows: number,
  column: Float64Array,
): void {
  const even = directions === null ? null : points(l, directions, from, indices.length);
  if (even === null && l.cells === 1) {
    for (let r = 0; r < rows; r++) column[r] = shareOf(mix(indices[r]! + key));
    return;
  }
  let left = l.cells - (from % l.cells);
  for (let r = 0, i = 0; r < rows; i++) {
    const share = shareOf(even === null ? mix(indices[i]! + key) : (even[i]! ^ key) >>> 0);
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
