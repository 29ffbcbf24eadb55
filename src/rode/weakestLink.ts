import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { newtons, plain, share } from "../core/schema.js";
import type { Newtons } from "../core/units.js";
import { POLYAMIDE_WET_SHARE } from "./tables.js";

/** Input of {@link weakestLink}. */
export const weakestLinkSchema = z.strictObject({
  /** Everything in the line of pull: chain, rope, shackles, swivel, snubber, strong point. */
  parts: z
    .array(
      z.strictObject({
        /** What it is, for the answer. */
        name: z.string(),
        /** Decides the factor and whether wet takes off strength. */
        kind: z.enum(["chain", "polyamide", "rope", "fitting"]),
        /** Breaking load, new and dry. */
        breakingN: newtons({ above: 0 }),
        /** Share of its strength left by wear, age, knots and splices; 1 when left out. */
        conditionShare: z.optional(share({ above: 0, max: 1 })),
        /** Factor between breaking and working load instead of the usual one. */
        factor: z.optional(plain({ min: 1, max: 100 })),
      }),
    )
    .check(z.minLength(1), z.maxLength(100)),
  /** Greatest tension expected, to be held against the weakest part. */
  tensionN: z.optional(newtons()),
});
/** Input of {@link weakestLink}. */
export type WeakestLinkInput = Given<typeof weakestLinkSchema>;

/** One part's strength. */
export interface PartStrength {
  /** What it is. */
  name: string;
  /** Breaking load as it is: condition and wet taken off. */
  breakingN: Newtons;
  /** Breaking load over the factor. */
  workingN: Newtons;
  /** Factor used. */
  factor: number;
  /** Where the factor comes from. */
  basis: string;
}

/** The strength of the whole line of pull. */
export interface WeakestLink {
  /** The part with the least working load. */
  weakest: PartStrength;
  /** The part that breaks first; not always the one with the least working load. */
  breaksFirst: PartStrength;
  /** All parts, in the order given. */
  parts: PartStrength[];
  /** Expected tension over the least working load; null where none was given. More than 1 is too much. */
  useOfWorking: number | null;
  /** Expected tension over the least breaking load; null where none was given. */
  useOfBreaking: number | null;
}

const NAVAL = "UFC 4-159-03 Table 3-7";
const FACTORS = {
  chain: {
    factor: 4,
    wet: 1,
    basis: `${NAVAL}: chain round a bend; a quarter of the breaking load is also the chain makers' working load`,
  },
  polyamide: { factor: 3, wet: POLYAMIDE_WET_SHARE, basis: `${NAVAL}; 15 % off for wet` },
  rope: { factor: 3, wet: 1, basis: NAVAL },
  fitting: {
    factor: 4,
    wet: 1,
    basis: "common practice, no source: as the chain it joins",
  },
} as const;

/**
 * Which part of the ground tackle gives way first, by working load and by breaking load.
 *
 * Each part's breaking load, less what condition and wet cost, over its factor. Left out: chafe,
 * side load on shackles, shock: give the greatest tension of a surge, not the steady one.
 *
 * *Valid*: straight pull. *Accuracy*: no better than the condition shares given; weathered polyamide
 * 10 to 12 years old was found with 25 to 51 % of its strength.
 *
 * @throws InputError for bad figures.
 * @source UFC 4-159-03 Design: Moorings, Table 3-7 (factors, wet polyamide)
 * @example
 * ```ts
 * import { weakestLink } from "hawse/rode";
 *
 * const link = weakestLink({
 *   parts: [
 *     { name: "chain", kind: "chain", breakingN: 50000 },
 *     { name: "snubber", kind: "polyamide", breakingN: 25200 },
 *   ],
 *   tensionN: 5000,
 * });
 * console.log(link.weakest.name, link.weakest.workingN.toFixed(0));
 * // snubber 7140
 * ```
 */
export function weakestLink(input: WeakestLinkInput): WeakestLink {
  const { parts, tensionN } = check(weakestLinkSchema, input);
  const rated = parts.map((part): PartStrength => {
    const usual = FACTORS[part.kind];
    const breakingN = part.breakingN * usual.wet * (part.conditionShare ?? 1);
    const factor = part.factor ?? usual.factor;
    return {
      name: part.name,
      breakingN,
      workingN: breakingN / factor,
      factor,
      basis: part.factor === undefined ? usual.basis : "factor given by the caller",
    };
  });
  const least = (key: "workingN" | "breakingN") =>
    rated.reduce((a, b) => (b[key] < a[key] ? b : a));
  const weakest = least("workingN");
  const breaksFirst = least("breakingN");
  const use = (limitN: number) =>
    tensionN === undefined || !(limitN > 0) ? null : tensionN / limitN;
  return {
    weakest,
    breaksFirst,
    parts: rated,
    useOfWorking: use(weakest.workingN),
    useOfBreaking: use(breaksFirst.breakingN),
  };
}
