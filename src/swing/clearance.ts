import type { Reason } from "../core/judgement.js";
import type { DepthMoment } from "./depth-under.js";
import type { Nearest } from "./nearest.js";

/** A hazard the room meets or the rode may foul. */
export interface HazardMet {
  /** Name of the feature. */
  id: string;
  /** What it is. */
  kind: string;
  /** Whether a part of the vessel may come over it; if not, only the rode sweeps it. */
  underHull: boolean;
  /** Least charted depth over it; null where it is not known. */
  leastDepthM: number | null;
  /** Depth over it at the lowest tide of the stay beyond the depth needed; null where something of it is not known. */
  spareDepthM: number | null;
}

/** Room from a vessel to what lies round her. */
export interface SwingClearance {
  /** `clear` where nothing given comes into the room and nothing asked for is missing; `unknown` where something is missing. */
  verdict: "clear" | "notClear" | "unknown";
  /** Why. */
  reasons: Reason[];
  /** Nearest shore, at no distance where it lies between the anchor and the room; null where none was given. */
  shore: Nearest | null;
  /** Nearest hazard without the depth needed over it at the lowest tide; null where there is none. */
  hazard: Nearest | null;
  /** Hazards within the room, or that the rode may sweep. */
  hazardsMet: HazardMet[];
  /** Nearest water that falls short of the depth needed at the lowest tide; null where there is none, or it cannot be told. */
  shoal: Nearest | null;
  /** Water under the vessel. */
  depth: {
    /** Whether every part of the room lies in charted depth and every height of tide is known. */
    known: boolean;
    /** Least depth of those that are known; null where none is. */
    leastDepthM: number | null;
    /** When that is. */
    atMs: number | null;
    /** Depth from each moment to the next. */
    moments: DepthMoment[];
  };
  /** Nearest restricted area; null where there is none. */
  restricted: Nearest | null;
  /** Lowest height of tide over the stay; null where it is not known at some moment. */
  lowestTideM: number | null;
}
