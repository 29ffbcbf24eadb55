import { isGrave, type Reason } from "../core/judgement.js";
import type { SwingClearance } from "./clearance.js";
import type { Around } from "./surroundings.js";

type Facts = Omit<SwingClearance, "verdict" | "reasons">;

const GEOMETRY = "geometry of the room and of what is charted";
const MISSING = "missing knowledge is never good news";

/** What stands against the berth, and what is not known. */
export function clearanceReasons(facts: Facts, around: Around): Reason[] {
  return [
    ...missing(facts, around),
    ...ground(facts, around),
    ...facts.hazardsMet.map((h): Reason => ({
      code: h.underHull ? "hazard.underHull" : "hazard.underRode",
      severity: h.underHull && !((h.spareDepthM ?? -1) >= 0) ? "stop" : "warning",
      value: `${h.kind} ${h.id}`,
      limit: null,
      basis: GEOMETRY,
    })),
    ...(facts.restricted?.distanceM === 0
      ? [met("restricted.inRoom", "warning", facts.restricted.id)]
      : []),
  ];
}

const met = (code: string, severity: Reason["severity"], value: string): Reason => ({
  code,
  severity,
  value,
  limit: null,
  basis: GEOMETRY,
});

/** Shore in the room, and water too shoal. */
function ground({ shore, depth }: Facts, { depthNeededM }: Around): Reason[] {
  const out: Reason[] = [];
  if (shore?.distanceM === 0) out.push(met("shore.inRoom", "stop", shore.id));
  const { leastDepthM, atMs } = depth;
  if (depthNeededM !== undefined && leastDepthM !== null && !(leastDepthM >= depthNeededM))
    out.push({
      code: "depth.tooShoal",
      severity: "stop",
      ...(atMs === null ? {} : { atMs }),
      value: leastDepthM,
      limit: depthNeededM,
      basis: GEOMETRY,
    });
  return out;
}

/** Everything that was not given or is not known. */
function missing({ depth, lowestTideM }: Facts, around: Around): Reason[] {
  const lists = ["shore", "hazards", "depthAreas", "restricted"] as const;
  const codes: string[] = lists
    .filter((list) => around[list] === undefined)
    .map((list) => `${list}.notGiven`);
  if (around.depthNeededM === undefined) codes.push("depthNeeded.notGiven");
  if (lowestTideM === null) codes.push("tide.notGiven");
  if (around.depthAreas !== undefined && depth.moments.some((m) => m.leastChartedDepthM === null))
    codes.push("depth.notCharted");
  return codes.map((code) => ({
    code,
    severity: "caution",
    value: null,
    limit: null,
    basis: MISSING,
  }));
}

/** Clear only where nothing stands against it and nothing is missing. */
export const verdictOf = (reasons: readonly Reason[]): SwingClearance["verdict"] =>
  reasons.some((r) => isGrave(r.severity)) ? "notClear" : reasons.length > 0 ? "unknown" : "clear";
