import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { toNauticalMiles } from "../core/units.js";
import { agroundLights, anchorShapes, agroundShapes, whiteLights } from "./show.js";
import { soundDue } from "./sound.js";
import { ALL_ROUND, HEIGHT, LENGTH } from "./tables.js";
import type { Choice, Exemption, LightDue, ShapeDue, SignalsDue } from "./types.js";
import { circumstances, lengthOverall, named, situation } from "./vessel.js";

/** Input of `signalsDue`. */
export const input = z.strictObject({
  /** Length overall. */
  lengthM: lengthOverall,
  /** At anchor or aground; a vessel that drags is under way and shows other signals. */
  situation,
  ...circumstances,
  /** Night is sunset to sunrise; `twilight` is the part of it in which shapes can still be seen. */
  period: z.enum(["day", "night", "twilight"]),
  /** In or near fog, rain, snow or the like. */
  restrictedVisibility: z.boolean(),
});
/** Input of {@link signalsDue}. */
export type SignalsDueInput = Given<typeof input>;
/** Input of {@link signalsDue}, checked and with its defaults. */
type CheckedSignals = z.output<typeof input>;

/**
 * Lights, shapes and sound signals owed by a vessel at anchor or aground, each with its rule.
 *
 * The decision table of Rules 20, 22, 30 and 35 with Annex I, and where the inland rules of the
 * United States differ. Leaves out vessels fishing, restricted in their ability to manoeuvre,
 * dredging, clearing mines or on pilotage duty (Rules 26, 27, 29), and rafts: the rules name no
 * difference for more than one anchor.
 *
 * *Valid*: seagoing waters and US inland waters; elsewhere give a `localRule`. Where the text is
 * silent the stricter reading is taken and said in `cautions`.
 * *Accuracy*: the paragraphs as read in public copies; Annex I 2(i) and Inland 35(l) from memory.
 *
 * @throws InputError for a length that is not positive, or an unknown field.
 * @source COLREGS 1972 as amended, Rules 20, 22, 30, 35, Annex I; 33 CFR 83
 * @example
 * ```ts
 * import { signalsDue } from "hawse/signals";
 *
 * const due = signalsDue({
 *   lengthM: 11,
 *   situation: "anchored",
 *   period: "night",
 *   restrictedVisibility: false,
 *   nearTraffic: true,
 * });
 * console.log(due.lights.map((l) => `${l.count} ${l.colour} ${l.rule}`), due.shapes.length);
 * // [ '1 white 30(b)' ] 0
 * ```
 */
export function signalsDue(given: SignalsDueInput): SignalsDue {
  return signalsDueUnchecked(check(input, given));
}

/** {@link signalsDue} for input already checked. */
export function signalsDueUnchecked(c: CheckedSignals): SignalsDue {
  const exemptions = exemptionsOf(c);
  const freed = (what: Exemption["from"][number]) => exemptions.some((e) => e.from.includes(what));
  const lights = freed("lights") && !c.localRule?.lights ? [] : lightsOf(c, freed("redLights"));
  const shapes = freed("shapes") && !c.localRule?.shapes ? [] : shapesOf(c);
  const sound = c.restrictedVisibility && !freed("sound") ? soundDue(c) : null;
  const deckLights = deckLightsOf(c);
  const choices = choicesOf(c, lights.length > 0);
  return {
    lights,
    shapes,
    sound,
    deckLights,
    choices,
    exemptions,
    also: c.localRule?.also ?? [],
    rules: rulesOf(c, { lights, shapes, sound, deckLights, exemptions }),
    cautions: cautionsOf(c),
  };
}

const isNight = (c: CheckedSignals): boolean => c.period !== "day";

function lightsOf(c: CheckedSignals, noRed: boolean): LightDue[] {
  if (!isNight(c) && !c.restrictedVisibility) return [];
  const ruled = c.localRule?.lights ?? [
    ...whiteLights(c),
    ...(c.situation === "aground" && !noRed ? [agroundLights(c)] : []),
  ];
  return isNight(c)
    ? ruled
    : ruled.map((l) => ({
        ...l,
        obligation: l.obligation === "owed" ? "ifCarried" : l.obligation,
      }));
}

function shapesOf(c: CheckedSignals): ShapeDue[] {
  if (c.period === "night" && c.localRule?.shapesAtAllTimes !== true) return [];
  return (
    c.localRule?.shapes ?? (c.situation === "aground" ? [agroundShapes(c)] : [anchorShapes(c)])
  );
}

