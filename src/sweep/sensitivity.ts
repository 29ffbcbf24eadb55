import { addTo, emptyRunning, type Running } from "./moments.js";

/** An output sorted by the value of one input: a running mean for each group of it. */
export interface Groups {
  /** Upper edges of the groups, ascending; the last group has none. */
  readonly edges: Float64Array;
  readonly groups: Running[];
}

/** Groups of an input by the edges between them. */
export const groupsOf = (edges: Float64Array): Groups => ({
  edges,
  groups: Array.from({ length: edges.length + 1 }, emptyRunning),
});

/** Group that a value of the input belongs to: the number of edges at or below it. */
export function groupAt(edges: Float64Array, value: number): number {
  let low = 0;
  let high = edges.length;
  while (low < high) {
    const mid = (low + high) >>> 1;
    if (edges[mid]! <= value) low = mid + 1;
    else high = mid;
  }
  return low;
}

/** Add the output of one scenario to the group of its input. */
export const addToGroup = (g: Groups, input: number, output: number): void => {
  addTo(g.groups[groupAt(g.edges, input)]!, output);
};

/**
 * Share of an output's variance that one input explains by itself: its first-order index, from the
 * spread of the means of groups. What chance alone would explain is taken off (T. L. Kelley, PNAS 21,
 * 1935, 554-559), so that an idle input comes out near 0 and may come out a little below. Null where
 * nothing varies.
 */
export function firstOrder({ groups }: Groups): number | null {
  const used = groups.filter((g) => g.known > 0);
  const count = used.reduce((n, g) => n + g.known, 0);
  const within = used.reduce((sum, g) => sum + g.squares, 0);
  const mean = used.reduce((sum, g) => sum + g.known * g.mean, 0) / count;
  const between = used.reduce((sum, g) => sum + g.known * (g.mean - mean) * (g.mean - mean), 0);
  if (!(within + between > 0) || count <= used.length) return null;
  return 1 - within / (count - used.length) / ((within + between) / (count - 1));
}
