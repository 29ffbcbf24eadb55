import * as z from "zod/mini";
import type { Given, Made } from "../core/given.js";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import { metres, plain, type Position } from "../core/schema.js";
import { type BoxTree, buildBoxTree, type Paths } from "../geo/boxtree.js";
import { borderRing, borderSides, type Extent, extentOf, extentSchema } from "./extent.js";
import { type Frame, frameAbout, project, towards, type Vector } from "./frame.js";
import { areaHolds, readShore, type ShorePaths } from "./shoreline.js";

/** A GeoJSON coast: lines or polygons, alone or in features. */
export const coastSchema = z.looseObject({
  /** GeoJSON type. */
  type: z.string(),
});

/** A bank that dries, as GeoJSON polygons, with the height at which it does. */
const bankSchema = z.strictObject({
  /** Outline of the bank. */
  outline: coastSchema,
  /** Height above chart datum at which it covers. */
  dryingHeightM: metres(),
});

/** What is known about a coast besides its line. */
const coastInput = z.strictObject({
  /** Shoreline as GeoJSON lines or polygons, longitude first. */
  coast: coastSchema,
  /** Part of the earth the coast covers; its `bbox` where left out. Beyond it nothing is known. */
  extent: z.optional(extentSchema),
  /** Who made the coast, and which edition; its `source` member where left out. */
  source: z.optional(z.string()),
  /** Scale it was drawn for: the figure after `1:`. */
  scaleDenominator: z.optional(plain({ above: 0 })),
  /** Banks that dry. */
  banks: z.optional(z.array(bankSchema)),
  /** Height of tide above chart datum: banks that dry higher count as shore. Without it every bank is taken as covered, the open side. */
  heightAboveDatumM: z.optional(metres()),
});

/** Input of {@link prepareCoast}. */
export type CoastInput = Given<typeof coastInput>;

/** A coast made ready for many berths. Plain data with typed arrays: survives `structuredClone`, not JSON. */
export interface PreparedCoast extends Paths {
  /** Tells it from GeoJSON. */
  readonly kind: "preparedCoast";
  /** Picture its vertices are drawn on. */
  frame: Frame;
  /** First vertex of the border of the extent; beyond it no vertex is shore. */
  borderFrom: number;
  /** For each vertex the sides of the extent it lies on, as bits, so that a cut edge is not taken for shore. */
  onBorder: Uint8Array;
  /** Index over the segments; null for a coast used once. */
  tree: BoxTree | null;
  /** The first path, and the one after the last, of each area of land or dried bank. */
  bodies: readonly (readonly [number, number])[];
  /** Whether the one berth a coast too wide for its picture was drawn about lies on its land. */
  onFarLand: boolean;
  /** Part of the earth it covers; null where that was not stated. */
  extent: Extent | null;
  /** Who made it; null where that was not stated. */
  source: string | null;
  /** Scale it was drawn for; null where that was not stated. */
  scaleDenominator: number | null;
  /** Height of tide its banks were taken at; null for banks taken as covered. */
  heightAboveDatumM: number | null;
}

/** Schema of a {@link PreparedCoast} handed back in. */
export const preparedCoastSchema = z.custom<Made<PreparedCoast>>(isPreparedCoast);

/** Whether a coast has been prepared. */
export function isPreparedCoast(value: unknown): value is PreparedCoast {
  return (
    typeof value === "object" && value !== null && "kind" in value && value.kind === "preparedCoast"
  );
}

/**
 * A coast made ready once, so that fetch can be measured from many berths.
 *
 * Shores are kept as given and drawn on one flat picture with an index over their segments. Leaves out
 * every drying bank that the tide covers; says nothing of heights, depths or the quality of the coast.
 *
 * *Valid* for coasts up to 60° from their middle. *Accuracy*: a line of sight drawn straight on the picture leaves
 * the geodesic by under a metre in 50 km.
 *
 * @throws InputError for a coast that is not lines or polygons, holds a coordinate that is not one, or spans too much.
 * @example
 * ```ts
 * import { fetchFan, prepareCoast } from "hawse/shelter";
 *
 * const coast = prepareCoast({
 *   coast: { type: "LineString", coordinates: [[0.01, 50], [0.01, 50.02]] },
 * });
 * const fan = fetchFan({ coast, position: { latDeg: 50.01, lonDeg: 0 }, bearings: [90, 270] });
 * console.log(fan.ends, Math.round(fan.fetchM[0]!));
 * // [ 'coast', 'limit' ] 717
 * ```
 */
export function prepareCoast(input: CoastInput): PreparedCoast {
  return prepareChecked(check(coastInput, input));
}

