import type { Anchoring } from "../chart/anchoring-at.js";
import type { Chart } from "../chart/chart.js";
import type { Position } from "../core/schema.js";
import { planeAt, toPlane } from "../geo/plane.js";
import { fillVessel } from "../lie/vessel.js";
import { scopeByRuleUnchecked } from "../rode/scopeByRule.js";
import { leastKnown } from "./criteria.js";
import { gripOf, type Grip } from "./grip.js";
import { anchorDepth, bedOf, groundOf, type BedFound } from "./ground.js";
import type { CheckedStay } from "./input.js";
import { swimsOver } from "./ladders.js";
import type { Scene } from "./scene.js";
import { layOf, leastGround } from "./study.js";
import type { Verdict } from "./types.js";

/** A place looked at; NaN where not known. */
export interface Looked {
  verdict: Verdict;
  score: number;
  chartedDepthM: number;
  underKeelM: number;
  roomM: number;
  holdingMargin: number;
  radiusM: number;
  anchoring: Anchoring["verdict"];
}

/** How she lies over a bottom of one depth: the circle she takes, and the least of holding left over pull. */
interface Lying {
  radiusM: number;
  leftOverPull: number;
}

interface Neighbour {
  position: Position;
  radiusM: number;
}

/** A search made ready: what hangs on the depth and the bed alone is worked out once. */
export interface Search {
  input: CheckedStay;
  chart: Chart;
  scene: Scene;
  leastTideM: number;
  neighbours: Neighbour[];
  /** Share of the holding left at a pull angle: it is the same in every bed. */
  left: Grip["left"];
  lyings: Map<number, Lying>;
  grips: Map<string, Grip>;
}

const ANY_BED: Pick<BedFound, "beds" | "possible"> = {
  beds: ["sand, firm"],
  possible: ["sand, firm"],
};

/** Make a search ready. */
export function searchOf(input: CheckedStay, chart: Chart, scene: Scene): Search {
  const lowest = leastKnown(scene.tideLowM);
  const unknown = scene.tideLowM.some((t) => Number.isNaN(t));
  return {
    input,
    chart,
    scene,
    leastTideM: unknown || lowest < 0 ? NaN : scene.tideLowM[lowest]!,
    neighbours: (input.neighbours ?? []).map((n) => {
      const { lengthM, bowHeightM } = fillVessel(n.vessel);
      const rule = scopeByRuleUnchecked({ make: n.make, greatestDepthM: 10, bowHeightM });
      return {
        position: n.position,
        radiusM: (n.lengthOutM ?? rule.lengthM) + lengthM + (n.positionErrorM ?? lengthM),
      };
    }),
    left: gripOf(input.tackle.anchor, ANY_BED, undefined).left,
    lyings: new Map(),
    grips: new Map(),
  };
}

/** How she lies over a bottom, to the metre of depth above. */
function lyingAt(s: Search, depthM: number): Lying {
  const deepM = Math.ceil(depthM);
  const known = s.lyings.get(deepM);
  if (known !== undefined) return known;
  const at = { chartedM: deepM, deepM, errorM: 0, from: "chart" } as const;
  const { lie, radiusM } = layOf(s.input, s.scene, at);
  let leftOverPull = Infinity;
  lie.gustPullN.forEach((p, i) => {
    const over = s.left(lie.angleDeg[i]!, "likely") / p;
    if (!(over >= leftOverPull)) leftOverPull = over;
  });
  const found = { radiusM, leftOverPull };
  s.lyings.set(deepM, found);
  return found;
}

function gripFor(s: Search, bed: BedFound): Grip | null {
  if (bed.beds.length === 0) return null;
  const key = `${bed.beds.join()}|${bed.possible.join()}`;
  let grip = s.grips.get(key);
  if (grip === undefined) {
    grip = gripOf(s.input.tackle.anchor, bed, undefined);
    s.grips.set(key, grip);
  }
  return grip;
}

