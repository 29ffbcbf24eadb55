import { describe, expect, test } from "vitest";
import { signalsDue } from "../../src/signals/index.js";

// Rules 20, 22, 30, 35 and Annex I once more, paragraph by paragraph, over every mixture of circumstances: which
// paragraphs apply to a vessel of a length, told from the text (COLREGS 1972 as amended; 33 CFR 83).

const LENGTHS = [5, 6.99, 7, 11.99, 12, 19.8, 19.82, 19.99, 20, 49.99, 50, 99.99, 100, 200];
const bools = [false, true];

interface Case {
  lengthM: number;
  situation: "anchored" | "aground";
  period: "day" | "night" | "twilight";
  restrictedVisibility: boolean;
  nearTraffic: boolean;
  regime: "colregs" | "usInland";
  specialAnchorage: boolean;
}

const cases: Case[] = LENGTHS.flatMap((lengthM) =>
  (["anchored", "aground"] as const).flatMap((situation) =>
    (["day", "night", "twilight"] as const).flatMap((period) =>
      (["colregs", "usInland"] as const).flatMap((regime) =>
        bools.flatMap((restrictedVisibility) =>
          bools.flatMap((nearTraffic) =>
            bools.map((specialAnchorage) => ({
              lengthM,
              situation,
              period,
              restrictedVisibility,
              nearTraffic,
              regime,
              specialAnchorage,
            })),
          ),
        ),
      ),
    ),
  ),
);

const paragraph = (c: Case, p: string) => (c.regime === "usInland" ? `Inland ${p}` : p);

/** Rule 30(e) and, inland, 30(g): neither lights nor shapes. */
const relieved = (c: Case): boolean =>
  c.situation === "anchored" &&
  ((c.lengthM < 7 && !c.nearTraffic) ||
    (c.regime === "usInland" && c.specialAnchorage && c.lengthM < 20));

describe.each(LENGTHS.map((l) => [l]))("a vessel of %s m", (lengthM) => {
  const own = cases.filter((c) => c.lengthM === lengthM);

  test("lights and shapes, and the paragraphs they rest on", () => {
    for (const c of own) {
      const due = signalsDue(c);
      const what = JSON.stringify(c);
      const dark = c.period !== "day";
      const lit = (dark || c.restrictedVisibility) && !relieved(c);
      expect(due.lights.length > 0, what).toBe(lit);
      const shaped =
        c.period !== "night" && !relieved(c) && !(c.situation === "aground" && lengthM < 12);
      expect(
        due.shapes.some((s) => s.count > 0),
        what,
      ).toBe(shaped || due.shapes.length > 0);
      const has = (p: string) => due.rules.includes(paragraph(c, p));
      expect(has("20(b)"), what).toBe(lit && dark);
      expect(has("20(c)"), what).toBe(lit && !dark);
      expect(has("20(d)"), what).toBe(shaped);
      expect(has("Annex I 6"), what).toBe(shaped);
      expect(has("22(a)"), what).toBe(lit && lengthM >= 50);
      expect(has("22(b)"), what).toBe(lit && lengthM < 50 && lengthM >= 12);
      expect(has("22(c)"), what).toBe(lit && lengthM < 12);
      expect(has("Annex I 2"), what).toBe(
        due.lights.some((l) => l.heights.length > 0 || l.count > 1),
      );
      expect(has("30(e)"), what).toBe(c.situation === "anchored" && lengthM < 7 && !c.nearTraffic);
      expect(has("30(f)"), what).toBe(c.situation === "aground" && lengthM < 12);
      // Under 12 m aground the paragraph that is not obeyed in full is named all the same.
      if (c.situation === "aground" && lengthM < 12)
        expect(has(dark ? "30(d)(i)" : "30(d)(ii)"), what).toBe(true);
      if (c.situation === "anchored") expect(due.rules.join(), what).not.toContain("30(d)");
      expect(new Set(due.rules).size, what).toBe(due.rules.length);
    }
  });

  test("deck lights, choices and cautions", () => {
    for (const c of own) {
      const due = signalsDue(c);
      const what = JSON.stringify(c);
      const dark = c.period !== "day";
      const lit = due.lights.length > 0;
      const working = c.situation === "anchored" && (dark || c.restrictedVisibility);
      expect(due.deckLights, what).toEqual({
        obligation: !working ? "notAsked" : lengthM >= 100 ? "owed" : "may",
        rule: working ? paragraph(c, "30(c)") : null,
      });
      expect(
        due.choices.map((x) => x.code),
        what,
      ).toEqual([
        ...(lit && lengthM < 50 ? ["anchorLightPair"] : []),
        ...(lit ? ["twoScreenedLights"] : []),
        ...(!lit && !dark ? ["lightsByDay"] : []),
        ...(!lit && dark ? ["lightsAnyway"] : []),
      ]);
      const says = (words: string) => due.cautions.some((t) => t.includes(words));
      expect(says("no anchor ball aground"), what).toBe(c.situation === "aground");
      expect(says("no relief aground"), what).toBe(
        c.situation === "aground" && lengthM < 7 && !c.nearTraffic,
      );
      expect(says("know no special anchorage"), what).toBe(
        c.specialAnchorage && c.regime === "colregs",
      );
      expect(says("65 ft"), what).toBe(
        c.specialAnchorage && c.regime === "usInland" && lengthM >= 19.812 && lengthM < 20,
      );
      expect(says("as given by the caller"), what).toBe(false);
    }
  });

  test("sound, and who is free of it", () => {
    for (const c of own) {
      const free =
        c.situation === "anchored" && c.regime === "usInland" && c.specialAnchorage && lengthM < 20;
      expect(signalsDue(c).sound !== null, JSON.stringify(c)).toBe(c.restrictedVisibility && !free);
    }
  });
});
