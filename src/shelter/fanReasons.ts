import type { Reason } from "../core/judgement.js";
import type { Position } from "../core/schema.js";
import type { PreparedCoast } from "./coast.js";
import { covers } from "./extent.js";
import type { FetchFan, RayEnd } from "./fan.js";
import { PROPOSED, reason } from "./reason.js";

/** Vertices further apart than this part of the nearest shore's distance draw that shore too coarsely. */
const COARSE = 0.1;

/** What limits the trust in the rays of a fan. */
export function fanReasons(
  ends: readonly RayEnd[],
  limitM: number,
  near: Pick<FetchFan, "nearestShoreM" | "vertexSpacingM">,
): Reason[] {
  const count = (end: RayEnd): number => ends.filter((e) => e === end).length;
  const edges = count("edge");
  const limits = count("limit");
  const coarsest = COARSE * (near.nearestShoreM ?? Infinity);
  const spacing = near.vertexSpacingM ?? 0;
  const out: Reason[] = [];
  if (edges > 0) out.push(reason("fetch.edge", "caution", edges, 0, EDGE));
  if (limits > 0) out.push(reason("fetch.limit", "note", limits, limitM, LIMIT));
  if (!(spacing <= coarsest))
    out.push(reason("fetch.coarseCoast", "caution", spacing, coarsest, COARSE_COAST));
  return out;
}

const EDGE =
  "rays that left the coast extract before they met a shore: the water is open at least so far";
const LIMIT = "rays longer than the greatest length looked at, m";
const COARSE_COAST = `vertices of the coast are too far apart for its nearest shore: a tenth of the distance, ${PROPOSED}`;

/** What limits the trust in a coast at a position. */
export function coastReasons(
  { extent }: PreparedCoast,
  { latDeg, lonDeg }: Position,
  ashore: boolean,
): Reason[] {
  const out: Reason[] = [];
  if (ashore) out.push(reason("fetch.ashore", "stop", null, null, ASHORE));
  if (extent === null) out.push(reason("fetch.extentUnknown", "caution", null, null, NO_EXTENT));
  else if (!covers(extent, latDeg, lonDeg))
    out.push(reason("fetch.outsideExtent", "stop", null, null, OUTSIDE));
  return out;
}

const ASHORE = "the position lies inside the land of this coast";
const NO_EXTENT = "the coast does not say where it ends: water without shore may be unmapped land";
const OUTSIDE = "the position lies outside what the coast covers";
