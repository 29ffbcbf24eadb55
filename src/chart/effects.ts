import type { ChartFeature } from "./chart.js";
import { listOf, textOf } from "./attributes.js";
import { meaningOf } from "./codes.js";
import type { AnchoringPolicy, Effect } from "./policy.js";

/** One thing about a feature that bears on anchoring. */
export interface Finding {
  effect: Effect;
  /** Attribute that decides; null where the class does. */
  attribute: string | null;
  /** Its code, or the class acronym. */
  code: string;
  /** What the code means. */
  meaning: string;
  /** The rule behind the effect. */
  basis: string;
  /** How far round the feature the effect reaches. */
  marginM: number;
}

const RANK: Readonly<Record<Effect, number>> = {
  prohibited: 5,
  restricted: 4,
  unwise: 3,
  unknown: 2,
  caution: 1,
  none: 0,
};
/** Which of two effects weighs more. */
export const weighs = (effect: Effect): number => RANK[effect];

const POLICY = "anchoring policy";

/** Findings from the listed values of a feature. */
function byCodes(feature: ChartFeature, policy: AnchoringPolicy): Finding[] {
  const { attributes } = feature;
  const restricted = textOf(attributes["RESTRN"]) !== null;
  const out: Finding[] = [];
  const names = new Set([
    ...Object.keys(policy.codes),
    "RESTRN",
    ...Object.keys(policy.codesWithoutRestriction),
  ]);
  for (const attribute of names)
    for (const entry of listOf(attributes[attribute])) {
      const code = String(Number(entry));
      const effect =
        (restricted
          ? undefined
          : policy.codesWithoutRestriction[attribute]?.[code]) ??
        policy.codes[attribute]?.[code] ??
        (attribute === "RESTRN" ? policy.unlistedRestriction : "none");
      out.push({
        effect,
        attribute,
        code: entry,
        meaning:
          meaningOf(attribute, Number(entry)) ??
          "a code that is in no list here",
        basis: `${POLICY}: ${attribute} ${entry}`,
        marginM: 0,
      });
    }
  return out;
}

/** A class with its own effect: of restricted areas it counts only where nothing is coded. */
function byClass(feature: ChartFeature, policy: AnchoringPolicy): Finding[] {
  const row = policy.classes[feature.acronym];
  if (row === undefined) return [];
  const coded = ["RESTRN", "CATREA"].some(
    (a) => textOf(feature.attributes[a]) !== null,
  );
  if (feature.acronym === "RESARE" && coded) return [];
  return [
    {
      effect: row.effect,
      attribute: null,
      code: feature.acronym,
      meaning: row.basis,
      basis: row.basis,
      marginM: row.marginM,
    },
  ];
}

/** Everything about a feature that bears on anchoring, the weightiest first. */
export function findingsOf(
  feature: ChartFeature,
  policy: AnchoringPolicy,
): Finding[] {
  const margin = policy.classes[feature.acronym]?.marginM ?? 0;
  return [...byCodes(feature, policy), ...byClass(feature, policy)]
    .filter((f) => f.effect !== "none")
    .map((f) => ({ ...f, marginM: margin }))
    .sort((a, b) => weighs(b.effect) - weighs(a.effect));
}
