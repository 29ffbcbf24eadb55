import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { RAD } from "../core/angles.js";
import { check } from "../core/check.js";
import { SEA_WATER_KG_PER_M3 } from "../core/constants.js";
import type { Source } from "../core/judgement.js";
import { degrees, metres, plain, speed } from "../core/schema.js";
import type { Newtons, SquareMetres } from "../core/units.js";
import {
  crossStreamCoefficient,
  dynamicPressure,
  frictionCoefficient,
  wettedArea,
} from "./kernel.js";
import { FORM_COEFFICIENT, PROPELLER_COEFFICIENT, SEA_WATER_VISCOSITY_M2_PER_S } from "./tables.js";
import { vessel } from "./vessel.js";

export const streamLoadInput = z.strictObject({
  /** The vessel. */
  vessel,
  /** Rate of the stream past the hull. */
  streamMps: speed({ max: 12 }),
  /** Angle of the stream off the bow, either side; 0 is from ahead; from ahead unless given. */
  offBowDeg: z._default(degrees({ min: -180, max: 180 }), 0),
  /** Depth of water; deep unless given. */
  depthM: z.optional(metres({ above: 0 })),
  /** Density of the water; 1025 kg/m³ unless given. */
  waterDensityKgPerM3: z._default(plain({ min: 990, max: 1050 }), SEA_WATER_KG_PER_M3),
  /** Kinematic viscosity of the water; 1.19e-6 m²/s unless given. */
  viscosityM2PerS: z._default(plain({ min: 5e-7, max: 2e-6 }), SEA_WATER_VISCOSITY_M2_PER_S),
  /** Form coefficient on immersed beam times hull draught; 0.1 unless given. */
  formCoefficient: z._default(plain({ min: 0, max: 2 }), FORM_COEFFICIENT),
  /** Coefficient on the propeller's blade area; 1 unless given. */
  propellerCoefficient: z._default(plain({ min: 0, max: 2 }), PROPELLER_COEFFICIENT),
});

/** Stream force on a vessel, by parts. */
export interface StreamLoad {
  /** Force, N. */
  forceN: Newtons;
  /** Part along the hull, positive aft, N: the next three together. */
  aftN: Newtons;
  /** Form drag of the hull, N. */
  formN: Newtons;
  /** Skin friction, N. */
  frictionN: Newtons;
  /** Drag of fixed propellers, N. */
  propellerN: Newtons;
  /** Part across the hull, positive with the stream on the starboard side, N. */
  acrossN: Newtons;
  /** Coefficient across the hull in this depth. */
  acrossCoefficient: number;
  /** Turning moment about the bow, positive turning the bow to starboard, N m. */
  momentNm: number;
  /** Wetted area of the hull, m². */
  wettedAreaM2: SquareMetres;
  /** The formulas and their source. */
  basis: Source;
}

/**
 * Force of a stream on a vessel at an angle off her bow.
 *
 * From ahead: form drag, skin friction on the wetted area and drag of stopped propellers; across: drag on
 * the lateral plane, which grows as the keel nears the bed. Made for ships and applied here to the canoe
 * body; leaves out lift of a keel at small angles, the rudder, weed and the rode's own drag.
 *
 * *Valid*: displacement hulls. *Accuracy*: arithmetic 1e-4 on the published formulas; physics 30 % or worse on small craft.
 *
 * @throws InputError when a figure is missing, out of range or unknown.
 * @source UFC 4-159-03, Design: Moorings (2005), Eq. 11 and 15-21
 * @example
 * ```ts
 * import { knots, streamLoad, vesselFrom } from "hawse";
 * const vessel = vesselFrom({ kind: "yacht", lengthM: 12 });
 * const ahead = streamLoad({ vessel, streamMps: knots(2) });
 * const abeam = streamLoad({ vessel, streamMps: knots(2), offBowDeg: 90, depthM: 4 });
 * console.log(Math.round(ahead.forceN), Math.round(abeam.forceN));
 * // 220 8454
 * ```
 */
export const streamLoad = (input: Given<typeof streamLoadInput>): StreamLoad =>
  streamForce(check(streamLoadInput, input));

/** {@link streamLoad} without the check. */
export function streamForce(input: z.output<typeof streamLoadInput>): StreamLoad {
  const { vessel: v } = input;
  const pressure = dynamicPressure(input.streamMps, input.waterDensityKgPerM3);
  const ends = endsOf(input, pressure * Math.cos(input.offBowDeg * RAD));
  const acrossCoefficient = crossStreamCoefficient(
    v.streamSideCoefficient,
    v.draughtM,
    input.depthM ?? Infinity,
  );
  const acrossN = pressure * v.lateralPlaneM2 * acrossCoefficient * Math.sin(input.offBowDeg * RAD);
  const aftN = ends.formN + ends.frictionN + ends.propellerN;
  return {
    forceN: Math.sqrt(aftN * aftN + acrossN * acrossN),
    // A nothing is a plain 0, never -0, which JSON does not carry.
    aftN: aftN + 0,
    ...ends,
    acrossN: acrossN + 0,
    acrossCoefficient,
    momentNm: acrossN * v.lateralCentreAftOfBowM + 0,
    basis: {
      title: "UFC 4-159-03, Design: Moorings",
      where: "Eq. 11 and 15-21",
      provenance: "read",
    },
  };
}

/** Forces along the hull under a pressure already turned along it. */
function endsOf(i: z.output<typeof streamLoadInput>, pressure: number) {
  const v = i.vessel;
  const wettedAreaM2 = wettedArea(
    v.waterlineM,
    v.hullDraughtM,
    v.displacementKg,
    v.hulls,
    i.waterDensityKgPerM3,
  );
  const alongMps = i.streamMps * Math.abs(Math.cos(i.offBowDeg * RAD));
  const reynolds = (alongMps * v.waterlineM) / i.viscosityM2PerS;
  return {
    formN: pressure * i.formCoefficient * v.immersedBeamM * v.hullDraughtM + 0,
    frictionN: pressure * wettedAreaM2 * frictionCoefficient(reynolds) + 0,
    propellerN: pressure * i.propellerCoefficient * v.propellerAreaM2 + 0,
    wettedAreaM2,
  };
}
