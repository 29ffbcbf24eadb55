import { bearingOf } from "../core/angles.js";
import type { Position } from "../core/schema.js";
import { type BoxTree, buildBoxTree, nothingFound } from "../geo/boxtree.js";
import { ringToTree } from "../geo/clearance.js";
import { type Geometry, layPaths } from "../geo/geojson.js";
import { type Plane, positionOf } from "../geo/plane.js";

/** A charted thing laid on a plane: the ground it covers, and its lines and points. */
export interface Laid<T> {
  /** The thing as given. */
  thing: T;
  /** Its rings; null where it has none. */
  area: BoxTree | null;
  /** Its lines and points; null where it has none. */
  lines: BoxTree | null;
}

/** Something charted, and how far it lies from the room a vessel takes. */
export interface Nearest {
  /** Name of the feature. */
  id: string;
  /** What it is, where that was given. */
  kind: string | null;
  /** Least distance from the room, the error of charted positions taken off; 0 where the two meet. */
  distanceM: number;
  /** The point of it that is nearest; of an area the room lies in, a point of the room. */
  position: Position;
  /** Direction of that point from the anchor. */
  towardsDeg: number;
}

/** Things laid on a plane. */
export function layThings<T extends { geometry: Geometry }>(
  plane: Plane,
  things: readonly T[],
): Laid<T>[] {
  const tree = (thing: T, kinds: ("point" | "line" | "ring")[]) => {
    const paths = layPaths(plane, [thing.geometry], kinds);
    return paths.xy.length > 0 ? buildBoxTree(paths) : null;
  };
  return things.map((thing) => ({
    thing,
    area: tree(thing, ["ring"]),
    lines: tree(thing, ["point", "line"]),
  }));
}

/** Distance from a filled ring to a thing, Infinity beyond `limit`; where it is nearest goes into `at`. */
export function distanceTo(
  ring: Float64Array,
  { area, lines }: Laid<unknown>,
  limit: number,
  at = nothingFound(),
): number {
  let best = Infinity;
  const own = nothingFound();
  for (const tree of [area, lines]) {
    if (tree === null) continue;
    const d = ringToTree(ring, tree, tree === area, Math.min(limit, best), own);
    if (d >= best) continue;
    // A distance that cannot be told counts as none.
    best = Number.isNaN(d) ? 0 : d;
    Object.assign(at, own);
  }
  return best;
}

/** The thing nearest to a filled ring about the anchor; null where there is none. */
export function nearestOf<T extends { id: string; kind?: string }>(
  plane: Plane,
  ring: Float64Array,
  laid: readonly Laid<T>[],
  errorM: number,
): Nearest | null {
  let best = Infinity;
  let nearest: Nearest | null = null;
  for (const one of laid) {
    const at = nothingFound();
    const d = distanceTo(ring, one, best, at);
    if (!(d < best)) continue;
    best = d;
    nearest = {
      id: one.thing.id,
      kind: one.thing.kind ?? null,
      distanceM: Math.max(0, d - errorM),
      position: positionOf(plane, at.x, at.y),
      towardsDeg: bearingOf(at.x, at.y),
    };
  }
  return nearest;
}
