import { RAD, reciprocal, wrap360 } from "../core/angles.js";
import { loadsOnTwo, type LegLoads, type TwoAnchors } from "../holding/twoAnchors.js";
import type { Segment } from "../rode/input.js";
import { prepareRode, type PreparedRode } from "../rode/prepare.js";
import { ANCHOR_HORIZONTAL, ANCHOR_VERTICAL, COLUMNS, REACH } from "../rode/kernel.js";
import { solveForward } from "../rode/solve.js";
import type { Advice } from "./adviceTypes.js";
import type { Hardest } from "./adviceHold.js";
import { laidOut, segmentsOf } from "./gear.js";
import { gripOf, type Grip } from "./grip.js";
import type { Study } from "./study.js";

/** Angle between two anchors off the bow (common practice, no source: 30° to 60°). */
const SPREAD_DEG = 45;
/** Pulls looked at to each side of the hardest, in sigmas of the wind's direction. */
const SIDES = [-1, -0.5, 0, 0.5, 1];
/** Loads the reach is tabulated at, as shares of the pull. */
const LOADS = [0, 0.1, 0.25, 0.5, 0.75, 1, 1.5, 2.5];

const AT_PULL = LOADS.indexOf(1);

interface Leg {
  rode: PreparedRode;
  grip: Grip;
  heightM: number;
}

function reachAt({ rode, heightM }: Leg, loadN: number, out: Float64Array): number {
  solveForward(rode, heightM, loadN, out);
  return out[REACH]!;
}

/** Likely holding over the pull on a leg. */
function inHand(leg: Leg, loadN: number, out: Float64Array): number {
  if (!(loadN > 0)) return Infinity;
  reachAt(leg, loadN, out);
  const lead = Math.atan2(out[ANCHOR_VERTICAL]!, out[ANCHOR_HORIZONTAL]!) / RAD;
  return leg.grip.likely(Math.max(0, lead)) / loadN;
}

/** Likely holding of a leg under a load. */
const holds = (leg: Leg, loadN: number, out: Float64Array): number =>
  loadN > 0 ? loadN * inHand(leg, loadN, out) : Infinity;

/** Pull on the bower where the kedge bears no more than it holds, and creeps. */
function leftToBower(two: Pick<TwoAnchors, "anchors">, l: LegLoads, kedgeN: number): number {
  if (!(l.secondN > kedgeN)) return l.firstN;
  const { eastM, northM } = two.anchors[1]!;
  const [dx, dy] = [eastM - l.bowEastM, northM - l.bowNorthM];
  const part = kedgeN / Math.sqrt(dx * dx + dy * dy);
  const x = l.pullN * Math.sin(l.pullTowardsDeg * RAD) + part * dx;
  const y = l.pullN * Math.cos(l.pullTowardsDeg * RAD) + part * dy;
  return Math.sqrt(x * x + y * y);
}

/** Reach of a leg by load; null where the rode is too short or the reach does not grow. */
function curveOf(leg: Leg, pullN: number, out: Float64Array) {
  const points = LOADS.map((part) => ({
    loadN: part * pullN,
    reachM: reachAt(leg, part * pullN, out),
  }));
  const grows = points.every((p, i) => p.reachM > (i === 0 ? 0 : points[i - 1]!.reachM));
  return grows ? points : null;
}

/** Both anchors with their rodes: the bower as it is to lie, the kedge with all its rode. */
function legsOf(s: Study, h: Hardest): [Leg, Leg] | null {
  const { tackle } = s.input;
  const { kedge } = tackle;
  if (kedge === undefined || s.grip === null) return null;
  const heightM = h.depthM + s.body.bowHeightM;
  const leg = (segments: Segment[], grip: Grip): Leg => ({
    rode: prepareRode({ segments }),
    grip,
    heightM,
  });
  return [
    leg(laidOut(tackle, s.rode.lengthOutM), s.grip),
    leg(segmentsOf(kedge.rode), gripOf(kedge.anchor, s.bed, undefined)),
  ];
}

/** The kedge laid beside the bower before the hardest gust, and what of the pull each then bears. */
export function kedgeAdvice(s: Study, h: Hardest, atMs: number): Advice[] {
  const legs = legsOf(s, h);
  if (legs === null) return [];
  const out = new Float64Array(COLUMNS);
  const [first, second] = [curveOf(legs[0], h.pullN, out), curveOf(legs[1], h.pullN, out)];
  const aheadDeg = s.scene.windFromDeg[h.i]!;
  if (first === null || second === null) return [];
  const two = loadsOnTwo({
    kind: "vee",
    aheadDeg,
    spreadDeg: SPREAD_DEG,
    firstReachM: first[AT_PULL]!.reachM,
    secondReachM: second[AT_PULL]!.reachM,
    give: { first, second },
    pullN: 1,
    pulls: SIDES.map((k) => ({
      pullN: h.pullN,
      pullTowardsDeg: wrap360(reciprocal(aheadDeg) + k * s.scene.sigmaDeg[h.i]!),
    })),
  });
  const bower = two.legs.map((l) => leftToBower(two, l, holds(legs[1], l.secondN, out)));
  const least = Math.min(...bower.map((loadN) => inHand(legs[0], loadN, out)));
  const creeps = two.legs.some((l) => holds(legs[1], l.secondN, out) < l.secondN);
  const alone = legs[0].grip.likely(h.angleDeg) / h.pullN;
  if (!(least > alone)) return [];
  return [
    {
      code: "kedge.vee",
      atMs,
      value: SPREAD_DEG,
      buys: { of: "holdingOverPull", from: alone, to: least },
      against: creeps ? "kedge.creeps" : null,
      basis: `two anchors off the bow, each leg's reach by its load, the kedge bearing no more than it holds; the bower's least over winds one sigma to each side; ${two.cautions.join(", ")}`,
    },
  ];
}
