import { RAD, reciprocal } from "../core/angles.js";
import { overWindsBetween } from "../lie/between.js";
import { LIE, lieCoefficients, lieKernel } from "../lie/kernel.js";
import { isUnsettled, sheerFactor } from "../lie/lie.js";
import { YAW_DEG } from "../lie/tables.js";
import type { Vessel } from "../lie/vessel.js";
import {
  ANCHOR_HORIZONTAL,
  ANCHOR_VERTICAL,
  COLUMNS,
  LIFTED,
  ON_BOTTOM,
  REACH,
} from "../rode/kernel.js";
import type { PreparedRode } from "../rode/prepare.js";
import { solveForward } from "../rode/solve.js";
import { hullOf, type Hull } from "../swing/vessel.js";

/** A vessel and her rode made ready to be laid to any weather. */
export interface Body {
  /** Length overall. */
  lengthM: number;
  /** Height of the bow roller above the water. */
  bowHeightM: number;
  coefficients: Float64Array;
  /** Wind pull yawed over wind pull from ahead, likely and high. */
  sheerLikely: number;
  sheerHigh: number;
  rode: PreparedRode;
  hull: Hull;
  lieOut: Float64Array;
  rodeOut: Float64Array;
}

/** Places of the columns {@link layBody} writes. */
export const LAY = {
  /** Steady pull, N. */
  pullN: 0,
  /** Direction from anchor to bow, degrees; NaN where none is preferred. */
  pullTowardsDeg: 1,
  /** Heading, degrees; NaN where none is preferred. */
  headingDeg: 2,
  /** Horizontal distance from anchor to bow, m. */
  reachM: 3,
  /** Rode on the bottom, m. */
  onBottomM: 4,
  /** Pull in a gust, yawing as usual, N. */
  gustPullN: 5,
  /** Pull in a gust, yawing as far as is reported, N. */
  gustPullHighN: 6,
  /** Direction of the pull in a gust, degrees; NaN where none is preferred. */
  gustPullTowardsDeg: 7,
  /** Heading in a gust, degrees; NaN where none is preferred. */
  gustHeadingDeg: 8,
  /** Reach in a gust, m. */
  gustReachM: 9,
  /** Pull angle at the anchor in a gust, degrees above the horizontal. */
  angleDeg: 10,
  /** Yaw each side to allow for, degrees. */
  yawDeg: 11,
  /** Number of places. */
  length: 12,
} as const;

/** Make a vessel with her rode ready. */
export function prepareBody(vessel: Vessel, rode: PreparedRode): Body {
  return {
    lengthM: vessel.lengthM,
    bowHeightM: vessel.bowHeightM,
    coefficients: lieCoefficients(vessel),
    sheerLikely: sheerFactor(vessel, YAW_DEG.likely),
    sheerHigh: sheerFactor(vessel, YAW_DEG.high),
    rode,
    hull: hullOf({
      lengthM: vessel.lengthM,
      beamM: vessel.beamM,
      bowOverhangM: 0,
      sternOverhangM: 0,
    }),
    lieOut: new Float64Array(LIE.length),
    rodeOut: new Float64Array(COLUMNS),
  };
}

/** Wind, gust and stream that a vessel lies to; NaN where a figure is not known. */
export interface Weather {
  windMps: number;
  windFromDeg: number;
  gustMps: number;
  streamMps: number;
  streamTowardsDeg: number;
}

/**
 * Lay a vessel to a weather at a depth; columns of {@link LAY} go to `out`. Unknown wind, stream
 * or depth make everything that hangs on them NaN; an unsettled lie has no directions.
 */
export function layBody(b: Body, w: Weather, depthM: number, out: Float64Array): void {
  laySteady(b, w, depthM, out);
  pullsInGust(b, w, depthM, out);
  layGust(b, depthM, out);
}

function laySteady(b: Body, w: Weather, depthM: number, out: Float64Array) {
  const { lieOut, rodeOut } = b;
  balance(b, w, w.windMps, depthM);
  const firm = !isUnsettled(lieOut);
  out[LAY.pullN] = lieOut[LIE.pullN]!;
  out[LAY.pullTowardsDeg] = firm ? lieOut[LIE.pullTowardsDeg]! : NaN;
  out[LAY.headingDeg] = firm ? lieOut[LIE.headingDeg]! : NaN;
  pullsAtLeast(b, out);
  solveForward(b.rode, heightOf(b, depthM), lieOut[LIE.pullN]!, rodeOut);
  out[LAY.reachM] = rodeOut[REACH]!;
  out[LAY.onBottomM] = rodeOut[ON_BOTTOM]!;
}

