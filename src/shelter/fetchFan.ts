import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { readOr, refuse } from "../core/errors.js";
import { direction, metres, position, type Position } from "../core/schema.js";
import { nothingFound, rayHit } from "../geo/boxtree.js";
import { insidePaths } from "../geo/polygon.js";
import {
  coastSchema,
  drawCoast,
  type CoastInput,
  isPreparedCoast,
  type PreparedCoast,
  preparedCoastSchema,
} from "./coast.js";
import type { FetchFan, RayEnd } from "./fan.js";
import { coastReasons, fanReasons } from "./fanReasons.js";
import { distanceTo, type Eye, eyeAt, rayDirection } from "./frame.js";
import { castAll } from "./rays.js";

/** Longest ray that may be asked for. */
const LONGEST_M = 2_000_000;
/** Length looked at unless another is given. */
const LIMIT_M = 100_000;

/** Input of {@link fetchFan}. */
export const fetchFanInput = z.strictObject({
  /** Shoreline as GeoJSON lines or polygons, longitude first, or a coast from `prepareCoast`, which many berths can share. */
  coast: z.union([preparedCoastSchema, coastSchema]),
  /** Berth the rays start from. */
  position,
  /** True bearings of the rays; every 5° where left out. */
  bearings: z.optional(z.array(direction()).check(z.minLength(1), z.maxLength(3600))),
  /** Greatest length looked at; 100 km where left out. */
  limitM: z._default(metres({ above: 0, max: LONGEST_M }), LIMIT_M),
});

/** Input of {@link fetchFan}. */
export type FetchFanInput = Given<typeof fetchFanInput>;

/**
 * Fetch from a berth: how far the water is open on each bearing, and what ends it.
 *
 * Each ray runs along the geodesic to the first shore it meets; where the coast extract ends first the water
 * is open at least that far. Leaves out depth, heights and everything that is not in the coast: islets missing
 * from a coarse coast lengthen the fetch, and a coast drawn at another height of tide moves the shore.
 *
 * *Valid* anywhere, for rays to 2000 km. *Accuracy*: 2 m or 0.1 % of the geodesic on the same coast, but for rays
 * that graze a shore; the coast itself is the larger error (a 1:250 000 shoreline is 70 to 340 m out).
 *
 * @throws InputError for a coast that is not lines or polygons, or bearings given twice.
 * @source WGS 84 (NGA.STND.0036); ray lengths are checked against the geodesics of PROJ
 * @example
 * ```ts
 * import { fetchFan } from "hawse/shelter";
 *
 * const fan = fetchFan({
 *   coast: { type: "LineString", coordinates: [[0.01, 50], [0.01, 50.02]] },
 *   position: { latDeg: 50.01, lonDeg: 0 },
 *   bearings: [90, 270],
 * });
 * console.log(fan.ends, Math.round(fan.fetchM[0]!));
 * // [ 'coast', 'limit' ] 717
 * ```
 */
export function fetchFan(input: FetchFanInput): FetchFan {
  const { coast, position, bearings, limitM } = check(fetchFanInput, input);
  const sorted = Float64Array.from(bearings ?? EVERY_5_DEG, (b) => b % 360).sort();
  if (sorted.some((b, i) => b === sorted[i - 1]))
    refuse("bearings", "duplicate", "a bearing is given twice");
  const cast = (drawn: PreparedCoast): FetchFan => castFan(drawn, position, sorted, limitM);
  return isPreparedCoast(coast)
    ? readOr("coast", "invalid_type", "not a coast as prepareCoast gives it", () => cast(coast))
    : cast(drawCoast({ coast }, position));
}

const EVERY_5_DEG = Array.from({ length: 72 }, (_, i) => 5 * i);
/** {@link fetchFan} every 5° over a coast that has been checked. */
export const fanAll = (coast: CoastInput["coast"], position: Position): FetchFan =>
  castFan(drawCoast({ coast }, position), position, Float64Array.from(EVERY_5_DEG), LIMIT_M);

