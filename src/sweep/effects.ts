import type { Layout, LaidDraw } from "./layout.js";
import { addTo, emptyRunning, type Running } from "./moments.js";
import { valueOf } from "./names.js";
import type { ColumnChunk } from "./run.js";
import { addToGroup, firstOrder, firstOrderOfAxis, groupsOf, type Groups } from "./sensitivity.js";

/** Inputs by name, each with groups of what comes out. */
type Sorted = { name: string; groups: Groups }[];

/** What the inputs do to an output, being gathered. */
export interface Effects {
  /** The output. */
  of: string;
  /** Axes sort scenarios; draws sort the means of rounds, the cells of which have the same draws. */
  axes: Sorted;
  draws: Sorted;
  /** Rows of the round at hand, and those of them that have a figure. */
  rows: number;
  round: Running;
}

/** Nothing gathered. */
export const noEffects = (l: Layout, of: string): Effects => ({
  of,
  axes: l.axes.map((a) => ({
    name: l.model.parameters[a.place]!.name,
    groups: byValue(a.values),
  })),
  draws: l.draws.map((d, i) => ({
    name: l.model.parameters[d.place]!.name,
    groups: groupsOfDraw(l, d, i),
  })),
  rows: 0,
  round: emptyRunning(),
});

/** Groups that the values of a drawn input are sorted into. */
const GROUPS = 32;

/** A group for each value. */
function byValue(values: Iterable<number>): Groups {
  const edges = [...new Set(values)].sort((x, y) => x - y).slice(1);
  return groupsOf(Float64Array.from(edges));
}

/** Groups of a draw: its values where it is one of a few, however seldom some are, else equal shares. */
function groupsOfDraw(l: Layout, d: LaidDraw, i: number): Groups {
  const draw = l.spec.draws[i]!;
  if (draw.spread === "choice" && draw.values.length <= GROUPS)
    return byValue(draw.values.map((v) => valueOf(v, l.model.parameters[d.place]!, "", [])));
  const edges = Float64Array.from({ length: GROUPS - 1 }, (_, k) => (k + 1) / GROUPS);
  d.spread(edges, edges.length);
  return groupsOf(edges.sort());
}

/** Add the scenarios of a chunk. */
export function addEffects(l: Layout, e: Effects, { from, rows, columns }: ColumnChunk): void {
  const values = columns[e.of]!;
  for (let r = 0; r < rows; r++) {
    const value = values[r]!;
    addTo(e.round, value);
    e.rows++;
    for (const { name, groups } of e.axes) addToGroup(groups, columns[name]![r]!, value);
    if ((from + r + 1) % l.cells !== 0) continue;
    // A round of which a part was not run has another mean for that alone.
    if (e.rows === l.cells && e.round.known > 0)
      for (const { name, groups } of e.draws) addToGroup(groups, columns[name]![r]!, e.round.mean);
    e.rows = 0;
    e.round = emptyRunning();
  }
}

/** First-order index of every input of an output with these moments: see {@link firstOrder}. */
export function indicesOf({ axes, draws }: Effects, all: Running): Record<string, number | null> {
  const variance = all.squares / (all.known - 1);
  return Object.fromEntries([
    ...axes.map((a) => [a.name, firstOrderOfAxis(a.groups)] as const),
    ...draws.map((d) => [d.name, firstOrder(d.groups, variance)] as const),
  ]);
}
