import { numberOf } from "../chart/attributes.js";
import type { CoastInput } from "../shelter/coast.js";
import { fanAll } from "../shelter/fetchFan.js";
import type { FetchFan } from "../shelter/fan.js";
import { shelterChecked } from "../shelter/shelter.js";
import { shelterDefaults, type CheckedShelter } from "../shelter/shelterInput.js";
import type { Shelter } from "../shelter/shelterTypes.js";
import type { CheckedStay } from "./input.js";
import type { LieColumnsOfStay } from "./columns.js";
import type { Scene } from "./scene.js";

/** Layers of a chart that draw the shore. */
const SHORE = ["COALNE", "LNDARE", "SLCONS"];

/** The shore of a stay as one GeoJSON collection: the coast given, else the shore of the chart; null without either. */
function coastOf(input: CheckedStay): CoastInput["coast"] | null {
  if (input.coast !== undefined) return input.coast;
  const layers = input.chart?.layers ?? {};
  const features = SHORE.flatMap((name) => layers[name]?.features ?? []).filter(hasShape);
  const covered = (layers["M_COVR"]?.features ?? []).filter(isCovered);
  if (features.length === 0) return null;
  return {
    type: "FeatureCollection",
    features,
    ...(covered.length > 0 && { bbox: bboxOf(covered) }),
  };
}

interface Shaped {
  geometry: { type: string; coordinates: unknown };
}

const hasShape = (f: unknown): f is Shaped => {
  const g = (f as Partial<Shaped> | null)?.geometry;
  return typeof g?.type === "string" && /Line|Polygon/.test(g.type);
};

/** An area that the chart says it covers. */
const isCovered = (f: unknown): f is Shaped =>
  hasShape(f) &&
  numberOf((f as { properties?: { CATCOV?: unknown } | null }).properties?.CATCOV) === 1;

/** Lists in lists of coordinates: a position in a ring of an area among others. */
const DEEPEST = 4;

/** West, south, east and north of some features; beyond it the chart tells nothing. */
function bboxOf(features: readonly Shaped[]): [number, number, number, number] {
  const box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  const visit = (c: unknown, deep: number): void => {
    if (!Array.isArray(c) || deep > DEEPEST) return;
    if (typeof c[0] !== "number" || typeof c[1] !== "number") {
      for (const inner of c) visit(inner, deep + 1);
      return;
    }
    box[0] = Math.min(box[0], c[0]);
    box[1] = Math.min(box[1], c[1]);
    box[2] = Math.max(box[2], c[0]);
    box[3] = Math.max(box[3], c[1]);
  };
  for (const f of features) visit(f.geometry.coordinates, 1);
  return box;
}

/** Fetch and shelter of a stay; null where shore or forecast is not known. */
export interface SeaOfStay {
  fan: FetchFan | null;
  shelter: Shelter | null;
}

/** Step of the sea: it changes more slowly than the lie. */
const STEP_MS = 1_800_000;

/** Sea at the berth over the stay, the vessel heading as she lies to wind and stream. */
export function seaOf(
  input: CheckedStay,
  scene: Scene,
  lie: LieColumnsOfStay,
  depthM: number,
): SeaOfStay {
  const coast = coastOf(input);
  if (coast === null) return { fan: null, shelter: null };
  const fan = fanAll(coast, input.position);
  if (input.forecast === undefined) return { fan, shelter: null };
  const given: CheckedShelter = {
    ...shelterDefaults,
    highLand: [],
    fan,
    forecast: input.forecast,
    stay: input.stay,
    stepMs: STEP_MS,
    bay: input.bay,
    ...(depthM > 0 && { depthM }),
    ...(input.swell !== undefined && { swell: input.swell }),
  };
  // Where it has no row she is taken to lie across every sea.
  given.lying = lyingOf(scene, input.stepMs, lie);
  const stream = streamOf(scene, input.stepMs);
  if (stream.length > 0) given.stream = stream;
  return { fan, shelter: shelterChecked(given) };
}

/** Rows about every half-hour of what is known, and the last. */
function rowsOf<R>(scene: Scene, stepMs: number, of: (i: number) => R | null): R[] {
  const everyMs = stepMs * Math.max(1, Math.round(STEP_MS / stepMs));
  let dueMs = scene.timeMs[0]!;
  return scene.timeMs.flatMap((t, i) => {
    const last = i === scene.timeMs.length - 1;
    const row = t >= dueMs || last ? of(i) : null;
    if (t >= dueMs) dueMs += everyMs;
    return row === null ? [] : [row];
  });
}

/** How she heads; to the wind where only the depth is not known and no stream runs. */
const lyingOf = (scene: Scene, stepMs: number, lie: LieColumnsOfStay) =>
  rowsOf(scene, stepMs, (i) => {
    const slack = Number.isNaN(lie.pullN[i]) && scene.streamMps[i] === 0;
    const headingDeg = slack ? scene.windFromDeg[i]! : lie.headingDeg[i]!;
    return Number.isNaN(headingDeg) ? null : { timeMs: scene.timeMs[i]!, headingDeg };
  });

const streamOf = (scene: Scene, stepMs: number) =>
  rowsOf(scene, stepMs, (i) => {
    const rateMps = scene.streamMps[i]!;
    const towardsDeg = scene.streamTowardsDeg[i]!;
    return Number.isNaN(rateMps) ? null : { timeMs: scene.timeMs[i]!, rateMps, towardsDeg };
  });
