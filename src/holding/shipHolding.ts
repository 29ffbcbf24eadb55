import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { GRAVITY_MPS2 } from "../core/constants.js";
import type { Source } from "../core/judgement.js";
import { kilograms, metres, plain } from "../core/schema.js";
import type { Newtons } from "../core/units.js";
import { holdingWithChain } from "./kernel.js";

export const shipHoldingInput = z.strictObject({
  /** Mass of the anchor. */
  anchorMassKg: kilograms(),
  /** Holding of the anchor over its weight. */
  anchorCoefficient: plain({ min: 0, max: 100 }),
  /** Mass of the chain by length. */
  chainMassKgPerM: plain({ min: 0 }),
  /** Length of chain lying on the bed. */
  lengthOnBedM: metres({ min: 0 }),
  /** Holding of the chain over its weight; 0.75 unless given. */
  chainCoefficient: z._default(plain({ min: 0, max: 5 }), 0.75),
});

/**
 * Holding of an anchor together with the chain lying on the bed, by the ships' formula.
 *
 * Weight of anchor and of chain on the bed, each times a coefficient. Leaves out the bed, which is in the
 * coefficients; a yacht should not count on her chain's friction.
 *
 * *Valid*: ships on chain. *Accuracy*: the coefficients'.
 *
 * @throws InputError when a figure is missing, out of range or unknown.
 * @source Onboard training handout, anchoring: P = Wa la + Wc l lc, chain coefficient 0.75
 * @example
 * ```ts
 * import { shipHolding } from "hawse";
 * const { holdingN } = shipHolding({ anchorMassKg: 3000, anchorCoefficient: 3, chainMassKgPerM: 60, lengthOnBedM: 80 });
 * console.log(Math.round(holdingN));
 * // 123564
 * ```
 */
export function shipHolding(input: Given<typeof shipHoldingInput>): {
  /** Holding, N. */
  holdingN: Newtons;
  /** The formula and its source. */
  basis: Source;
} {
  const i = check(shipHoldingInput, input);
  return {
    holdingN:
      GRAVITY_MPS2 *
      holdingWithChain(
        i.anchorMassKg,
        i.anchorCoefficient,
        i.chainMassKgPerM,
        i.lengthOnBedM,
        i.chainCoefficient,
      ),
    basis: {
      title: "Onboard training handout, anchoring: P = Wa la + Wc l lc",
      where: "pp. 1-2",
      provenance: "read",
    },
  };
}
