import { fillInputs } from "./fill.js";
import type { Layout } from "./layout.js";

/** Scenarios one after another, a typed array a column. */
export interface ColumnChunk {
  /** Index of the first scenario. */
  from: number;
  /** Number of scenarios. */
  rows: number;
  /** Columns by name, `rows` entries each: what varies, then what was worked out. No figure is NaN; a word is its place in the list of words. */
  columns: Record<string, Float64Array>;
}

/** Names of the columns of a sweep: axes, draws, outputs. */
export const columnNames = (l: Layout): string[] => [
  ...[...l.axes, ...l.draws].map((v) => l.model.parameters[v.place]!.name),
  ...l.outputs.map((o) => l.model.outputs[o]!.name),
];

/** Work out `rows` scenarios from `from` on; columns in the order of {@link columnNames}. */
export function runRows(
  l: Layout,
  from: number,
  rows: number,
  columns: readonly Float64Array[],
): void {
  const varied = [...l.axes, ...l.draws];
  const inputs = columns.slice(0, varied.length);
  const results = columns.slice(varied.length);
  fillInputs(l, from, rows, inputs);
  const places = Uint8Array.from(varied, (v) => v.place);
  const wanted = Uint8Array.from(l.outputs);
  const p = l.base.slice();
  const out = new Float64Array(l.model.outputs.length);
  for (let r = 0; r < rows; r++) {
    for (let k = 0; k < places.length; k++) p[places[k]!] = inputs[k]![r]!;
    l.evaluate(p, out);
    for (let k = 0; k < wanted.length; k++) results[k]![r] = out[wanted[k]!]!;
  }
}

/** A chunk of its own arrays. */
export function chunkOf(l: Layout, from: number, rows: number): ColumnChunk {
  const names = columnNames(l);
  const columns = names.map(() => new Float64Array(rows));
  runRows(l, from, rows, columns);
  return { from, rows, columns: Object.fromEntries(names.map((n, i) => [n, columns[i]!])) };
}
