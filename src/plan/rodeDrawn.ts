import type { Metres, Milliseconds, Newtons } from "../core/units.js";
import { rodeProfileUnchecked } from "../rode/rodeProfile.js";
import { laidOut } from "./gear.js";
import type { Study } from "./study.js";

/** The rode as it lies at one moment, for a drawing to scale. */
export interface RodeDrawn {
  /** Which moment: the hardest gust, or the mean wind then. */
  what: "gust" | "mean";
  /** When. */
  timeMs: Milliseconds;
  /** Horizontal pull. */
  pullN: Newtons;
  /** Depth of water. */
  depthM: Metres;
  /** Points from the anchor to the bow: metres along, metres above the bed. */
  points: [xM: number, zM: number][];
  /** Where the rode leaves the bottom, metres from the anchor; null where it lies nowhere. */
  touchdownM: Metres | null;
}

/** The rode in the hardest gust of the stay and in the mean wind of that moment; none where the pull is not known. */
export function rodesDrawn(s: Study): RodeDrawn[] {
  const { lie, scene, rode, body, input } = s;
  let at = -1;
  lie.gustPullN.forEach((p, i) => {
    if (p >= (at < 0 ? 0 : lie.gustPullN[at]!)) at = i;
  });
  const depthM = s.anchorDepth.chartedM + (scene.tideM[at] ?? NaN);
  if (at < 0 || !(depthM > 0) || !(rode.lengthOutM > depthM + body.bowHeightM)) return [];
  const segments = laidOut(input.tackle, rode.lengthOutM);
  const draw = (what: "gust" | "mean", pullN: number): RodeDrawn => {
    const { points, touchdown } = rodeProfileUnchecked({
      segments,
      bowHeightAboveAnchorM: depthM + body.bowHeightM,
      horizontalLoadN: pullN,
    });
    const touchdownM = touchdown > 0 ? points[touchdown]![0] : null;
    return {
      what,
      timeMs: scene.timeMs[at]!,
      pullN,
      depthM,
      points,
      touchdownM,
    };
  };
  return [draw("mean", lie.pullN[at]!), draw("gust", lie.gustPullN[at]!)];
}
