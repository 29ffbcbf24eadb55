import * as z from "zod/mini";
import { refuse } from "../core/errors.js";
import { degrees, metres, newtons, newtonsPerMetre, plain } from "../core/schema.js";

/** One segment of the rode. */
export const segmentSchema = z.strictObject({
  /** What it is made of; `custom` for wire, a snubber in air, or anything else of known figures. */
  kind: z.enum(["chain", "rope", "custom"]),
  /** Unstretched length. */
  lengthM: metres({ above: 0, max: 1e5 }),
  /** Weight in water per unstretched metre (in air for a snubber clear of the water); at least 1e-6, for the catenary of a weightless line is none. */
  weightInWaterNPerM: newtonsPerMetre({ min: 1e-6, max: 1e6 }),
  /** Load per unit strain; taken as constant. */
  axialStiffnessN: newtons({ above: 0, max: 1e15 }),
  /** Breaking load, where it is to be reckoned with. */
  breakingN: z.optional(newtons({ above: 0 })),
});
/** One segment of the rode. */
export type Segment = z.infer<typeof segmentSchema>;

/** A weight let down the rode, or a float made fast to it. */
export const rodeWeightSchema = z.strictObject({
  /** Unstretched metres of rode between the anchor and the weight. */
  fromAnchorM: metres({ above: 0 }),
  /** Weight in water; negative for a float, its buoyancy less its weight. */
  weightInWaterN: newtons({ min: -1e9, max: 1e9 }),
});
/** A weight or float on the rode. */
export type RodeWeight = z.infer<typeof rodeWeightSchema>;

/** What every question about a rode starts from. */
export const rodeFields = {
  /** Segments in order from the anchor to the bow; a snubber is the last one. */
  segments: z.array(segmentSchema).check(z.minLength(1), z.maxLength(100)),
  /** Height of the bow roller above the bed at the anchor: depth there plus height of the roller above the water. */
  bowHeightAboveAnchorM: metres({ min: 0, max: 1e5 }),
  /** Slope of the bed along the rode, positive where it rises from the anchor towards the boat; 0 when left out. */
  seabedSlopeDeg: z.optional(degrees({ min: -60, max: 60 })),
  /** Friction of the rode on the bed as a share of its weight; 0 when left out, the safe choice. */
  bedFriction: z.optional(plain({ min: 0, max: 100 })),
  /** Weights (kellets, sentinels) and floats on the rode, in any order. */
  weights: z.optional(z.array(rodeWeightSchema).check(z.maxLength(100))),
};

/** A rode between an anchor and a bow. */
export const rodeSchema = z.strictObject(rodeFields);
/** A rode between an anchor and a bow. */
export type Rode = z.infer<typeof rodeSchema>;

/** Horizontal load at the bow. */
export const load = () => newtons({ max: 1e12 });

/** Refuse weights that hang beyond the rode: a schema sees one field at a time. */
export function checkWeights(rode: Rode): void {
  const lengthM = lengthOf(rode);
  for (const [i, w] of (rode.weights ?? []).entries())
    if (!(w.fromAnchorM < lengthM))
      refuse(
        `weights[${i}].fromAnchorM`,
        "too_big",
        `expected less than the length of the rode, ${lengthM} m`,
      );
}

/** Unstretched length of the whole rode. */
export const lengthOf = (rode: Pick<Rode, "segments">): number =>
  rode.segments.reduce((sum, s) => sum + s.lengthM, 0);
