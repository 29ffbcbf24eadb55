import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { GRAVITY_MPS2, SEA_WATER_KG_PER_M3, STANDARD_PRESSURE_HPA } from "../core/constants.js";
import type { Range3 } from "../core/judgement.js";
import { hectopascals } from "../core/schema.js";
import type { Metres } from "../core/units.js";

/** Pressure of the air and what it is counted from. */
export const pressureSurgeInput = z.strictObject({
  /** Pressure of the air at sea level. */
  pressureHpa: hectopascals(),
  /** Mean pressure the predictions contain: that of the place and season where it is known. Default 1013.25. */
  meanHpa: z._default(hectopascals(), STANDARD_PRESSURE_HPA),
});
/** Pressure of the air and what it is counted from. */
export type PressureSurgeInput = Given<typeof pressureSurgeInput>;

/** Change of level by the pressure of the air. */
export interface PressureSurge {
  /** Change of level once the sea has answered; negative under high pressure, the unsafe side for depth. */
  surgeM: Metres;
  /**
   * The same as a spread to reckon with: from no answer of the sea yet to the full one, so that the low end is the
   * unsafe one under high pressure and no help is counted on under low pressure.
   */
  spreadM: Range3<Metres>;
  /** Rule it rests on. */
  basis: string;
}

/**
 * Change of level of the sea under high or low pressure of the air.
 *
 * The weight of the air is balanced by the height of the water: about one centimetre a hectopascal. Wind set-up,
 * resonance and the time the sea takes to answer are left out, so the change may come late or not at all.
 *
 * *Valid*: open water, slow weather; in practice seldom more than 0.3 m by pressure alone.
 *
 * *Accuracy*: within 1 cm of the published figures for 950 and 1050 hPa.
 *
 * @throws InputError when a pressure is not one the air can have.
 * @source SMHI, Air pressure and sea level; Bureau of Meteorology, About tide predictions, section 2
 * @example
 * ```ts
 * import { pressureSurge } from "hawse/tide";
 *
 * console.log(pressureSurge({ pressureHpa: 1040 }).surgeM.toFixed(2));
 * // -0.27
 * ```
 */
export function pressureSurge(input: PressureSurgeInput): PressureSurge {
  const { pressureHpa, meanHpa } = check(pressureSurgeInput, input);
  const surgeM = ((meanHpa - pressureHpa) * 100) / (SEA_WATER_KG_PER_M3 * GRAVITY_MPS2);
  return {
    surgeM,
    spreadM: {
      low: Math.min(0, surgeM),
      likely: surgeM,
      high: Math.max(0, surgeM),
    },
    basis: "balance of air pressure and weight of sea water",
  };
}
