import * as z from "zod/mini";
import { check } from "../core/check.js";
import { metres, position } from "../core/schema.js";
import { circleAround } from "../geo/circle.js";
import type { Geometry } from "../geo/geojson.js";
import { convexHull } from "../geo/hull.js";
import { type Plane, planeAt, toPlane } from "../geo/plane.js";
import type { HazardMet, SwingClearance } from "./clearance.js";
import { clearanceReasons, verdictOf } from "./clearance-reasons.js";
import { type DepthMoment, depthsUnder, type Stretch, stretchesOf } from "./depth-under.js";
import { distanceTo, type Laid, layThings, nearestOf } from "./nearest.js";
import { type Around, surroundings, type Surroundings } from "./surroundings.js";
import type { SwingCircle } from "./swing-circle.js";
import type { EnvelopeRing, SwingEnvelope } from "./swing-envelope.js";
import { anchoredFields } from "./vessel.js";

const room = z.discriminatedUnion("kind", [
  z.looseObject({
    kind: z.literal("circle"),
    anchor: position,
    radiusM: metres({ min: 0, max: 10_000 }),
  }),
  z.looseObject({
    kind: z.literal("envelope"),
    anchor: position,
    polygon: z.array(position).check(z.minLength(1)),
    from: z.strictObject({
      vessel: anchoredFields.vessel,
      anchorErrorM: anchoredFields.anchorErrorM,
      moments: anchoredFields.moments,
      reachM: anchoredFields.reachM,
    }),
  }),
]);
/** A swinging circle or envelope as checked. */
export type RoomTaken = z.output<typeof room>;

/**
 * Room from a swinging circle or envelope to the shore, to hazards, to water too shoal at the tide of
 * the moment, and to restricted areas.
 *
 * Distances are least distances between polygons on the plane of the anchor, less the error of the charted
 * positions. Depth is the least charted depth under the room from each moment to the next, with the lower tide of
 * the two; a part of the room in no area of charted depth makes it unknown. A list that is left out counts as
 * not known. The rode is taken to sweep everything between the anchor and the room. Leaves out dragging, waves
 * and squat. *Valid*: things within 100 km of the anchor. *Accuracy*: geometry to 1e-6 m of what is given, long sides, which
 * run straight in longitude and latitude, to 0.02 m; corners, sides and
 * middle of the room are looked up for charted depth, so a gap smaller than that may be missed.
 *
 * @throws InputError when a figure is missing or out of range.
 * @source geometry
 * @example
 * ```ts
 * import { swingCircle, swingClearance } from "hawse/swing";
 * const circle = swingCircle({ anchor: { latDeg: 0, lonDeg: 0 }, reachM: 31, lengthM: 12 });
 * const room = swingClearance(circle, {
 *   shore: [{ id: "beach", geometry: { type: "LineString", coordinates: [[0.001, -1], [0.001, 1]] } }],
 *   hazards: [], depthAreas: [], restricted: [],
 * });
 * console.log(room.shore?.distanceM.toFixed(1), room.verdict);
 * // 68.3 unknown
 * ```
 */
export const swingClearance = (
  envelope: SwingEnvelope | SwingCircle,
  around: Surroundings,
): SwingClearance => clearanceOf(check(room, envelope), check(surroundings, around));

