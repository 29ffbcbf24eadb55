import { fromPlan } from "./asPlan.js";
import type { Position } from "../core/schema.js";
import type { StayPlan } from "./planStay.js";

/** A GeoJSON FeatureCollection (RFC 7946); fits the common types for GeoJSON. */
export interface FeatureCollection {
  /** GeoJSON type. */
  type: "FeatureCollection";
  /** What there is to be drawn. */
  features: {
    type: "Feature";
    properties: Record<string, string | number | null>;
    geometry:
      | { type: "Point"; coordinates: [lonDeg: number, latDeg: number] }
      | { type: "Polygon"; coordinates: [lonDeg: number, latDeg: number][][] };
  }[];
}

const point = ({ lonDeg, latDeg }: Position): [number, number] => [lonDeg, latDeg];

/** Ring closed and anticlockwise, as RFC 7946 wants outer rings. */
function ringOf(positions: readonly Position[]): [number, number][] {
  const ring = positions.map(point);
  const [first, last] = [ring[0], ring.at(-1)];
  if (first !== undefined && (first[0] !== last![0] || first[1] !== last![1]))
    ring.push([...first]);
  let twiceArea = 0;
  for (let i = 1; i < ring.length; i++)
    twiceArea += (ring[i]![0] - ring[i - 1]![0]) * (ring[i]![1] + ring[i - 1]![1]);
  return twiceArea > 0 ? ring.reverse() : ring;
}

type Feature = FeatureCollection["features"][number];
type Properties = Feature["properties"];

const spot = (at: Position, properties: Properties): Feature => ({
  type: "Feature",
  properties,
  geometry: { type: "Point", coordinates: point(at) },
});

/** An area feature; none where the positions make no area. */
const area = (positions: readonly Position[], properties: Properties): Feature[] =>
  positions.length < 3
    ? []
    : [
        {
          type: "Feature",
          properties,
          geometry: { type: "Polygon", coordinates: [ringOf(positions)] },
        },
      ];

/**
 * The room of a stay as GeoJSON: the anchor, the water she takes over the stay, and each neighbour's
 * anchor and hull at the worst moment. Positions on WGS 84, longitude first.
 *
 * *Valid* for any plan; polygons that cross the antimeridian are not cut. *Accuracy*: that of the plan.
 * @source RFC 7946
 */
export function stayGeoJson(plan: StayPlan): FeatureCollection {
  return fromPlan(plan, laidOut);
}

function laidOut({ room, verdict }: StayPlan): FeatureCollection {
  const features = [
    spot(room.anchor, { what: "anchor", radiusM: room.radiusM, verdict }),
    ...area(room.envelope, { what: "room" }),
    ...(room.neighbours ?? []).flatMap(({ name, atMs, leastGapM, anchor, hullThen }) => [
      spot(anchor, { what: "neighbour's anchor", name, leastGapM, atMs }),
      ...area(hullThen, { what: "neighbour", name, atMs }),
    ]),
  ];
  return { type: "FeatureCollection", features };
}
