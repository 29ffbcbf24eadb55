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

/** Attributes whose listed values a policy weighs. */
export const weighedBy = (policy: AnchoringPolicy): string[] => [
  ...new Set([
    "RESTRN",
    ...Object.keys(policy.codes),
    ...Object.keys(policy.codesWithoutRestriction),
  ]),
];

/** Whether anything about a feature may bear on anchoring. */
export const mayBear = (
  { acronym, attributes }: ChartFeature,
  policy: AnchoringPolicy,
  weighed: readonly string[],
): boolean =>
  policy.classes[acronym] !== undefined ||
  weighed.some((attribute) => attributes[attribute] !== undefined);

/** Effect that a policy gives a listed value; undefined where it has none. */
function effectOf(
  { attributes }: ChartFeature,
  { codes, codesWithoutRestriction }: AnchoringPolicy,
  attribute: string,
  code: string,
): Effect | undefined {
  const alone =
    textOf(attributes["RESTRN"]) === null ? codesWithoutRestriction[attribute]?.[code] : undefined;
  return alone ?? codes[attribute]?.[code];
}

/** Findings from the listed values of a feature, those of no effect among them. */
function byCodes(feature: ChartFeature, policy: AnchoringPolicy): Finding[] {
  return weighedBy(policy).flatMap((attribute) =>
    listOf(feature.attributes[attribute]).flatMap((entry) => {
      const effect =
        effectOf(feature, policy, attribute, String(Number(entry))) ??
        (attribute === "RESTRN" ? policy.unlistedRestriction : undefined);
      const finding = {
        attribute,
        code: entry,
        meaning: meaningOf(attribute, Number(entry)) ?? "a code that is in no list here",
        basis: `anchoring policy: ${attribute} ${entry}`,
      };
      return effect === undefined ? [] : [{ ...finding, effect }];
    }),
  );
}

/**
 * Everything about a feature that bears on anchoring, the weightiest first. A restricted area has
 * an effect as a class only where no code of it has one.
 */
export function findingsOf(feature: ChartFeature, policy: AnchoringPolicy): Finding[] {
  const findings = byCodes(feature, policy);
  const row = policy.classes[feature.acronym];
  if (row !== undefined && !(feature.acronym === "RESARE" && findings.length > 0))
    findings.push({
      effect: row.effect,
      attribute: null,
      code: feature.acronym,
      meaning: row.basis,
      basis: row.basis,
    });
  return findings
    .filter((f) => f.effect !== "none")
    .sort((a, b) => weighs(b.effect) - weighs(a.effect));
}
