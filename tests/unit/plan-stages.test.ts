import { describe, expect, test } from "vitest";
import { checklist, planStay, stages } from "../../src/plan/index.js";
import { demo } from "../scenario.js";

const plan = planStay(demo());

describe("stages of a stay", () => {
  test("every stage has steps, each with a reason, ids unique within it, no hole in the text", () => {
    for (const { id } of stages)
      for (const steps of [checklist(id), checklist(id, plan)]) {
        expect(steps.length).toBeGreaterThan(2);
        expect(new Set(steps.map((s) => s.id)).size).toBe(steps.length);
        for (const s of steps) {
          expect(s.text).not.toMatch(/[{}|]|undefined|null|NaN/);
          expect(s.why.length).toBeGreaterThan(10);
        }
        expect(JSON.parse(JSON.stringify(steps))).toEqual(steps);
      }
  });

  test("figures in the text are those of the plan", () => {
    const byId = (stage: Parameters<typeof checklist>[0], id: string) =>
      checklist(stage, plan).find((s) => s.id === id)!;
    const first = byId("laying", "firstLength");
    expect(first.figures).toEqual({ firstLengthM: plan.rode.firstLengthM });
    expect(first.text).toContain(`${plan.rode.firstLengthM!.toFixed(1)} m`);
    expect(byId("lying", "setLimits").figures!["callDistanceM"]).toBe(
      plan.limits!.greatest.distanceM,
    );
    expect(byId("laying", "allOut").figures!["lengthOutM"]).toBe(plan.rode.lengthOutM);
    expect(byId("watch", "leaveBy").figures!["dangerMs"]).toBe(plan.danger.atMs);
    // The clock aboard is an hour ahead.
    const hour = new Date(plan.danger.atMs! + 3_600_000 + 30_000).toISOString().slice(11, 16);
    expect(byId("watch", "leaveBy").text).toContain(hour);
  });

  test("steps stay the same, with a plan or without", () => {
    for (const { id } of stages)
      expect(checklist(id, plan).map((s) => s.id)).toEqual(checklist(id).map((s) => s.id));
  });

  test("what a plan does not know is said in words, not as a figure", () => {
    const input = demo();
    delete input.tide;
    const blind = planStay(input);
    const first = checklist("laying", blind).find((s) => s.id === "firstLength")!;
    expect(first.figures).toBeUndefined();
    expect(first.text).toContain("as much as the depth");
  });

  test("a stage that is none is refused", () => {
    expect(() => checklist("tea" as never)).toThrow(/expected one of/);
  });
});
