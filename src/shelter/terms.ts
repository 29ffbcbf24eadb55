import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { plain, metres, speed } from "../core/schema.js";
import type { MetresPerSecond } from "../core/units.js";
import {
  BEAUFORT,
  type BeaufortRow,
  type NamedSpan,
  SEA_STATE,
  SWELL_HEIGHT,
  SWELL_LENGTH,
} from "./tables.js";

/** Input of {@link windForce}. */
export const windForceInput = z.strictObject({
  /** Mean wind at 10 m. */
  windMps: speed(),
});
/** Input of {@link seaState}. */
export const seaStateInput = z.strictObject({
  /** Significant wave height. */
  heightM: metres({ min: 0 }),
});
/** Input of {@link swellTerms}. */
export const swellTermsInput = z.strictObject({
  /** Height of the swell. */
  heightM: metres({ min: 0 }),
  /** Length from crest to crest. */
  lengthM: metres({ above: 0 }),
});

/** Input of {@link windForce}. */
export type WindForceInput = Given<typeof windForceInput>;
/** Input of {@link seaState}. */
export type SeaStateInput = Given<typeof seaStateInput>;
/** Input of {@link swellTerms}. */
export type SwellTermsInput = Given<typeof swellTermsInput>;

/** The table prints bounds to a tenth of a metre a second; half of that lies between two forces. */
const HALF_DIGIT_MPS = 0.05;

/**
 * Force of a wind on the Beaufort scale, with its name and the sea it raises in the open.
 *
 * The printed bounds to a tenth of a metre a second; a wind between two printed bounds goes to the nearer. The
 * wave heights are those of a well-developed sea far from land and say nothing of sheltered water.
 *
 * *Valid* for a mean wind at 10 m. *Accuracy*: the table itself.
 *
 * @throws InputError for a wind that is negative.
 * @source WMO-No. 306, code table 1100; WMO probable wave heights
 * @example
 * ```ts
 * import { windForce } from "hawse/shelter";
 *
 * const { force, name } = windForce({ windMps: 9.3 });
 * console.log(force, name);
 * // 5 fresh breeze
 * ```
 */
export function windForce(input: WindForceInput): BeaufortRow {
  const { windMps } = check(windForceInput, input);
  let row = BEAUFORT[0]!;
  for (const next of BEAUFORT) if (windMps >= next.minMps - HALF_DIGIT_MPS) row = next;
  return { ...row };
}

const forceSchema = plain({ min: 0, max: 17 });

/**
 * Mean wind of a force by the scale's formula, 0.836 B^1.5 m/s (WMO, from memory).
 *
 * @throws InputError for a force that is none.
 */
export function meanWindOfForce(force: number): MetresPerSecond {
  const b = check(forceSchema, force);
  return 0.836 * b * Math.sqrt(b);
}

const spanOf = (rows: readonly NamedSpan[], value: number): number =>
  rows.findIndex((row) => row.max === null || value <= row.max);

/** State of sea as the code table names it. */
export interface SeaState extends NamedSpan {
  /** Code figure, 0 to 9. */
  code: number;
}

/**
 * State of sea by the code table, from a significant height.
 *
 * A height on a bound belongs to the lower code. *Valid* in open water. *Accuracy*: the table itself.
 *
 * @throws InputError for a height that is negative.
 * @source WMO code table 3700
 * @example
 * ```ts
 * import { seaState } from "hawse/shelter";
 *
 * console.log(seaState({ heightM: 4 }).name);
 * // rough
 * ```
 */
export function seaState(input: SeaStateInput): SeaState {
  const code = spanOf(SEA_STATE, check(seaStateInput, input).heightM);
  return { code, ...SEA_STATE[code]! };
}

/**
 * Words for a swell by its height and length.
 *
 * A figure on a bound belongs to the lower class. *Valid* in open water. *Accuracy*: the terms themselves.
 *
 * @throws InputError for a height or length that is not one.
 * @source WMO, terms for swell
 * @example
 * ```ts
 * import { swellTerms } from "hawse/shelter";
 *
 * const { height, length } = swellTerms({ heightM: 1.5, lengthM: 150 });
 * console.log(height.name, length.name);
 * // low average
 * ```
 */
export function swellTerms(input: SwellTermsInput): {
  height: NamedSpan;
  length: NamedSpan;
} {
  const { heightM, lengthM } = check(swellTermsInput, input);
  return {
    height: { ...SWELL_HEIGHT[spanOf(SWELL_HEIGHT, heightM)]! },
    length: { ...SWELL_LENGTH[spanOf(SWELL_LENGTH, lengthM)]! },
  };
}
