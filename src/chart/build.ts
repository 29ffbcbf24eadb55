import {
  type BoxTree,
  buildBoxTree,
  nearestOnSegments,
} from "../geo/boxtree.js";
import { eachPath } from "../geo/geojson.js";
import { type Plane, planeAt } from "../geo/plane.js";
import { hasCode, listOf, numberOf } from "./attributes.js";
import type {
  Chart,
  ChartFeature,
  ChartReport,
  SoundingDatum,
} from "./chart.js";
import { objectClasses } from "./classes.js";
import { codedAttributes, meaningOf } from "./codes.js";
import { setAside, type Collected, type RawFeature } from "./collect.js";
import { cutOut, drawnOnce, noPaths, treeOf } from "./edges.js";
import { serves } from "./query.js";
import { type Draft, layPath, middleOf, newDraft, primitiveOf } from "./lay.js";

interface Laid {
  features: ChartFeature[];
  firstPath: number[];
  draft: Draft;
}

const REPEATABLE: ReadonlySet<string> = new Set(["SOUNDG"]);

/** One feature laid on the plane, a sounding for each point of a cluster. */
function layFeature(
  laid: Laid,
  raw: RawFeature,
  seen: Set<string>,
  report: ChartReport,
): void {
  const { draft } = laid;
  const primitive = primitiveOf(raw.geometry);
  if (primitive === null) {
    setAside(report, raw.acronym, "badGeometry");
    return;
  }
  const base = {
    id: raw.id,
    acronym: raw.acronym,
    primitive,
    cell: raw.cell,
    attributes: raw.attributes,
  };
  if (raw.acronym === "SOUNDG" && primitive === "point") {
    laySoundings(laid, raw, base, report);
    return;
  }
  const from = draft.xy.length;
  const firstStart = draft.starts.length;
  eachPath(raw.geometry, (kind, path) => {
    layPath(draft, path, kind === "ring");
  });
  const key = `${raw.cell} ${raw.acronym} ${JSON.stringify(raw.attributes)} ${draft.lonLat.slice(from, from + 8).join()} ${draft.lonLat.length - from}`;
  if (seen.has(key) && !REPEATABLE.has(raw.acronym)) {
    draft.xy.length = from;
    draft.lonLat.length = from;
    draft.starts.length = firstStart;
    setAside(report, raw.acronym, "repeated");
    return;
  }
  seen.add(key);
  laid.features.push({ ...base, depthM: null });
  laid.firstPath.push(draft.starts.length - 1);
  countUsed(report, raw.acronym);
}

function countUsed(report: ChartReport, acronym: string): void {
  report.used++;
  report.usedByClass[acronym] = (report.usedByClass[acronym] ?? 0) + 1;
}

/** Soundings: the depth is an attribute, or the third coordinate of the point. */
function laySoundings(
  laid: Laid,
  raw: RawFeature,
  base: Omit<ChartFeature, "depthM">,
  report: ChartReport,
): void {
  const depth = numberOf(raw.attributes["DEPTH"]);
  let used = false;
  eachPath(raw.geometry, (_, path) => {
    for (const p of path) {
      const depthM = depth ?? (Number.isFinite(p[2]) ? p[2]! : null);
      if (depthM === null) continue;
      used = true;
      layPath(laid.draft, [p], false);
      laid.features.push({ ...base, depthM });
      laid.firstPath.push(laid.draft.starts.length - 1);
    }
  });
  if (used) countUsed(report, raw.acronym);
  else setAside(report, raw.acronym, "noDepth");
}

/** Box of each feature as the diagonal of a path. */
function boxesOf(trees: readonly BoxTree[]): BoxTree {
  const xy = new Float64Array(4 * trees.length);
  for (const [i, { boxes }] of trees.entries())
    xy.set(boxes.subarray(4, 8), 4 * i);
  const starts = Int32Array.from({ length: trees.length + 1 }, (_, i) => 2 * i);
  return buildBoxTree({ xy, starts });
}

/** Codes that no list here has. */
function unknownCodesOf(
  features: readonly ChartFeature[],
): ChartReport["unknownCodes"] {
  const counts = new Map<string, number>();
  for (const { attributes } of features)
    for (const { acronym } of codedAttributes)
      if (attributes[acronym] !== undefined)
        for (const code of listOf(attributes[acronym]).flatMap((c) =>
          c.split("/"),
        ))
          if (meaningOf(acronym, Number(code)) === null)
            counts.set(
              `${acronym} ${code}`,
              (counts.get(`${acronym} ${code}`) ?? 0) + 1,
            );
  return [...counts].map(([key, count]) => {
    const [attribute, code] = key.split(" ");
    return { attribute: attribute!, code: code!, count };
  });
}