/** {@link prepareCoast} for input that has been checked. */
export function prepareChecked(input: CoastInput): PreparedCoast {
  const coast = drawCoast(input);
  return { ...coast, tree: buildBoxTree(coast) };
}

/**
 * The coast on its picture, without an index. The picture stands about `middle` where that is given, and what
 * lies beyond its rim is left off; else about the coast, and a coast beyond its rim is refused.
 */
export function drawCoast(input: CoastInput, middle?: Position): PreparedCoast {
  const level = input.heightAboveDatumM;
  const land = readShore(input.coast, "coast");
  const dry = (input.banks ?? []).flatMap((bank, i) =>
    level !== undefined && bank.dryingHeightM > level
      ? [readShore(bank.outline, `banks[${i}].outline`)]
      : [],
  );
  const extent = input.extent ?? extentOf(input.coast);
  const frame = frameAbout(
    middle === undefined ? middleOf(land, extent) : towards(middle.latDeg, middle.lonDeg),
  );
  const shore = [land, ...dry];
  const border = extent === null ? [] : [borderRing(extent)];
  const sketch = emptySketch(frame, extent, [...shore, ...border]);
  const bodies = shore.flatMap((paths) => {
    const before = sketch.starts.length - 1;
    addPaths(sketch, paths);
    return paths.areas.map(([from, to]) => [before + from, before + to] as const);
  });
  if (sketch.cut && middle === undefined)
    refuse("coast", "too_big", "spans more than 60° from its middle: cut it");
  const borderFrom = sketch.count;
  for (const paths of border) addPaths(sketch, paths);
  return {
    kind: "preparedCoast",
    frame,
    xy: sketch.xy.subarray(0, 2 * sketch.count),
    starts: Int32Array.from(sketch.starts),
    onBorder: sketch.onBorder.subarray(0, sketch.count),
    borderFrom,
    tree: null,
    bodies: sketch.cut ? [] : bodies,
    onFarLand: sketch.cut && shore.some((paths) => liesOn(paths, middle!)),
    extent,
    source: input.source ?? textOf((input.coast as { source?: unknown }).source),
    scaleDenominator: input.scaleDenominator ?? null,
    heightAboveDatumM: level ?? null,
  };
}

const liesOn = (paths: ShorePaths, position: Position): boolean =>
  paths.areas.some((area) => areaHolds(paths, area, position));

const textOf = (value: unknown): string | null => (typeof value === "string" ? value : null);

/** Direction of the middle of the extent, or of the mean vertex. */
function middleOf({ lonLat }: ShorePaths, extent: Extent | null): Vector {
  if (extent !== null)
    return towards(
      0.5 * (extent.southDeg + extent.northDeg),
      0.5 * (extent.westDeg + extent.eastDeg),
    );
  let [x, y, z] = [0, 0, 0];
  for (let i = 0; i < lonLat.length; i += 2) {
    const v = towards(lonLat[i + 1]!, lonLat[i]!);
    [x, y, z] = [x + v[0], y + v[1], z + v[2]];
  }
  return [x, y, z];
}

/** A picture being drawn. */
interface Sketch {
  frame: Frame;
  extent: Extent | null;
  xy: Float64Array;
  starts: number[];
  onBorder: Uint8Array;
  /** Vertices drawn so far. */
  count: number;
  /** Whether any vertex lay beyond the rim. */
  cut: boolean;
}

function emptySketch(frame: Frame, extent: Extent | null, all: readonly ShorePaths[]): Sketch {
  const room = all.reduce((n, p) => n + p.lonLat.length, 0);
  return {
    frame,
    extent,
    xy: new Float64Array(room),
    starts: [0],
    onBorder: new Uint8Array(room / 2),
    count: 0,
    cut: false,
  };
}

/** Add paths to a picture; a path is broken where it leaves the rim. */
function addPaths(sketch: Sketch, { lonLat, starts }: ShorePaths): void {
  const { frame, extent, xy, onBorder } = sketch;
  for (let p = 0; p + 1 < starts.length; p++) {
    for (let v = starts[p]!; v < starts[p + 1]!; v++) {
      const lon = lonLat[2 * v]!;
      const lat = lonLat[2 * v + 1]!;
      if (project(frame, lat, lon, xy, 2 * sketch.count)) {
        if (extent !== null) onBorder[sketch.count] = borderSides(extent, lat, lon);
        sketch.count++;
      } else {
        sketch.cut = true;
        endPath(sketch);
      }
    }
    endPath(sketch);
  }
}

function endPath({ count, starts }: Sketch): void {
  if (starts[starts.length - 1] !== count) starts.push(count);
}
