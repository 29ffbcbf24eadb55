import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { RAD } from "../core/angles.js";
import { check } from "../core/check.js";
import { AIR_KG_PER_M3 } from "../core/constants.js";
import type { Range3, Source } from "../core/judgement.js";
import { degrees, metres, plain, speed, squareMetres } from "../core/schema.js";
import type { MetresPerSecond, Newtons } from "../core/units.js";
import { dynamicPressure } from "./kernel.js";
import { GUSTS, ONE_MINUTE, PROFILE_EXPONENT, SHAPES } from "./tables.js";
import { vessel } from "./vessel.js";

const shapes = Object.keys(SHAPES) as (keyof typeof SHAPES)[];

const air = {
  /** Wind speed at the height of the windage. */
  windMps: speed({ max: 90 }),
  /** Density of the air; 1.225 kg/m³ unless given. */
  airDensityKgPerM3: z._default(plain({ min: 0.9, max: 1.5 }), AIR_KG_PER_M3),
};

/** One part of what a vessel shows to the wind. */
const part = z.union([
  z.strictObject({
    /** Area across the wind. */
    areaM2: squareMetres(),
    /** Shape, for its published coefficient. */
    shape: z.enum(shapes),
  }),
  z.strictObject({
    /** Area across the wind. */
    areaM2: squareMetres(),
    /** Drag coefficient. */
    coefficient: plain({ min: 0, max: 4 }),
  }),
]);

export const windLoadInput = z.union([
  z.strictObject({
    ...air,
    /** The vessel. */
    vessel,
    /** Angle of the wind off the bow, either side; 0 is from ahead; from ahead unless given. */
    offBowDeg: z._default(degrees({ min: -180, max: 180 }), 0),
  }),
  z.strictObject({
    ...air,
    /** Parts with their areas, each with a shape or a coefficient. */
    parts: z.array(part).check(z.minLength(1)),
  }),
]);

/** Wind force on a vessel or on parts of one. */
export interface WindLoad {
  /** Pressure of the wind on a unit area with coefficient 1, Pa. */
  pressurePa: number;
  /** Force, N. */
  forceN: Newtons;
  /** Part of the force along the hull, positive aft, N; null for loose parts. */
  aftN: Newtons | null;
  /** Part of the force across the hull, positive with the wind on the starboard side, N; null for loose parts. */
  acrossN: Newtons | null;
  /** Turning moment about the bow, positive turning the bow to starboard, N m; null for loose parts. */
  momentNm: number | null;
  /** The formula and its source. */
  basis: Source;
}

const BASIS: Source = {
  title: "drag law F = 1/2 rho C A V^2",
  where: "ISO 2533 air; coefficients as given",
  provenance: "computed",
};

/**
 * Force of the wind on a vessel at an angle off her bow, or on parts of her.
 *
 * Drag on an area; for a vessel the force along the hull follows the cosine and the force across it the
 * sine of the angle off the bow, so that beam-on the whole side area counts. Leaves out lift, sheltering
 * of one part by another, and gusts (see {@link gusts}).
 *
 * *Valid*: subsonic wind on bluff shapes. *Accuracy*: arithmetic exact; published coefficients within about 30 %.
 *
 * @throws InputError when a figure is missing, out of range or unknown.
 * @source Larsson and Eliasson, Principles of Yacht Design, fig. 9.2 (coefficients of parts)
 * @example
 * ```ts
 * import { knots, windLoad } from "hawse";
 * const load = windLoad({ windMps: knots(30), parts: [{ areaM2: 6, coefficient: 1 }] });
 * console.log(load.forceN.toFixed(0));
 * // 875
 * ```
 */
export const windLoad = (input: Given<typeof windLoadInput>): WindLoad =>
  windForce(check(windLoadInput, input));

