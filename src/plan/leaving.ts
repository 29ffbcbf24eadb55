import { bringUpOf, type BringUp } from "../holding/bringUp.js";
import { totalLength } from "./gear.js";
import type { Study } from "./study.js";
import { wayOutChecked, type WayOut } from "./wayOut.js";

/** Weighing and leaving. */
export interface Leaving {
  /** The way out at every hour of the stay; null where no route was given. */
  wayOut: WayOut | null;
  /** Distance in which the anchor brings her up should the engine fail on leaving; null where the depth is not known. */
  engineFails: EngineFails | null;
}

/** What the anchor does for a vessel whose engine fails as she leaves. */
export interface EngineFails {
  /** Depth it is reckoned for: the greatest at the berth over the stay. */
  depthM: number;
  /** Speed she is making. */
  speedMps: number;
  /** Cable to snub her at. */
  lengthM: number;
  /** The anchor ready to let go. */
  ready: BringUp;
  /** The anchor lashed down, or its cable flaked below. */
  lashed: BringUp;
}

/** Time to get the anchor away, ready or not (common practice, no source). */
const READY_S = 5;
const LASHED_S = 30;
/** Cable over depth and bow height to snub at. */
const SCOPE = 4;

const last = (values: ArrayLike<number>): number => values[values.length - 1]!;

/** Bringing up in the deepest water of the stay, in the wind and stream of the hour of leaving. */
function engineFailsOf(s: Study): EngineFails | null {
  const { input, scene, lie, grip } = s;
  const depthM = Math.max(...scene.tideHighM) + s.anchorDepth.deepM;
  const pullN = last(lie.pullN);
  if (!(depthM > 0)) return null;
  const speedMps = Math.min(15, input.routeSpeedMps);
  const known = pullN >= 0;
  const cableM = totalLength(input.tackle.rode);
  const { bowHeightM } = scene.vessel;
  const at = (readyS: number): BringUp =>
    bringUpOf({
      speedMps,
      displacementKg: scene.vessel.displacementKg,
      pullN: known ? pullN : 0,
      // A pull that is not known may be more than the anchor holds.
      ultimateN: known ? (grip?.flat.ultimateN ?? null) : null,
      depthM,
      bowHeightM,
      cableM,
      scope: SCOPE,
      readyS,
    });
  return {
    depthM,
    speedMps,
    lengthM: Math.min(SCOPE * (depthM + bowHeightM), cableM),
    ready: at(READY_S),
    lashed: at(LASHED_S),
  };
}

function wayOutOf({ input, chart, scene }: Study): WayOut | null {
  const { route, routeSpeedMps: speedMps, stay, tide, forecast, stream, vessel } = input;
  if (route === undefined) return null;
  return wayOutChecked({
    route,
    speedMps: speedMps > 0 ? speedMps : 2,
    stay,
    vessel,
    surgeM: scene.surgeM,
    underKeelM: input.limits.underKeelM,
    stepMs: 1_800_000,
    asideM: 10,
    corridorM: 100,
    ...(chart !== null && { chart }),
    ...(tide !== undefined && { tide }),
    ...(forecast !== undefined && { forecast }),
    ...(stream !== undefined && { stream }),
  });
}

/** The way out, and what the anchor does should the engine fail on it. */
export const leavingOf = (s: Study): Leaving => ({
  wayOut: wayOutOf(s),
  engineFails: engineFailsOf(s),
});