/** {@link fetchFan} over a drawn coast for bearings in ascending order. */
export function castFan(
  coast: PreparedCoast,
  position: Position,
  bearingsDeg: Float64Array,
  limitM: number,
): FetchFan {
  const eye = eyeAt(coast.frame, position);
  if (Number.isNaN(eye.x))
    refuse("position", "too_far", "more than 60° from the middle of the coast");
  const rays = castRays(coast, eye, bearingsDeg, limitM);
  const near = nearShore(coast, rays);
  return {
    position,
    bearingsDeg: Array.from(bearingsDeg),
    fetchM: Array.from(rays.fetchM),
    ends: rays.ends,
    limitM,
    gaps: "open",
    ...near,
    heightAboveDatumM: coast.heightAboveDatumM,
    source: coast.source,
    scaleDenominator: coast.scaleDenominator,
    reasons: [
      ...coastReasons(coast, position, ashore(coast, eye)),
      ...fanReasons(rays.ends, limitM, near),
    ],
  };
}

/** Rays as they ended. */
interface Rays {
  fetchM: Float64Array;
  ends: RayEnd[];
  /** Vertex at which the segment met starts, -1 for none. */
  vertex: Int32Array;
}

/** Cast rays over a drawn coast: by its index, or in one pass over a coast without one. */
export function castRays(
  coast: PreparedCoast,
  eye: Eye,
  bearingsDeg: Float64Array,
  limitM: number,
): Rays {
  const count = bearingsDeg.length;
  const dirs = new Float64Array(2 * count);
  for (let i = 0; i < count; i++) rayDirection(eye, bearingsDeg[i]!, dirs, 2 * i);
  const reach = new Float64Array(count).fill(Infinity);
  const vertex = new Int32Array(count).fill(-1);
  if (coast.tree === null) castAll(coast, eye.x, eye.y, dirs, reach, vertex);
  else castIndexed(coast, eye, dirs, reach, vertex);
  const fetchM = new Float64Array(count).fill(limitM);
  const ends = new Array<RayEnd>(count).fill("limit");
  for (let i = 0; i < count; i++) {
    if (vertex[i]! < 0) continue;
    const [x, y] = [eye.x + dirs[2 * i]! * reach[i]!, eye.y + dirs[2 * i + 1]! * reach[i]!];
    const d = distanceTo(eye, bearingsDeg[i]!, x, y);
    if (d >= limitM) continue;
    fetchM[i] = d;
    ends[i] = endAt(coast, vertex[i]!);
  }
  return { fetchM, ends, vertex };
}

function castIndexed(
  coast: PreparedCoast,
  eye: Eye,
  dirs: Float64Array,
  reach: Float64Array,
  vertex: Int32Array,
): void {
  const tree = coast.tree!;
  const found = nothingFound();
  for (let i = 0; i < reach.length; i++) {
    const dx = dirs[2 * i]!;
    const dy = dirs[2 * i + 1]!;
    const d = rayHit(tree, eye.x, eye.y, dx, dy, reach[i], found);
    if (found.vertex >= 0) reach[i] = d;
    vertex[i] = found.vertex;
  }
}

/** A segment along the border of the extent is a cut, not a shore. */
const endAt = (coast: PreparedCoast, v: number): RayEnd =>
  v >= coast.borderFrom || (coast.onBorder[v]! & coast.onBorder[v + 1]!) !== 0 ? "edge" : "coast";

/** Whether the berth lies on an area of land or on a dried bank; they may overlap. */
const ashore = (coast: PreparedCoast, eye: Eye): boolean =>
  coast.onFarLand || coast.bodies.some(([from, to]) => insidePaths(coast, from, to, eye.x, eye.y));

/** Shortest ray to a coast, and the median segment among those met within twice its length. */
function nearShore(
  coast: PreparedCoast,
  { fetchM, ends, vertex }: Rays,
): Pick<FetchFan, "nearestShoreM" | "vertexSpacingM"> {
  let nearest = Infinity;
  for (let i = 0; i < ends.length; i++)
    if (ends[i] === "coast") nearest = Math.min(nearest, fetchM[i]!);
  if (nearest === Infinity) return { nearestShoreM: null, vertexSpacingM: null };
  const lengths: number[] = [];
  for (let i = 0; i < ends.length; i++)
    if (ends[i] === "coast" && fetchM[i]! <= 2 * nearest)
      lengths.push(segmentLength(coast.xy, vertex[i]!));
  lengths.sort((a, b) => a - b);
  return {
    nearestShoreM: nearest,
    vertexSpacingM: lengths[lengths.length >> 1]!,
  };
}

function segmentLength(xy: Float64Array, v: number): number {
  const dx = xy[2 * v + 2]! - xy[2 * v]!;
  const dy = xy[2 * v + 3]! - xy[2 * v + 1]!;
  return Math.sqrt(dx * dx + dy * dy);
}