/** Room to neighbours: neither anchor within the other's circle, so that both may lie the same way. */
function roomToNeighbours(s: Search, position: Position, radiusM: number): number {
  const plane = planeAt(position);
  const xy = new Float64Array(2);
  let least = Infinity;
  for (const n of s.neighbours) {
    toPlane(plane, n.position.latDeg, n.position.lonDeg, xy, 0);
    const apart = Math.sqrt(xy[0]! * xy[0]! + xy[1]! * xy[1]!);
    least = Math.min(least, apart - Math.max(radiusM, n.radiusM));
  }
  return least;
}

/** Look at one place: depth, room, bed and what the chart says of anchoring. */
export function lookAt(s: Search, position: Position): Looked {
  const input = { ...s.input, position };
  const at = anchorDepth(input, s.chart);
  const bed = bedOf(input, s.chart);
  const grip = gripFor(s, bed);
  const swims = at.chartedM + s.leastTideM > 0;
  const lying = swims ? lyingAt(s, at.deepM > 0 ? at.deepM : at.chartedM) : null;
  const ground = groundOf(input, s.chart, lying?.radiusM ?? input.positionErrorM);
  const need = s.scene.vessel.draughtM + s.input.limits.underKeelM;
  const closes = ground.hazards?.hazards.some(
    (h) =>
      h.within &&
      !swimsOver({ passable: h.passable !== false, depthM: h.treatAsM }, s.leastTideM, need),
  );
  const radiusM = lying?.radiusM ?? NaN;
  const hazardM = closes === true ? 0 : Infinity;
  const shoreM = (ground.shore?.atLeastM ?? NaN) - radiusM;
  const found = {
    chartedDepthM: at.chartedM,
    underKeelM: leastGround(at, ground) + s.leastTideM - s.scene.vessel.draughtM,
    roomM: Math.min(shoreM, hazardM, roomToNeighbours(s, position, radiusM)),
    holdingMargin: (grip?.spreadN.likely ?? NaN) * (lying?.leftOverPull ?? NaN),
    radiusM,
    anchoring: ground.anchoring?.verdict ?? "unknown",
  };
  return judged(s.input, found, !Number.isNaN(grip?.spreadN.low));
}

/** Weight of what the chart says of anchoring. */
const ALLOWED: Readonly<Record<Anchoring["verdict"], number>> = {
  clear: 1,
  unwise: 0.5,
  restricted: 0.3,
  unknown: 0.1,
  prohibited: 0,
};

/** Held within 0 and 1; nothing where not known. */
const share = (x: number): number => (x > 0 ? Math.min(1, x) : 0);

/** Score and outlook of a place; `lowest` is whether every bed that is possible has a figure. */
function judged(input: CheckedStay, l: Omit<Looked, "verdict" | "score">, lowest: boolean): Looked {
  const { underKeelM, roomM } = input.limits;
  const score =
    ALLOWED[l.anchoring] *
    Math.min(
      share(l.underKeelM / (underKeelM + 1)),
      share(l.roomM / l.radiusM),
      share(l.holdingMargin / 2),
    );
  const verdict = outlook(input, l, roomM);
  return { ...l, score, verdict: lowest || verdict === "unsuitable" ? verdict : "cannotTell" };
}

function outlook(input: CheckedStay, l: Omit<Looked, "verdict" | "score">, roomM: number): Verdict {
  if (l.anchoring === "prohibited" || l.underKeelM <= 0 || l.holdingMargin <= 1)
    return "unsuitable";
  const known =
    l.underKeelM > 0 && l.holdingMargin > 1 && !Number.isNaN(l.roomM) && l.anchoring !== "unknown";
  if (!known || input.neighbours === undefined) return "cannotTell";
  const ample = l.underKeelM > input.limits.underKeelM && l.roomM > roomM && l.holdingMargin > 1.5;
  return ample && l.anchoring === "clear" ? "suitable" : "withCare";
}
