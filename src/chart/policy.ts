import * as z from "zod/mini";
import { metres } from "../core/schema.js";

/** What a chart object means for anchoring. */
export const EFFECTS = [
  "prohibited",
  "restricted",
  "unwise",
  "unknown",
  "caution",
  "none",
] as const;
/** What a chart object means for anchoring; `caution` is told but changes no verdict. */
export type Effect = (typeof EFFECTS)[number];
const effect = z.enum(EFFECTS);

const byCode = z.record(z.string(), effect);

/** Schema of an {@link AnchoringPolicy}. */
export const policySchema = z.strictObject({
  /** Effect of a listed value, by attribute and code: `codes.RESTRN["1"]`. */
  codes: z.record(z.string(), byCode),
  /** Effect of a listed value on features that carry no RESTRN, over `codes`. */
  codesWithoutRestriction: z.record(z.string(), byCode),
  /** Effect of a RESTRN code that `codes` does not have. */
  unlistedRestriction: effect,
  /** Effect of a class whatever its codes say, by acronym. */
  classes: z.record(
    z.string(),
    z.strictObject({
      /** Effect of being in it, or within the margin of it. */
      effect,
      /** How far round it the effect reaches. */
      marginM: metres({ min: 0, max: 5000 }),
      /** The rule behind it. */
      basis: z.string(),
    }),
  ),
});

/** What chart objects mean for anchoring: a judgement of this library, yours to change. */
export type AnchoringPolicy = z.infer<typeof policySchema>;

const JUDGEMENT = "this library's judgement, no standard sets it";
const RULE_9 = "COLREGS rule 9(g), from memory: avoid anchoring in a narrow channel";
const RULE_10 =
  "COLREGS rule 10(g), from memory: avoid anchoring in a traffic separation scheme or near its ends";
const SNAG = "may foul the anchor (common practice, no source)";
/** Half a cable. */
const HALF_CABLE_M = 92.6;

const rows = (
  classes: string,
  rowEffect: Effect,
  marginM: number,
  basis: string,
): [string, AnchoringPolicy["classes"][string]][] =>
  classes.split(" ").map((c) => [c, { effect: rowEffect, marginM, basis }]);

/**
 * The policy used where none is given. RESTRN codes decide first; a class has its own effect
 * besides, whether or not RESTRN is there: cables, pipelines, spoil, fairways and traffic schemes
 * are unwise to anchor in even where nothing forbids it. Round cables and pipelines half a cable
 * counts (for ships a quarter of a mile is common advice), round wrecks and foul ground 50 m.
 */
export const anchoringPolicy: AnchoringPolicy = {
  codes: {
    RESTRN: {
      1: "prohibited",
      7: "prohibited",
      25: "prohibited",
      2: "restricted",
      8: "restricted",
      42: "restricted",
      14: "unwise",
      5: "caution",
      6: "caution",
      11: "caution",
      12: "caution",
      22: "caution",
      24: "caution",
      3: "none",
      4: "none",
      9: "none",
      10: "none",
      13: "none",
      15: "none",
      16: "none",
      17: "none",
      18: "none",
      19: "none",
      20: "none",
      21: "none",
      23: "none",
      26: "none",
      27: "none",
      39: "unwise",
    },
    CATREA: {
      14: "prohibited",
      8: "unwise",
      10: "unwise",
      12: "unwise",
      18: "unwise",
      21: "unwise",
      31: "unwise",
      4: "caution",
      5: "caution",
      6: "caution",
      7: "caution",
      20: "caution",
      22: "caution",
      23: "caution",
      27: "caution",
      28: "caution",
      30: "caution",
      19: "none",
      24: "none",
      25: "none",
      29: "none",
      32: "none",
    },
    CATDPG: { 3: "prohibited", 4: "prohibited", 2: "unwise" },
    CATACH: {
      4: "unwise",
      5: "unwise",
      6: "unwise",
      8: "caution",
      3: "caution",
      9: "caution",
      10: "caution",
    },
    CATMPA: { 5: "unwise" },
    CATOBS: { 6: "unwise", 7: "unwise" },
  },
  codesWithoutRestriction: {
    CATREA: { 1: "prohibited", 9: "restricted" },
  },
  unlistedRestriction: "unknown",
  classes: Object.fromEntries([
    ...rows("CBLARE PIPARE", "unwise", 0, SNAG),
    ...rows("CBLSUB PIPSOL", "unwise", HALF_CABLE_M, SNAG),
    ...rows("WRECKS OBSTRN", "unwise", 50, SNAG),
    ...rows("DMPGRD", "unwise", 0, SNAG),
    ...rows("FAIRWY DRGARE", "unwise", 0, RULE_9),
    ...rows("TSSLPT TSEZNE TSSCRS TSSRON TSELNE TSSBND", "unwise", 0, RULE_10),
    ...rows(
      "DWRTPT DWRTCL TWRTPT RECTRC RCRTCL RCTLPT",
      "unwise",
      0,
      "a route of large vessels (common practice, no source)",
    ),
    ...rows(
      "PRCARE FERYRT ISTZNE MIPARE SUBTLN PILBOP CTSARE OSPARE ICEARE",
      "caution",
      0,
      JUDGEMENT,
    ),
    ...rows(
      "MARCUL FSHFAC LOGPON OILBAR SPLARE MORFAC TUNNEL LOKBSN CANALS GATCON",
      "unwise",
      0,
      JUDGEMENT,
    ),
    ...rows(
      "OFSPLF",
      "unwise",
      500,
      "safety zone of 500 m round an installation: United Nations Convention on the Law of the Sea, article 60(5), from memory",
    ),
    ...rows("UNSARE", "unknown", 0, "not surveyed: nothing is known of depth or dangers"),
    ...rows(
      "LNDARE PONTON HULKES FLODOC BRIDGE",
      "unwise",
      0,
      "no room to lie (common practice, no source)",
    ),
    ...rows("CBLOHD", "caution", 0, "a cable overhead: mind the mast"),
    ...rows("PIPOHD", "caution", 0, "a pipe overhead: mind the mast"),
    ...rows(
      "WEDKLP",
      "caution",
      0,
      "holding is poor in weed; beds of seagrass (CATWED 3) are often protected: IHO S-101 Annex A 2.0.0, clauses 12.2 and 12.3",
    ),
    ...rows("SNDWAV", "caution", 0, "the bed moves: depth and holding change"),
    ...rows("SPRING CTNARE", "caution", 0, JUDGEMENT),
    ...rows("RESARE", "unknown", 0, "a restricted area whose restriction is not coded"),
  ]),
};
