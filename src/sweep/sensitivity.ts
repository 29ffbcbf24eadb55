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

/** Values sorted into groups, with their sums of squares about the means of their groups, and of those about the mean of all. */
function squaresOf({ groups }: Groups) {
  const used = groups.filter((g) => g.known > 0);
  const count = used.reduce((n, g) => n + g.known, 0);
  const within = used.reduce((sum, g) => sum + g.squares, 0);
  const mean = used.reduce((sum, g) => sum + g.known * g.mean, 0) / count;
  const between = used.reduce((sum, g) => sum + g.known * (g.mean - mean) * (g.mean - mean), 0);
  return { count, groups: used.length, within, between };
}

/**
 * Share of an output's variance that one drawn input explains by itself: its first-order index, from the
 * spread of the means of groups. What chance alone would explain is taken off (T. L. Kelley, PNAS 21,
 * 1935, 554-559), so that an idle input comes out near 0 and may come out a little below. Null where
 * nothing varies. Where what is grouped are means, `variance` is that of the output itself.
 */
export function firstOrder(g: Groups, variance?: number): number | null {
  const { count, groups, within, between } = squaresOf(g);
  if (!(within + between > 0) || count <= groups) return null;
  const all = (within + between) / (count - 1);
  return (1 - within / (count - groups) / all) * (variance === undefined ? 1 : all / variance);
}

/**
 * The same of an axis: every one of its values meets the same draws and the same values of the other
 * axes, so that nothing of the spread of its groups is chance.
 */
export function firstOrderOfAxis(g: Groups): number | null {
  const { within, between } = squaresOf(g);
  return within + between > 0 ? between / (within + between) : null;
}
