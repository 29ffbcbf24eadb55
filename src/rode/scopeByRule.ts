import * as z from "zod/mini";
import { check } from "../core/check.js";
import { metres, newtonsPerMetre, plain } from "../core/schema.js";
import type { Metres, Newtons } from "../core/units.js";

/** Input of {@link scopeByRule}. */
export const scopeByRuleSchema = z.strictObject({
  /** All chain, or chain and rope. */
  make: z.enum(["chain", "chainAndRope"]),
  /** Greatest depth of the stay, at high water. */
  greatestDepthM: metres({ min: 0, max: 1e4 }),
  /** Height of the bow roller above the water, added to the depth; 0 when left out. Add it in shallow water. */
  bowHeightM: z.optional(metres({ min: 0, max: 100 })),
  /** Another ratio than the rule's own, such as 10 for a gale. */
  ratio: z.optional(plain({ min: 1, max: 100 })),
  /** Weight of the chain in water; with it, all chain, the pull up to which the rule holds is reckoned. */
  weightInWaterNPerM: z.optional(newtonsPerMetre({ above: 0, max: 1e6 })),
});
/** Input of {@link scopeByRule}. */
export type ScopeByRuleInput = z.infer<typeof scopeByRuleSchema>;

/** Length of rode by rule of thumb. */
export interface ScopeByRule {
  /** Length to veer, from the bow roller. */
  lengthM: Metres;
  /** Length over greatest depth, bow height included where it was given. */
  ratio: number;
  /** Where the rule comes from. */
  basis: string;
  /**
   * Greatest horizontal pull at which this length of chain still leads along a flat bed at the
   * anchor; null with rope, or where the weight of the chain was not given.
   */
  horizontalPullUpToN: Newtons | null;
  /** Where the rule is known to fail. */
  fails: string[];
}

const RULE_RATIO = { chain: 4, chainAndRope: 6 } as const;

const FAILS = [
  "strong wind: the ratio needed grows with the pull, the rule does not know it",
  "shallow water: the ratio needed grows as the depth falls, the rule gives too little",
  "deep water: the ratio needed falls, the rule gives more than the pull asks for",
];

/**
 * The length of rode by rule of thumb: four times the greatest depth for chain, six times for
 * chain and rope.
 *
 * A fixed ratio knows neither the pull nor the weight of the rode. For chain on a flat bed the ratio
 * needed for a horizontal pull H is sqrt(1 + 2 H / (w h)), w being the weight per metre and h the
 * height of the bow above the bed: it grows with the pull and falls with the depth. Lay the rode to
 * the pull with `rodeForLoad` and take the longer.
 *
 * *Valid*: moderate weather; see `fails`.
 * *Accuracy*: the rule exactly; as seamanship it is a starting point.
 *
 * @throws InputError for bad figures.
 * @source Common practice, no source, for 4 and 6 times; textbook catenary for the pull
 * @example
 * ```ts
 * import { scopeByRule } from "hawse/rode";
 *
 * console.log(scopeByRule({ make: "chain", greatestDepthM: 7 }).lengthM);
 * // 28
 * ```
 */
export function scopeByRule(input: ScopeByRuleInput): ScopeByRule {
  return scopeByRuleUnchecked(check(scopeByRuleSchema, input));
}

/** {@link scopeByRule} for input that has been checked. */
export function scopeByRuleUnchecked(input: ScopeByRuleInput): ScopeByRule {
  const heightM = input.greatestDepthM + (input.bowHeightM ?? 0);
  const ratio = input.ratio ?? RULE_RATIO[input.make];
  const w = input.make === "chain" ? input.weightInWaterNPerM : undefined;
  return {
    lengthM: ratio * heightM,
    ratio,
    basis:
      input.ratio === undefined
        ? `common practice, no source: ${ratio} x the greatest depth for ${input.make === "chain" ? "all chain" : "chain and rope"}`
        : "ratio given by the caller",
    horizontalPullUpToN: w === undefined ? null : (w * heightM * (ratio * ratio - 1)) / 2,
    fails: [...FAILS],
  };
}
