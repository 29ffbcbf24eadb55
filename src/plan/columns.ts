import { wrap360 } from "../core/angles.js";
import { LAY, layBody, type Body, type Weather } from "./lying.js";
import type { Scene } from "./scene.js";

/**
 * Directions of the wind looked at, off the forecast one: of these, those within two sigmas and the next one on each
 * side. The same for every spread, so that a wider one looks wherever a narrower one does.
 */
export const FAN_DEG = [-140, -100, -80, -60, -40, -20, 0, 20, 40, 60, 80, 100, 140, 180] as const;
/** Lies a moment and direction is given by: under the mean wind and in the gust. */
export const LIES = 2;

/**
 * How a vessel lies at every moment, for every direction of the fan, each in {@link LIES} lies. The entries of moment
 * `i` run from `start[i]` to before `start[i + 1]`; those of the forecast direction come first.
 */
export interface LieFan {
  start: Int32Array;
  reachM: Float64Array;
  pullTowardsDeg: Float64Array;
  headingDeg: Float64Array;
  yawDeg: Float64Array;
  sheerDeg: Float64Array;
}

/** Columns of one vessel over the stay; the fan's worst where a fan matters. NaN where not known. */
export interface LieColumnsOfStay {
  fan: LieFan;
  pullN: Float64Array;
  pullTowardsDeg: Float64Array;
  headingDeg: Float64Array;
  reachM: Float64Array;
  onBottomM: Float64Array;
  /** Greatest over the fan. */
  gustPullN: Float64Array;
  gustPullHighN: Float64Array;
  gustReachM: Float64Array;
  angleDeg: Float64Array;
}

const empty = (sigmaDeg: Float64Array): LieColumnsOfStay => {
  const count = sigmaDeg.length;
  const start = startsOf(sigmaDeg);
  const fan = start[count]!;
  const column = (n: number) => new Float64Array(n);
  return {
    fan: {
      start,
      reachM: column(fan),
      pullTowardsDeg: column(fan),
      headingDeg: column(fan),
      yawDeg: column(fan),
      sheerDeg: column(fan),
    },
    pullN: column(count),
    pullTowardsDeg: column(count),
    headingDeg: column(count),
    reachM: column(count),
    onBottomM: column(count),
    gustPullN: column(count),
    gustPullHighN: column(count),
    gustReachM: column(count),
    angleDeg: column(count),
  };
};

/** The greater of two, NaN if either is. */
const most = (a: number, b: number): number => (b > a || Number.isNaN(b) ? b : a);

function keepMiddle(c: LieColumnsOfStay, i: number, out: Float64Array): void {
  c.pullN[i] = out[LAY.pullN]!;
  c.pullTowardsDeg[i] = out[LAY.pullTowardsDeg]!;
  c.headingDeg[i] = out[LAY.headingDeg]!;
  c.reachM[i] = out[LAY.reachM]!;
  c.onBottomM[i] = out[LAY.onBottomM]!;
}

function keepWorst(c: LieColumnsOfStay, i: number, out: Float64Array): void {
  c.gustPullN[i] = most(c.gustPullN[i]!, out[LAY.gustPullN]!);
  c.gustPullHighN[i] = most(c.gustPullHighN[i]!, out[LAY.gustPullHighN]!);
  c.gustReachM[i] = most(c.gustReachM[i]!, out[LAY.gustReachM]!);
  c.angleDeg[i] = most(c.angleDeg[i]!, out[LAY.angleDeg]!);
}

function keepFan(fan: LieFan, at: number, out: Float64Array): void {
  fan.reachM[at] = out[LAY.reachM]!;
  fan.pullTowardsDeg[at] = out[LAY.pullTowardsDeg]!;
  fan.headingDeg[at] = out[LAY.headingDeg]!;
  fan.reachM[at + 1] = out[LAY.gustReachM]!;
  fan.pullTowardsDeg[at + 1] = out[LAY.gustPullTowardsDeg]!;
  fan.headingDeg[at + 1] = out[LAY.gustHeadingDeg]!;
  fan.yawDeg[at] = fan.yawDeg[at + 1] = out[LAY.yawDeg]!;
  // The bow sheers about the anchor less than the hull yaws about the bow: half as much, our own judgement.
  fan.sheerDeg[at] = fan.sheerDeg[at + 1] = out[LAY.yawDeg]! / 2;
}

/** Widest direction off the forecast to look at for a spread; the forecast alone where it is certain. */
const widestOf = (sigmaDeg: number): number =>
  FAN_DEG.find((deg) => deg >= Math.min(180, 2 * sigmaDeg)) ?? 180;

/** Where the entries of each moment start, and where the last ones end. */
function startsOf(sigmaDeg: Float64Array): Int32Array {
  const start = new Int32Array(sigmaDeg.length + 1);
  sigmaDeg.forEach((sigma, i) => {
    const widest = widestOf(sigma);
    const looked = FAN_DEG.filter((deg) => Math.abs(deg) <= widest).length;
    start[i + 1] = start[i]! + LIES * looked;
  });
  return start;
}

/** Lay the vessel to every direction of the fan at one moment, the forecast one first. */
function lieOverFan(c: LieColumnsOfStay, i: number, sigmaDeg: number, lay: Lay): void {
  const widest = widestOf(sigmaDeg);
  const out = lay(0);
  keepMiddle(c, i, out);
  let at = c.fan.start[i]!;
  const keep = (): void => {
    keepWorst(c, i, out);
    keepFan(c.fan, at, out);
    at += LIES;
  };
  keep();
  for (const deg of FAN_DEG) {
    if (deg === 0 || Math.abs(deg) > widest) continue;
    lay(deg);
    keep();
  }
}

/** Lays the vessel to the wind so many degrees off the forecast. */
type Lay = (offDeg: number) => Float64Array;

/** Lay a vessel to the weather of the stay, fan and all, over a bottom at `chartedM`; with `layPulls` the pulls alone. */
export function lieOverStay(
  scene: Scene,
  body: Body,
  chartedM: number,
  layOne: typeof layBody = layBody,
): LieColumnsOfStay {
  const n = scene.timeMs.length;
  const columns = empty(scene.sigmaDeg);
  const out = new Float64Array(LAY.length);
  const w: Weather = {
    windMps: 0,
    windFromDeg: 0,
    gustMps: 0,
    streamMps: 0,
    streamTowardsDeg: 0,
  };
  for (let i = 0; i < n; i++) {
    w.windMps = scene.windMps[i]!;
    w.gustMps = scene.gustMps[i]!;
    w.streamMps = scene.streamMps[i]!;
    w.streamTowardsDeg = scene.streamTowardsDeg[i]!;
    const depthM = chartedM + scene.tideM[i]!;
    lieOverFan(columns, i, scene.sigmaDeg[i]!, (offDeg) => {
      w.windFromDeg = wrap360(scene.windFromDeg[i]! + offDeg);
      layOne(body, w, depthM, out);
      return out;
    });
  }
  return columns;
}
