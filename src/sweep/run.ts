import { fillInputs } from "./fill.js";
import type { Layout } from "./layout.js";
import { BLOCK } from "./model.js";

/** Scenarios one after another, a typed array a column. */
export interface ColumnChunk {
  /** Index of the first scenario. */
  from: number;
  /** Number of scenarios. */
  rows: number;
  /** Columns by name, `rows` entries each, all views of one buffer: what varies, then what was worked out. No figure is NaN; a word is its place in the list of words. */
  columns: Record<string, Float64Array>;
}

/** Names of the columns of a sweep: axes, draws, outputs. */
export const columnNames = (l: Layout): string[] => [
  ...[...l.axes, ...l.draws].map((v) => l.model.parameters[v.place]!.name),
  ...l.outputs.map((o) => l.model.outputs[o]!.name),
];

/**
 * Work out `rows` scenarios from `from` on. The columns stand one after another in `table`, each
 * `rows` long, in the order of {@link columnNames}.
 */
export function runRows(l: Layout, from: number, rows: number, table: Float64Array): void {
  const inputs = l.block.inputs.slice();
  const outputs = l.block.outputs.slice();
  const places = [...l.axes, ...l.draws].map((v) => v.place);
  const columns = columnsIn(table, places.length + l.outputs.length, rows);
  for (let start = 0; start < rows; start += BLOCK) {
    const end = Math.min(rows, start + BLOCK);
    const here = columns.map((column) => column.subarray(start, end));
    fillInputs(l, from + start, end - start, here.slice(0, places.length));
    for (let k = 0; k < places.length; k++) inputs[places[k]!] = here[k]!;
    for (let k = 0; k < l.outputs.length; k++) outputs[l.outputs[k]!] = here[places.length + k]!;
    l.evaluate(inputs, outputs, end - start);
  }
}

const columnsIn = (table: Float64Array, count: number, rows: number): Float64Array[] =>
  Array.from({ length: count }, (_, k) => table.subarray(k * rows, (k + 1) * rows));

/** A table of columns as a chunk. */
export function chunkIn(l: Layout, from: number, rows: number, table: Float64Array): ColumnChunk {
  const names = columnNames(l);
  const columns = columnsIn(table, names.length, rows);
  return { from, rows, columns: Object.fromEntries(names.map((n, i) => [n, columns[i]!])) };
}

/** Number of columns. */
export const widthOf = (l: Layout): number => l.axes.length + l.draws.length + l.outputs.length;

/** A table for `rows` scenarios. */
export const tableOf = (l: Layout, rows: number): Float64Array =>
  new Float64Array(rows * widthOf(l));

/** Scenarios cut into chunks that lie one after another in a table: where each stands. */
export function* chunksIn(l: Layout, from: number, to: number, table: Float64Array) {
  const width = widthOf(l);
  for (let at = from; at < to; at += l.chunkRows) {
    const rows = Math.min(l.chunkRows, to - at);
    const start = (at - from) * width;
    yield { at, rows, place: table.subarray(start, start + rows * width) };
  }
}

/** A chunk worked out in a table, which may be longer than it needs. */
export function chunkOf(
  l: Layout,
  from: number,
  rows: number,
  table = tableOf(l, rows),
): ColumnChunk {
  runRows(l, from, rows, table);
  return chunkIn(l, from, rows, table);
}
