import { type BoxTree, buildBoxTree, nearestOnSegments } from "../geo/boxtree.js";
import { hasCode } from "./attributes.js";
import type { Chart, ChartFeature, SoundingDatum } from "./chart.js";
import type { Collected } from "./collect.js";
import { depthRange } from "./depth-range.js";
import { cutOut, drawnOnce, noPaths, treeOf } from "./edges.js";
import { layFeatures, type Laid } from "./lay-features.js";
import { serves } from "./query.js";
import { absentOf, sizeWarnings, unknownCodesOf } from "./report.js";

/** Box of each feature as the diagonal of a path. */
function boxesOf(trees: readonly BoxTree[]): BoxTree {
  const xy = new Float64Array(4 * trees.length);
  for (const [i, { boxes }] of trees.entries()) xy.set(boxes.subarray(4, 8), 4 * i);
  const starts = Int32Array.from({ length: trees.length + 1 }, (_, i) => 2 * i);
  return buildBoxTree({ xy, starts });
}

/** Per cell, the one negative depth that every drying area has; NaN where there is none. */
function fillersOf(features: readonly ChartFeature[], cells: number): Float64Array {
  const out = new Float64Array(cells).fill(NaN);
  const mixed = new Set<number>();
  for (const { acronym, cell, attributes } of features) {
    const low = acronym === "DEPARE" ? depthRange(attributes)[0] : null;
    if (low === null || low >= 0) continue;
    if (!Number.isNaN(out[cell]!) && out[cell] !== low) mixed.add(cell);
    out[cell] = low;
  }
  for (const cell of mixed) out[cell] = NaN;
  return out;
}

/** Edges of areas of one use at which nothing of that use begins, cell by cell. */
function openEdges(
  features: readonly ChartFeature[],
  trees: readonly BoxTree[],
  lonLat: Float64Array,
  cells: number,
  wanted: (f: ChartFeature) => boolean,
): BoxTree {
  const out = noPaths();
  for (let cell = 0; cell < cells; cell++) {
    const own = features.flatMap((f, i) =>
      f.cell === cell && f.primitive === "area" && wanted(f) ? [i] : [],
    );
    const once = drawnOnce(
      lonLat,
      own.map((i) => trees[i]!),
    );
    for (const i of own) cutOut(out, trees[i]!, i, once);
  }
  return treeOf(out);
}

/** How near the edge of the coverage a side of land must run to be a false edge, m. */
const FALSE_EDGE_M = 0.05;

/** The shore: coastline, structures that stand out of the water, and land, less what the edge of the chart cuts. */
function shoreOf(features: readonly ChartFeature[], trees: readonly BoxTree[], coverage: BoxTree) {
  const out = noPaths();
  const { xy } = trees[0] ?? { xy: new Float64Array() };
  const onEdge = (x: number, y: number): boolean =>
    nearestOnSegments(coverage, x, y, FALSE_EDGE_M) <= FALSE_EDGE_M;
  const real = (v: number): boolean =>
    !(
      onEdge(xy[2 * v]!, xy[2 * v + 1]!) &&
      onEdge(xy[2 * v + 2]!, xy[2 * v + 3]!) &&
      onEdge((xy[2 * v]! + xy[2 * v + 2]!) / 2, (xy[2 * v + 1]! + xy[2 * v + 3]!) / 2)
    );
  for (const [i, f] of features.entries()) {
    if (!serves(f, "shore") || isCovered(f)) continue;
    if (f.primitive === "point") {
      const v = trees[i]!.starts[0]!;
      out.xy.push(xy[2 * v]!, xy[2 * v + 1]!);
      out.starts.push(out.xy.length / 2);
      out.owners.push(i);
    } else cutOut(out, trees[i]!, i, f.primitive === "area" ? real : () => true);
  }
  return { shore: treeOf(out), shoreFeature: Int32Array.from(out.owners) };
}

/** Whether a structure lies under water at some or all states of the tide. */
const isCovered = ({ acronym, attributes }: ChartFeature): boolean =>
  acronym === "SLCONS" && hasCode(attributes["WATLEV"], 3);

/** Cells put in order, the largest scale first, those of unknown scale last. */
function orderCells({ cells, features }: Collected): void {
  const scale = (i: number) => cells[i]!.scale ?? Infinity;
  const order = cells
    .map((_, i) => i)
    .sort((a, b) => (scale(a) < scale(b) ? -1 : scale(a) > scale(b) ? 1 : a - b));
  const place = order.map((_, i) => order.indexOf(i));
  cells.splice(0, cells.length, ...order.map((i) => cells[i]!));
  for (const f of features) f.cell = place[f.cell]!;
}

/** Edges of each feature, all over one list of vertices. */
function treesOf({ firstPath, draft }: Laid): BoxTree[] {
  const xy = Float64Array.from(draft.xy);
  const starts = Int32Array.from(draft.starts);
  let next = 0;
  return firstPath.slice(0, -1).map((from, i) => {
    const to = firstPath[i + 1]!;
    const outer: number[] = [];
    for (; next < draft.outer.length && draft.outer[next]! < to; next++)
      outer.push(draft.outer[next]! - from);
    return buildBoxTree({ xy, starts: starts.subarray(from, to + 1), outer });
  });
}

/** The indexed chart of what was collected. */
export function build(collected: Collected, soundingDatum: SoundingDatum): Chart {
  orderCells(collected);
  const { cells, report } = collected;
  const laid = layFeatures(collected.features, report);
  const { features, plane } = laid;
  const lonLat = Float64Array.from(laid.draft.lonLat);
  const trees = treesOf(laid);
  const edges = (wanted: (f: ChartFeature) => boolean) =>
    openEdges(features, trees, lonLat, cells.length, wanted);
  const coverageEdges = edges((f) => f.acronym === "M_COVR");
  report.warnings.push(...sizeWarnings(laid.draft.xy));
  report.absentClasses = absentOf(features);
  report.unknownCodes = unknownCodesOf(features);
  return {
    version: 1,
    soundingDatum,
    cells,
    features,
    report,
    plane,
    lonLat,
    trees,
    boxes: boxesOf(trees),
    ...shoreOf(features, trees, coverageEdges),
    coverageEdges,
    skinEdges: edges((f) => serves(f, "skin")),
    fillers: fillersOf(features, cells.length),
  };
}
