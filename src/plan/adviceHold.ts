import { known } from "../core/series.js";
import { preparedOut } from "./gear.js";
import { LAY, layBody, prepareBody } from "./lying.js";
import type { Study } from "./study.js";

/** The hardest gust of the stay. */
export interface Hardest {
  /** Its place among the moments. */
  i: number;
  timeMs: number;
  depthM: number;
  /** Pull as usual and as far as is reported, greatest over the fan of winds. */
  pullN: number;
  pullHighN: number;
  /** Mean pull then. */
  meanN: number;
  /** Pull angle. */
  angleDeg: number;
}

/** The hardest gust of the stay; null where no pull or no depth is known. */
export function hardestOf(s: Study): Hardest | null {
  const { lie, scene, anchorDepth } = s;
  let i = -1;
  lie.gustPullN.forEach((p, k) => {
    if (p > (i < 0 ? 0 : lie.gustPullN[i]!)) i = k;
  });
  const depthM = anchorDepth.chartedM + (scene.tideM[i] ?? NaN);
  if (!(depthM > 0)) return null;
  return {
    i,
    timeMs: scene.timeMs[i]!,
    depthM,
    pullN: lie.gustPullN[i]!,
    pullHighN: lie.gustPullHighN[i]!,
    meanN: lie.pullN[i]!,
    angleDeg: lie.angleDeg[i]!,
  };
}

/** Likely holding over the pull in the forecast wind's hardest gust with a length out; null where not known. */
export function holdingWith(s: Study, lengthM: number, h: Hardest): number | null {
  const { scene, grip, input } = s;
  if (grip === null) return null;
  const out = new Float64Array(LAY.length);
  const body = prepareBody(scene.vessel, preparedOut(input.tackle, lengthM));
  layBody(body, weatherAt(s, h.i), h.depthM, out);
  const ratio = grip.likely(out[LAY.angleDeg]!) / out[LAY.gustPullN]!;
  return known(ratio);
}

/** Weather of a moment. */
export const weatherAt = ({ scene }: Study, i: number) => ({
  windMps: scene.windMps[i]!,
  gustMps: scene.gustMps[i]!,
  windFromDeg: scene.windFromDeg[i]!,
  streamMps: scene.streamMps[i]!,
  streamTowardsDeg: scene.streamTowardsDeg[i]!,
});
