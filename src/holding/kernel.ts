import { GRAVITY_MPS2 } from "../core/constants.js";
import { NAVAL_MASS_KG, TEST_MASS_KG } from "./tables.js";
import { exp, log } from "../core/elementary.js";

/** Holding by the power law of mass, in the unit of the reference holding (UFC 4-159-03, Eq. 26). */
export const holdingByMass = (
  referenceHolding: number,
  massKg: number,
  exponent: number,
  referenceMassKg: number = NAVAL_MASS_KG,
): number => referenceHolding * exp(exponent * log(massKg / referenceMassKg));

/** Holding of a small anchor, N, from holding over weight at the test mass. */
export const smallHoldingN = (ratio: number, massKg: number, exponent: number): number =>
  holdingByMass(ratio * GRAVITY_MPS2 * TEST_MASS_KG, massKg, exponent, TEST_MASS_KG);

/** Holding of an anchor with chain lying on the bed, in the unit of the masses: P = Wa la + Wc l lc. */
export const holdingWithChain = (
  anchorMass: number,
  anchorCoefficient: number,
  chainMassPerM: number,
  lengthOnBedM: number,
  chainCoefficient: number,
): number => anchorMass * anchorCoefficient + chainMassPerM * lengthOnBedM * chainCoefficient;