/** {@link windLoad} without the check. */
export function windForce(input: z.output<typeof windLoadInput>): WindLoad {
  const pressurePa = dynamicPressure(input.windMps, input.airDensityKgPerM3);
  if ("parts" in input) {
    const area = input.parts.reduce(
      (sum, p) => sum + p.areaM2 * ("shape" in p ? SHAPES[p.shape] : p.coefficient),
      0,
    );
    const none = { aftN: null, acrossN: null, momentNm: null };
    return { pressurePa, forceN: pressurePa * area, ...none, basis: BASIS };
  }
  const v = input.vessel;
  const angle = input.offBowDeg * RAD;
  const aftN = pressurePa * v.windFrontCoefficient * v.windageFrontM2 * Math.cos(angle);
  const acrossN = pressurePa * v.windSideCoefficient * v.windageSideM2 * Math.sin(angle);
  return {
    pressurePa,
    forceN: Math.sqrt(aftN * aftN + acrossN * acrossN),
    // A nothing is a plain 0, never -0, which JSON does not carry.
    aftN: aftN + 0,
    acrossN: acrossN + 0,
    momentNm: acrossN * v.windCentreAftOfBowM + 0,
    basis: BASIS,
  };
}

/** Where a vessel lies, for the gusts to expect there. */
export const exposure = z.enum(["openSea", "nearLand", "underHighLand"]);

export const gustsInput = z.strictObject({
  /** Mean wind over ten minutes. */
  windMps: speed({ max: 90 }),
  /** Open sea, near land, or under high land; the open sea unless given. */
  exposure: z._default(exposure, "openSea"),
});

/** Wind that a mean wind brings with it. */
export interface Gusts {
  /** Gust of 3 to 5 s: low the open sea, likely the place given, high under high land. */
  gustMps: Range3<MetresPerSecond>;
  /** Highest one-minute mean on the open sea, m/s. */
  oneMinuteMps: MetresPerSecond;
  /** Where the factors come from. */
  basis: Source[];
}

/**
 * Gusts that a mean wind brings with it.
 *
 * Published factors over the ten-minute mean: 1.25 on the open sea; 1.4 near land and 1.6 under high land
 * from memory. Leaves out squalls, which no factor gives.
 *
 * *Valid*: means of 10 minutes in settled weather. *Accuracy*: about 10 % on the open sea, unknown elsewhere.
 *
 * @throws InputError when a figure is missing, out of range or unknown.
 * @source Bureau of Meteorology, answer on maximum sustained winds
 * @example
 * ```ts
 * import { gusts } from "hawse";
 * console.log(gusts({ windMps: 20 }).gustMps.likely);
 * // 25
 * ```
 */
export function gusts(input: Given<typeof gustsInput>): Gusts {
  const { windMps, exposure: place } = check(gustsInput, input);
  return {
    gustMps: {
      low: windMps * GUSTS.openSea,
      likely: windMps * GUSTS[place],
      high: windMps * GUSTS.underHighLand,
    },
    oneMinuteMps: windMps * ONE_MINUTE,
    basis: [
      {
        title: "What does maximum sustained winds mean",
        where: "Bureau of Meteorology, answer",
        provenance: "read",
      },
      { title: "factors near and under land", provenance: "memory" },
    ],
  };
}

export const windAtHeightInput = z.strictObject({
  /** Wind at the reference height. */
  windMps: speed({ max: 90 }),
  /** Height asked for, above the water. */
  heightM: metres({ min: 0.5, max: 200 }),
  /** Height the wind is given for; forecasts mean 10 m; 10 m unless given. */
  referenceHeightM: z._default(metres({ min: 0.5, max: 200 }), 10),
});

/**
 * Wind at another height above open water.
 *
 * The 1/7 power law. Leaves out stability of the air and the shore's roughness.
 *
 * *Valid*: 1 to 100 m above open water in a moderate wind or more. *Accuracy*: about 10 %.
 *
 * @throws InputError when a figure is missing, out of range or unknown.
 * @source 1/7 power law, common engineering practice, from memory
 * @example
 * ```ts
 * import { windAtHeight } from "hawse";
 * console.log(windAtHeight({ windMps: 10, heightM: 2 }).windMps.toFixed(2));
 * // 7.95
 * ```
 */
export function windAtHeight(input: Given<typeof windAtHeightInput>): {
  /** Wind at the height asked for, m/s. */
  windMps: MetresPerSecond;
  /** That wind over the wind given. */
  ratio: number;
} {
  const { windMps, heightM, referenceHeightM } = check(windAtHeightInput, input);
  const ratio = Math.exp(PROFILE_EXPONENT * Math.log(heightM / referenceHeightM));
  return { windMps: windMps * ratio, ratio };
}
