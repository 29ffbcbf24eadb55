import { fillInputs } from "./fill.js";
import type { Layout } from "./layout.js";
import { BLOCK, type Columns } from "./model.js";

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

/** A block of a chunk: the columns of what varies, and those of every input and output of the model. */
interface Piece {
  readonly rows: number;
  readonly varied: Columns;
  readonly inputs: Columns;
  readonly outputs: Columns;
}

/** Cut a table of `rows` scenarios, whose columns stand one after another in the order of {@link columnNames}, into the blocks it is worked out in. */
export function piecesIn(l: Layout, rows: number, table: Float64Array): Piece[] {
  const places = [...l.axes, ...l.draws].map((v) => v.place);
  const columns = columnsIn(table, widthOf(l), rows);
  return Array.from({ length: Math.ceil(rows / BLOCK) }, (_, k) => {
    const start = k * BLOCK;
    const end = Math.min(rows, start + BLOCK);
    const here = columns.map((column) => column.subarray(start, end));
    const inputs = l.block.inputs.slice();
    const outputs = l.block.outputs.slice();
    places.forEach((place, i) => (inputs[place] = here[i]!));
    l.outputs.forEach((place, i) => (outputs[place] = here[places.length + i]!));
    return { rows: end - start, varied: here.slice(0, places.length), inputs, outputs };
  });
}

/** Work out the scenarios from `from` on in the pieces of a table. */
export function runPieces(l: Layout, from: number, pieces: readonly Piece[]): void {
  let at = from;
  for (const { rows, varied, inputs, outputs } of pieces) {
    fillInputs(l, at, rows, varied);
    l.evaluate(inputs, outputs, rows);
    at += rows;
  }
}

const columnsIn = (table: Float64Array, count: number, rows: number): Float64Array[] =>
  Array.from({ length: count }, (_, k) => table.subarray(k * rows, (k + 1) * rows));

/** The columns of a table by their names. */
export function namedIn(l: Layout, rows: number, table: Float64Array): ColumnChunk["columns"] {
  const names = columnNames(l);
  const columns = columnsIn(table, names.length, rows);
  return Object.fromEntries(names.map((n, i) => [n, columns[i]!]));
}

/** Number of columns. */
export const widthOf = (l: Layout): number => l.axes.length + l.draws.length + l.outputs.length;

/** A table for `rows` scenarios. */
export const tableOf = (l: Layout, rows: number): Float64Array =>
  new Float64Array(rows * widthOf(l));

/** A table of `rows` scenarios in chunks that lie one after another: the first of each, how many, and its own table. */
export function chunksIn(l: Layout, rows: number, table: Float64Array) {
  const width = widthOf(l);
  return Array.from({ length: Math.ceil(rows / l.chunkRows) }, (_, k) => {
    const at = k * l.chunkRows;
    const here = Math.min(l.chunkRows, rows - at);
    return { at, rows: here, table: table.subarray(at * width, (at + here) * width) };
  });
}
