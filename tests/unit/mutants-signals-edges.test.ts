import { describe, expect, test } from "vitest";
import { signalsDue, type SignalsDueInput } from "../../src/signals/index.js";

const due = (over: Partial<SignalsDueInput>) =>
  signalsDue({
    lengthM: 12,
    situation: "anchored",
    period: "night",
    nearTraffic: true,
    restrictedVisibility: false,
    ...over,
  });

const LOCAL = "as given by the caller, not checked against its text";

describe("a local rule", () => {
  test("that nobody gave adds nothing and asks for no caution", () => {
    const { also, cautions } = due({});
    expect(also).toEqual([]);
    expect(cautions).toEqual([]);
  });

  test("that asks for nothing more is still named as unchecked", () => {
    const { also, cautions } = due({ localRule: { rule: "harbour bye-law 4" } });
    expect(also).toEqual([]);
    expect(cautions).toContain(`harbour bye-law 4 ${LOCAL}`);
  });
});

describe("a special anchorage area, 33 CFR 83.30(g), 83.35(l) and 109.10", () => {
  const special = { regime: "usInland", specialAnchorage: true } as const;

  test("the caution about 65 feet begins at 65 feet", () => {
    const at = (lengthM: number) =>
      due({ ...special, lengthM }).cautions.some((c) => c.includes("65 ft"));
    expect([65 * 0.3048 - 1e-9, 65 * 0.3048, 20].map(at)).toEqual([false, true, false]);
  });

  test("a barge of 20 m is let off her sound by the second half of the paragraph, a smaller one by the first", () => {
    const rules = (lengthM: number) =>
      due({ ...special, lengthM, restrictedVisibility: true, nondescriptCraft: true })
        .exemptions.filter((e) => e.from.includes("sound"))
        .map((e) => e.rule);
    expect(rules(19.99)).toEqual(["33 CFR 83.35(l)(i)"]);
    expect(rules(20)).toEqual(["33 CFR 83.35(l)(ii)"]);
    expect(rules(40)).toEqual(["33 CFR 83.35(l)(ii)"]);
  });
});