/** The part of {@link layBody} that does not hang on the rode: the pulls and directions in a gust. */
export function layPulls(b: Body, w: Weather, depthM: number, out: Float64Array): void {
  balance(b, w, w.windMps, depthM);
  pullsAtLeast(b, out);
  pullsInGust(b, w, depthM, out);
}

/** A gust against the stream may ease the pull: then that of the mean wind, just balanced, counts. */
function pullsAtLeast({ lieOut, sheerLikely, sheerHigh }: Body, out: Float64Array): void {
  out[LAY.gustPullN] = yawed(lieOut, sheerLikely);
  out[LAY.gustPullHighN] = yawed(lieOut, sheerHigh);
}

/** Pulls in a gust, none less than what stands in `out`, and its directions. */
function pullsInGust(b: Body, w: Weather, depthM: number, out: Float64Array): void {
  const { lieOut } = b;
  balance(b, w, w.gustMps, depthM);
  const firm = !isUnsettled(lieOut);
  out[LAY.gustPullN] = Math.max(out[LAY.gustPullN]!, yawed(lieOut, b.sheerLikely));
  out[LAY.gustPullHighN] = Math.max(out[LAY.gustPullHighN]!, yawed(lieOut, b.sheerHigh));
  out[LAY.gustPullTowardsDeg] = firm ? lieOut[LIE.pullTowardsDeg]! : NaN;
  out[LAY.gustHeadingDeg] = firm ? lieOut[LIE.headingDeg]! : NaN;
  out[LAY.yawDeg] = YAW_DEG.likely * lieOut[LIE.windMomentShare]!;
  if (w.streamMps > 0) pullsBetween(b, w, depthM, out);
}

/** Against the stream a gust may turn her round; then a wind between the mean and the gust may pull hardest. */
function pullsBetween(b: Body, w: Weather, depthM: number, out: Float64Array): void {
  const restDeg = reciprocal(w.streamTowardsDeg);
  const { lieOut } = b;
  overWindsBetween(lieOut, w.windMps, w.gustMps, w.windFromDeg, restDeg, (mps, windFromDeg) => {
    balance(b, { ...w, windFromDeg }, mps, depthM);
    const [likely, high] = [yawed(lieOut, b.sheerLikely), yawed(lieOut, b.sheerHigh)];
    const near = Math.max(likely / out[LAY.gustPullN]!, high / out[LAY.gustPullHighN]!);
    out[LAY.gustPullN] = Math.max(out[LAY.gustPullN]!, likely);
    out[LAY.gustPullHighN] = Math.max(out[LAY.gustPullHighN]!, high);
    return near;
  });
}

/** Pull with the vessel yawed: she yaws to the wind, by what share of her turning the wind has. */
export const yawed = (lieOut: Float64Array, sheer: number): number =>
  lieOut[LIE.pullN]! + lieOut[LIE.windN]! * lieOut[LIE.windMomentShare]! * (sheer - 1);

function layGust(b: Body, depthM: number, out: Float64Array) {
  const { rodeOut } = b;
  const pull = out[LAY.gustPullN]!;
  const state = solveForward(b.rode, heightOf(b, depthM), pull, rodeOut);
  out[LAY.gustReachM] = rodeOut[REACH]!;
  out[LAY.angleDeg] = state === LIFTED ? leadOf(rodeOut) : 0 * rodeOut[REACH]!;
}

/** Angle of the pull at the anchor above the horizontal. */
const leadOf = (rodeOut: Float64Array): number =>
  Math.atan2(rodeOut[ANCHOR_VERTICAL]!, rodeOut[ANCHOR_HORIZONTAL]!) / RAD;

const heightOf = (b: Body, depthM: number): number => (depthM < 0 ? 0 : depthM) + b.bowHeightM;

const balance = (b: Body, w: Weather, speed: number, depthM: number): void => {
  lieKernel(
    b.coefficients,
    speed,
    w.windFromDeg,
    w.streamMps,
    w.streamTowardsDeg,
    b.lieOut,
    depthM,
  );
};