function exemptionsOf(c: CheckedSignals): Exemption[] {
  if (c.localRule?.noRelief === true) return [];
  const out: Exemption[] = [];
  const special = c.regime === "usInland" && c.specialAnchorage && c.situation === "anchored";
  if (c.situation === "anchored" && c.lengthM < LENGTH.smallestM && !c.nearTraffic)
    out.push({
      from: ["lights", "shapes"],
      rule: named(c, "30(e)"),
      why: "under 7 m and away from channels, fairways, anchorages and where other vessels normally navigate",
    });
  if (special && c.lengthM < LENGTH.bellM)
    out.push({
      from: ["lights", "shapes"],
      rule: "33 CFR 83.30(g)",
      why: "under 20 m in a special anchorage area",
    });
  if (special && c.restrictedVisibility && (c.lengthM < LENGTH.bellM || c.nondescriptCraft))
    out.push({
      from: ["sound"],
      rule: c.lengthM < LENGTH.bellM ? "33 CFR 83.35(l)(i)" : "33 CFR 83.35(l)(ii)",
      why: "under 20 m, or a barge or other nondescript craft, in a special anchorage area",
    });
  if (c.situation === "aground" && c.lengthM < LENGTH.smallM)
    out.push({
      from: ["redLights", "shapes"],
      rule: named(c, "30(f)"),
      why: "under 12 m aground: neither the red lights nor the balls",
    });
  return out;
}

/** Working lights on deck: Rule 30(c) speaks of vessels at anchor only. */
function deckLightsOf(c: CheckedSignals): SignalsDue["deckLights"] {
  const dark = isNight(c) || c.restrictedVisibility;
  if (c.situation === "aground" || !dark) return { obligation: "notAsked", rule: null };
  return {
    obligation: c.lengthM >= LENGTH.gongM ? "owed" : "may",
    rule: named(c, "30(c)"),
  };
}

function choicesOf(c: CheckedSignals, lit: boolean): Choice[] {
  const out: Choice[] = [];
  // What may stand for the lights of the rules does not stand for those of a local one.
  const ruled = lit && !c.localRule?.lights;
  if (ruled && c.lengthM < LENGTH.twoLightsM)
    out.push({
      code: "anchorLightPair",
      text: `two white all-round lights, one in the fore part and one at or near the stern at least ${HEIGHT.foreAboveAfterM} m lower (Annex I 2), instead of the single one`,
      rule: named(c, "30(a)"),
    });
  if (ruled)
    out.push({
      code: "twoScreenedLights",
      text: `two all-round lights, placed or screened to appear as one at ${toNauticalMiles(ALL_ROUND.twoAsOneM)} nautical mile, instead of one that spars hide`,
      rule: named(c, "Annex I 9(b)"),
    });
  if (!lit && !isNight(c))
    out.push({
      code: "lightsByDay",
      text: "the lights, whenever it is thought necessary",
      rule: named(c, "20(c)"),
    });
  if (!lit && isNight(c))
    out.push({
      code: "lightsAnyway",
      text: "the anchor light all the same: relief is not a ban",
      rule: named(c, "30(b)"),
    });
  return out;
}

function rulesOf(
  c: CheckedSignals,
  due: Pick<SignalsDue, "lights" | "shapes" | "sound" | "deckLights" | "exemptions">,
): string[] {
  const used: string[] = [];
  if (due.lights.length > 0) {
    used.push(named(c, isNight(c) ? "20(b)" : "20(c)"));
    used.push(named(c, rangeRule(c.lengthM)));
  }
  if (due.shapes.length > 0) used.push(named(c, "20(d)"));
  used.push(...due.lights.map((l) => l.rule), ...due.shapes.map((s) => s.rule));
  if (due.deckLights.rule !== null) used.push(due.deckLights.rule);
  if (due.lights.some((l) => l.heights.length > 0 || l.count > 1)) used.push(named(c, "Annex I 2"));
  if (due.shapes.length > 0) used.push(named(c, "Annex I 6"));
  if (due.sound !== null) used.push(due.sound.rule);
  used.push(...due.exemptions.map((e) => e.rule));
  if (c.situation === "aground" && c.lengthM < LENGTH.smallM)
    used.push(named(c, isNight(c) ? "30(d)(i)" : "30(d)(ii)"));
  if (c.localRule) used.push(c.localRule.rule);
  return [...new Set(used)];
}

const rangeRule = (lengthM: number): string =>
  lengthM >= LENGTH.twoLightsM ? "22(a)" : lengthM >= LENGTH.smallM ? "22(b)" : "22(c)";

function cautionsOf(c: CheckedSignals): string[] {
  const out: string[] = [];
  if (c.situation === "aground") {
    out.push(
      "30(d) adds to the lights of 30(a) and (b): no anchor ball aground (a reading of the text)",
    );
    if (c.lengthM < LENGTH.smallestM && !c.nearTraffic)
      out.push("30(e) speaks of vessels at anchor: no relief aground (a reading of the text)");
  }
  if (c.specialAnchorage && c.regime === "colregs")
    out.push("the international rules know no special anchorage areas: no relief taken");
  if (
    c.specialAnchorage &&
    c.regime === "usInland" &&
    c.lengthM >= SIXTY_FIVE_FEET_M &&
    c.lengthM < LENGTH.bellM
  )
    out.push("33 CFR 109.10 still says 65 ft, Rule 30(g) 20 m: the rule is taken");
  if (c.localRule)
    out.push(`${c.localRule.rule} as given by the caller, not checked against its text`);
  return out;
}

/** Limit of special anchorage areas in 33 CFR 109.10. */
const SIXTY_FIVE_FEET_M = 65 * 0.3048;
