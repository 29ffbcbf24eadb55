import { describe, expect, test } from "vitest";
import { readInput } from "../../src/cli/readInput.js";
import { planeAt, positionOf } from "../../src/geo/plane.js";
import { briefText, planStay, type StayInput } from "../../src/plan/index.js";

// Without chart the bottom is the same wherever she lets go, so that only the place differs.
const whole = readInput("shared/scenarios/gannick-bay.json") as StayInput;
const { chart, ...demo } = whole;
const adviceOf = (stay: StayInput) => planStay(stay).advice.find((a) => a.code === "lie.clear");

const leastFrom = (byM: number, towardsDeg: number): number => {
  const [east, north] = [Math.sin, Math.cos].map((f) => byM * f((towardsDeg * Math.PI) / 180));
  const position = positionOf(planeAt(demo.position), east!, north!);
  const { neighbours } = planStay({ ...demo, position }).room;
  return Math.min(...neighbours!.map((n) => n.leastGapM!));
};

describe("how far off to let go", () => {
  const advice = adviceOf(demo)!;
  const byM = advice.value as number;
  const wantedM = whole.limits?.roomM ?? 5;

  test("a plan of that place has the room that is promised", () => {
    expect(advice.buys!.from).toBe(0);
    expect(advice.buys!.to).toBeGreaterThanOrEqual(wantedM);
    expect(leastFrom(byM, advice.towardsDeg!)).toBeCloseTo(advice.buys!.to!, 2);
  });

  test("no shorter way in any of sixteen directions has it", () => {
    for (let k = 0; k < 16; k++) expect(leastFrom(byM - 1, 22.5 * k)).toBeLessThan(wantedM);
  });

  test("is told in the brief, before what helps if she stays", () => {
    const text = briefText(planStay({ ...demo, chart }));
    expect(text).toMatch(/Or let go \d+ m off to \d{3}°/);
    expect(text.indexOf("Or let go")).toBeLessThan(text.indexOf("If she lies here all the same"));
  });

  test("is not given where there is room, nobody is told of, or a neighbour cannot be judged", () => {
    const { neighbours, ...alone } = demo;
    expect(adviceOf(alone)).toBeUndefined();
    const far = positionOf(planeAt(demo.position), 0, 900);
    expect(
      adviceOf({ ...demo, neighbours: [{ ...neighbours![0]!, position: far }] }),
    ).toBeUndefined();
    const { chartedDepthM, ...unsounded } = demo;
    expect(chartedDepthM).toBeGreaterThan(0);
    expect(planStay(unsounded).room.neighbours![0]!.leastGapM).toBeNull();
    expect(adviceOf(unsounded)).toBeUndefined();
  });
});
