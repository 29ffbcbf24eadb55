import type { Severity } from "../core/judgement.js";
import { leastKnown, type Criterion } from "./criteria.js";
import type { Margin } from "./margins.js";
import type { Study } from "./study.js";

/** Classes of comfort from best to worst, as the sea's judgement names them. */
export const COMFORT = ["comfortable", "tolerable", "poor", "untenable"];

const GEOMETRY =
  "geometry of hull, rode and chart, each vessel lying her own way at the same moment";
const FACTOR = "UFC 4-159-03 Table 3-7: factors of safety 1.5 to 2 for drag anchors";
const WORST =
  "lowest figure of holding of every source against the pull when yawing as far as is reported";

/** Holding over pull: likely, and at the worst. */
export function holdingMargins(s: Study): {
  likely: Float64Array;
  worst: Float64Array;
} {
  const { lie, grip } = s;
  const over = (hold: (deg: number) => number, pull: Float64Array): Float64Array =>
    pull.map((p, i) => (p === 0 ? Infinity : hold(lie.angleDeg[i]!) / p));
  if (grip === null) {
    const none = new Float64Array(lie.pullN.length).fill(NaN);
    return { likely: none, worst: none };
  }
  return {
    likely: over(grip.likely, lie.gustPullN),
    worst: over(grip.low, lie.gustPullHighN),
  };
}

function depthLadder(s: Study): Criterion[] {
  const basis = "tide, surge and error over the charted or given depth";
  const need = s.input.limits.underKeelM;
  const least = {
    values: s.underKeelLeastM,
    basis: `${basis}; shoalest charted ground within the swing`,
  };
  return [
    {
      code: "depth.aground",
      severity: "stop",
      values: s.underKeelM,
      limit: 0,
      basis,
    },
    { code: "depth.mayTouch", severity: "warning", limit: 0, ...least },
    { code: "depth.tight", severity: "caution", limit: need, ...least },
  ];
}

function holdingLadder(s: Study): Criterion[] {
  const { likely, worst } = holdingMargins(s);
  return [
    {
      code: "holding.less",
      severity: "stop",
      values: likely,
      limit: 1,
      basis: FACTOR,
    },
    {
      code: "holding.thin",
      severity: "warning",
      values: likely,
      limit: 1.5,
      basis: FACTOR,
    },
    {
      code: "holding.worst",
      severity: "caution",
      values: worst,
      limit: 1,
      basis: WORST,
    },
  ];
}

function roomLadder(code: string, margin: Margin, limit: number, of: string): Criterion[] {
  const rung = (severity: Severity, values: Float64Array, least: number): Criterion => ({
    code: `room.${code}`,
    severity,
    values,
    limit: least,
    basis: GEOMETRY,
    of,
  });
  return [
    rung("stop", margin.forecastM, 0),
    rung("warning", margin.fanM, 0),
    rung("caution", margin.fanM, limit),
  ];
}

/** Whether there is water enough over a danger that may be passed over; not where one of these is not known. */
export const swimsOver = (
  { passable, depthM }: { passable: boolean; depthM: number | null },
  tideM: number,
  needM: number,
): boolean => passable && depthM !== null && depthM + tideM >= needM;

/** Hazards in the swing without water enough over them at the lowest tide. */
export function closingHazards(s: Study): Study["hazards"] {
  const lowest = leastKnown(s.scene.tideLowM);
  const tide = lowest < 0 ? NaN : s.scene.tideLowM[lowest]!;
  const need = s.scene.vessel.draughtM + s.input.limits.underKeelM;
  return s.hazards.filter((h) => h.within && !swimsOver(h, tide, need));
}

const hazardLadders = (s: Study): Criterion[][] =>
  closingHazards(s).map((h) => roomLadder("hazard", h.margin, s.input.limits.roomM, h.name));

function seaLadder(s: Study): Ladder {
  const hours = s.sea.shelter?.hours;
  if (hours === undefined) return { timeMs: [], ladder: [] };
  // Turned round, so that worse is less.
  const rank = Float64Array.from(hours.comfort, (c) =>
    COMFORT.includes(c) ? -COMFORT.indexOf(c) : NaN,
  );
  const basis =
    "classes of comfort proposed by this library; growth of waves over the fetch by ACES";
  return {
    timeMs: hours.timeMs,
    ladder: [
      {
        code: "shelter.untenable",
        severity: "warning",
        values: rank,
        limit: -3,
        basis,
      },
      {
        code: "shelter.poor",
        severity: "caution",
        values: rank,
        limit: -2,
        basis,
      },
    ],
  };
}

/** Rungs on one quantity, the weightiest first, and the instants of its values. */
export interface Ladder {
  timeMs: readonly number[];
  ladder: Criterion[];
}

/** All ladders of a stay. */
export function laddersOf(s: Study): Ladder[] {
  const { timeMs } = s.scene;
  const { roomM } = s.input.limits;
  const onPlan = [
    depthLadder(s),
    holdingLadder(s),
    ...(s.neighbours ?? []).map((n) => roomLadder("neighbour", n.margin, roomM, n.lie.of.name)),
    ...(s.shore === null ? [] : [roomLadder("shore", s.shore, roomM, "the shore")]),
    ...hazardLadders(s),
  ];
  return [...onPlan.map((ladder) => ({ timeMs, ladder })), seaLadder(s)];
}
