import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { degrees, metres, seconds } from "../core/schema.js";
import type { Metres } from "../core/units.js";
import { diffract, tipAt, WEDGE_REACH_KR } from "./diffraction.js";
import { wavelength } from "./linear.js";

/** Input of {@link diffractionAt}. */
export const diffractionAtInput = z
  .strictObject({
    /** Distance of the point from the tip. */
    distanceM: metres({ above: 0 }),
    /** Direction of the point at the tip, anticlockwise from the lit face of the land. */
    angleDeg: degrees({ min: 0, max: 360 }),
    /** Direction the waves come from, anticlockwise from the lit face. */
    waveAngleDeg: degrees({ min: 0, max: 360 }),
    /** Interior angle of the land; a thin wall where left out. Read to the whole degree. */
    wedgeAngleDeg: z._default(degrees({ min: 0, max: 170 }), 0),
    /** Wave period. */
    periodS: seconds({ above: 0 }),
    /** Depth of water, the same everywhere. */
    depthM: metres({ above: 0 }),
  })
  .check(
    z.refine(
      (i) => Math.max(i.angleDeg, i.waveAngleDeg) <= 360 - Math.round(i.wedgeAngleDeg),
      "an angle lies inside the land",
    ),
  );

/** Input of {@link diffractionAt}. */
export type DiffractionAtInput = Given<typeof diffractionAtInput>;

/** Wave at a point beside a headland. */
export interface DiffractionAt {
  /** Height over the height of the wave that comes in, reflection off the land included. */
  factor: number;
  /** Phase against a crest at the tip, radians. */
  phaseRad: number;
  /** Wavelength. */
  wavelengthM: Metres;
  /** Whether the point lies so far off that a wedge was given the figure at ten wavelengths. */
  beyondReach: boolean;
}

/**
 * Height of long-crested waves at a point beside the tip of a breakwater or headland.
 *
 * Sommerfeld's exact solution for a thin wall, and the exact series for a wedge, of waves over a level bed against
 * land that reflects them whole. Leaves out the spread of a real sea, which shelters less: `swellAt` has it.
 *
 * *Valid* to ten wavelengths for a wedge. *Accuracy*: thin wall against the series to 1e-6; printed ACES examples to
 * their digits.
 *
 * @throws InputError for an angle inside the land.
 * @source Penney & Price 1952; ACES v1.07 Technical Reference, 1992, 3-3
 * @example
 * ```ts
 * import { diffractionAt } from "hawse/shelter";
 *
 * const lee = diffractionAt({ distanceM: 200, angleDeg: 290, waveAngleDeg: 90, periodS: 8, depthM: 10 });
 * console.log(lee.factor.toFixed(3));
 * // 0.279
 * ```
 */
export function diffractionAt(input: DiffractionAtInput): DiffractionAt {
  const { distanceM, angleDeg, waveAngleDeg, wedgeAngleDeg, periodS, depthM } = check(
    diffractionAtInput,
    input,
  );
  const wavelengthM = wavelength(periodS, depthM);
  const kr = (2 * Math.PI * distanceM) / wavelengthM;
  const tip = tipAt(kr, wedgeAngleDeg);
  const out = { re: 0, im: 0 };
  diffract(tip, angleDeg, waveAngleDeg, out);
  return {
    factor: Math.sqrt(out.re * out.re + out.im * out.im),
    phaseRad: Math.atan2(out.im, out.re),
    wavelengthM,
    beyondReach: tip.wedgeDeg > 0 && kr > WEDGE_REACH_KR,
  };
}
