import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { RAD } from "../core/angles.js";
import { check } from "../core/check.js";
import { bracketedRoot } from "../core/roots.js";
import { degrees } from "../core/schema.js";
import type { Metres } from "../core/units.js";
import { checkWeights, lengthOf, load, rodeFields, type Rode } from "./input.js";
import { COLUMNS, HEIGHT, place } from "./kernel.js";
import { layRodeUnchecked, type RodeLie } from "./layRode.js";
import { TOTAL_N } from "./places.js";
import { prepareRode } from "./prepare.js";
import { scopeByRuleUnchecked, type ScopeByRule } from "./scopeByRule.js";

/** Input of {@link rodeForLoad}. */
export const rodeForLoadSchema = z.strictObject({
  ...rodeFields,
  /** Horizontal pull of the boat on the bow. */
  horizontalLoadN: load(),
  /** Greatest angle of the pull on the anchor above the bed; 0 when left out: the rode just leads along the bed. */
  pullAngleLimitDeg: z.optional(degrees({ min: 0, max: 30 })),
  /** Number of segments at the bow end, such as a snubber, that are used whole; 0 when left out. */
  wholeAtBow: z.optional(z.int().check(z.gte(0), z.lte(10))),
});
/** Input of {@link rodeForLoad}. */
export type RodeForLoadInput = Given<typeof rodeForLoadSchema>;

/** The rode to veer, and how it then lies. */
export interface RodeForLoad extends RodeLie {
  /** Length over the height of the bow above the bed at the anchor. */
  ratio: number;
  /** Length of all segments as given. */
  carriedM: Metres;
  /** Whether the segments as given are long enough; where not, the last one that veers is taken as longer than it is. */
  enough: boolean;
  /** The rule of thumb for the same height, for comparison. */
  byRule: ScopeByRule;
  /** How much the rule of thumb falls short of the length needed; negative where it gives more. */
  ruleShortByM: Metres;
}

/**
 * The length of rode to veer so that a given pull reaches the anchor along the bed, or no steeper
 * than a limit.
 *
 * The rode is veered from the anchor on: the first metres of the segments as listed. The model is
 * that of {@link layRode}. The rule of thumb stands beside the answer with what it falls short.
 *
 * *Valid* and *Accuracy*: as {@link layRode}. Bed friction does not shorten the answer: none of the
 * rode lies on the bed when it just leads along it.
 *
 * @throws InputError as {@link layRode}.
 * @source L = sqrt(h² + 2 h H / w) for one inextensible chain (textbook); here with stretch and any segments
 * @example
 * ```ts
 * import { chain, rodeForLoad } from "hawse/rode";
 *
 * const veer = rodeForLoad({
 *   segments: [{ ...chain(10), lengthM: 60 }],
 *   bowHeightAboveAnchorM: 5,
 *   horizontalLoadN: 4000,
 * });
 * console.log(veer.lengthM.toFixed(1), veer.enough, veer.ruleShortByM.toFixed(1));
 * // 45.9 true 25.9
 * ```
 */
export function rodeForLoad(input: RodeForLoadInput): RodeForLoad {
  const rode = check(rodeForLoadSchema, input);
  checkWeights(rode);
  return rodeForLoadUnchecked(rode);
}

/** {@link rodeForLoad} for input that has been checked. */
export function rodeForLoadUnchecked(rode: z.output<typeof rodeForLoadSchema>): RodeForLoad {
  const { wholeAtBow = 0 } = rode;
  const heightM = rode.bowHeightAboveAnchorM;
  const over = (veeredM: number) => riseOf(rode, veeredM)(rode.horizontalLoadN) - heightM;
  const least = 1e-6;
  let most = Math.max(heightM, 1);
  while (over(most) < 0 && most < 1e9) most *= 2;
  const veeredM = over(least) >= 0 ? least : bracketedRoot(over, least, most);
  const lie = layRodeUnchecked({
    ...rode,
    ...veered(rode, veeredM, wholeAtBow),
  });
  const carriedM = lengthOf(rode);
  const byRule = scopeByRuleUnchecked({
    make: rode.segments.some((s) => s.kind === "rope") ? "chainAndRope" : "chain",
    greatestDepthM: heightM,
  });
  return {
    ...lie,
    ratio: heightM > 0 ? lie.lengthM / heightM : 0,
    carriedM,
    enough: lie.lengthM <= carriedM,
    byRule,
    ruleShortByM: lie.lengthM - byRule.lengthM,
  };
}

/**
 * The height that the rode with `veeredM` out spans under a load while its pull just reaches the anchor
 * at the limit: it is long enough for every height up to that.
 */
export function riseOf(
  rode: Rode & Pick<z.output<typeof rodeForLoadSchema>, "pullAngleLimitDeg" | "wholeAtBow">,
  veeredM: number,
): (loadN: number) => Metres {
  const p = prepareRode({ ...rode, ...veered(rode, veeredM, rode.wholeAtBow ?? 0) });
  const out = new Float64Array(COLUMNS);
  const lead = Math.tan(((rode.seabedSlopeDeg ?? 0) + (rode.pullAngleLimitDeg ?? 0)) * RAD);
  return (loadN) => {
    place(p, loadN, loadN * lead + p[TOTAL_N]!, out);
    return out[HEIGHT]!;
  };
}

/** The rode with `veeredM` out, and what stays whole at the bow. */
function veered(
  rode: Rode,
  veeredM: number,
  wholeAtBow: number,
): Pick<Rode, "segments" | "weights"> {
  const last = Math.max(0, rode.segments.length - 1 - wholeAtBow);
  const segments = [];
  let left = veeredM;
  for (const [i, s] of rode.segments.entries()) {
    if (i > last) segments.push(s);
    else if (left > 0) {
      const lengthM = i === last ? left : Math.min(left, s.lengthM);
      segments.push({ ...s, lengthM });
      left -= lengthM;
    }
  }
  return {
    segments,
    weights: rode.weights?.filter((w) => w.fromAnchorM < veeredM),
  };
}