/** Per cell, the one negative depth that every drying area has; NaN where there is none. */
function fillersOf(
  features: readonly ChartFeature[],
  cells: number,
): Float64Array {
  const out = new Float64Array(cells).fill(NaN);
  const mixed = new Set<number>();
  for (const { acronym, cell, attributes } of features) {
    const low = acronym === "DEPARE" ? numberOf(attributes["DRVAL1"]) : null;
    if (low === null || low >= 0) continue;
    if (!Number.isNaN(out[cell]!) && out[cell] !== low) mixed.add(cell);
    out[cell] = low;
  }
  for (const cell of mixed) out[cell] = NaN;
  return out;
}

/** Edges of areas of one use at which nothing of that use begins, cell by cell. */
function openEdges(
  laid: Laid,
  trees: readonly BoxTree[],
  lonLat: Float64Array,
  cells: number,
  wanted: (f: ChartFeature) => boolean,
): BoxTree {
  const out = noPaths();
  for (let cell = 0; cell < cells; cell++) {
    const own = laid.features.flatMap((f, i) =>
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
function shoreOf(laid: Laid, trees: readonly BoxTree[], coverage: BoxTree) {
  const out = noPaths();
  const { xy } = trees[0] ?? { xy: new Float64Array() };
  const onEdge = (x: number, y: number): boolean =>
    nearestOnSegments(coverage, x, y, FALSE_EDGE_M) <= FALSE_EDGE_M;
  const real = (v: number): boolean =>
    !(
      onEdge(xy[2 * v]!, xy[2 * v + 1]!) &&
      onEdge(xy[2 * v + 2]!, xy[2 * v + 3]!) &&
      onEdge(
        (xy[2 * v]! + xy[2 * v + 2]!) / 2,
        (xy[2 * v + 1]! + xy[2 * v + 3]!) / 2,
      )
    );
  for (const [i, f] of laid.features.entries()) {
    if (!serves(f, "shore") || isCovered(f)) continue;
    if (f.primitive === "point") {
      const v = trees[i]!.starts[0]!;
      out.xy.push(xy[2 * v]!, xy[2 * v + 1]!);
      out.starts.push(out.xy.length / 2);
      out.owners.push(i);
    } else
      cutOut(out, trees[i]!, i, f.primitive === "area" ? real : () => true);
  }
  return { shore: treeOf(out), shoreFeature: Int32Array.from(out.owners) };
}

/** Whether a structure lies under water at some or all states of the tide. */
const isCovered = ({ acronym, attributes }: ChartFeature): boolean =>
  acronym === "SLCONS" && hasCode(attributes["WATLEV"], 3);

function absentOf(features: readonly ChartFeature[]): string[] {
  const present = new Set(features.map((f) => f.acronym));
  return objectClasses
    .filter((c) => c.uses.length > 0 && !present.has(c.acronym))
    .map((c) => c.acronym);
}

/** Cells put in order, the largest scale first, those of unknown scale last. */
function orderCells({ cells, features }: Collected): void {
  const scale = (i: number) => cells[i]!.scale ?? Infinity;
  const order = cells
    .map((_, i) => i)
    .sort((a, b) =>
      scale(a) < scale(b) ? -1 : scale(a) > scale(b) ? 1 : a - b,
    );
  const place = order.map((_, i) => order.indexOf(i));
  cells.splice(0, cells.length, ...order.map((i) => cells[i]!));
  for (const f of features) f.cell = place[f.cell]!;
}

/** The indexed chart of what was collected. */
export function build(
  collected: Collected,
  soundingDatum: SoundingDatum,
): Chart {
  orderCells(collected);
  const { cells, report } = collected;
  const sound = collected.features.filter(
    (f) => primitiveOf(f.geometry) !== null,
  );
  const plane: Plane = planeAt(middleOf(sound.map((f) => f.geometry)));
  const laid: Laid = { features: [], firstPath: [0], draft: newDraft(plane) };
  const seen = new Set<string>();
  for (const raw of collected.features) layFeature(laid, raw, seen, report);
  const xy = Float64Array.from(laid.draft.xy);
  const lonLat = Float64Array.from(laid.draft.lonLat);
  const starts = Int32Array.from(laid.draft.starts);
  const trees = laid.features.map((_, i) =>
    buildBoxTree({
      xy,
      starts: starts.subarray(laid.firstPath[i], laid.firstPath[i + 1]! + 1),
    }),
  );
  const coverageEdges = openEdges(
    laid,
    trees,
    lonLat,
    cells.length,
    (f) => f.acronym === "M_COVR",
  );
  report.absentClasses = absentOf(laid.features);
  report.unknownCodes = unknownCodesOf(laid.features);
  return {
    version: 1,
    soundingDatum,
    cells,
    features: laid.features,
    report,
    plane,
    lonLat,
    firstPath: Int32Array.from(laid.firstPath),
    trees,
    boxes: boxesOf(trees),
    ...shoreOf(laid, trees, coverageEdges),
    coverageEdges,
    skinEdges: openEdges(laid, trees, lonLat, cells.length, (f) =>
      serves(f, "skin"),
    ),
    fillers: fillersOf(laid.features, cells.length),
  };
}
