import { eachPath } from "../geo/geojson.js";
import type { Plane } from "../geo/plane.js";
import { numberOf } from "./attributes.js";
import type { ChartFeature, ChartReport } from "./chart.js";
import { setAside, type RawFeature } from "./collect.js";
import { type Draft, layPath, middleOf, newDraft, primitiveOf } from "./lay.js";
import { planeAt } from "../geo/plane.js";

/** Features laid on the plane of their chart. */
export interface Laid {
  /** The features. */
  features: ChartFeature[];
  /** First path of each feature, and the number of paths. */
  firstPath: number[];
  /** Their vertices and paths. */
  draft: Draft;
}

type Base = Omit<ChartFeature, "depthM">;

/** Add a feature whose paths have just been laid. */
function add(laid: Laid, base: Base, depthM: number | null): void {
  laid.features.push({ ...base, depthM });
  laid.firstPath.push(laid.draft.starts.length - 1);
}

function countUsed(report: ChartReport, acronym: string): void {
  report.used++;
  report.usedByClass[acronym] = (report.usedByClass[acronym] ?? 0) + 1;
}

/** Soundings, one feature for each point: the depth is an attribute, or the third coordinate. */
function laySoundings(laid: Laid, raw: RawFeature, base: Base, report: ChartReport): void {
  const given = numberOf(raw.attributes["DEPTH"]);
  const before = laid.features.length;
  eachPath(raw.geometry, (_, [p]) => {
    const depthM = given ?? numberOf(p![2]);
    if (depthM === null) return;
    layPath(laid.draft, [p!], false);
    add(laid, base, depthM);
  });
  if (laid.features.length > before) countUsed(report, raw.acronym);
  else setAside(report, raw.acronym, "noDepth");
}

/** Whether the vertices from `from` to the end are those from `first` on. */
function sameVertices({ lonLat }: Draft, first: number, from: number): boolean {
  for (let i = from; i < lonLat.length; i++)
    if (lonLat[i] !== lonLat[first + i - from]) return false;
  return true;
}

/** Any other feature; one that says the same as another in the same place is set aside. */
function layOther(
  laid: Laid,
  raw: RawFeature,
  base: Base,
  seen: Map<string, number[]>,
  report: ChartReport,
): void {
  const { draft } = laid;
  const from = draft.xy.length;
  const paths = draft.starts.length;
  const areas = draft.outer.length;
  eachPath(raw.geometry, (kind, path, outer) => {
    layPath(draft, path, kind === "ring", outer);
  });
  const key = `${raw.cell} ${raw.acronym} ${JSON.stringify(raw.attributes)} ${draft.lonLat.slice(from, from + 8).join()} ${draft.lonLat.length - from}`;
  const alike = seen.get(key) ?? [];
  if (alike.some((first) => sameVertices(draft, first, from))) {
    draft.xy.length = from;
    draft.lonLat.length = from;
    draft.starts.length = paths;
    draft.outer.length = areas;
    setAside(report, raw.acronym, "repeated");
    return;
  }
  seen.set(key, [...alike, from]);
  add(laid, base, null);
  countUsed(report, raw.acronym);
}

/** Lay features on one plane about the middle of them all. */
export function layFeatures(
  features: readonly RawFeature[],
  report: ChartReport,
): Laid & { plane: Plane } {
  const sound: [RawFeature, Base][] = [];
  for (const raw of features) {
    const { id, acronym, cell, attributes } = raw;
    const primitive = primitiveOf(raw.geometry);
    if (primitive === null) setAside(report, acronym, "badGeometry");
    else sound.push([raw, { id, acronym, primitive, cell, attributes }]);
  }
  const plane = planeAt(middleOf(sound.map(([raw]) => raw.geometry)));
  const laid = { features: [], firstPath: [0], draft: newDraft(plane), plane };
  const seen = new Map<string, number[]>();
  for (const [raw, base] of sound)
    if (raw.acronym === "SOUNDG" && base.primitive === "point")
      laySoundings(laid, raw, base, report);
    else layOther(laid, raw, base, seen, report);
  return laid;
}
