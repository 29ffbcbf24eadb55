import * as z from "zod/mini";
import type { Range3, Reason } from "../core/judgement.js";
import { direction, metres, plain, seconds } from "../core/schema.js";
import type { Degrees, Metres, Seconds } from "../core/units.js";

/** Schema of a swell in deep water. */
export const swellSchema = z.strictObject({
  /** Significant height in deep water outside. */
  hm0M: metres({ min: 0 }),
  /** Peak period. */
  periodS: seconds({ above: 0, max: 40 }),
  /** Direction it comes from. */
  fromDeg: direction(),
  /** Exponent s of its directional spread cos^2s(θ/2); 25 where left out, the short-crested end of swell. */
  spreadS: z._default(plain({ min: 1, max: 200 }), 25),
});

/** Schema of the berth's place in its bay, for swell. */
export const baySchema = z.strictObject({
  /** Direction straight out to sea across the depth contours. Without it refraction is not reckoned and the range says so. */
  seawardDeg: z.optional(direction()),
  /** A steep shore that throws the swell back. */
  reflector: z.optional(
    z.strictObject({
      /** What the shore is. */
      shore: z.enum(["beach", "rubble", "rock", "wall"]),
      /** Distance of the berth from it. */
      distanceM: metres({ min: 0 }),
    }),
  ),
  /** Length of the bay from its mouth to its head. */
  lengthM: z.optional(metres({ above: 0 })),
  /** Width of the mouth over the width abreast of the berth. */
  mouthOverBerthWidth: z.optional(plain({ above: 0 })),
});

/** Swell at a berth. */
export interface SwellAt {
  /** Significant height at the berth. */
  hm0M: Metres;
  /** Height with refraction at its usual extremes, or the reflecting shore at its own; not a confidence interval. */
  hm0RangeM: Range3<Metres>;
  /** Peak period. */
  periodS: Seconds;
  /** Direction from which most of it arrives. */
  fromDeg: Degrees;
  /** Part of the height that comes in straight through the open window. */
  windowFactor: number;
  /** Part of the height that comes in round the headlands. */
  diffractionFactor: number;
  /** The larger of the two, and of the least part a swell of this period is ever scored at. */
  shareFactor: number;
  /** Shoaling factor from deep water. */
  shoalingFactor: number;
  /** Refraction factor over straight contours; null where the lie of the contours is not known. */
  refractionFactor: number | null;
  /** Factor of a reflecting shore; 1 without one. */
  reflectionFactor: number;
  /** Wavelength at the berth. */
  wavelengthM: Metres;
  /** Whether the depth caps the height. */
  capped: boolean;
  /** Cautions, and what limits the trust in it. */
  reasons: Reason[];
}
