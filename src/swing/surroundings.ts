import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { metres } from "../core/schema.js";
import { geometry } from "../geo/schema.js";

const thing = {
  /** Name of the feature, to be found again in the results. */
  id: z.string(),
  /** Where it is. */
  geometry,
};

/** A stretch of shore. */
const shoreThing = z.strictObject(thing);

/** A rock, wreck, obstruction or the like. */
const hazard = z.strictObject({
  ...thing,
  /** What it is, in a word. */
  kind: z.string(),
  /** Least charted depth over it, negative where it dries; null where it is not known: it counts as dangerous at any tide. */
  leastDepthM: z.nullable(metres({ min: -50, max: 12_000 })),
});

/** An area of charted depth. */
const depthArea = z.strictObject({
  ...thing,
  /** Least charted depth in it, negative where it dries; null where it is not known. */
  leastDepthM: z.nullable(metres({ min: -50, max: 12_000 })),
});

/** An area with a rule. */
const restrictedArea = z.strictObject({
  ...thing,
  /** What it is, in a word. */
  kind: z.string(),
});

/** What lies round a berth. A list that is left out is not known; an empty one says that nothing is there. */
export const surroundings = z.strictObject({
  /** Shore, as lines or areas. */
  shore: z.optional(z.array(shoreThing)),
  /** Rocks, wrecks, obstructions, foul ground. */
  hazards: z.optional(z.array(hazard)),
  /** Areas of charted depth. */
  depthAreas: z.optional(z.array(depthArea)),
  /** Areas where anchoring or entry is restricted. */
  restricted: z.optional(z.array(restrictedArea)),
  /** How far off the charted positions may be: taken off every distance; nothing unless given. */
  chartErrorM: z._default(metres({ min: 0, max: 5000 }), 0),
  /** Depth the vessel needs: draught and the water wanted under the keel. */
  depthNeededM: z.optional(metres({ min: 0, max: 100 })),
  /** Lowest height of tide above chart datum over the stay, for moments that carry none. */
  tideHeightM: z.optional(metres({ min: -10, max: 30 })),
});
/** What lies round a berth. */
export type Surroundings = Given<typeof surroundings>;
/** What lies round a berth, as checked. */
export type Around = z.output<typeof surroundings>;
