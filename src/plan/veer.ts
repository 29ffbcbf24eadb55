import type { Metres, Milliseconds, Newtons } from "../core/units.js";
import { riseOf, rodeForLoadUnchecked } from "../rode/rodeForLoad.js";
import { scopeByRuleUnchecked } from "../rode/scopeByRule.js";
import { chainAboard, segmentsOf, snubberOf, totalLength } from "./gear.js";
import type { CheckedStay } from "./input.js";

/** How much rode to veer, and why. */
export interface RodePlan {
  /** Length to have out over the stay, from the bow roller; the length given, where it was given. */
  lengthOutM: Metres;
  /** Whether the caller gave that length. */
  given: boolean;
  /** Length to veer beyond what is out; 0 where enough is out. */
  toVeerM: Metres;
  /** Length by rule of thumb for the greatest depth of the stay. */
  byRuleM: Metres;
  /** Its ratio to depth and bow height together. */
  ruleRatio: number;
  /** Length for the pull to lead along the bottom in the worst gust; null where the wind is not known. */
  forPullM: Metres | null;
  /** The pull that length is for. */
  forPullN: Newtons | null;
  /** When that pull comes. */
  forPullAtMs: Milliseconds | null;
  /** Rode aboard. */
  aboardM: Metres;
  /** Whether what is aboard is as long as both rules ask; not where the pull is not known throughout. */
  enough: boolean;
  /** Greatest depth of the stay with surge and error on the high side, and the bow's height above the water. */
  greatestHeightM: Metres;
  /** Length to run out before the anchor touches, then pay out going slowly astern: the depth at letting go; null where that is not known, or there is no water then. */
  firstLengthM: Metres | null;
  /** What was laid down for these figures. */
  basis: string[];
}

/** Pulls to be met, one a moment: height of the bow above the bed and horizontal pull. */
export interface Demand {
  timeMs: readonly number[];
  heightM: ArrayLike<number>;
  pullN: ArrayLike<number>;
}

/** Height that a length may miss before a longer one is worked out, m: the rounding of the last search. */
const ROUNDING_M = 1e-9;

interface Longest {
  lengthM: Metres;
  pullN: Newtons;
  timeMs: Milliseconds;
}

/** The longest rode that any moment asks for: from the moment that should ask for most, every other is held against it. */
function longestForPull(input: CheckedStay, demand: Demand): Longest | null {
  const snubber = snubberOf(input.tackle);
  const segments = segmentsOf(input.tackle.rode);
  const weight = segments[0]!.weightInWaterNPerM;
  const rode = {
    segments: snubber === null ? segments : [...segments, snubber],
    wholeAtBow: snubber === null ? 0 : 1,
  };
  const asks = demand.timeMs
    .map((timeMs, i) => ({ timeMs, h: demand.heightM[i]!, pullN: demand.pullN[i]! }))
    .filter((m) => m.h > 0 && m.pullN >= 0);
  const byChain = asks.map((m) => m.h * (m.h + (2 * m.pullN) / weight));
  const first = asks[indexOfGreatest(byChain)];
  if (first === undefined) return null;
  const longestOf = ({ timeMs, h, pullN }: (typeof asks)[number]) => {
    const asked = { ...rode, bowHeightAboveAnchorM: h };
    const { lengthM } = rodeForLoadUnchecked({ ...asked, horizontalLoadN: pullN });
    const snubberM = snubber?.lengthM ?? 0;
    return { longest: { lengthM, pullN, timeMs }, rise: riseOf(asked, lengthM - snubberM) };
  };
  let found = longestOf(first);
  for (const ask of asks)
    if (!(found.rise(ask.pullN) >= ask.h - ROUNDING_M)) found = longestOf(ask);
  return found.longest;
}

const indexOfGreatest = (values: readonly number[]): number => values.indexOf(Math.max(...values));

/** Shortest rode a metre can be rounded up to without asking for one that is not there. */
const upToMetre = (lengthM: number, mostM: number): number =>
  Math.min(mostM, Math.ceil(lengthM - 1e-9));

/** Chain this many times the height of the bow counts as chain; less is a leader before rope. */
const CHAIN_COUNTS = 2;

/**
 * Length by rule of thumb: 4 times for chain, 6 times for chain and rope. Where the chain is long but not long
 * enough, it counts at 4 and the rope beyond it at 6.
 */
function byRule(input: CheckedStay, depthM: number, bowHeightM: number) {
  const ruled = (make: "chain" | "chainAndRope") =>
    scopeByRuleUnchecked({ make, greatestDepthM: Math.max(0, depthM), bowHeightM });
  const chain = ruled("chain");
  const chainM = chainAboard(input.tackle.rode);
  if (!(chainM < chain.lengthM)) return chain;
  const rope = ruled("chainAndRope");
  const heightM = chain.lengthM / chain.ratio;
  if (!(chainM >= CHAIN_COUNTS * heightM)) return rope;
  const lengthM = chainM + rope.ratio * (heightM - chainM / chain.ratio);
  return {
    ...rope,
    lengthM,
    ratio: lengthM / heightM,
    basis: `${chain.basis}; rope beyond the chain at ${rope.ratio} times`,
  };
}

/** Rode to veer for the greatest depth and the greatest pull of a stay, by rule and by catenary side by side. */
export function rodePlan(
  input: CheckedStay,
  bowHeightM: number,
  greatestDepthM: number,
  firstDepthM: number | null,
  demand: Demand,
): RodePlan {
  const given = input.tackle.lengthOutM;
  const aboardM = totalLength(input.tackle.rode);
  const heightM = greatestDepthM + bowHeightM;
  const known = heightM > 0;
  const rule = byRule(input, greatestDepthM, bowHeightM);
  const pull = longestForPull(input, demand);
  const wantedM = Math.max(rule.lengthM, pull?.lengthM ?? 0);
  const out = known ? upToMetre(wantedM, aboardM) : aboardM;
  return {
    lengthOutM: given ?? out,
    given: given !== undefined,
    toVeerM: known ? Math.max(0, out - (given ?? 0)) : 0,
    byRuleM: known ? rule.lengthM : 0,
    ruleRatio: rule.ratio,
    forPullM: pull?.lengthM ?? null,
    forPullN: pull?.pullN ?? null,
    forPullAtMs: pull?.timeMs ?? null,
    aboardM,
    enough:
      known && pull !== null && Array.from(demand.pullN).every((n) => n >= 0) && wantedM <= aboardM,
    greatestHeightM: known ? heightM : 0,
    firstLengthM: firstDepthM !== null && firstDepthM > 0 ? firstDepthM : null,
    basis: [
      rule.basis,
      "elastic catenary: the pull leads along the bottom at the anchor in the gust, yawing included",
    ],
  };
}