/** {@link swingClearance} without the check. */
export function clearanceOf(taken: RoomTaken, around: Around): SwingClearance {
  const plane = planeAt(taken.anchor);
  const stretches = stretchesIn(plane, taken, around.tideHeightM ?? null);
  const tides = stretches.map((s) => s.tideM);
  const lowestTideM = tides.includes(null) ? null : Math.min(...(tides as number[]));
  const { ring, borderM } = shapeOf(plane, taken);
  const error = around.chartErrorM + borderM;
  const nearest = (things: readonly { id: string; kind?: string; geometry: Geometry }[] = []) =>
    nearestOf(plane, ring, layThings(plane, things), error);
  // A room beyond a shore is none: she would have come across it on the way.
  const shores = layThings(plane, around.shore ?? []);
  const across = nearestOf(plane, convexHull([0, 0, ...ring]), shores, borderM);
  const spare = spareDepth(around, lowestTideM);
  const short = (t: { leastDepthM: number | null }) => !((spare(t.leastDepthM) ?? -1) >= 0);
  const facts = {
    shore: across?.distanceM === 0 ? across : nearestOf(plane, ring, shores, error),
    hazard: nearest(around.hazards?.filter(short)),
    hazardsMet: hazardsMet(plane, ring, error, around.hazards ?? [], spare),
    shoal: spare(0) === null ? null : nearest(around.depthAreas?.filter(short)),
    depth: depthIn(plane, ring, error, stretches, around),
    restricted: nearest(around.restricted),
    lowestTideM,
  };
  const reasons = clearanceReasons(facts, around);
  return { verdict: verdictOf(reasons), reasons, ...facts };
}

/** The room about the anchor as a ring and a border round it: a circle is all border. */
function shapeOf(plane: Plane, taken: RoomTaken): EnvelopeRing {
  if (taken.kind === "circle") return { ring: Float64Array.of(0, 0), borderM: taken.radiusM };
  const ring = new Float64Array(2 * taken.polygon.length);
  taken.polygon.forEach((p, i) => {
    toPlane(plane, p.latDeg, p.lonDeg, ring, 2 * i);
  });
  return { ring, borderM: 0 };
}

/** Stretches of the stay; the whole room all the time where there are no moments. */
function stretchesIn(plane: Plane, taken: RoomTaken, tideM: number | null): Stretch[] {
  if (taken.kind === "circle")
    return [{ timeMs: null, ring: circleAround(0, 0, taken.radiusM), tideM }];
  if (taken.from.moments.length > 0)
    return stretchesOf({ anchor: taken.anchor, ...taken.from }, tideM);
  return [{ timeMs: null, ring: shapeOf(plane, taken).ring, tideM }];
}

type Spare = (leastDepthM: number | null) => number | null;

/** Depth over a charted depth at the lowest tide beyond what is needed; null where something of it is not known. */
const spareDepth =
  ({ depthNeededM }: Around, tideM: number | null): Spare =>
  (leastDepthM) =>
    leastDepthM === null || tideM === null || depthNeededM === undefined
      ? null
      : leastDepthM + tideM - depthNeededM;

function hazardsMet(
  plane: Plane,
  ring: Float64Array,
  errorM: number,
  hazards: NonNullable<Around["hazards"]>,
  spare: Spare,
): HazardMet[] {
  const swept = convexHull([0, 0, ...ring]);
  const meets = (r: Float64Array, h: Laid<unknown>) => distanceTo(r, h, errorM) <= errorM;
  return layThings(plane, hazards)
    .filter((h) => meets(swept, h))
    .map((h) => ({
      id: h.thing.id,
      kind: h.thing.kind,
      underHull: meets(ring, h),
      leastDepthM: h.thing.leastDepthM,
      spareDepthM: spare(h.thing.leastDepthM),
    }));
}

function depthIn(
  plane: Plane,
  ring: Float64Array,
  errorM: number,
  stretches: readonly Stretch[],
  { depthAreas = [], chartErrorM }: Around,
): SwingClearance["depth"] {
  const near = layThings(plane, depthAreas).filter((a) => distanceTo(ring, a, errorM) <= errorM);
  const moments = depthsUnder(stretches, near, chartErrorM);
  let least: DepthMoment | undefined;
  for (const m of moments)
    if (m.leastDepthM !== null && !(m.leastDepthM >= (least?.leastDepthM ?? Infinity))) least = m;
  return {
    known: moments.every((m) => m.leastDepthM !== null),
    leastDepthM: least?.leastDepthM ?? null,
    atMs: least?.timeMs ?? null,
    moments,
  };
}
